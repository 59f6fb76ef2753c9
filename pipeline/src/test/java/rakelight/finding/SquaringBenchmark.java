package rakelight.finding;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.samples.Material;
import rakelight.samples.RenderedPhotograph;
import rakelight.samples.Renderer;
import rakelight.samples.SampleFace;
import rakelight.samples.StoneMaker;
import rakelight.samples.Typeface;
import rakelight.samples.View;
import rakelight.samples.Weathering;

/**
 * How well faces are squared: rendered stones whose plane is known, seen from the side and as
 * usual. Not run with the tests; see docs/measurements.md.
 */
class SquaringBenchmark {
  private static final int COUNT = Integer.getInteger("rakelight.stones", 20);
  private static final long SEED = Long.getLong("rakelight.seed", 5190000);

  @Test
  void squaredFacesBesideTheTruth() throws PictureException {
    for (boolean steep : new boolean[] {true, false}) {
      List<double[]> outlined = new ArrayList<>();
      try (CarvedLineFinder finder = new CarvedLineFinder()) {
        for (int i = 0; i < COUNT; i++) {
          SampleFace face =
              StoneMaker.random(
                  SEED + i,
                  Material.values()[i % Material.values().length],
                  Weathering.values()[i / Material.values().length % Weathering.values().length],
                  Typeface.values()[i % Typeface.values().length]);
          View usual = StoneMaker.view(face, 1200, SEED + i);
          RenderedPhotograph photograph =
              Renderer.render(face, steep ? StoneMaker.steep(usual, SEED + i) : usual, SEED + i);
          GrayImage picture = Picture.upright(photograph.jpeg(), 1);
          Found found = finder.find(picture);
          double[] o = outcome(found, photograph);
          outlined.add(o);
          System.out.printf(
              Locale.ROOT,
              "%s %d %s lines %d: along %.1f, stems %.1f, converging %.1f, %.1f, proportion %.2f%n",
              steep ? "steep" : "usual",
              i,
              face.stone().form(),
              found.lines().size(),
              o[0],
              o[1],
              o[2],
              o[3],
              o[4]);
        }
      }
      for (int k = 0; k < 5; k++) {
        int column = k;
        double[] sorted = outlined.stream().mapToDouble(o -> o[column]).sorted().toArray();
        System.out.printf(
            Locale.ROOT,
            "%s: %s median %.2f, nine in ten under %.2f%n",
            steep ? "steep" : "usual",
            List.of("along", "stems", "lines converge", "stems converge", "proportion").get(k),
            sorted[sorted.length / 2],
            sorted[sorted.length * 9 / 10]);
      }
    }
  }

  /**
   * On the squared face, in degrees: how far lines are from level and stems from upright on
   * average, how far the top line runs from the lowest and the left stem from the right; and the
   * logarithm of what letters are too wide.
   */
  private static double[] outcome(Found found, RenderedPhotograph photograph) {
    List<Point> corners = found.face().points();
    double proportion = found.proportion();
    Homography squared = Homography.ofRectangle(1000 * proportion, 1000, corners).inverse();
    Homography truth = Homography.of(photograph.faceToImage()).then(squared);
    Homography back = Homography.of(photograph.faceToImage()).inverse();
    List<Point> text =
        photograph.lines().stream()
            .flatMap(l -> l.polygon().stream())
            .map(p -> back.map(new Point(p.getX(), p.getY())))
            .toList();
    Polygon all = new Polygon(text);
    double[] lines = new double[4];
    double[] stems = new double[4];
    double wide = 0;
    List<Point> ends = Polygon.rectangle(all.left(), all.top(), all.right(), all.bottom()).points();
    for (int i = 0; i < 4; i++) {
      Point at = ends.get(i);
      Point p = truth.map(at);
      Point r = truth.map(new Point(at.x() + 1, at.y()));
      Point d = truth.map(new Point(at.x(), at.y() + 1));
      lines[i] = Math.toDegrees(Math.atan2(r.y() - p.y(), r.x() - p.x()));
      stems[i] = Math.toDegrees(Math.atan2(p.x() - d.x(), d.y() - p.y()));
      wide += Math.log(p.distance(r) / p.distance(d)) / 4;
    }
    return new double[] {
      Arrays.stream(lines).map(Math::abs).average().orElseThrow(),
      Arrays.stream(stems).map(Math::abs).average().orElseThrow(),
      (Math.abs(lines[0] - lines[3]) + Math.abs(lines[1] - lines[2])) / 2,
      (Math.abs(stems[0] - stems[1]) + Math.abs(stems[3] - stems[2])) / 2,
      Math.abs(wide)
    };
  }
}
