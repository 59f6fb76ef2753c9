package rakelight.relief;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import rakelight.picture.GrayImage;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.samples.Lamp;
import rakelight.samples.Material;
import rakelight.samples.RenderedPhotograph;
import rakelight.samples.Renderer;
import rakelight.samples.SampleFace;
import rakelight.samples.StoneMaker;
import rakelight.samples.Typeface;
import rakelight.samples.View;
import rakelight.samples.Weathering;

/**
 * Shape from raking sets of rendered stones beside their true heights: the angle between normals,
 * and how depth inside letters goes with true depth. Not run with the tests; see
 * docs/measurements.md. {@code -Drakelight.pictures=FOLDER} keeps the pictures.
 */
class ReliefBenchmark {
  private static final int WIDTH_PX = 1000;

  /** Seeds that nothing was chosen with; what wear leaves is the hard part. */
  private static final List<SampleFace> FACES =
      List.of(
          face(961_101, Material.SLATE, Weathering.LIGHT),
          face(961_102, Material.MARBLE, Weathering.HEAVY),
          face(961_103, Material.SANDSTONE, Weathering.HEAVY),
          face(961_104, Material.SLATE, Weathering.RUINOUS),
          face(961_105, Material.GRANITE, Weathering.LIGHT),
          face(961_106, Material.MARBLE, Weathering.LIGHT));

  private static SampleFace face(long seed, Material material, Weathering wear) {
    return StoneMaker.random(seed, material, wear, Typeface.values()[(int) (seed % 5)]);
  }

  /** What is done to a set before it is combined. */
  private enum Disturbance {
    NONE,
    LIGHTS_UNKNOWN,
    LIGHTS_ONE_DEGREE_OFF,
    SHOTS_TWO_PIXELS_OFF
  }

  @Test
  void normalsAndDepthBesideTheTruth() throws IOException, PictureException {
    System.out.println(
        "| lights | set | normals, degrees | depth in letters, r | azimuths, degrees |");
    System.out.println("|---|---|---|---|---|");
    for (String lights : System.getProperty("rakelight.lights", "2,3,4,6,12").split(",")) {
      int n = Integer.parseInt(lights);
      Map<Disturbance, double[]> sums = new EnumMap<>(Disturbance.class);
      for (SampleFace face : FACES) {
        Photographed set = photographed(face, n);
        for (Disturbance disturbance : Disturbance.values()) {
          Result result = measure(set, disturbance);
          double[] sum = sums.computeIfAbsent(disturbance, d -> new double[3]);
          sum[0] += result.degrees / FACES.size();
          sum[1] += result.correlation / FACES.size();
          sum[2] += result.azimuthDegrees / FACES.size();
        }
      }
      sums.forEach(
          (disturbance, mean) ->
              System.out.printf(
                  Locale.ROOT,
                  "| %d | %s | %.1f | %.3f | %.1f |%n",
                  n,
                  disturbance.name().toLowerCase(Locale.ROOT).replace('_', ' '),
                  mean[0],
                  mean[1],
                  mean[2]));
    }
  }

  /** A raking set with the truth of its lights. */
  private record Photographed(
      SampleFace face, List<RenderedPhotograph> photographs, List<LightDirection> truth) {}

  private static Photographed photographed(SampleFace face, int n) {
    SplittableRandom random = new SplittableRandom(face.seed() + n);
    View first = StoneMaker.view(face, WIDTH_PX, face.seed());
    List<View> views = new ArrayList<>();
    List<LightDirection> truth = new ArrayList<>();
    for (int k = 0; k < n; k++) {
      // Over the top from one side to the other, as a lamp is held; two lights at right angles.
      double around = n == 2 ? -70 + 100 * k : -82 + 164.0 * k / (n - 1) + random.nextDouble(-4, 4);
      double grazing = random.nextDouble(9, 18);
      truth.add(LightDirection.raking(around, grazing));
      views.add(first.with(Lamp.raking(face, around, grazing), 40L * k));
    }
    return new Photographed(face, Renderer.render(face, views, face.seed()), truth);
  }

  private record Result(double degrees, double correlation, double azimuthDegrees) {}

  private static Result measure(Photographed set, Disturbance disturbance)
      throws IOException, PictureException {
    SampleFace face = set.face();
    List<RenderedPhotograph> photographs = set.photographs();
    List<LightDirection> truth = set.truth();
    int n = truth.size();
    SplittableRandom random = new SplittableRandom(~face.seed() + n);
    List<RakingSet.Shot> shots = new ArrayList<>();
    double w = face.stone().widthMm();
    double h = face.stone().heightMm();
    for (int k = 0; k < n; k++) {
      double off = disturbance == Disturbance.SHOTS_TWO_PIXELS_OFF && k > 0 ? 2 : 0;
      double turn = random.nextDouble(2 * Math.PI);
      double[] m = photographs.get(k).faceToImage();
      Polygon outline =
          Polygon.rectangle(0, 0, w, h)
              .map(p -> at(m, p))
              .map(p -> new Point(p.x() + off * Math.cos(turn), p.y() + off * Math.sin(turn)));
      GrayImage picture = Picture.upright(photographs.get(k).jpeg(), 1);
      Optional<LightDirection> light =
          switch (disturbance) {
            case LIGHTS_UNKNOWN -> Optional.empty();
            case LIGHTS_ONE_DEGREE_OFF -> Optional.of(off(truth.get(k), 1, random));
            default -> Optional.of(truth.get(k));
          };
      shots.add(
          new RakingSet.Shot(SquaredFace.of(picture, outline, Optional.empty()).image(), light));
    }
    double pxPerMm = shots.get(0).squared().heightPx() / h;
    double capitalPx = 36 * pxPerMm;
    Optional<RakingSet> combined = RakingSet.of(shots, capitalPx);
    if (combined.isEmpty()) {
      return new Result(90, 0, 0);
    }
    HeightMap found = combined.get().heights();
    String folder = System.getProperty("rakelight.pictures", "");
    if (!folder.isEmpty()) {
      String name = face.marker() + "-" + n + "-" + disturbance.name().toLowerCase(Locale.ROOT);
      Files.createDirectories(Path.of(folder));
      Files.write(Path.of(folder, name + "-first.jpg"), Picture.jpeg(shots.get(0).squared(), 85));
      Files.write(
          Path.of(folder, name + "-depth.jpg"), Picture.jpeg(combined.get().depth().image(), 85));
      Files.write(
          Path.of(folder, name + "-lit.jpg"),
          Picture.jpeg(found.lit(LightDirection.raking(315, 15)), 85));
    }
    double azimuths = 0;
    for (int k = 0; k < n; k++) {
      double apart =
          Math.abs(
              combined.get().lights().get(k).map(LightDirection::aroundDegrees).orElse(0.0)
                  - truth.get(k).aroundDegrees());
      azimuths += Math.min(apart, 360 - apart) / n;
    }
    return compare(face, photographs.get(0), found, azimuths);
  }

  private static LightDirection off(LightDirection light, double degrees, SplittableRandom random) {
    double turn = random.nextDouble(2 * Math.PI);
    return LightDirection.raking(
        light.aroundDegrees()
            + degrees * Math.cos(turn) / Math.cos(Math.toRadians(light.grazingDegrees())),
        light.grazingDegrees() + degrees * Math.sin(turn));
  }

  private static Result compare(
      SampleFace face, RenderedPhotograph photograph, HeightMap found, double azimuths) {
    double mmPerPx = face.stone().widthMm() / found.widthPx();
    float[] heights = Renderer.heights(face, mmPerPx);
    int w = Math.max(8, (int) Math.round(face.stone().widthMm() / mmPerPx));
    int h = heights.length / w;
    float[] inPixels = new float[found.widthPx() * found.heightPx()];
    for (int y = 0; y < found.heightPx(); y++) {
      for (int x = 0; x < found.widthPx(); x++) {
        int v = (int) Math.min(h - 1, (long) y * h / found.heightPx());
        inPixels[y * found.widthPx() + x] = (float) (heights[v * w + Math.min(w - 1, x)] / mmPerPx);
      }
    }
    HeightMap truth =
        new HeightMap(found.widthPx(), found.heightPx(), inPixels).overPlane(36 / mmPerPx);
    // The letters, a stroke's width around them included.
    double degrees = 0;
    int count = 0;
    double[] sums = new double[5];
    double[] inverse = photograph.faceToImage();
    for (RenderedPhotograph.Line line : photograph.lines()) {
      for (RenderedPhotograph.Letter letter : line.letters()) {
        double left = Double.MAX_VALUE;
        double right = 0;
        double top = Double.MAX_VALUE;
        double bottom = 0;
        for (java.awt.geom.Point2D corner : letter.corners()) {
          Point p = at(invert(inverse), new Point(corner.getX(), corner.getY()));
          left = Math.min(left, p.x() / mmPerPx);
          right = Math.max(right, p.x() / mmPerPx);
          top = Math.min(top, p.y() / mmPerPx);
          bottom = Math.max(bottom, p.y() / mmPerPx);
        }
        for (int y = (int) Math.max(1, top); y < Math.min(found.heightPx() - 1, bottom); y++) {
          for (int x = (int) Math.max(1, left); x < Math.min(found.widthPx() - 1, right); x++) {
            double a = found.heights()[y * found.widthPx() + x];
            double b = truth.heights()[y * found.widthPx() + x];
            sums[0] += a;
            sums[1] += b;
            sums[2] += a * a;
            sums[3] += b * b;
            sums[4] += a * b;
            degrees += angle(found, truth, x, y);
            count++;
          }
        }
      }
    }
    double covariance = sums[4] - sums[0] * sums[1] / count;
    double correlation =
        covariance
            / Math.sqrt(
                (sums[2] - sums[0] * sums[0] / count) * (sums[3] - sums[1] * sums[1] / count));
    return new Result(degrees / count, correlation, azimuths);
  }

  private static double angle(HeightMap a, HeightMap b, int x, int y) {
    double[] n = normal(a, x, y);
    double[] m = normal(b, x, y);
    double cosine = n[0] * m[0] + n[1] * m[1] + n[2] * m[2];
    return Math.toDegrees(Math.acos(Math.max(-1, Math.min(1, cosine))));
  }

  private static double[] normal(HeightMap map, int x, int y) {
    int i = y * map.widthPx() + x;
    double p = (map.heights()[i + 1] - map.heights()[i - 1]) / 2;
    double q = (map.heights()[i - map.widthPx()] - map.heights()[i + map.widthPx()]) / 2;
    double length = Math.sqrt(1 + p * p + q * q);
    return new double[] {-p / length, -q / length, 1 / length};
  }

  private static Point at(double[] m, Point p) {
    double z = m[6] * p.x() + m[7] * p.y() + m[8];
    return new Point(
        (m[0] * p.x() + m[1] * p.y() + m[2]) / z, (m[3] * p.x() + m[4] * p.y() + m[5]) / z);
  }

  private static double[] invert(double[] m) {
    return rakelight.picture.Homography.of(m).inverse().rows().stream()
        .mapToDouble(Double::doubleValue)
        .toArray();
  }
}
