package rakelight.relief;

/**
 * The direction that light falls along a surface, from one picture: brightness changes most along
 * it (mean structure tensor of the shading; Koenderink and Pont, "Irradiation direction from
 * texture", JOSA A 20(10), 2003). Which of its two ends the light stands at isn't in the picture.
 *
 * @param x to the right, of the unit vector along the direction
 * @param y up
 * @param coherence 0 where no direction stands out, 1 where all brightness changes along one
 */
record ShadingAzimuth(double x, double y, double coherence) {
  /**
   * @param shade row by row
   */
  static ShadingAzimuth of(float[] shade, int widthPx, int heightPx) {
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (int v = 1; v < heightPx - 1; v++) {
      for (int u = 1; u < widthPx - 1; u++) {
        int i = v * widthPx + u;
        double dx = shade[i + 1] - shade[i - 1];
        double dy = shade[i - widthPx] - shade[i + widthPx];
        xx += dx * dx;
        xy += dx * dy;
        yy += dy * dy;
      }
    }
    double spread = Math.hypot(xx - yy, 2 * xy);
    double angle = Math.atan2(2 * xy, xx - yy) / 2;
    return new ShadingAzimuth(
        Math.cos(angle), Math.sin(angle), xx + yy > 0 ? spread / (xx + yy) : 0);
  }
}
