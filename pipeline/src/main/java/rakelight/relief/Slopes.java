package rakelight.relief;

import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import rakelight.picture.NativeScope;

/**
 * How a surface rises at every pixel. The arrays are not copied: whoever makes one hands them over.
 *
 * @param p rise per pixel to the right, row by row
 * @param q rise per pixel up the picture
 */
record Slopes(int widthPx, int heightPx, float[] p, float[] q) {
  Slopes {
    if (p.length != widthPx * heightPx || q.length != p.length) {
      throw new IllegalArgumentException(
          "Slopes of another size than " + widthPx + " x " + heightPx);
    }
  }

  /**
   * The heights, in pixels, whose slopes come nearest to these by least squares, with a mean of 0:
   * Poisson's equation with free edges, solved by cosine transform. (Frankot and Chellappa, IEEE
   * PAMI 10, 1988, project upon periodic functions, which would tie the left edge of a stone to its
   * right one; the cosine transform doesn't: Simchony, Chellappa and Shao, IEEE PAMI 12, 1990.)
   */
  float[] heights() {
    // The transform takes even sizes only.
    int w = widthPx + widthPx % 2;
    int h = heightPx + heightPx % 2;
    float[] divergence = new float[w * h];
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        int o = y * w + x;
        if (x + 1 < w) {
          float step = (p[at(x, y)] + p[at(x + 1, y)]) / 2;
          divergence[o] += step;
          divergence[o + 1] -= step;
        }
        if (y + 1 < h) {
          float step = -(q[at(x, y)] + q[at(x, y + 1)]) / 2;
          divergence[o] += step;
          divergence[o + w] -= step;
        }
      }
    }
    try (NativeScope scope = new NativeScope()) {
      Mat field = scope.mat();
      field.create(h, w, CvType.CV_32F);
      field.put(0, 0, divergence);
      Core.dct(field, field);
      field.get(0, 0, divergence);
      double[] across = eigenvalues(w);
      double[] down = eigenvalues(h);
      for (int y = 0; y < h; y++) {
        for (int x = 0; x < w; x++) {
          double value = across[x] + down[y];
          divergence[y * w + x] = value > 0 ? (float) (divergence[y * w + x] / -value) : 0;
        }
      }
      field.put(0, 0, divergence);
      Core.idct(field, field);
      field.get(0, 0, divergence);
    }
    float[] heights = new float[widthPx * heightPx];
    for (int y = 0; y < heightPx; y++) {
      System.arraycopy(divergence, y * w, heights, y * widthPx, widthPx);
    }
    return heights;
  }

  /** The last column and row stand for what lies beyond them. */
  private int at(int x, int y) {
    return Math.min(y, heightPx - 1) * widthPx + Math.min(x, widthPx - 1);
  }

  /** Of the second difference with free ends: 2 - 2 cos(pi k / n). */
  private static double[] eigenvalues(int n) {
    double[] values = new double[n];
    for (int k = 0; k < n; k++) {
      values[k] = 2 - 2 * Math.cos(Math.PI * k / n);
    }
    return values;
  }
}
