package rakelight.finding;

import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * One line of letters as found on a picture.
 *
 * @param ribbon n points along the top of the letters from left to right, then n along their foot
 *     from right to left; n is at least 2, so four points make a straight line
 * @param heightPx the height of its capitals, in pixels of the picture
 * @param score how sure the finder is, 0 to 1
 */
public record FoundLine(Polygon ribbon, double heightPx, double score) {
  public FoundLine {
    int points = ribbon.points().size();
    if (points < 4 || points % 2 != 0) {
      throw new IllegalArgumentException(
          "A ribbon has an even number of points, 4 or more, not " + points);
    }
    if (!(heightPx > 0)) {
      throw new IllegalArgumentException("A line's height is more than 0, not " + heightPx);
    }
  }

  /**
   * A line drawn along the middle of its letters.
   *
   * @param middle two points or more in reading order, each elsewhere than the one before
   * @param heightPx the height of its capitals
   */
  public static FoundLine along(List<Point> middle, double heightPx) {
    List<Point> ribbon = new ArrayList<>();
    int last = middle.size() - 1;
    for (int i = 0; i <= last; i++) {
      ribbon.add(aside(middle, i, -heightPx / 2));
    }
    for (int i = last; i >= 0; i--) {
      ribbon.add(aside(middle, i, heightPx / 2));
    }
    return new FoundLine(new Polygon(ribbon), heightPx, 1);
  }

  /**
   * Two lines as one; its height and score are theirs, each counting by its length.
   *
   * @param top points along the top of both, from left to right
   * @param foot as many along their foot, from left to right too
   */
  public static FoundLine joined(FoundLine a, FoundLine b, List<Point> top, List<Point> foot) {
    List<Point> ribbon = new ArrayList<>(top);
    for (int i = foot.size() - 1; i >= 0; i--) {
      ribbon.add(foot.get(i));
    }
    double lengths = a.lengthPx() + b.lengthPx();
    return new FoundLine(
        new Polygon(ribbon),
        (a.heightPx() * a.lengthPx() + b.heightPx() * b.lengthPx()) / lengths,
        (a.score() * a.lengthPx() + b.score() * b.lengthPx()) / lengths);
  }

  /** A point so far below the middle, square to the way there. */
  private static Point aside(List<Point> middle, int at, double byPx) {
    Point from = middle.get(Math.max(0, at - 1));
    Point to = middle.get(Math.min(middle.size() - 1, at + 1));
    double length = Math.max(1e-6, from.distance(to));
    Point p = middle.get(at);
    return new Point(
        p.x() - byPx * (to.y() - from.y()) / length, p.y() + byPx * (to.x() - from.x()) / length);
  }

  /** The points along the top, left to right. */
  public List<Point> top() {
    List<Point> points = ribbon.points();
    return points.subList(0, points.size() / 2);
  }

  /** The points along the foot, left to right, one under each of the top. */
  public List<Point> foot() {
    List<Point> points =
        new ArrayList<>(
            ribbon.points().subList(ribbon.points().size() / 2, ribbon.points().size()));
    java.util.Collections.reverse(points);
    return List.copyOf(points);
  }

  /** The line through the middle of the letters, left to right. */
  public List<Point> middle() {
    List<Point> top = top();
    List<Point> foot = foot();
    List<Point> middle = new ArrayList<>();
    for (int i = 0; i < top.size(); i++) {
      middle.add(top.get(i).towards(foot.get(i), 0.5));
    }
    return List.copyOf(middle);
  }

  /** The same line with every point moved; the height of its letters stays. */
  public FoundLine map(UnaryOperator<Point> move) {
    return new FoundLine(ribbon.map(move), heightPx, score);
  }

  /** The length along the middle, in pixels. */
  public double lengthPx() {
    List<Point> middle = middle();
    double length = 0;
    for (int i = 1; i < middle.size(); i++) {
      length += middle.get(i - 1).distance(middle.get(i));
    }
    return length;
  }
}
