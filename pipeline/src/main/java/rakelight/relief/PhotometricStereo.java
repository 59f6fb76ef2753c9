package rakelight.relief;

import java.util.List;

/**
 * Slopes from flattened pictures under known lights (Woodham 1980, see {@link Facet}), pixel by
 * pixel.
 *
 * <p>A flattened picture has the plane's brightness as 1 everywhere, whatever exposure, lens and
 * distance of the lamp made of it; so its intensities are those under a light of strength 1 / z.
 * Light from everywhere else (sky, grass) is taken off first. Shadows and highlights are left out
 * per pixel: what is as dark as the light from elsewhere alone gets no weight, and what fits the
 * other lights badly loses it step by step (weights of Geman and McClure 1987).
 */
final class PhotometricStereo {
  private static final int STEPS = 4;

  /**
   * Misfit, in parts of the brightness of the plane, at which a light has lost 3/4 of its weight.
   */
  private static final double MISFIT = 0.15;

  /** How strongly a pixel without enough lights is taken for plane. Tried: 0.02 to 0.6. */
  private static final double PRIOR = 0.2;

  /** A pixel darker than this on top of the light from elsewhere is half in shadow. */
  private static final double SHADOW = 0.12;

  /** Steeper than this no slope is believed: 70 degrees. */
  private static final double LARGEST_SLOPE = 2.7;

  private PhotometricStereo() {}

  /**
   * The slopes of the surface.
   *
   * @param flat flattened pictures, the plane being 1
   * @param lights one for each
   * @param elsewhere for each picture the part of the plane's brightness that doesn't come from its
   *     light, 0 to 1
   */
  static Slopes slopes(
      List<float[]> flat,
      List<LightDirection> lights,
      double[] elsewhere,
      int widthPx,
      int heightPx) {
    int n = flat.size();
    double[] x = new double[n];
    double[] y = new double[n];
    for (int k = 0; k < n; k++) {
      x[k] = lights.get(k).x() / lights.get(k).z();
      y[k] = lights.get(k).y() / lights.get(k).z();
    }
    float[] p = new float[widthPx * heightPx];
    float[] q = new float[widthPx * heightPx];
    double[] value = new double[n];
    double[] weight = new double[n];
    double[] matrix = new double[6];
    double[] right = new double[3];
    for (int i = 0; i < p.length; i++) {
      double albedo = median(flat, i, value);
      double[] g = {0, 0, albedo};
      for (int step = 0; step < STEPS; step++) {
        java.util.Arrays.fill(matrix, 0);
        java.util.Arrays.fill(right, 0);
        for (int k = 0; k < n; k++) {
          // Of its own light alone, the plane being 1 again.
          value[k] = (flat.get(k)[i] - elsewhere[k] * albedo) / (1 - elsewhere[k]);
          double relative = value[k] / Math.max(1e-3, albedo);
          weight[k] = relative <= 0 ? 0 : 1 / (1 + Math.pow(SHADOW / relative, 4));
          if (step > 0) {
            double misfit = (x[k] * g[0] + y[k] * g[1] + g[2] - value[k]) / (MISFIT * albedo);
            weight[k] /= (1 + misfit * misfit) * (1 + misfit * misfit);
          }
          Facet.add(matrix, right, x[k], y[k], 1, value[k], weight[k]);
        }
        Facet.add(matrix, right, 1, 0, 0, 0, PRIOR);
        Facet.add(matrix, right, 0, 1, 0, 0, PRIOR);
        Facet.add(matrix, right, 0, 0, 1, albedo, PRIOR);
        g = Facet.solve(matrix, right);
        albedo = Math.sqrt(g[0] * g[0] + g[1] * g[1] + g[2] * g[2]);
      }
      double z = Math.max(g[2], albedo / 3);
      p[i] = (float) Math.max(-LARGEST_SLOPE, Math.min(LARGEST_SLOPE, -g[0] / z));
      q[i] = (float) Math.max(-LARGEST_SLOPE, Math.min(LARGEST_SLOPE, -g[1] / z));
    }
    return new Slopes(widthPx, heightPx, p, q);
  }

  private static double median(List<float[]> flat, int i, double[] sorted) {
    for (int k = 0; k < sorted.length; k++) {
      sorted[k] = flat.get(k)[i];
    }
    java.util.Arrays.sort(sorted);
    return Math.max(0.05, sorted[sorted.length / 2]);
  }
}
