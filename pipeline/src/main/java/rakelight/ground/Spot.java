package rakelight.ground;

/**
 * A place on the ground, taken as flat.
 *
 * @param eastMetres of the plane's origin
 * @param northMetres of the plane's origin
 */
public record Spot(double eastMetres, double northMetres) {
  /** The distance to another. */
  public double metresTo(Spot other) {
    return Math.hypot(eastMetres - other.eastMetres, northMetres - other.northMetres);
  }

  Spot plus(double east, double north) {
    return new Spot(eastMetres + east, northMetres + north);
  }
}
