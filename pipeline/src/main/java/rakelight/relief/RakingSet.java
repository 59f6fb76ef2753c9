package rakelight.relief;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.opencv.core.Core;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativeScope;

/**
 * Photographs of one face under different lights, combined into the shape of its surface.
 *
 * <p>What changes with the light is shape; what stays is colour and stain. Three lights and more
 * give slopes ({@link PhotometricStereo}), with directions that are known or found from the shading
 * ({@link LightEstimate}). Two lights, or lights in one line, give the slope along that line alone:
 * the difference of the two, in which stains cancel out, is taken for the shading of one picture
 * ({@link LinearShading}); strokes along the line hardly show.
 *
 * @param heights over the local plane, as large as the first photograph or smaller
 * @param depth the picture that a rubbing would give: what is cut is dark, whatever its colour;
 *     what is raised, where letters are raised
 * @param lights where each light stood as used here, in the order of the photographs; empty for one
 *     that couldn't be laid over the first and was left out
 * @param source how the lights were known
 */
public record RakingSet(
    HeightMap heights,
    ReliefImage depth,
    List<Optional<LightDirection>> lights,
    LightSource source) {
  /** The name of the picture. */
  public static final String DEPTH = "depth";

  /** Shape is computed with capitals no higher than this: more shows no more of letters. */
  private static final double LARGEST_CAPITAL_PX = 48;

  /** A photograph's background follows shapes larger than this many letter heights. */
  private static final double BACKGROUND_HEIGHTS = 2;

  /** The part of the darkest pixels that is taken for full shadow, lit from elsewhere only. */
  private static final double SHADOW_SHARE = 0.005;

  private static final double MOST_ELSEWHERE = 0.5;

  /** How the directions of the lights came to be known. */
  public enum LightSource {
    /** All were given. */
    KNOWN,
    /** Some or all were found from the shading. */
    ESTIMATED,
    /** Two lights or lights in one line: slopes along one line only. */
    ONE_LINE
  }

  public RakingSet {
    lights = List.copyOf(lights);
  }

  /**
   * One photograph of the set.
   *
   * @param squared the face squared with the same outline as in the others
   * @param light where its light stood, if that is known
   */
  public record Shot(GrayImage squared, Optional<LightDirection> light) {}

  /**
   * Combines photographs.
   *
   * @param shots the first is the one that the others are laid over
   * @param capitalPx the height of capitals in pixels; what is too small counts as 8
   * @return empty where fewer than two can be laid over each other
   */
  public static Optional<RakingSet> of(List<Shot> shots, double capitalPx) {
    if (shots.size() < 2) {
      return Optional.empty();
    }
    double scale = Math.min(1, LARGEST_CAPITAL_PX / Math.max(8, capitalPx));
    double capital = Math.max(8, capitalPx * scale);
    List<float[]> flat = new ArrayList<>();
    List<Integer> used = new ArrayList<>();
    int width;
    int height;
    try (NativeScope scope = new NativeScope()) {
      Mat first = reduced(shots.get(0).squared(), scale, scope);
      width = first.cols();
      height = first.rows();
      for (int k = 0; k < shots.size(); k++) {
        try (NativeScope step = new NativeScope()) {
          Mat picture = k == 0 ? first : reduced(shots.get(k).squared(), scale, step);
          Optional<Homography> onto =
              k == 0 ? Optional.of(Homography.identity()) : Registration.fine(first, picture, step);
          if (onto.isPresent()) {
            flat.add(laid(picture, onto.get(), first.size(), capital, step));
            used.add(k);
          }
        }
      }
    }
    if (used.size() < 2) {
      return Optional.empty();
    }
    return Optional.of(combined(shots, used, flat, width, height, capital));
  }

  private static RakingSet combined(
      List<Shot> shots,
      List<Integer> used,
      List<float[]> flat,
      int width,
      int height,
      double capital) {
    List<Optional<LightDirection>> known = used.stream().map(k -> shots.get(k).light()).toList();
    boolean allKnown = known.stream().allMatch(Optional::isPresent);
    Optional<List<LightDirection>> found = Optional.empty();
    if (allKnown && !inOneLine(known)) {
      found = Optional.of(known.stream().flatMap(Optional::stream).toList());
    } else if (!allKnown && flat.size() >= 3) {
      found = LightEstimate.of(flat, width, height, known);
    }
    List<LightDirection> lights;
    float[] heights;
    if (found.isPresent()) {
      lights = found.get();
      heights = PhotometricStereo.slopes(flat, lights, elsewhere(flat), width, height).heights();
    } else {
      lights = LightsOnOneLine.lights(flat, width, height, known, capital);
      heights = LightsOnOneLine.heights(flat, lights, width, height, capital);
    }
    HeightMap map = new HeightMap(width, height, heights).overPlane(capital);
    List<Optional<LightDirection>> byShot =
        new ArrayList<>(Collections.nCopies(shots.size(), Optional.empty()));
    for (int k = 0; k < used.size(); k++) {
      byShot.set(used.get(k), Optional.of(lights.get(k)));
    }
    LightSource source =
        found.isEmpty()
            ? LightSource.ONE_LINE
            : allKnown ? LightSource.KNOWN : LightSource.ESTIMATED;
    return new RakingSet(
        map, new ReliefImage(DEPTH, map.depth(shots.get(0).squared(), capital)), byShot, source);
  }

  /** Known lights that stand in one line with the face show one slope only. */
  private static boolean inOneLine(List<Optional<LightDirection>> lights) {
    double xx = 0;
    double xy = 0;
    double yy = 0;
    double mx = 0;
    double my = 0;
    int n = 0;
    for (Optional<LightDirection> light : lights) {
      if (light.isPresent()) {
        mx += light.get().x() / light.get().z();
        my += light.get().y() / light.get().z();
        n++;
      }
    }
    for (Optional<LightDirection> light : lights) {
      if (light.isPresent()) {
        double x = light.get().x() / light.get().z() - mx / n;
        double y = light.get().y() / light.get().z() - my / n;
        xx += x * x;
        xy += x * y;
        yy += y * y;
      }
    }
    double trace = xx + yy;
    // The smaller eigenvalue below a hundredth of both together.
    return n < 3 || xx * yy - xy * xy < 0.01 * trace * trace;
  }

  private static Mat reduced(GrayImage image, double scale, NativeScope scope) {
    Mat whole = image.in(scope);
    if (scale == 1) {
      return whole;
    }
    Mat small = scope.mat();
    Imgproc.resize(whole, small, new Size(), scale, scale, Imgproc.INTER_AREA);
    return small;
  }

  /** The picture in linear light, flattened, laid over the first. */
  private static float[] laid(
      Mat picture, Homography onto, Size size, double capital, NativeScope scope) {
    Mat flat = Relief.flattened(Relief.linear(picture, scope), BACKGROUND_HEIGHTS * capital, scope);
    Mat laid = scope.mat();
    Imgproc.warpPerspective(
        flat,
        laid,
        Registration.matrix(onto, scope),
        size,
        Imgproc.INTER_LINEAR | Imgproc.WARP_INVERSE_MAP,
        Core.BORDER_REPLICATE);
    float[] values = new float[laid.rows() * laid.cols()];
    laid.get(0, 0, values);
    return values;
  }

  /** How much of the plane's brightness isn't the lamp's: what is left in full shadow. */
  private static double[] elsewhere(List<float[]> flat) {
    int n = flat.size();
    int pixels = flat.get(0).length;
    int step = Math.max(1, pixels / 200_000);
    double[] value = new double[n];
    double[][] part = new double[n][pixels / step];
    for (int j = 0; j < pixels / step; j++) {
      for (int k = 0; k < n; k++) {
        value[k] = flat.get(k)[j * step];
      }
      double[] sorted = value.clone();
      java.util.Arrays.sort(sorted);
      double albedo = Math.max(0.05, sorted[n / 2]);
      for (int k = 0; k < n; k++) {
        part[k][j] = value[k] / albedo;
      }
    }
    double[] elsewhere = new double[n];
    for (int k = 0; k < n; k++) {
      java.util.Arrays.sort(part[k]);
      elsewhere[k] =
          Math.min(MOST_ELSEWHERE, Math.max(0, part[k][(int) (SHADOW_SHARE * part[k].length)]));
    }
    return elsewhere;
  }
}
