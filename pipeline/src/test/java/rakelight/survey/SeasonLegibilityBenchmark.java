package rakelight.survey;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.reading.LineLattice;
import rakelight.reading.MachineReader;
import rakelight.relief.LegibilityChange;
import rakelight.relief.Registration;
import rakelight.samples.WornSeasons;

/**
 * How far the change of legibility between two seasons follows the loss that was rendered, and how
 * often a line is called worn where only the light changed: by how far letters stand out and how
 * many a machine tells, and by the first alone. {@code -Dseasons.seeds} parted by commas, {@code
 * -Dseasons.folder} keeps the pictures; {@code -Dseasons.worn}, {@code -Dseasons.kept}.
 */
class SeasonLegibilityBenchmark {
  /**
   * A line.
   *
   * @param loss of its relief, 0 to 1
   */
  private record Measured(double loss, LegibilityChange contrast, LegibilityChange both) {}

  @Test
  void changeAgainstLoss() throws Exception {
    List<Measured> lines = new ArrayList<>();
    int unlaid = 0;
    try (MachineReader reader = MachineReader.standard()) {
      for (String seed : System.getProperty("seasons.seeds", "100,4000,5000").split(",", -1)) {
        Path folder =
            Path.of(System.getProperty("seasons.folder", "target")).resolve("worn-" + seed);
        if (!Files.exists(folder)) {
          new WornSeasons(
                  Integer.getInteger("seasons.worn", 10),
                  Integer.getInteger("seasons.kept", 10),
                  Long.parseLong(seed),
                  1000)
              .writeTo(folder);
        }
        Map<String, List<String[]>> markers = new LinkedHashMap<>();
        Files.readAllLines(folder.resolve("losses.tsv")).stream()
            .skip(1)
            .map(row -> row.split("\t"))
            .forEach(row -> markers.computeIfAbsent(row[0], one -> new ArrayList<>()).add(row));
        for (Map.Entry<String, List<String[]>> marker : markers.entrySet()) {
          List<Measured> measured = measured(folder, marker.getKey(), marker.getValue(), reader);
          unlaid += measured.isEmpty() ? 1 : 0;
          lines.addAll(measured);
        }
      }
    }
    System.out.printf(Locale.ROOT, "%d markers that can't be laid over%n", unlaid);
    print("contrast and letters", lines, Measured::both);
    print("contrast alone", lines, Measured::contrast);
  }

  private static List<Measured> measured(
      Path folder, String marker, List<String[]> rows, MachineReader reader) throws Exception {
    GrayImage first = read(folder.resolve("first/" + marker + ".jpg"));
    GrayImage second = read(folder.resolve("second/" + marker + ".jpg"));
    Optional<Homography> move = Registration.of(first, second);
    if (move.isEmpty()) {
      return List.of();
    }
    List<LaidLine> before = rows.stream().map(row -> LaidLine.own(line(row[3]))).toList();
    List<LaidLine> after = before.stream().map(line -> line.then(move.get())).toList();
    List<LineLattice> one = reader.readLines(first, before);
    List<LineLattice> other = reader.readLines(second, after);
    List<Measured> measured = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      LegibilityChange contrast = LegibilityChange.of(first, second, before.get(i), move.get());
      LettersTold told =
          LettersTold.byMachine(one.get(i).lettersSeen(), other.get(i).lettersSeen());
      measured.add(
          new Measured(
              Double.parseDouble(rows.get(i)[2]),
              contrast,
              contrast.and(told.change(), told.uncertainty())));
    }
    return measured;
  }

  private static void print(
      String by, List<Measured> lines, Function<Measured, LegibilityChange> how) {
    List<Measured> kept = lines.stream().filter(line -> line.loss() == 0).toList();
    List<Measured> worn = lines.stream().filter(line -> line.loss() > 0).toList();
    List<Measured> third = worn.stream().filter(line -> line.loss() >= 0.33).toList();
    System.out.printf(
        Locale.ROOT,
        "%s: rank correlation with the loss %.3f of %d worn, %.3f of all; called worn: %d of %d"
            + " kept, %d of %d that lost a third or more; change where only the light changed:"
            + " %.3f%n",
        by,
        -spearman(worn, how),
        worn.size(),
        -spearman(lines, how),
        called(kept, how),
        kept.size(),
        called(third, how),
        third.size(),
        Math.sqrt(
            kept.stream()
                .mapToDouble(line -> how.apply(line).change() * how.apply(line).change())
                .average()
                .orElse(0)));
  }

  private static long called(List<Measured> lines, Function<Measured, LegibilityChange> how) {
    return lines.stream().filter(line -> how.apply(line).isWorn()).count();
  }

  private static GrayImage read(Path file) throws Exception {
    return Picture.upright(Files.readAllBytes(file), 1);
  }

  private static FoundLine line(String outline) {
    List<Point> points = new ArrayList<>();
    for (String corner : outline.split(" ")) {
      String[] xy = corner.split(",");
      points.add(new Point(Double.parseDouble(xy[0]), Double.parseDouble(xy[1])));
    }
    FoundLine line = new FoundLine(new Polygon(points), 1, 1);
    double height = 0;
    for (int i = 0; i < line.top().size(); i++) {
      height += line.top().get(i).distance(line.foot().get(i)) / line.top().size();
    }
    return new FoundLine(new Polygon(points), height, 1);
  }

  private static double spearman(List<Measured> lines, Function<Measured, LegibilityChange> how) {
    double[] a = ranks(lines.stream().mapToDouble(Measured::loss).toArray());
    double[] b = ranks(lines.stream().mapToDouble(line -> how.apply(line).change()).toArray());
    double mean = (a.length - 1) / 2.0;
    double ab = 0;
    double aa = 0;
    double bb = 0;
    for (int i = 0; i < a.length; i++) {
      ab += (a[i] - mean) * (b[i] - mean);
      aa += (a[i] - mean) * (a[i] - mean);
      bb += (b[i] - mean) * (b[i] - mean);
    }
    return ab / Math.sqrt(aa * bb);
  }

  /** Equal values share their mean rank. */
  private static double[] ranks(double[] values) {
    return IntStream.range(0, values.length)
        .mapToDouble(
            i -> {
              double rank = 0;
              for (int j = 0; j < values.length; j++) {
                rank += values[j] < values[i] ? 1 : values[j] == values[i] && j != i ? 0.5 : 0;
              }
              return rank;
            })
        .toArray();
  }
}
