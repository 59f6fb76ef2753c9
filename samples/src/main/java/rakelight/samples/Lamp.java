package rakelight.samples;

/**
 * Light on a face: one distant source and the sky.
 *
 * @param azimuthDegrees compass bearing of the source, clockwise from true north
 * @param elevationDegrees height of the source above the horizon, -90 to 90
 * @param sun strength of the source against full sun, 0 (overcast or shade) to 1
 * @param sky strength of the light from everywhere, about 0.12 for a lamp at dusk, 0.3 under a
 *     clear sky, 1 under cloud
 * @param dappled whether leaves break the light up
 */
public record Lamp(
    double azimuthDegrees, double elevationDegrees, double sun, double sky, boolean dappled) {
  public Lamp {
    if (!(elevationDegrees >= -90 && elevationDegrees <= 90) || sun < 0 || sky < 0) {
      throw new IllegalArgumentException(
          "Light: elevation must be -90 to 90 degrees, strengths not negative");
    }
    azimuthDegrees = (azimuthDegrees % 360 + 360) % 360;
  }

  /**
   * The unit vector towards the source in the face's frame: x to the viewer's right, y up the face,
   * z out of it. An upright face looks to its bearing; a lying one looks up and its foot points to
   * the bearing.
   */
  public double[] inFrameOf(SampleFace face) {
    double a = Math.toRadians(azimuthDegrees);
    double e = Math.toRadians(elevationDegrees);
    double east = Math.cos(e) * Math.sin(a);
    double north = Math.cos(e) * Math.cos(a);
    double up = Math.sin(e);
    double b = Math.toRadians(face.bearingDegrees());
    double right = -east * Math.cos(b) + north * Math.sin(b);
    double towards = east * Math.sin(b) + north * Math.cos(b);
    return face.stone().lying()
        ? new double[] {right, -towards, up}
        : new double[] {right, up, towards};
  }

  /**
   * A lamp beside a face.
   *
   * @param aroundDegrees direction in the face's plane, clockwise as the viewer sees it from the
   *     top
   * @param grazingDegrees angle above the face's plane, 5 to 20 for raking light
   */
  public static Lamp raking(SampleFace face, double aroundDegrees, double grazingDegrees) {
    double a = Math.toRadians(aroundDegrees);
    double g = Math.toRadians(grazingDegrees);
    double x = Math.cos(g) * Math.sin(a);
    double y = Math.cos(g) * Math.cos(a);
    double z = Math.sin(g);
    double b = Math.toRadians(face.bearingDegrees());
    double towards = face.stone().lying() ? -y : z;
    double up = face.stone().lying() ? z : y;
    double east = -x * Math.cos(b) + towards * Math.sin(b);
    double north = x * Math.sin(b) + towards * Math.cos(b);
    return new Lamp(
        Math.toDegrees(Math.atan2(east, north)),
        Math.toDegrees(Math.asin(Math.max(-1, Math.min(1, up)))),
        0.85,
        0.10,
        false);
  }
}
