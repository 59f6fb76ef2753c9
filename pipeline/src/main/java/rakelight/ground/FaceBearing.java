package rakelight.ground;

/**
 * How a carved face stands to the sky.
 *
 * @param bearingDegrees the compass direction it looks to, clockwise from true north
 * @param leanBackDegrees out of upright towards its back: 0 upright, 90 lying face up, negative
 *     where it leans forward
 */
public record FaceBearing(double bearingDegrees, double leanBackDegrees) {
  /**
   * @throws IllegalArgumentException if it would lie face down
   */
  public FaceBearing {
    if (!(leanBackDegrees > -90 && leanBackDegrees <= 90)) {
      throw new IllegalArgumentException(
          "a face leans back by -90 to 90 degrees, not " + leanBackDegrees);
    }
  }

  /**
   * How high the sun stands above the face itself: 90 degrees straight in front, 0 along it,
   * negative behind it. The incidence formula of J. A. Duffie and W. A. Beckman, Solar Engineering
   * of Thermal Processes, with the angle taken from the face instead of from its normal.
   */
  public double heightOf(SunPosition sun) {
    double altitude = Math.toRadians(sun.altitudeDegrees());
    double slope = Math.toRadians(90 - leanBackDegrees);
    double apart = Math.toRadians(sun.azimuthDegrees() - bearingDegrees);
    double sine =
        Math.sin(altitude) * Math.cos(slope)
            + Math.cos(altitude) * Math.sin(slope) * Math.cos(apart);
    return Math.toDegrees(Math.asin(Math.max(-1, Math.min(1, sine))));
  }
}
