package rakelight.picture;

import java.util.List;
import java.util.function.UnaryOperator;

/** A closed outline of at least three points; the last joins the first. */
public record Polygon(List<Point> points) {
  public Polygon {
    points = List.copyOf(points);
    if (points.size() < 3) {
      throw new IllegalArgumentException(
          "A polygon has at least three points, not " + points.size());
    }
  }

  /** The rectangle with these corners, from the top left one clockwise. */
  public static Polygon rectangle(double left, double top, double right, double bottom) {
    return new Polygon(
        List.of(
            new Point(left, top),
            new Point(right, top),
            new Point(right, bottom),
            new Point(left, bottom)));
  }

  /** The same outline with every point moved. */
  public Polygon map(UnaryOperator<Point> move) {
    return new Polygon(points.stream().map(move).toList());
  }

  /** The mean of the corners. */
  public Point centre() {
    return new Point(
        points.stream().mapToDouble(Point::x).average().orElseThrow(),
        points.stream().mapToDouble(Point::y).average().orElseThrow());
  }

  public double left() {
    return points.stream().mapToDouble(Point::x).min().orElseThrow();
  }

  public double right() {
    return points.stream().mapToDouble(Point::x).max().orElseThrow();
  }

  public double top() {
    return points.stream().mapToDouble(Point::y).min().orElseThrow();
  }

  public double bottom() {
    return points.stream().mapToDouble(Point::y).max().orElseThrow();
  }

  /** The area in square pixels, never negative. */
  public double area() {
    double twice = 0;
    for (int i = 0; i < points.size(); i++) {
      Point a = points.get(i);
      Point b = points.get((i + 1) % points.size());
      twice += a.x() * b.y() - b.x() * a.y();
    }
    return Math.abs(twice) / 2;
  }

  /** Whether the point lies inside (even-odd rule). */
  public boolean contains(Point p) {
    boolean inside = false;
    for (int i = 0, j = points.size() - 1; i < points.size(); j = i++) {
      Point a = points.get(i);
      Point b = points.get(j);
      if ((a.y() > p.y()) != (b.y() > p.y())
          && p.x() < (b.x() - a.x()) * (p.y() - a.y()) / (b.y() - a.y()) + a.x()) {
        inside = !inside;
      }
    }
    return inside;
  }
}
