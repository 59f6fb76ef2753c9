package rakelight.reading;

import java.awt.geom.Point2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.relief.LightDirection;
import rakelight.relief.RakingSet;
import rakelight.relief.SquaredFace;
import rakelight.samples.Lamp;
import rakelight.samples.Material;
import rakelight.samples.RenderedPhotograph;
import rakelight.samples.Renderer;
import rakelight.samples.SampleFace;
import rakelight.samples.StoneMaker;
import rakelight.samples.StoneStanding;
import rakelight.samples.Typeface;
import rakelight.samples.View;
import rakelight.samples.Weathering;

/**
 * Letter error of heavily worn rendered stones, read from raking sets where the lines are known:
 * each light by itself, the surest light of each line, and with the relief images. Case-blind,
 * letters that are still there. Not run with the tests; see docs/measurements.md.
 */
class RakingReadingBenchmark {
  private static final int SETS = Integer.getInteger("rakelight.sets", 6);
  private static final int LIGHTS = Integer.getInteger("rakelight.lights", 5);
  private static final int WIDTH_PX = 900;

  /** Errors and letters. */
  private static final class Count {
    int wrong;
    int letters;

    void add(LineLattice lattice, String truth) {
      wrong += distance(letters(lattice.best()), truth);
      letters += truth.length();
    }

    double rate() {
      return letters == 0 ? 0 : (double) wrong / letters;
    }
  }

  @Test
  void wornLettersFromRakingSets() throws PictureException {
    Map<String, Count> counts = new LinkedHashMap<>();
    try (MachineReader reader = MachineReader.standard()) {
      for (int i = 0; i < SETS; i++) {
        set(reader, i, counts);
      }
    }
    counts.forEach(
        (way, count) ->
            System.out.printf(
                Locale.ROOT, "| %s | %d | %.3f |%n", way, count.letters, count.rate()));
  }

  private static void set(MachineReader reader, int i, Map<String, Count> counts)
      throws PictureException {
    SampleFace face =
        StoneMaker.random(
            700 + i,
            Material.values()[i % Material.values().length],
            i % 2 == 0 ? Weathering.HEAVY : Weathering.RUINOUS,
            Typeface.values()[i % Typeface.values().length]);
    SplittableRandom random = new SplittableRandom(i);
    View first = StoneMaker.view(face, WIDTH_PX, i);
    List<View> views = new ArrayList<>();
    for (int k = 0; k < LIGHTS; k++) {
      views.add(
          first.with(
              Lamp.raking(
                  face,
                  -82 + 164.0 * k / (LIGHTS - 1) + random.nextDouble(-4, 4),
                  random.nextDouble(9, 18)),
              40L * k));
    }
    List<RenderedPhotograph> photographs = Renderer.render(face, views, face.seed());
    List<GrayImage> pictures = new ArrayList<>();
    for (RenderedPhotograph photograph : photographs) {
      pictures.add(Picture.upright(photograph.jpeg(), 1));
    }
    List<RenderedPhotograph.Line> lines =
        photographs.get(0).lines().stream().filter(line -> letters(line).length() > 0).toList();
    List<FoundLine> places = lines.stream().map(line -> place(line)).toList();
    List<List<LineLattice>> byLight = new ArrayList<>();
    for (GrayImage picture : pictures) {
      byLight.add(reader.readLines(picture, places.stream().map(LaidLine::own).toList()));
    }
    List<SquaredFace> squared =
        pictures.stream()
            .map(
                p ->
                    SquaredFace.of(
                        p, corners(face, photographs.get(0).faceToImage()), Optional.empty()))
            .toList();
    Homography toSquared = squared.get(0).toPhotograph().inverse();
    List<LaidLine> onFace = places.stream().map(l -> new LaidLine(l, toSquared)).toList();
    double capital =
        onFace.stream()
            .mapToDouble(LaidLine::heightPx)
            .sorted()
            .skip(onFace.size() / 2)
            .findFirst()
            .orElse(30);
    Map<String, List<LineLattice>> extra = new LinkedHashMap<>();
    for (boolean known : new boolean[] {true, false}) {
      List<RakingSet.Shot> shots = new ArrayList<>();
      for (int k = 0; k < LIGHTS; k++) {
        View view = views.get(k);
        shots.add(
            new RakingSet.Shot(
                squared.get(k).image(),
                known ? Optional.of(direction(view.light().inFrameOf(face))) : Optional.empty()));
      }
      Optional<RakingSet> set = RakingSet.of(shots, capital);
      if (set.isPresent()) {
        extra.put(
            known ? "depth, lights known" : "depth, lights found",
            reader.readLines(set.get().depth().image(), onFace));
      }
    }
    int best = 0;
    int bestWrong = Integer.MAX_VALUE;
    for (int k = 0; k < LIGHTS; k++) {
      Count count = new Count();
      for (int l = 0; l < lines.size(); l++) {
        count.add(byLight.get(k).get(l), letters(lines.get(l)));
      }
      if (count.wrong < bestWrong) {
        bestWrong = count.wrong;
        best = k;
      }
    }
    for (int l = 0; l < lines.size(); l++) {
      String truth = letters(lines.get(l));
      int line = l;
      count(counts, "best single light").add(byLight.get(best).get(l), truth);
      for (List<LineLattice> light : byLight) {
        count(counts, "a light, mean").add(light.get(l), truth);
      }
      List<LineLattice> lights = byLight.stream().map(light -> light.get(line)).toList();
      count(counts, "surest light of each line").add(surest(lights), truth);
      extra.forEach(
          (name, read) -> {
            count(counts, name).add(read.get(line), truth);
            List<LineLattice> with = new ArrayList<>(lights);
            with.add(read.get(line));
            count(counts, "surest of lights and " + name).add(surest(with), truth);
          });
    }
  }

  private static LightDirection direction(double[] v) {
    return new LightDirection(v[0], v[1], v[2]);
  }

  private static Count count(Map<String, Count> counts, String way) {
    return counts.computeIfAbsent(way, w -> new Count());
  }

  private static LineLattice surest(List<LineLattice> views) {
    return views.stream().max(Comparator.comparingDouble(LineLattice::lettersSeen)).orElseThrow();
  }

  private static Polygon corners(SampleFace face, double[] m) {
    return Polygon.rectangle(0, 0, face.stone().widthMm(), face.stone().heightMm())
        .map(p -> at(m, p));
  }

  private static Point at(double[] m, Point p) {
    double z = m[6] * p.x() + m[7] * p.y() + m[8];
    return new Point(
        (m[0] * p.x() + m[1] * p.y() + m[2]) / z, (m[3] * p.x() + m[4] * p.y() + m[5]) / z);
  }

  private static FoundLine place(RenderedPhotograph.Line line) {
    List<Point> points = new ArrayList<>();
    for (Point2D corner : line.polygon()) {
      points.add(new Point(corner.getX(), corner.getY()));
    }
    Polygon box = new Polygon(points);
    double height = 0;
    int n = points.size();
    for (int i = 0; i < n / 2; i++) {
      height += points.get(i).distance(points.get(n - 1 - i)) / (n / 2);
    }
    return new FoundLine(box, Math.max(4, height), 1);
  }

  private static String letters(RenderedPhotograph.Line line) {
    return line.letters().stream()
        .filter(l -> l.standing() != StoneStanding.LOST)
        .map(l -> String.valueOf(l.letter()))
        .collect(Collectors.joining())
        .replace(" ", "")
        .toUpperCase(Locale.ROOT);
  }

  private static String letters(String text) {
    return text.replace(" ", "").toUpperCase(Locale.ROOT);
  }

  private static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(change, Math.min(row[j], row[j - 1]) + 1);
      }
    }
    return row[b.length()];
  }
}
