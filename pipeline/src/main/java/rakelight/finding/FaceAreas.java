package rakelight.finding;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * Which of the areas that look like an inscribed face is the one a photograph was taken of: the
 * largest, or of those about as large the most central. Areas beside it are other stones. What lies
 * above or below it is taken for parts of the same marker, as die and base are.
 */
final class FaceAreas {
  /** An area this much smaller than the largest isn't the face, however central. */
  private static final double ABOUT_AS_LARGE = 0.7;

  /** Areas that share less of their width than this stand beside each other. */
  private static final double SHARED_WIDTH = 0.3;

  private final LineMaps maps;

  /** Cells of each area, the largest first. */
  private final List<List<Integer>> areas;

  /** Which area a cell belongs to, -1 for none. */
  private final int[] areaOf;

  private final int chosen;
  private final boolean[] beside;

  /** The areas of a picture, chosen among by the lines on them. */
  FaceAreas(LineMaps maps, List<LineDecoder.Line> lines) {
    this.maps = maps;
    areas = MapAreas.faces(maps);
    areaOf = new int[maps.cells()];
    java.util.Arrays.fill(areaOf, -1);
    for (int k = 0; k < areas.size(); k++) {
      for (int cell : areas.get(k)) {
        areaOf[cell] = k;
      }
    }
    chosen = chosen(lines);
    beside = new boolean[areas.size()];
    Point right = LineDecoder.turn(lines);
    for (int k = 0; k < beside.length; k++) {
      beside[k] = k != chosen && apart(areas.get(k), areas.get(chosen), right);
    }
  }

  /** Convex outline of the face; empty if none is believed. */
  List<Point> face() {
    return areas.isEmpty() ? List.of() : MapAreas.hull(maps, areas.get(chosen));
  }

  /** Convex outlines of the other inscribed stones. */
  List<Polygon> otherStones() {
    return IntStream.range(0, areas.size())
        .filter(k -> beside[k])
        .mapToObj(k -> MapAreas.hull(maps, areas.get(k)))
        .filter(hull -> hull.size() >= 3)
        .map(Polygon::new)
        .toList();
  }

  /** Whether the line isn't another stone's. */
  boolean holds(LineDecoder.Line line) {
    int area = area(line);
    return area < 0 || !beside[area];
  }

  /** The area most of a line lies on, -1 if it lies on none. */
  private int area(LineDecoder.Line line) {
    int[] points = new int[areas.size()];
    for (Point p : line.stepped(LineMaps.STRIDE_PX).middle()) {
      int column = (int) Math.floor(p.x() / LineMaps.STRIDE_PX);
      int row = (int) Math.floor(p.y() / LineMaps.STRIDE_PX);
      if (column >= 0 && column < maps.columns() && row >= 0 && row < maps.rows()) {
        int area = areaOf[row * maps.columns() + column];
        if (area >= 0) {
          points[area]++;
        }
      }
    }
    return IntStream.range(0, points.length)
        .filter(k -> points[k] > 0)
        .boxed()
        .max(Comparator.comparingInt(k -> points[k]))
        .orElse(-1);
  }

  private int chosen(List<LineDecoder.Line> lines) {
    List<Integer> lettered = new ArrayList<>(lines.stream().map(this::area).distinct().toList());
    lettered.removeIf(k -> k < 0);
    if (lettered.isEmpty()) {
      return 0;
    }
    int most = lettered.stream().mapToInt(k -> areas.get(k).size()).max().orElseThrow();
    return lettered.stream()
        .filter(k -> areas.get(k).size() >= ABOUT_AS_LARGE * most)
        .min(Comparator.comparingDouble(this::fromTheMiddle))
        .orElseThrow();
  }

  private double fromTheMiddle(int area) {
    double x = 0;
    double y = 0;
    for (int cell : areas.get(area)) {
      x += (cell % maps.columns() + 0.5) / maps.columns() / areas.get(area).size();
      y += (cell / maps.columns() + 0.5) / maps.rows() / areas.get(area).size();
    }
    return Math.hypot(x - 0.5, y - 0.5);
  }

  private boolean apart(List<Integer> a, List<Integer> b, Point right) {
    double[] p = extent(a, right);
    double[] q = extent(b, right);
    double shared = Math.min(p[1], q[1]) - Math.max(p[0], q[0]);
    return shared < SHARED_WIDTH * Math.min(p[1] - p[0], q[1] - q[0]);
  }

  private double[] extent(List<Integer> area, Point right) {
    double from = Double.MAX_VALUE;
    double to = -Double.MAX_VALUE;
    for (int cell : area) {
      double at = maps.x(cell) * right.x() + maps.y(cell) * right.y();
      from = Math.min(from, at);
      to = Math.max(to, at);
    }
    return new double[] {from, to};
  }
}
