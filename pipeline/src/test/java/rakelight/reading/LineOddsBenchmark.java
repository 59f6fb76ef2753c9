package rakelight.reading;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import rakelight.archive.Json;
import rakelight.measure.Calibration;
import rakelight.measure.Truth;
import rakelight.measure.TruthLine;
import rakelight.picture.Picture;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * Fits {@link LineOdds} on folders of rendered stones ({@code odds.fit}, paths joined by commas)
 * and says how far the odds that the program has are true on others ({@code odds.check}). What a
 * folder reads is kept beside it, so that a second run takes seconds. Not run with the tests; see
 * docs/measurements.md.
 */
@EnabledIfSystemProperty(named = "odds.check", matches = ".+")
class LineOddsBenchmark {
  private static final double RIDGE = 0.3;
  private static final int ROUNDS = 60;

  /** A place is on a line if so much of its middle lies within the letters' band. */
  private static final double ON_A_LINE = 0.5;

  private static final int POINTS = 40;

  /** A place, and whether a line of letters was cut there, however little of it is left. */
  private record JudgedPlace(LineOdds.Clues clues, boolean line) {}

  @Test
  void fittedAndChecked() throws Exception {
    Optional<String> fitted = Optional.ofNullable(System.getProperty("odds.fit"));
    try (MachineReader reader = MachineReader.standard()) {
      if (fitted.isPresent()) {
        List<JudgedPlace> fit = judged(reader, fitted.get());
        double[] weights = fit(fit);
        System.out.println(
            "surplus, height, beyond, rows, spacing, constant: "
                + Arrays.stream(weights)
                    .mapToObj(w -> String.format(Locale.ROOT, "%.2f", w))
                    .toList());
        say("fitted on, as in the program", fit);
      }
      say("checked on", judged(reader, System.getProperty("odds.check", "")));
    }
  }

  private static List<JudgedPlace> judged(MachineReader reader, String folders) throws Exception {
    List<JudgedPlace> judged = new ArrayList<>();
    for (String folder : folders.split(",")) {
      Path path = Path.of("").toAbsolutePath().resolveSibling(folder);
      List<TruthLine> truth = Truth.read(path.resolve("truth.tsv"));
      for (String row : readings(reader, path)) {
        String[] cells = row.split("\t", 2);
        ReadPicture read = Json.read(cells[1], ReadPicture.class);
        List<Polygon> bands =
            truth.stream()
                .filter(line -> line.file().equals(cells[0]))
                .flatMap(line -> line.box().stream())
                .toList();
        List<LineOdds.Level> known = read.lines().stream().map(line -> level(read, line)).toList();
        for (ReadLine place : read.passedOver()) {
          judged.add(
              new JudgedPlace(
                  LineOdds.clues(level(read, place), place.lattice(), known),
                  bands.stream().anyMatch(band -> share(place, band) >= ON_A_LINE)));
        }
      }
    }
    return judged;
  }

  private static LineOdds.Level level(ReadPicture read, ReadLine line) {
    return new LineOdds.Level(line.line().ribbon().map(read::level), line.line().heightPx());
  }

  private static List<String> readings(MachineReader reader, Path folder) throws Exception {
    Path kept = folder.resolve("readings.tsv");
    if (!Files.exists(kept)) {
      List<Path> pictures;
      try (Stream<Path> files = Files.list(folder)) {
        pictures = files.filter(file -> file.toString().endsWith(".jpg")).sorted().toList();
      }
      try (PrintWriter out = new PrintWriter(Files.newBufferedWriter(kept))) {
        for (Path file : pictures) {
          ReadPicture read = reader.read(Picture.upright(Files.readAllBytes(file), 1));
          out.println(file.getFileName() + "\t" + Json.text(read));
        }
      }
    }
    return lines(kept);
  }

  private static List<String> lines(Path file) throws IOException {
    return Files.readAllLines(file);
  }

  /** How much of a place's middle lies within a band. */
  private static double share(ReadLine place, Polygon band) {
    List<Point> middle = place.line().middle();
    double step = place.line().lengthPx() / POINTS;
    int inside = 0;
    double walked = 0;
    int next = 0;
    for (int i = 1; i < middle.size(); i++) {
      double length = middle.get(i - 1).distance(middle.get(i));
      while (next < POINTS && (next + 0.5) * step <= walked + length) {
        double part = ((next + 0.5) * step - walked) / Math.max(1e-9, length);
        inside += band.contains(middle.get(i - 1).towards(middle.get(i), part)) ? 1 : 0;
        next++;
      }
      walked += length;
    }
    return (double) inside / POINTS;
  }

  private static void say(String what, List<JudgedPlace> places) {
    long lines = places.stream().filter(JudgedPlace::line).count();
    double share = (double) lines / places.size();
    Calibration calibration = new Calibration(10);
    double bits = 0;
    double bitsOfShare = 0;
    for (JudgedPlace place : places) {
      double p = LineOdds.p(place.clues());
      calibration.add(p, place.line());
      bits -= Math.log(place.line() ? p : 1 - p) / Math.log(2) / places.size();
      bitsOfShare -= Math.log(place.line() ? share : 1 - share) / Math.log(2) / places.size();
    }
    System.out.printf(
        Locale.ROOT,
        "%s: %d places, %d of them lines; area under the curve %.3f, calibration error %.3f, bits a"
            + " place %.3f, of the share alone %.3f%n",
        what,
        places.size(),
        lines,
        areaUnderCurve(places),
        calibration.expectedError(),
        bits,
        bitsOfShare);
    for (double cut : new double[] {0, .1, .2, .3, .4, .5, .7}) {
      List<JudgedPlace> above = places.stream().filter(p -> LineOdds.p(p.clues()) >= cut).toList();
      System.out.printf(
          Locale.ROOT,
          "  from %.1f: %d, %d of them lines, %.1f expected%n",
          cut,
          above.size(),
          above.stream().filter(JudgedPlace::line).count(),
          above.stream().mapToDouble(p -> LineOdds.p(p.clues())).sum());
    }
  }

  private static double areaUnderCurve(List<JudgedPlace> places) {
    double right = 0;
    long pairs = 0;
    for (JudgedPlace a : places) {
      for (JudgedPlace b : places) {
        if (a.line() && !b.line()) {
          pairs++;
          int order = Double.compare(LineOdds.p(a.clues()), LineOdds.p(b.clues()));
          right += order > 0 ? 1 : order == 0 ? 0.5 : 0;
        }
      }
    }
    return right / Math.max(1, pairs);
  }

  /** Logistic regression with a ridge on all but the constant, by Newton's steps. */
  private static double[] fit(List<JudgedPlace> places) {
    int n = LineOdds.weights().length;
    double[] w = new double[n];
    for (int round = 0; round < ROUNDS; round++) {
      double[][] system = new double[n][n + 1];
      for (int i = 0; i < n; i++) {
        double ridge = i < n - 1 ? RIDGE : 1e-3;
        system[i][i] = ridge;
        system[i][n] = ridge * w[i];
      }
      for (JudgedPlace place : places) {
        double[] x = place.clues().values();
        double sum = 0;
        for (int i = 0; i < n; i++) {
          sum += w[i] * x[i];
        }
        double p = 1 / (1 + Math.exp(-sum));
        for (int i = 0; i < n; i++) {
          for (int j = 0; j < n; j++) {
            system[i][j] += x[i] * x[j] * p * (1 - p);
          }
          system[i][n] += x[i] * (p - (place.line() ? 1 : 0));
        }
      }
      double[] step = solved(system);
      for (int i = 0; i < n; i++) {
        w[i] -= step[i];
      }
    }
    return w;
  }

  /** Gauss's elimination; the last column is the right side. */
  private static double[] solved(double[][] a) {
    int n = a.length;
    for (int i = 0; i < n; i++) {
      int most = i;
      for (int r = i + 1; r < n; r++) {
        most = Math.abs(a[r][i]) > Math.abs(a[most][i]) ? r : most;
      }
      double[] swap = a[i];
      a[i] = a[most];
      a[most] = swap;
      for (int r = 0; r < n; r++) {
        if (r != i) {
          double factor = a[r][i] / a[i][i];
          for (int c = i; c <= n; c++) {
            a[r][c] -= factor * a[i][c];
          }
        }
      }
    }
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = a[i][n] / a[i][i];
    }
    return x;
  }
}
