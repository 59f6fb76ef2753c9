package rakelight.relief;

import java.util.List;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;
import rakelight.picture.NativeScope;

/**
 * Shape from the shading of one picture (Pentland, "Linear shape from shading", IJCV 4, 1990):
 * under raking light brightness follows the slope towards the light, so the height is its integral
 * along that direction, taken frequency by frequency.
 *
 * <p>Limits: what runs along the light casts no shade and doesn't show; stains count as shape.
 */
final class LinearShading {
  /** Shapes longer along the light than so many letter heights are damped. */
  private static final double LONGEST_HEIGHTS = 2;

  private LinearShading() {}

  /**
   * Heights in pixels.
   *
   * @param shade brightness over the plane's, in parts of it, row by row
   * @param x how much one unit of slope to the right darkens: the light's x / z
   * @param y the same upwards: its y / z
   */
  static float[] heights(
      float[] shade, int widthPx, int heightPx, double x, double y, double capitalPx) {
    try (NativeScope scope = new NativeScope()) {
      Mat plain = scope.own(new Mat(heightPx, widthPx, CvType.CV_32F));
      plain.put(0, 0, shade);
      int w = Core.getOptimalDFTSize(widthPx);
      int h = Core.getOptimalDFTSize(heightPx);
      Mat padded = scope.mat();
      Core.copyMakeBorder(
          plain, padded, 0, h - heightPx, 0, w - widthPx, Core.BORDER_CONSTANT, new Scalar(0));
      Mat planes = scope.mat();
      Core.merge(List.of(padded, scope.own(Mat.zeros(h, w, CvType.CV_32F))), planes);
      Core.dft(planes, planes);
      float[] f = new float[2 * w * h];
      planes.get(0, 0, f);
      double strength = Math.hypot(x, y);
      double damping = Math.pow(strength * 2 * Math.PI / (LONGEST_HEIGHTS * capitalPx), 2);
      for (int v = 0; v < h; v++) {
        // Upwards is against the rows.
        double fy = -2 * Math.PI * (v <= h / 2 ? v : v - h) / h;
        for (int u = 0; u < w; u++) {
          double fx = 2 * Math.PI * (u <= w / 2 ? u : u - w) / w;
          // shade = -(x p + y q), and a slope is i f times the height.
          double factor = -(x * fx + y * fy);
          double gain = factor / (factor * factor + damping);
          int i = 2 * (v * w + u);
          double re = f[i];
          f[i] = (float) (f[i + 1] * gain);
          f[i + 1] = (float) (-re * gain);
        }
      }
      planes.put(0, 0, f);
      Core.dft(planes, planes, Core.DFT_INVERSE | Core.DFT_SCALE);
      planes.get(0, 0, f);
      float[] heights = new float[widthPx * heightPx];
      for (int row = 0; row < heightPx; row++) {
        for (int column = 0; column < widthPx; column++) {
          heights[row * widthPx + column] = f[2 * (row * w + column)];
        }
      }
      return heights;
    }
  }
}
