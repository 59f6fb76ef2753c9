package rakelight.relief;

import java.util.Optional;
import rakelight.photo.Light;

/**
 * The unit vector from a face towards its light, as somebody in front of the face sees it.
 *
 * @param x to the viewer's right
 * @param y up the face
 * @param z out of the face, above 0: a light behind the face doesn't reach it
 */
public record LightDirection(double x, double y, double z) {
  /** A light nearer to the plane of the face than this touches nothing but bumps: sin 1 degree. */
  private static final double SMALLEST_Z = 0.017;

  /**
   * Scales the vector to length 1.
   *
   * @throws IllegalArgumentException if the light doesn't stand in front of the face
   */
  public LightDirection {
    double length = Math.sqrt(x * x + y * y + z * z);
    if (!(length > 0) || !(z / length >= SMALLEST_Z)) {
      throw new IllegalArgumentException(
          "A light must stand in front of the face: " + x + ", " + y + ", " + z);
    }
    x /= length;
    y /= length;
    z /= length;
  }

  /**
   * A light held beside a face.
   *
   * @param aroundDegrees where it stands, clockwise from the top as the viewer sees it
   * @param grazingDegrees how far above the plane of the face, 1 to 90; 90 is straight in front
   */
  public static LightDirection raking(double aroundDegrees, double grazingDegrees) {
    double around = Math.toRadians(aroundDegrees);
    double grazing = Math.toRadians(grazingDegrees);
    return new LightDirection(
        Math.cos(grazing) * Math.sin(around),
        Math.cos(grazing) * Math.cos(around),
        Math.sin(grazing));
  }

  /**
   * The light of a photograph of an upright face.
   *
   * @param bearingDegrees the direction the face looks to, clockwise from true north
   * @return empty if its elevation isn't known or it stands behind the face
   */
  public static Optional<LightDirection> of(Light light, double bearingDegrees) {
    if (light.elevationDegrees().isEmpty()) {
      return Optional.empty();
    }
    double elevation = Math.toRadians(light.elevationDegrees().get());
    double fromNormal = Math.toRadians(light.azimuthDegrees() - bearingDegrees);
    double towards = Math.cos(elevation) * Math.cos(fromNormal);
    if (towards < SMALLEST_Z) {
      return Optional.empty();
    }
    // What lies clockwise of the bearing lies to the left of somebody who looks at the face.
    return Optional.of(
        new LightDirection(
            -Math.cos(elevation) * Math.sin(fromNormal), Math.sin(elevation), towards));
  }

  /** Where it stands around the face, clockwise from the top, 0 to 360. */
  public double aroundDegrees() {
    double degrees = Math.toDegrees(Math.atan2(x, y));
    return degrees < 0 ? degrees + 360 : degrees;
  }

  /** How far it stands above the plane of the face, 1 to 90 degrees. */
  public double grazingDegrees() {
    return Math.toDegrees(Math.asin(Math.min(1, z)));
  }

  /** The angle to another direction in degrees. */
  public double angleTo(LightDirection other) {
    double cosine = x * other.x + y * other.y + z * other.z;
    return Math.toDegrees(Math.acos(Math.max(-1, Math.min(1, cosine))));
  }
}
