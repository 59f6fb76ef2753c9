package rakelight.picture;

/** A place on a picture in pixels, x to the right, y downwards. */
public record Point(double x, double y) {
  /** The distance to another point, in pixels. */
  public double distance(Point other) {
    return Math.hypot(x - other.x, y - other.y);
  }

  /** The point a part of the way (0 to 1) to another. */
  public Point towards(Point other, double part) {
    return new Point(x + (other.x - x) * part, y + (other.y - y) * part);
  }
}
