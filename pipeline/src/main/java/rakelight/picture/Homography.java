package rakelight.picture;

import java.util.List;

/**
 * A plane seen from two places: maps points of one picture to another, as a 3 x 3 matrix given row
 * by row. Known up to a factor; kept with its last element 1 wherever that isn't 0.
 */
public record Homography(List<Double> rows) {
  public Homography {
    rows = List.copyOf(rows);
    if (rows.size() != 9) {
      throw new IllegalArgumentException("A homography has nine numbers, not " + rows.size());
    }
  }

  /** Leaves every point where it is. */
  public static Homography identity() {
    return of(1, 0, 0, 0, 1, 0, 0, 0, 1);
  }

  public static Homography of(double... m) {
    return new Homography(java.util.Arrays.stream(m).boxed().toList());
  }

  /**
   * Maps a rectangle, its top left corner at 0, 0, onto a quadrilateral (Heckbert, Fundamentals of
   * Texture Mapping and Image Warping, 1989, section 2.2.3).
   *
   * @param corners four, top left first, clockwise
   */
  public static Homography ofRectangle(double width, double height, List<Point> corners) {
    Point a = corners.get(0);
    Point b = corners.get(1);
    Point c = corners.get(2);
    Point d = corners.get(3);
    double sx = a.x() - b.x() + c.x() - d.x();
    double sy = a.y() - b.y() + c.y() - d.y();
    double bx = b.x() - c.x();
    double by = b.y() - c.y();
    double dx = d.x() - c.x();
    double dy = d.y() - c.y();
    double determinant = bx * dy - dx * by;
    double g = (sx * dy - dx * sy) / determinant;
    double h = (bx * sy - sx * by) / determinant;
    Homography fromUnitSquare =
        of(
            b.x() - a.x() + g * b.x(),
            d.x() - a.x() + h * d.x(),
            a.x(),
            b.y() - a.y() + g * b.y(),
            d.y() - a.y() + h * d.y(),
            a.y(),
            g,
            h,
            1);
    return of(1 / width, 0, 0, 0, 1 / height, 0, 0, 0, 1).then(fromUnitSquare);
  }

  /** Where the point lies on the other picture. */
  public Point map(Point p) {
    double w = at(6) * p.x() + at(7) * p.y() + at(8);
    return new Point(
        (at(0) * p.x() + at(1) * p.y() + at(2)) / w, (at(3) * p.x() + at(4) * p.y() + at(5)) / w);
  }

  /** First this one, then the other. */
  public Homography then(Homography other) {
    double[] m = new double[9];
    for (int r = 0; r < 3; r++) {
      for (int c = 0; c < 3; c++) {
        for (int k = 0; k < 3; k++) {
          m[3 * r + c] += other.at(3 * r + k) * at(3 * k + c);
        }
      }
    }
    return of(m).scaled();
  }

  /** The way back. */
  public Homography inverse() {
    double a = at(0), b = at(1), c = at(2), d = at(3), e = at(4), f = at(5);
    double g = at(6), h = at(7), i = at(8);
    double determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
    if (Math.abs(determinant) < 1e-15) {
      throw new IllegalStateException("This homography has no inverse: " + rows);
    }
    return of(
            e * i - f * h,
            c * h - b * i,
            b * f - c * e,
            f * g - d * i,
            a * i - c * g,
            c * d - a * f,
            d * h - e * g,
            b * g - a * h,
            a * e - b * d)
        .scaled();
  }

  private Homography scaled() {
    double last = at(8);
    return last == 0 ? this : new Homography(rows.stream().map(v -> v / last).toList());
  }

  private double at(int i) {
    return rows.get(i);
  }
}
