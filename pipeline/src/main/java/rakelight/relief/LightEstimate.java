package rakelight.relief;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import rakelight.picture.NativeScope;

/**
 * Finds where the lights of a set stood from the shading alone.
 *
 * <p>Under several lights every flattened picture of one surface is a mixture of the same two
 * pictures, its slopes to the right and up (the principal components of the shading: Hayakawa, JOSA
 * A 11, 1994). Which mixture of the two components is slopes is known because slopes belong to one
 * surface: going round any pixel one comes back to the same height (Yuille and Snow, CVPR 1997).
 * This leaves the depth of the relief and its sign open (Belhumeur, Kriegman and Yuille, IJCV 35,
 * 1999). What is assumed for them, in this order:
 *
 * <ol>
 *   <li>lights that are known fix both;
 *   <li>lights stand rather above a face than below it; where they stand all around, letters are
 *       cut rather than raised;
 *   <li>the middle light grazes at {@value #USUAL_GRAZING_DEGREES} degrees, as raking light does.
 * </ol>
 *
 * And throughout: the face is a plane but for its letters, and stains don't follow its slopes.
 */
final class LightEstimate {
  /** Common practice, no source. */
  static final double USUAL_GRAZING_DEGREES = 14;

  /** Flattened values farther below or above the plane's are cast shadow or highlight. */
  private static final double DEEPEST_SHADE = 0.75;

  private static final double BRIGHTEST_SHINE = 2;

  /** With less of a second component the lights stood in one line. */
  private static final double SMALLEST_SECOND = 0.03;

  /** Lights whose mean stands less than this part of their length up stand all around. */
  private static final double SMALLEST_RISE = 0.15;

  private LightEstimate() {}

  /**
   * The directions, in the order of the pictures.
   *
   * @param flat flattened pictures of one size, the plane being 1; three or more
   * @param known the lights that are known, in the same order
   * @return empty if the lights stood in one line, so that only one slope shows
   */
  static Optional<List<LightDirection>> of(
      List<float[]> flat, int widthPx, int heightPx, List<Optional<LightDirection>> known) {
    int n = flat.size();
    double[][] relative = relative(flat, widthPx, heightPx);
    if (relative.length == 0) {
      return Optional.empty();
    }
    double scale = scale(relative, known);
    List<LightDirection> lights = new ArrayList<>();
    for (int k = 0; k < n; k++) {
      lights.add(new LightDirection(relative[k][0] * scale, relative[k][1] * scale, 1));
    }
    return Optional.of(lights);
  }

  /** x / z and y / z of every light, up to one factor. */
  private static double[][] relative(List<float[]> flat, int w, int h) {
    int n = flat.size();
    double[][] covariance = new double[n][n];
    float[] mean = new float[w * h];
    boolean[] good = new boolean[w * h];
    double[] row = new double[n];
    long count = 0;
    for (int i = 0; i < w * h; i++) {
      double sum = 0;
      boolean slope = true;
      for (int k = 0; k < n; k++) {
        row[k] = flat.get(k)[i] - 1;
        sum += row[k];
        slope &= row[k] > -DEEPEST_SHADE && row[k] < BRIGHTEST_SHINE;
      }
      mean[i] = (float) (sum / n);
      good[i] = slope;
      if (slope) {
        count++;
        for (int k = 0; k < n; k++) {
          for (int l = 0; l <= k; l++) {
            covariance[k][l] += (row[k] - mean[i]) * (row[l] - mean[i]);
          }
        }
      }
    }
    if (count < w * h / 4) {
      return new double[0][];
    }
    for (int k = 0; k < n; k++) {
      for (int l = 0; l <= k; l++) {
        covariance[k][l] /= count;
        covariance[l][k] = covariance[k][l];
      }
    }
    double[][] vectors = new double[n][];
    double[] values = eigen(covariance, vectors);
    if (!(values[1] > SMALLEST_SECOND * values[0])) {
      return new double[0][];
    }
    float[][] component = new float[2][w * h];
    for (int j = 0; j < 2; j++) {
      double unit = Math.sqrt(values[j]);
      for (int k = 0; k < n; k++) {
        float factor = (float) (vectors[j][k] / unit);
        float[] picture = flat.get(k);
        for (int i = 0; i < w * h; i++) {
          component[j][i] += factor * (picture[i] - 1 - mean[i]);
        }
      }
    }
    double[] m = integrable(component, good, w, h);
    // Slopes (p, q) = M s and picture k = sqrt(value) u . s, so its light is M^-T sqrt(value) u.
    double determinant = m[0] * m[3] - m[1] * m[2];
    if (Math.abs(determinant) < 1e-3) {
      return new double[0][];
    }
    double[] common = common(component, mean, good, m);
    double[][] lights = new double[n][2];
    for (int k = 0; k < n; k++) {
      double u = vectors[0][k] * Math.sqrt(values[0]);
      double v = vectors[1][k] * Math.sqrt(values[1]);
      lights[k][0] = (m[3] * u - m[2] * v) / determinant + common[0];
      lights[k][1] = (-m[1] * u + m[0] * v) / determinant + common[1];
    }
    return signed(lights, component, good, m, w);
  }

  /** The mixture p = m0 s0 + m1 s1, q = m2 s0 + m3 s1 that is nearest to slopes of a surface. */
  private static double[] integrable(float[][] s, boolean[] good, int w, int h) {
    double[][] moments = new double[4][4];
    double[] v = new double[4];
    for (int y = 1; y < h - 1; y++) {
      for (int x = 1; x < w - 1; x++) {
        int i = y * w + x;
        if (!(good[i] && good[i - 1] && good[i + 1] && good[i - w] && good[i + w])) {
          continue;
        }
        v[0] = s[0][i - w] - s[0][i + w];
        v[1] = s[1][i - w] - s[1][i + w];
        v[2] = s[0][i - 1] - s[0][i + 1];
        v[3] = s[1][i - 1] - s[1][i + 1];
        for (int a = 0; a < 4; a++) {
          for (int b = 0; b < 4; b++) {
            moments[a][b] += v[a] * v[b];
          }
        }
      }
    }
    double[][] vectors = new double[4][];
    eigen(moments, vectors);
    return vectors[3];
  }

  /** What all lights have in common: the mean picture by the slopes (least squares). */
  private static double[] common(float[][] s, float[] mean, boolean[] good, double[] m) {
    double pp = 0;
    double pq = 0;
    double qq = 0;
    double pm = 0;
    double qm = 0;
    for (int i = 0; i < mean.length; i++) {
      if (good[i]) {
        double p = m[0] * s[0][i] + m[1] * s[1][i];
        double q = m[2] * s[0][i] + m[3] * s[1][i];
        pp += p * p;
        pq += p * q;
        qq += q * q;
        pm += p * mean[i];
        qm += q * mean[i];
      }
    }
    double determinant = pp * qq - pq * pq;
    return determinant > 0
        ? new double[] {(qq * pm - pq * qm) / determinant, (pp * qm - pq * pm) / determinant}
        : new double[2];
  }

  private static double[][] signed(
      double[][] lights, float[][] s, boolean[] good, double[] m, int w) {
    double rise = 0;
    double length = 0;
    for (double[] light : lights) {
      rise += light[1];
      length += Math.hypot(light[0], light[1]);
    }
    boolean turned;
    if (Math.abs(rise) >= SMALLEST_RISE * length) {
      turned = rise < 0;
    } else {
      // Towards the light a surface falls: slopes are opposite to what lights them.
      turned = !letters(s, good, m, w);
    }
    if (turned) {
      for (double[] light : lights) {
        light[0] = -light[0];
        light[1] = -light[1];
      }
    }
    return lights;
  }

  /** Whether minus the mixture, taken for slopes, makes what is small and steep deep. */
  private static boolean letters(float[][] s, boolean[] good, double[] m, int w) {
    int n = good.length;
    float[] p = new float[n];
    float[] q = new float[n];
    for (int i = 0; i < n; i++) {
      if (good[i]) {
        p[i] = (float) -(m[0] * s[0][i] + m[1] * s[1][i]);
        q[i] = (float) -(m[2] * s[0][i] + m[3] * s[1][i]);
      }
    }
    HeightMap heights =
        new HeightMap(w, n / w, new Slopes(w, n / w, p, q).heights()).overPlane(w / 12.0);
    return skew(heights.heights()) < 0;
  }

  static double skew(float[] values) {
    double second = 0;
    double third = 0;
    for (float v : values) {
      second += v * v;
      third += (double) v * v * v;
    }
    return third / values.length / Math.pow(second / values.length, 1.5);
  }

  private static double scale(double[][] relative, List<Optional<LightDirection>> known) {
    double with = 0;
    double own = 0;
    double[] lengths = new double[relative.length];
    for (int k = 0; k < relative.length; k++) {
      double x = relative[k][0];
      double y = relative[k][1];
      lengths[k] = Math.hypot(x, y);
      if (known.get(k).isPresent()) {
        LightDirection light = known.get(k).get();
        with += (x * light.x() + y * light.y()) / light.z();
        own += x * x + y * y;
      }
    }
    if (own > 0) {
      return with / own;
    }
    java.util.Arrays.sort(lengths);
    return 1 / Math.tan(Math.toRadians(USUAL_GRAZING_DEGREES)) / lengths[lengths.length / 2];
  }

  /**
   * Eigenvalues of a symmetric matrix, the largest first.
   *
   * @param vectors filled with the eigenvectors
   */
  private static double[] eigen(double[][] symmetric, double[][] vectors) {
    int n = symmetric.length;
    try (NativeScope scope = new NativeScope()) {
      Mat matrix = scope.mat();
      matrix.create(n, n, CvType.CV_64F);
      for (int i = 0; i < n; i++) {
        matrix.put(i, 0, symmetric[i]);
      }
      Mat values = scope.mat();
      Mat rows = scope.mat();
      Core.eigen(matrix, values, rows);
      double[] result = new double[n];
      values.get(0, 0, result);
      for (int i = 0; i < n; i++) {
        vectors[i] = new double[n];
        rows.get(i, 0, vectors[i]);
      }
      return result;
    }
  }
}
