package rakelight.relief;

/**
 * Where the light of one photograph stands beside the stone, as the shading of its letters tells.
 *
 * <p>Across a cut the flank next to the light lies in shade and the far one is bright. The step
 * from one to the other, in the middle of the stroke, is steeper than the two at its edges, so the
 * gradients of brightness are skewed: the steep ones point away from the light. Their third moment,
 * the sum of |g|² g, is a vector along that direction. The second moment (Koenderink and Pont,
 * "Irradiation direction from texture", JOSA A 20(10), 2003; see {@link ShadingAzimuth}) knows only
 * the line that light falls along, and leans to sideways because letters have more upright strokes
 * than level ones; the third moment has a sign and, measured, half the error. It is our own.
 *
 * <p>What stays open is whether letters are cut or raised: a raised letter under a light from below
 * looks like a cut one under a light from above. Stated here as if they were cut; {@link Lettering}
 * settles it.
 *
 * <p>Limits: stains and paint count as shading; they have no side and mostly cancel. Light from
 * straight in front or from everywhere gives a direction by chance, with little strength.
 *
 * @param x to the viewer's right, of the unit vector in the plane of the face towards the light, if
 *     letters are cut; away from it if they are raised
 * @param y up the face
 * @param strength how much of the steepness points one way: 0 none, 1 all. Rendered stones: 0.1 to
 *     0.4 under raking light, under 0.08 in shade
 */
public record SideLight(double x, double y, double strength) {
  /** Weaker than this there is no side that light comes from. */
  public static final double WEAKEST = 0.05;

  /**
   * Finds it.
   *
   * @param shade brightness over the plane's in linear light without its grain, row by row
   * @param where which places to look at
   */
  static SideLight of(float[] shade, int width, int height, boolean[] where) {
    double right = 0;
    double up = 0;
    double all = 0;
    for (int v = 1; v < height - 1; v++) {
      for (int u = 1; u < width - 1; u++) {
        int i = v * width + u;
        if (!where[i]) {
          continue;
        }
        double dx = shade[i + 1] - shade[i - 1];
        double dy = shade[i - width] - shade[i + width];
        double square = dx * dx + dy * dy;
        right += square * dx;
        up += square * dy;
        all += square * Math.sqrt(square);
      }
    }
    double length = Math.hypot(right, up);
    // A plane of one brightness has no gradients at all.
    return length > 0 ? new SideLight(-right / length, -up / length, length / all) : ABOVE;
  }

  private static final SideLight ABOVE = new SideLight(0, 1, 0);

  /** Whether any side stands out. */
  public boolean rakes() {
    return strength >= WEAKEST;
  }

  /** Where the light stands if letters are cut: clockwise from the top as the viewer sees it. */
  public double aroundDegrees() {
    return Math.toDegrees(Math.atan2(x, y));
  }

  /** The light on the other side. */
  SideLight opposite() {
    return new SideLight(-x, -y, strength);
  }
}
