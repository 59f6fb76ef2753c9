package rakelight.relief;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.samples.WornSeasons;

/**
 * How far the change of legibility between two seasons follows the loss that was rendered, and how
 * often a line is called worn where only the light changed. {@code -Dseasons.folder} keeps the
 * pictures; {@code -Dseasons.seed}, {@code -Dseasons.worn}, {@code -Dseasons.kept}.
 */
class SeasonLegibilityBenchmark {
  @Test
  void changeAgainstLoss() throws Exception {
    long seed = Long.getLong("seasons.seed", 1);
    Path folder = Path.of(System.getProperty("seasons.folder", "target")).resolve("worn-" + seed);
    if (!Files.exists(folder)) {
      new WornSeasons(
              Integer.getInteger("seasons.worn", 10),
              Integer.getInteger("seasons.kept", 10),
              seed,
              1000)
          .writeTo(folder);
    }
    List<String> rows = Files.readAllLines(folder.resolve("losses.tsv"));
    List<double[]> lines = new ArrayList<>();
    String marker = "";
    GrayImage first = new GrayImage(1, 1, new byte[1]);
    GrayImage second = first;
    Optional<Homography> move = Optional.empty();
    int unlaid = 0;
    for (String row : rows.subList(1, rows.size())) {
      String[] cells = row.split("\t");
      if (!cells[0].equals(marker)) {
        marker = cells[0];
        first = read(folder.resolve("first/" + marker + ".jpg"));
        second = read(folder.resolve("second/" + marker + ".jpg"));
        move = Registration.of(first, second);
        unlaid += move.isEmpty() ? 1 : 0;
      }
      if (move.isEmpty()) {
        continue;
      }
      LaidLine line = LaidLine.own(line(cells[3]));
      LegibilityChange change = LegibilityChange.of(first, second, line, move.get());
      lines.add(
          new double[] {
            Double.parseDouble(cells[2]),
            change.change(),
            change.uncertainty(),
            change.isWorn() ? 1 : 0
          });
      if (Boolean.getBoolean("seasons.all")) {
        System.out.printf(Locale.ROOT, "%s %s loss %s %s%n", marker, cells[1], cells[2], change);
      }
    }
    List<double[]> kept = lines.stream().filter(line -> line[0] == 0).toList();
    List<double[]> worn = lines.stream().filter(line -> line[0] > 0).toList();
    System.out.printf(
        Locale.ROOT,
        "%d lines worn, %d kept, %d markers that can't be laid over: rank correlation with the loss"
            + " %.2f of the worn, %.2f of all; called worn: %d of %d kept, %d of %d that lost a third"
            + " or more; change where only the light changed: %.3f +- %.3f%n",
        worn.size(),
        kept.size(),
        unlaid,
        -spearman(worn),
        -spearman(lines),
        count(kept, 0),
        kept.size(),
        count(worn, 0.33),
        worn.stream().filter(line -> line[0] >= 0.33).count(),
        kept.stream().mapToDouble(line -> line[1]).average().orElse(0),
        Math.sqrt(kept.stream().mapToDouble(line -> line[1] * line[1]).average().orElse(0)));
  }

  private static long count(List<double[]> lines, double least) {
    return lines.stream().filter(line -> line[0] >= least && line[3] > 0).count();
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

  private static double spearman(List<double[]> lines) {
    double[] a = ranks(lines.stream().mapToDouble(line -> line[0]).toArray());
    double[] b = ranks(lines.stream().mapToDouble(line -> line[1]).toArray());
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
