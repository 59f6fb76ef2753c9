package rakelight.relief;

import rakelight.finding.GrayImage;

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
}
