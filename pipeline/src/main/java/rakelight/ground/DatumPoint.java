package rakelight.ground;

/**
 * A point that tapes are held to: a gate post, the corner of a wall.
 *
 * @param name as people call it
 * @param latitudeDegrees WGS 84, north positive
 * @param longitudeDegrees WGS 84, east positive
 * @param errorMetres standard error of east and north each; 0 for the datum itself, from which all
 *     else is measured
 */
public record DatumPoint(
    String name, double latitudeDegrees, double longitudeDegrees, double errorMetres) {
  /** How people name the ground's own datum point. */
  public static final String DATUM = "datum";

  /**
   * @throws IllegalArgumentException if it has no name or isn't on the globe
   */
  public DatumPoint {
    if (name.isBlank() || name.contains("=") || name.contains(";")) {
      throw new IllegalArgumentException("a point needs a name, without = and ;");
    }
    if (!(Math.abs(latitudeDegrees) <= 90)
        || !(Math.abs(longitudeDegrees) <= 180)
        || !(errorMetres >= 0)) {
      throw new IllegalArgumentException("point " + name + " is not on the globe; give LAT,LON");
    }
  }
}
