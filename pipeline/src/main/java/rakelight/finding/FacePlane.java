package rakelight.finding;

import java.util.ArrayList;
import java.util.List;
import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * How the plane of an inscribed face stands to the camera, worked out from its lines: level lines
 * run towards one vanishing point and stems towards another (Hartley and Zisserman, Multiple View
 * Geometry, 2nd edition, chapter 8; from memory), and letters grow towards the camera.
 *
 * <p>The camera is a pinhole that looks at the middle of the picture through an assumed lens, and
 * is held level or upright, so that stems in the middle stay plumb: then lines that fall or rise
 * tell how far above or below it stands. Three angles say all. They are held towards a view from in
 * front; little evidence leaves them there, and without straight lines that is what comes out.
 */
final class FacePlane {
  /**
   * Focal length against the picture's diagonal: 32 mm in a 24 x 36 mm frame (common practice for
   * telephones, no source). A lens of 25 or 50 mm costs some per cent in proportions.
   */
  private static final double FOCAL_DIAGONALS = 32 / 43.27;

  /** How far from in front photographs are usually taken. */
  private static final double USUAL_RADIANS = Math.toRadians(25);

  /** How far cameras are held from level or upright (common practice, no source). */
  private static final double HELD_RADIANS = Math.toRadians(4);

  private static final double LARGEST_RADIANS = Math.toRadians(65);

  private static final int MOST_STEPS = 20;

  /** How far a line's middle strays from where it was cut to stand. */
  private static final double LEVEL_RADIANS = Math.toRadians(0.4);

  private static final double CORE_CAPITALS = 0.08;

  /** Fewer straight lines tell how the face is turned and no more. */
  private static final int FEWEST_LINES = 3;

  private static final double STRAIGHT_CAPITALS = 0.15;

  /** The finder follows how letters grow along lines longer than this, and how well. */
  private static final double GROWING_CAPITALS = 6;

  private static final double GROWTH_DEVIATION = 0.12;

  private final double centreX;
  private final double centreY;
  private final double focalPx;
  private final double roll;

  /** The reading direction, along the camera's axes right, down and ahead. */
  private final double[] right;

  /** Down the stone, likewise. */
  private final double[] down;

  /** Something seen on the picture that tells of the plane. */
  sealed interface Witness {
    /** How far the plane's pose is from what was seen, in standard deviations of seeing. */
    double strays(FacePlane plane);
  }

  /**
   * A line of letters.
   *
   * @param radians how well its direction is known
   */
  record Run(Point from, Point to, double radians) implements Witness {
    @Override
    public double strays(FacePlane plane) {
      Point d = plane.along(from.towards(to, 0.5), plane.right);
      double x = to.x() - from.x();
      double y = to.y() - from.y();
      return Math.atan2(d.x() * y - d.y() * x, d.x() * x + d.y() * y) / radians;
    }
  }

  /**
   * How letters grow along a line.
   *
   * @param logRatio natural logarithm of their height at the end by that at the beginning
   * @param deviation how well it is known
   */
  record Growth(Point from, Point to, double logRatio, double deviation) implements Witness {
    @Override
    public double strays(FacePlane plane) {
      return (Math.log(plane.heightAt(to) / plane.heightAt(from)) - logRatio) / deviation;
    }
  }

  /** How cameras are held: level or upright, by quarters. Leaning stones lie aside of this. */
  record Held() implements Witness {
    @Override
    public double strays(FacePlane plane) {
      double quarters = plane.roll / (Math.PI / 2);
      return (quarters - Math.rint(quarters)) * (Math.PI / 2) / HELD_RADIANS;
    }
  }

  private FacePlane(int widthPx, int heightPx, double yaw, double pitch, double roll) {
    this.centreX = widthPx / 2.0;
    this.centreY = heightPx / 2.0;
    this.focalPx = focalPx(widthPx, heightPx);
    double cy = Math.cos(yaw);
    double sy = Math.sin(yaw);
    double cp = Math.cos(pitch);
    double sp = Math.sin(pitch);
    // Stems stay plumb on the picture unless the camera is turned about its own axis.
    this.roll = roll;
    this.right = rolled(new double[] {cy, -sy * sp, sy * cp}, roll);
    this.down = rolled(new double[] {0, cp, sp}, roll);
  }

  private static double focalPx(int widthPx, int heightPx) {
    return FOCAL_DIAGONALS * Math.hypot(widthPx, heightPx);
  }

  private static double[] rolled(double[] v, double roll) {
    double c = Math.cos(roll);
    double s = Math.sin(roll);
    return new double[] {c * v[0] - s * v[1], s * v[0] + c * v[1], v[2]};
  }

  /**
   * The plane that agrees best with the lines; those that stray count little (Cauchy's loss).
   *
   * @param widthPx of the picture
   * @param heightPx of the picture
   */
  static FacePlane of(int widthPx, int heightPx, List<FoundLine> lines) {
    // How the camera is held counts as much as two lines.
    List<Witness> witnesses = new ArrayList<>(List.of(new Held(), new Held()));
    lines.forEach(line -> witnesses.addAll(told(line)));
    double rollRadians = roll(lines);
    double[] best = {0, 0, rollRadians};
    if (lines.stream().filter(FacePlane::straight).count() < FEWEST_LINES) {
      return new FacePlane(widthPx, heightPx, 0, 0, rollRadians);
    }
    double least = Double.MAX_VALUE;
    for (double yaw : new double[] {-0.6, 0, 0.6}) {
      for (double pitch : new double[] {-0.4, 0, 0.4}) {
        double[] pose =
            settled(widthPx, heightPx, new double[] {yaw, pitch, rollRadians}, witnesses);
        double cost = cost(widthPx, heightPx, pose, witnesses);
        if (cost < least) {
          least = cost;
          best = pose;
        }
      }
    }
    return new FacePlane(widthPx, heightPx, best[0], best[1], best[2]);
  }

  /** How far lines are turned clockwise on average, each counted by its length. */
  private static double roll(List<FoundLine> lines) {
    double x = 0;
    double y = 0;
    for (FoundLine line : lines) {
      List<Point> middle = line.middle();
      x += middle.get(middle.size() - 1).x() - middle.get(0).x();
      y += middle.get(middle.size() - 1).y() - middle.get(0).y();
    }
    return Math.atan2(y, x);
  }

  /** Gauss and Newton's steps, shortened where they don't help. */
  private static double[] settled(
      int widthPx, int heightPx, double[] from, List<Witness> witnesses) {
    double[] pose = from;
    double cost = cost(widthPx, heightPx, pose, witnesses);
    for (int step = 0; step < MOST_STEPS; step++) {
      double[] way = way(widthPx, heightPx, pose, witnesses);
      double part = 1;
      double[] next = pose;
      double nextCost = Double.MAX_VALUE;
      while (part > 0.05 && nextCost >= cost) {
        next = moved(pose, way, part);
        nextCost = cost(widthPx, heightPx, next, witnesses);
        part /= 2;
      }
      if (nextCost >= cost - 1e-9) {
        return pose;
      }
      pose = next;
      cost = nextCost;
    }
    return pose;
  }

  private static double[] moved(double[] pose, double[] way, double part) {
    double[] next = new double[3];
    for (int i = 0; i < 3; i++) {
      next[i] = pose[i] + part * way[i];
    }
    next[0] = Math.max(-LARGEST_RADIANS, Math.min(LARGEST_RADIANS, next[0]));
    next[1] = Math.max(-LARGEST_RADIANS, Math.min(LARGEST_RADIANS, next[1]));
    return next;
  }

  private static double cost(int widthPx, int heightPx, double[] pose, List<Witness> witnesses) {
    FacePlane plane = new FacePlane(widthPx, heightPx, pose[0], pose[1], pose[2]);
    double cost = (pose[0] * pose[0] + pose[1] * pose[1]) / (USUAL_RADIANS * USUAL_RADIANS);
    for (Witness witness : witnesses) {
      double strays = witness.strays(plane);
      cost += Math.log1p(strays * strays);
    }
    return cost;
  }

  private static double[] way(int widthPx, int heightPx, double[] pose, List<Witness> witnesses) {
    double[][] normal = new double[3][4];
    for (int i = 0; i < 2; i++) {
      normal[i][i] = 1 / (USUAL_RADIANS * USUAL_RADIANS);
      normal[i][3] = -pose[i] / (USUAL_RADIANS * USUAL_RADIANS);
    }
    normal[2][2] = 1e-6;
    double step = 1e-4;
    FacePlane here = new FacePlane(widthPx, heightPx, pose[0], pose[1], pose[2]);
    FacePlane[] aside = new FacePlane[3];
    for (int i = 0; i < 3; i++) {
      double[] p = pose.clone();
      p[i] += step;
      aside[i] = new FacePlane(widthPx, heightPx, p[0], p[1], p[2]);
    }
    for (Witness witness : witnesses) {
      double strays = witness.strays(here);
      double weight = 1 / (1 + strays * strays);
      double[] slope = new double[3];
      for (int i = 0; i < 3; i++) {
        slope[i] = (witness.strays(aside[i]) - strays) / step;
      }
      for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
          normal[i][j] += weight * slope[i] * slope[j];
        }
        normal[i][3] -= weight * slope[i] * strays;
      }
    }
    return solved(normal);
  }

  /** Gauss's elimination; the matrix is positive definite, so no rows need to be swapped. */
  private static double[] solved(double[][] m) {
    for (int i = 0; i < 3; i++) {
      for (int k = i + 1; k < 3; k++) {
        double f = m[k][i] / m[i][i];
        for (int j = i; j < 4; j++) {
          m[k][j] -= f * m[i][j];
        }
      }
    }
    double[] x = new double[3];
    for (int i = 2; i >= 0; i--) {
      double sum = m[i][3];
      for (int j = i + 1; j < 3; j++) {
        sum -= m[i][j] * x[j];
      }
      x[i] = sum / m[i][i];
    }
    return x;
  }

  /** How a small step along an axis of the plane, at depth 1, shows on the picture. */
  private Point along(Point at, double[] v) {
    return new Point(
        focalPx * v[0] - (at.x() - centreX) * v[2], focalPx * v[1] - (at.y() - centreY) * v[2]);
  }

  /** How near the plane is where it's seen at a point, up to a factor. */
  private double nearness(Point at) {
    double[] inwards = {
      right[1] * down[2] - right[2] * down[1],
      right[2] * down[0] - right[0] * down[2],
      right[0] * down[1] - right[1] * down[0]
    };
    double x = (at.x() - centreX) / focalPx;
    double y = (at.y() - centreY) / focalPx;
    return Math.max(1e-6, inwards[0] * x + inwards[1] * y + inwards[2]);
  }

  /** The height of letters of one size at a point, across the line, up to a factor. */
  private double heightAt(Point at) {
    Point level = along(at, right);
    Point plumb = along(at, down);
    double across =
        (level.x() * plumb.y() - level.y() * plumb.x()) / Math.hypot(level.x(), level.y());
    return nearness(at) * Math.max(1e-6, across);
  }

  /**
   * From the plane to the picture: the point lies at the plane's origin, and one unit there is one
   * pixel as seen from in front.
   */
  Homography toPicture(Point origin) {
    return Homography.of(
        right[0] + centreX * right[2] / focalPx,
        down[0] + centreX * down[2] / focalPx,
        origin.x(),
        right[1] + centreY * right[2] / focalPx,
        down[1] + centreY * down[2] / focalPx,
        origin.y(),
        right[2] / focalPx,
        down[2] / focalPx,
        1);
  }

  /** What a line tells; nothing if it is bent. */
  private static List<Witness> told(FoundLine line) {
    if (!straight(line)) {
      return List.of();
    }
    List<Point> middle = line.middle();
    int last = middle.size() - 1;
    Point from = middle.get(0);
    Point to = middle.get(last);
    double capitals = Math.max(1, from.distance(to) / line.heightPx());
    List<Witness> told = new ArrayList<>();
    told.add(new Run(from, to, Math.hypot(LEVEL_RADIANS, CORE_CAPITALS / capitals)));
    if (capitals > GROWING_CAPITALS) {
      double begins = line.top().get(0).distance(line.foot().get(0));
      double ends = line.top().get(last).distance(line.foot().get(last));
      told.add(new Growth(from, to, Math.log(ends / begins), GROWTH_DEVIATION));
    }
    return told;
  }

  private static boolean straight(FoundLine line) {
    List<Point> middle = line.middle();
    Point first = middle.get(0);
    Point last = middle.get(middle.size() - 1);
    double length = Math.max(1e-6, first.distance(last));
    return middle.stream()
        .mapToDouble(
            p ->
                (last.x() - first.x()) * (p.y() - first.y())
                    - (last.y() - first.y()) * (p.x() - first.x()))
        .allMatch(aside -> Math.abs(aside) / length <= STRAIGHT_CAPITALS * line.heightPx());
  }

  /**
   * The line with its ribbon as a level band of the plane is seen: its ends stand as stems do and
   * it narrows away from the camera. A bent line is left as it is.
   */
  FoundLine banded(FoundLine line) {
    if (!straight(line)) {
      return line;
    }
    Homography toPicture = toPicture(line.ribbon().centre());
    Homography toPlane = toPicture.inverse();
    List<Point> middle = line.middle().stream().map(toPlane::map).toList();
    double heights = 0;
    for (int i = 0; i < middle.size(); i++) {
      heights += line.top().get(i).distance(line.foot().get(i)) / heightAt(line.middle().get(i));
    }
    double half = heights / middle.size() / 2 * nearness(line.ribbon().centre()) * focalPx;
    List<Point> ribbon = new ArrayList<>();
    middle.forEach(p -> ribbon.add(toPicture.map(new Point(p.x(), p.y() - half))));
    for (int i = middle.size() - 1; i >= 0; i--) {
      Point p = middle.get(i);
      ribbon.add(toPicture.map(new Point(p.x(), p.y() + half)));
    }
    return new FoundLine(new Polygon(ribbon), line.heightPx(), line.score());
  }

  /** Width by height of a rectangle of the plane whose corners are seen there, clockwise. */
  double proportion(List<Point> corners) {
    Homography toPlane = toPicture(corners.get(0)).inverse();
    List<Point> there = corners.stream().map(toPlane::map).toList();
    return there.get(0).distance(there.get(1)) / there.get(0).distance(there.get(3));
  }
}
