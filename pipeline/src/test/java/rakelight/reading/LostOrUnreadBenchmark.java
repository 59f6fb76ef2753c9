package rakelight.reading;

import java.awt.geom.Point2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.finding.LineStrip;
import rakelight.measure.Calibration;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.relief.HeightMap;
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
 * Whether a letter that wasn't read is lost (its surface is gone) or only not seen, told from what
 * can be measured in its box: rendered raking sets, fitted on every second stone, checked on the
 * others. Not run with the tests; see docs/measurements.md.
 */
class LostOrUnreadBenchmark {
  private static final int STONES = Integer.getInteger("rakelight.stones", 20);
  private static final long FIRST_SEED = 8_500_000;
  private static final int LIGHTS = 4;
  private static final int WIDTH_PX = 900;
  private static final double RIDGE = 1e-3;

  private static final List<String> MEASURES =
      List.of(
          "gradient, photographs",
          "brightness against the line, photographs",
          "probability of a letter, lights merged",
          "roughness of the heights",
          "height against the line");

  /** An unread letter: what was measured in its box, and whether it is lost. */
  private record Unread(int stone, double[] measures, boolean lost) {}

  /** The grey values of one picture inside one box. */
  private record Patch(double mean, double gradient) {}

  @Test
  void lostAgainstUnread() throws PictureException {
    List<Unread> all = new ArrayList<>();
    try (MachineReader reader = MachineReader.standard()) {
      for (int i = 0; i < STONES; i++) {
        stone(reader, i, all);
      }
    }
    List<Unread> fitting = all.stream().filter(u -> u.stone() % 2 == 0).toList();
    List<Unread> checking = all.stream().filter(u -> u.stone() % 2 == 1).toList();
    say("fitted on", fitting);
    say("checked on", checking);
    for (int m = 0; m < MEASURES.size(); m++) {
      int measure = m;
      double above =
          areaUnderCurve(checking, checking.stream().map(u -> u.measures()[measure]).toList());
      System.out.printf(
          Locale.ROOT, "| %s alone | %.3f |%n", MEASURES.get(m), Math.max(above, 1 - above));
    }
    double[] weights = logistic(fitting);
    List<Double> stated = checking.stream().map(u -> p(weights, u.measures())).toList();
    Calibration calibration = new Calibration(10);
    double surprise = 0;
    double share = fitting.stream().filter(Unread::lost).count() / (double) fitting.size();
    double surpriseOfShare = 0;
    for (int i = 0; i < checking.size(); i++) {
      boolean lost = checking.get(i).lost();
      calibration.add(stated.get(i), lost);
      surprise -= Math.log(lost ? stated.get(i) : 1 - stated.get(i)) / Math.log(2);
      surpriseOfShare -= Math.log(lost ? share : 1 - share) / Math.log(2);
    }
    System.out.printf(
        Locale.ROOT,
        "| all together | %.3f |%ncalibration error %.3f, Brier %.3f, bits a letter %.3f, of the"
            + " share alone %.3f%n",
        areaUnderCurve(checking, stated),
        calibration.expectedError(),
        calibration.brier(),
        surprise / checking.size(),
        surpriseOfShare / checking.size());
    calibration
        .diagram()
        .forEach(
            bin ->
                System.out.printf(
                    Locale.ROOT,
                    "said %.1f-%.1f: %d, mean %.3f, lost %.3f%n",
                    bin.low(),
                    bin.high(),
                    bin.count(),
                    bin.meanStated(),
                    bin.shareTrue()));
  }

  private static void say(String what, List<Unread> unread) {
    System.out.printf(
        "%s %d unread letters, %d of them lost%n",
        what, unread.size(), unread.stream().filter(Unread::lost).count());
  }

  private static void stone(MachineReader reader, int i, List<Unread> all) throws PictureException {
    SampleFace face =
        StoneMaker.random(
            FIRST_SEED + i,
            Material.values()[(i / 2) % Material.values().length],
            i / 2 % 3 == 0 ? Weathering.HEAVY : Weathering.RUINOUS,
            Typeface.values()[i % Typeface.values().length]);
    SplittableRandom random = new SplittableRandom(i);
    View first = StoneMaker.view(face, WIDTH_PX, i);
    List<View> views = new ArrayList<>();
    for (int k = 0; k < LIGHTS; k++) {
      views.add(
          first.with(
              Lamp.raking(face, -70 + 140.0 * k / (LIGHTS - 1), random.nextDouble(9, 18)),
              40L * k));
    }
    List<RenderedPhotograph> photographs = Renderer.render(face, views, face.seed());
    List<GrayImage> pictures = new ArrayList<>();
    for (RenderedPhotograph photograph : photographs) {
      pictures.add(Picture.upright(photograph.jpeg(), 1));
    }
    List<RenderedPhotograph.Line> lines = photographs.get(0).lines();
    List<FoundLine> places = lines.stream().map(LostOrUnreadBenchmark::place).toList();
    List<List<LineLattice>> byLight = new ArrayList<>();
    for (GrayImage picture : pictures) {
      byLight.add(reader.readLines(picture, places.stream().map(LaidLine::own).toList()));
    }
    double[] m = photographs.get(0).faceToImage();
    Polygon outline =
        Polygon.rectangle(0, 0, face.stone().widthMm(), face.stone().heightMm()).map(p -> at(m, p));
    List<RakingSet.Shot> shots =
        pictures.stream()
            .map(
                p ->
                    new RakingSet.Shot(
                        SquaredFace.of(p, outline, Optional.empty()).image(), Optional.empty()))
            .toList();
    Homography toSquared =
        SquaredFace.of(pictures.get(0), outline, Optional.empty()).toPhotograph().inverse();
    double scale = shots.get(0).squared().widthPx() / (outline.right() - outline.left());
    double capital = places.stream().mapToDouble(FoundLine::heightPx).average().orElse(20) * scale;
    Optional<RakingSet> set = RakingSet.of(shots, capital);
    if (set.isEmpty()) {
      return;
    }
    HeightMap heights = set.get().heights();
    double onHeights = (double) heights.widthPx() / shots.get(0).squared().widthPx();
    for (int l = 0; l < lines.size(); l++) {
      int line = l;
      LineLattice merged =
          reader
              .odds()
              .weighing()
              .merged(
                  byLight.stream()
                      .map(lattices -> new Weighing.View(lattices.get(line), 1))
                      .toList());
      letters(
          i,
          lines.get(l).letters(),
          places.get(l),
          merged,
          pictures,
          heights,
          p -> {
            Point there = toSquared.map(p);
            return new Point(there.x() * onHeights, there.y() * onHeights);
          },
          all);
    }
  }

  private static void letters(
      int stone,
      List<RenderedPhotograph.Letter> letters,
      FoundLine place,
      LineLattice merged,
      List<GrayImage> pictures,
      HeightMap heights,
      java.util.function.UnaryOperator<Point> toHeights,
      List<Unread> all) {
    List<RenderedPhotograph.Letter> cut =
        letters.stream().filter(letter -> letter.letter() != ' ').toList();
    if (cut.size() < 3) {
      return;
    }
    List<double[]> measured = new ArrayList<>();
    List<Boolean> read = new ArrayList<>();
    for (RenderedPhotograph.Letter letter : cut) {
      Polygon box = polygon(letter.corners());
      double gradient = 0;
      double mean = 0;
      for (GrayImage picture : pictures) {
        Patch patch = patch(box, picture.widthPx(), picture.heightPx(), picture::at);
        gradient += Math.log(1 + patch.gradient()) / pictures.size();
        mean += patch.mean() / pictures.size();
      }
      Patch relief =
          patch(
              box.map(toHeights),
              heights.widthPx(),
              heights.heightPx(),
              (x, y) -> heights.heights()[y * heights.widthPx() + x]);
      double ink = 0;
      boolean seen = false;
      for (Slot slot : merged.slots()) {
        if (slot.to() > slot.from()
            && box.contains(LineStrip.boxOf(place, slot.from(), slot.to()).centre())) {
          ink = Math.max(ink, slot.ink());
          seen |= slot.best().equalsIgnoreCase(String.valueOf(letter.letter())) && slot.p() >= 0.5;
        }
      }
      measured.add(
          new double[] {gradient, mean, ink, Math.log(1e-6 + relief.gradient()), relief.mean()});
      read.add(seen);
    }
    for (int i = 0; i < cut.size(); i++) {
      if (!read.get(i)) {
        double[] against = measured.get(i).clone();
        for (int m : new int[] {0, 1, 3, 4}) {
          int measure = m;
          double[] sorted = measured.stream().mapToDouble(x -> x[measure]).sorted().toArray();
          against[m] -= sorted[sorted.length / 2];
          if (m == 1) {
            against[m] = Math.abs(against[m]) / 255;
          }
        }
        all.add(new Unread(stone, against, cut.get(i).standing() == StoneStanding.LOST));
      }
    }
  }

  private interface Values {
    double at(int x, int y);
  }

  private static Patch patch(Polygon box, int width, int height, Values values) {
    int left = (int) Math.max(1, Math.floor(box.left()));
    int right = (int) Math.min(width - 2.0, Math.ceil(box.right()));
    int top = (int) Math.max(1, Math.floor(box.top()));
    int bottom = (int) Math.min(height - 2.0, Math.ceil(box.bottom()));
    double sum = 0;
    double gradient = 0;
    int n = 0;
    for (int y = top; y <= bottom; y++) {
      for (int x = left; x <= right; x++) {
        sum += values.at(x, y);
        gradient +=
            Math.hypot(
                values.at(x + 1, y) - values.at(x - 1, y),
                values.at(x, y + 1) - values.at(x, y - 1));
        n++;
      }
    }
    return new Patch(sum / Math.max(1, n), gradient / Math.max(1, n));
  }

  /** Logistic regression by gradient descent; the last weight is the constant. */
  private static double[] logistic(List<Unread> unread) {
    double[] w = new double[MEASURES.size() + 1];
    for (int round = 0; round < 20_000; round++) {
      double[] slope = new double[w.length];
      for (Unread u : unread) {
        double miss = p(w, u.measures()) - (u.lost() ? 1 : 0);
        for (int k = 0; k < w.length; k++) {
          slope[k] += miss * (k < u.measures().length ? u.measures()[k] : 1);
        }
      }
      for (int k = 0; k < w.length; k++) {
        w[k] -= 0.5 * (slope[k] / Math.max(1, unread.size()) + RIDGE * w[k]);
      }
    }
    return w;
  }

  private static double p(double[] w, double[] measures) {
    double z = w[measures.length];
    for (int k = 0; k < measures.length; k++) {
      z += w[k] * measures[k];
    }
    return Math.min(1 - 1e-6, Math.max(1e-6, 1 / (1 + Math.exp(-z))));
  }

  /** The share of pairs, one lost and one not, in which the lost one has the larger value. */
  private static double areaUnderCurve(List<Unread> unread, List<Double> values) {
    double right = 0;
    long pairs = 0;
    for (int i = 0; i < unread.size(); i++) {
      for (int j = 0; j < unread.size(); j++) {
        if (unread.get(i).lost() && !unread.get(j).lost()) {
          pairs++;
          int order = Comparator.<Double>naturalOrder().compare(values.get(i), values.get(j));
          right += order > 0 ? 1 : order == 0 ? 0.5 : 0;
        }
      }
    }
    return pairs == 0 ? 0.5 : right / pairs;
  }

  private static Point at(double[] m, Point p) {
    double z = m[6] * p.x() + m[7] * p.y() + m[8];
    return new Point(
        (m[0] * p.x() + m[1] * p.y() + m[2]) / z, (m[3] * p.x() + m[4] * p.y() + m[5]) / z);
  }

  private static Polygon polygon(List<Point2D> corners) {
    return new Polygon(corners.stream().map(c -> new Point(c.getX(), c.getY())).toList());
  }

  private static FoundLine place(RenderedPhotograph.Line line) {
    Polygon box = polygon(line.polygon());
    List<Point> points = box.points();
    double height = 0;
    int n = points.size();
    for (int i = 0; i < n / 2; i++) {
      height += points.get(i).distance(points.get(n - 1 - i)) / (n / 2);
    }
    return new FoundLine(box, Math.max(4, height), 1);
  }
}
