package rakelight.finding;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Connected areas of one of the line finder's maps, in pixels of the network's input. */
final class MapAreas {
  private static final double THRESHOLD = 0.5;

  /** A face smaller than this part of the picture isn't believed. */
  private static final double SMALLEST_FACE = 0.02;

  /** An emblem smaller than this part of the picture is a speck. */
  private static final double SMALLEST_EMBLEM = 0.001;

  /** Another stone smaller than this part of the picture is too far away to matter. */
  private static final double SMALLEST_OTHER = 0.005;

  private MapAreas() {}

  /** Convex outline of the largest face area; empty if none is believed. */
  static List<Point> face(LineMaps maps) {
    return outlines(maps, LineMaps.FACE, SMALLEST_FACE).stream()
        .findFirst()
        .map(Polygon::points)
        .orElse(List.of());
  }

  /** Convex outlines of the emblems, the largest first. */
  static List<Polygon> emblems(LineMaps maps) {
    return outlines(maps, LineMaps.EMBLEM, SMALLEST_EMBLEM);
  }

  /** Convex outlines of the stones that aren't the inscribed one, the largest first. */
  static List<Polygon> otherStones(LineMaps maps) {
    return outlines(maps, LineMaps.OTHER, SMALLEST_OTHER);
  }

  private static List<Polygon> outlines(LineMaps maps, int map, double smallest) {
    List<Polygon> outlines = new ArrayList<>();
    for (List<Integer> area : areas(maps, map, smallest)) {
      List<Point> hull =
          hull(area.stream().map(cell -> new Point(maps.x(cell), maps.y(cell))).toList());
      if (hull.size() >= 3) {
        outlines.add(new Polygon(hull));
      }
    }
    return outlines;
  }

  /** Areas of at least this part of the picture, the largest first. */
  private static List<List<Integer>> areas(LineMaps maps, int map, double smallest) {
    boolean[] seen = new boolean[maps.cells()];
    List<List<Integer>> areas = new ArrayList<>();
    for (int start = 0; start < maps.cells(); start++) {
      if (seen[start] || maps.at(map, start) < THRESHOLD) {
        continue;
      }
      List<Integer> area = new ArrayList<>();
      ArrayDeque<Integer> queue = new ArrayDeque<>(List.of(start));
      seen[start] = true;
      while (!queue.isEmpty()) {
        int cell = queue.remove();
        area.add(cell);
        int column = cell % maps.columns();
        int[] beside = {
          column > 0 ? cell - 1 : -1,
          column < maps.columns() - 1 ? cell + 1 : -1,
          cell - maps.columns(),
          cell + maps.columns()
        };
        for (int next : beside) {
          if (next >= 0 && next < maps.cells() && !seen[next] && maps.at(map, next) >= THRESHOLD) {
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
