package rakelight.relief;

import rakelight.picture.GrayImage;

/** Pictures drawn pixel by pixel for tests. */
final class Drawn {
  private Drawn() {}

  /** The brightness of a place, 0 black to 255 white. */
  @FunctionalInterface
  interface Brightness {
    double at(double x, double y);
  }

  static GrayImage picture(int widthPx, int heightPx, Brightness brightness) {
    byte[] pixels = new byte[widthPx * heightPx];
    for (int y = 0; y < heightPx; y++) {
      for (int x = 0; x < widthPx; x++) {
        pixels[y * widthPx + x] =
            (byte) Math.max(0, Math.min(255, Math.round(brightness.at(x, y))));
      }
    }
    return new GrayImage(widthPx, heightPx, pixels);
  }

  static boolean within(double x, double y, double left, double top, double right, double bottom) {
    return x >= left && x < right && y >= top && y < bottom;
  }

  /** How high a place stands over the plane, in pixels; y goes down the picture. */
  @FunctionalInterface
  interface Height {
    double at(double x, double y);
  }

  /**
   * A matt surface (Lambert's law, no cast shadows) under one lamp and a little light from
   * everywhere, as a camera writes it; the plane is 128.
   */
  static GrayImage lit(int widthPx, int heightPx, Height height, LightDirection light) {
    return picture(
        widthPx,
        heightPx,
        (x, y) -> {
          double p = (height.at(x + 1, y) - height.at(x - 1, y)) / 2;
          double q = (height.at(x, y - 1) - height.at(x, y + 1)) / 2;
          double facing =
              (light.z() - p * light.x() - q * light.y()) / Math.sqrt(1 + p * p + q * q);
          double brightness = 0.1 + 0.9 * Math.max(0, facing) / light.z();
          return 128 * Math.pow(brightness, 1 / 2.2);
        });
  }

  /**
   * Rings, cut to a V: strokes of every direction.
   *
   * @param depthPx of the middle of the stroke; raised where below 0
   */
  static Height rings(double depthPx) {
    return (x, y) -> {
      double fromMiddle = Math.hypot(nearest(x), nearest(y));
      return -depthPx * Math.max(0, 1 - Math.abs(fromMiddle - RING_PX) / (STROKE_PX / 2));
    };
  }

  /** Rings stand so far apart, middle to middle, the first half as far from the corner. */
  static final int RINGS_APART_PX = 50;

  /** From the middle of a ring to the middle of its stroke. */
  static final double RING_PX = 13;

  private static final double STROKE_PX = 6;

  private static double nearest(double at) {
    return at - RINGS_APART_PX * Math.floor(at / RINGS_APART_PX) - RINGS_APART_PX / 2.0;
  }
}
