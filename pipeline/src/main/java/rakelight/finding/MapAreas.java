package rakelight.finding;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/** Connected areas of one of the line finder's maps, in pixels of the network's input. */
final class MapAreas {
  private static final double THRESHOLD = 0.5;

  private static final double SURE = 0.9;

  /** A face smaller than this part of the picture isn't believed. */
  private static final double SMALLEST_FACE = 0.02;

  /** An emblem smaller than this part of the picture is a speck. */
  private static final double SMALLEST_EMBLEM = 0.001;

  /** Another stone smaller than this part of the picture is too far away to matter. */
  private static final double SMALLEST_OTHER = 0.005;

  private MapAreas() {}

  /**
   * Cells of the areas that look like an inscribed face, the largest first. Grass between two
   * stones may look a little like both: each area begins where the network is sure and takes the
   * rest from there.
   */
  static List<List<Integer>> faces(LineMaps maps) {
    List<List<Integer>> areas = areas(maps, LineMaps.FACE, SURE, SMALLEST_FACE);
    boolean[] taken = new boolean[maps.cells()];
    ArrayDeque<Integer> queue = new ArrayDeque<>();
    int[] areaOf = new int[maps.cells()];
    for (int k = 0; k < areas.size(); k++) {
      for (int cell : areas.get(k)) {
        taken[cell] = true;
        areaOf[cell] = k;
        queue.add(cell);
      }
    }
    while (!queue.isEmpty()) {
      int cell = queue.remove();
      for (int next : beside(maps, cell)) {
        if (!taken[next] && maps.at(LineMaps.FACE, next) >= THRESHOLD) {
          taken[next] = true;
          areaOf[next] = areaOf[cell];
          areas.get(areaOf[cell]).add(next);
          queue.add(next);
        }
      }
    }
    areas.sort(Comparator.comparingInt((List<Integer> area) -> area.size()).reversed());
    return areas;
  }

  /** Convex outlines of the emblems, the largest first. */
  static List<Polygon> emblems(LineMaps maps) {
    return outlines(maps, LineMaps.EMBLEM, SMALLEST_EMBLEM);
  }

  /** Convex outlines of bare stones beside the inscribed one, the largest first. */
  static List<Polygon> otherStones(LineMaps maps) {
    return outlines(maps, LineMaps.OTHER, SMALLEST_OTHER);
  }

  private static List<Polygon> outlines(LineMaps maps, int map, double smallest) {
    List<Polygon> outlines = new ArrayList<>();
    for (List<Integer> area : areas(maps, map, THRESHOLD, smallest)) {
      List<Point> hull = hull(maps, area);
      if (hull.size() >= 3) {
        outlines.add(new Polygon(hull));
      }
    }
    return outlines;
  }

  /** Areas of at least this part of the picture, the largest first. */
  private static List<List<Integer>> areas(LineMaps maps, int map, double least, double smallest) {
    boolean[] seen = new boolean[maps.cells()];
    List<List<Integer>> areas = new ArrayList<>();
    for (int start = 0; start < maps.cells(); start++) {
      if (seen[start] || maps.at(map, start) < least) {
        continue;
      }
      List<Integer> area = new ArrayList<>();
      ArrayDeque<Integer> queue = new ArrayDeque<>(List.of(start));
      seen[start] = true;
      while (!queue.isEmpty()) {
        int cell = queue.remove();
        area.add(cell);
        for (int next : beside(maps, cell)) {
          if (!seen[next] && maps.at(map, next) >= least) {
            seen[next] = true;
            queue.add(next);
          }
        }
      }
      if (area.size() >= smallest * maps.cells()) {
        areas.add(area);
      }
    }
    areas.sort(Comparator.comparingInt((List<Integer> area) -> area.size()).reversed());
    return areas;
  }

  /** Cells left, right, above and below. */
  private static List<Integer> beside(LineMaps maps, int cell) {
    int column = cell % maps.columns();
    List<Integer> beside = new ArrayList<>();
    if (column > 0) {
      beside.add(cell - 1);
    }
    if (column < maps.columns() - 1) {
      beside.add(cell + 1);
    }
    if (cell >= maps.columns()) {
      beside.add(cell - maps.columns());
    }
    if (cell + maps.columns() < maps.cells()) {
      beside.add(cell + maps.columns());
    }
    return beside;
  }

  /** Convex outline of some cells. */
  static List<Point> hull(LineMaps maps, List<Integer> area) {
    return hull(area.stream().map(cell -> new Point(maps.x(cell), maps.y(cell))).toList());
  }

  /** Convex hull, clockwise on a picture (Andrew's monotone chain). */
  private static List<Point> hull(List<Point> points) {
    List<Point> sorted = new ArrayList<>(points);
    sorted.sort(Comparator.comparingDouble(Point::x).thenComparingDouble(Point::y));
    List<Point> hull = new ArrayList<>();
    for (int pass = 0; pass < 2; pass++) {
      int kept = hull.size();
      for (Point p : sorted) {
        while (hull.size() >= kept + 2
            && turn(hull.get(hull.size() - 2), hull.get(hull.size() - 1), p) <= 0) {
          hull.remove(hull.size() - 1);
        }
        hull.add(p);
      }
      hull.remove(hull.size() - 1);
      java.util.Collections.reverse(sorted);
    }
    return hull;
  }

  private static double turn(Point a, Point b, Point c) {
    return (b.x() - a.x()) * (c.y() - a.y()) - (b.y() - a.y()) * (c.x() - a.x());
  }
}
