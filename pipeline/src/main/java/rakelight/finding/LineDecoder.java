package rakelight.finding;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * From the line finder's maps to lines, in pixels of the network's input.
 *
 * <p>Cells where the core is strong are seeds; each takes the weaker cells that hang together with
 * it, so that two lines bridged by a faint cell stay two. A piece of core is followed from its
 * first letter to its last by the weighted middle of its cells: a straight line if it strays
 * little, else a chain of short steps, which follows arches; one whose letters turn far is ordered
 * about the centre of a circle. Letter height gives baseline and top. Ends are lengthened a little,
 * pieces that follow each other are joined; what is short and faint is dropped.
 *
 * <p>{@code pipeline/recogniser/finder/decode.py} does the same and is the oracle; the constants
 * are equal there, with their reasons.
 */
final class LineDecoder {
  private static final int LEAST_CELLS = 4;
  private static final double SHORT_CAPITALS = 4;
  private static final double CORE_MIDDLE_CAPITALS = 0.40;
  private static final double END_REACH_CAPITALS = 0.12;
  private static final double STEP_CAPITALS = 0.5;
  private static final double STRAIGHT_CAPITALS = 0.12;
  private static final double GROWING_CAPITALS = 6;
  private static final int SMOOTHINGS = 2;
  private static final double RING_AGREEMENT = 0.93; // of directions along 75 degrees of a circle
  private static final double RING_CAPITALS = 1.5;
  private static final double RING_STRAYS = 0.25;
  private static final double JOIN_GAP_CAPITALS = 1.3;
  private static final double JOIN_OVERLAP_CAPITALS = 0.5;
  private static final double JOIN_STEP_CAPITALS = 0.3;
  private static final double JOIN_RATIO = 1.35;
  private static final double JOIN_TURN = Math.cos(Math.toRadians(20));

  private LineDecoder() {}

  /**
   * How strong a line's core has to be.
   *
   * @param seed where a line begins
   * @param edge as far as it goes on
   * @param least its mean
   * @param leastOfShort the mean of a short one
   */
  record Strength(double seed, double edge, double least, double leastOfShort) {
    /** Of lines that are there. */
    static final Strength SURE = new Strength(0.6, 0.35, 0.5, 0.65);

    /** Of lines that may be there: only what a recogniser reads in them is to be believed. */
    static final Strength FAINT = new Strength(0.4, 0.25, 0.35, 0.45);

    /** Of lines that hardly are there. */
    static final Strength FAINTER = new Strength(0.2, 0.12, 0.15, 0.2);
  }

  /**
   * A line in input pixels.
   *
   * @param middle points through the core in reading order, at least two
   * @param heightsPx capital height at each point
   * @param score mean of the core, 0 to 1
   * @param face mean of the face's map along the core
   * @param other mean of the other stones' map along the core
   */
  record Line(List<Point> middle, double[] heightsPx, double score, double face, double other) {
    double heightPx() {
      return Arrays.stream(heightsPx).average().orElseThrow();
    }

    double lengthPx() {
      double length = 0;
      for (int i = 1; i < middle.size(); i++) {
        length += middle.get(i - 1).distance(middle.get(i));
      }
      return length;
    }

    /** Reading direction at a point, a unit vector. */
    Point direction(int i) {
      Point from = middle.get(Math.max(0, i - 1));
      Point to = middle.get(Math.min(middle.size() - 1, i + 1));
      return unit(to.x() - from.x(), to.y() - from.y());
    }

    /** The points so many capital heights above the baseline. */
    List<Point> atHeight(double capitals) {
      List<Point> points = new ArrayList<>();
      for (int i = 0; i < middle.size(); i++) {
        Point d = direction(i);
        double rise = heightsPx[i] * (capitals - CORE_MIDDLE_CAPITALS);
        Point m = middle.get(i);
        points.add(new Point(m.x() + d.y() * rise, m.y() - d.x() * rise));
      }
      return points;
    }

    /** Top points in reading order, then foot points back. */
    Polygon ribbon() {
      List<Point> points = new ArrayList<>(atHeight(1));
      List<Point> foot = atHeight(0);
      for (int i = foot.size() - 1; i >= 0; i--) {
        points.add(foot.get(i));
      }
      return new Polygon(points);
    }

    Point first() {
      return middle.get(0);
    }

    Point last() {
      return middle.get(middle.size() - 1);
    }

    /** This line and the next as one. */
    Line then(Line next) {
      return then(next, next.lengthPx());
    }

    /**
     * This line and the next as one.
     *
     * @param its how long the next one was before its points beside this one were cut off: what was
     *     measured along it was measured along all of it
     */
    private Line then(Line next, double its) {
      double mine = lengthPx();
      double whole = Math.max(1e-9, mine + its);
      return new Line(
          Stream.concat(middle.stream(), next.middle.stream()).toList(),
          DoubleStream.concat(Arrays.stream(heightsPx), Arrays.stream(next.heightsPx)).toArray(),
          (mine * score + its * next.score) / whole,
          (mine * face + its * next.face) / whole,
          (mine * other + its * next.other) / whole);
    }

    /** The points from one to before another; at least one. */
    Line part(int from, int to) {
      return new Line(
          middle.subList(from, to), Arrays.copyOfRange(heightsPx, from, to), score, face, other);
    }

    /** The same line with points about so many pixels apart. */
    Line stepped(double stepPx) {
      List<Point> points = new ArrayList<>(List.of(first()));
      List<Double> heights = new ArrayList<>(List.of(heightsPx[0]));
      for (int i = 1; i < middle.size(); i++) {
        Point from = middle.get(i - 1);
        int steps = Math.max(1, (int) Math.rint(from.distance(middle.get(i)) / stepPx));
        for (int k = 1; k <= steps; k++) {
          points.add(from.towards(middle.get(i), (double) k / steps));
          heights.add(heightsPx[i - 1] + (heightsPx[i] - heightsPx[i - 1]) * k / steps);
        }
      }
      return new Line(points, array(heights), score, face, other);
    }

    /** The line elsewhere, in pixels so many times as many. */
    Line moved(UnaryOperator<Point> move, double scale) {
      return new Line(
          middle.stream().map(move).toList(),
          Arrays.stream(heightsPx).map(height -> height * scale).toArray(),
          score,
          face,
          other);
    }
  }

  /** Lines of the maps in no particular order, those of other stones among them. */
  static List<Line> decode(LineMaps maps) {
    return decode(maps, Strength.SURE);
  }

  /** The same of cores so strong. */
  static List<Line> decode(LineMaps maps, Strength strength) {
    List<Line> lines = new ArrayList<>();
    for (int[] piece : pieces(maps, strength)) {
      if (piece.length < LEAST_CELLS) {
        continue;
      }
      if (mean(maps, LineMaps.CORE, piece) >= strength.least()) {
        new Core(maps, piece).line().ifPresent(lines::add);
      }
    }
    // Most of what is found by mistake is short and faint.
    return joined(lines).stream()
        .filter(
            line ->
                line.lengthPx() >= SHORT_CAPITALS * line.heightPx()
                    || line.score() >= strength.leastOfShort())
        .toList();
  }

  /** Cells of each piece of core. */
  private static List<int[]> pieces(LineMaps maps, Strength strength) {
    int[] label = new int[maps.cells()];
    ArrayDeque<Integer> seeds = new ArrayDeque<>();
    int count = 0;
    for (int cell = 0; cell < maps.cells(); cell++) {
      if (maps.at(LineMaps.CORE, cell) >= strength.seed()) {
        seeds.add(cell);
        if (label[cell] == 0) {
          label[cell] = ++count;
          spread(maps, label, new ArrayDeque<>(List.of(cell)), strength.seed());
        }
      }
    }
    spread(maps, label, seeds, strength.edge());
    int[] size = new int[count + 1];
    for (int l : label) {
      size[l]++;
    }
    List<int[]> pieces = new ArrayList<>();
    for (int k = 1; k <= count; k++) {
      pieces.add(new int[size[k]]);
    }
    int[] filled = new int[count + 1];
    for (int cell = 0; cell < label.length; cell++) {
      int l = label[cell];
      if (l > 0) {
        pieces.get(l - 1)[filled[l]++] = cell;
      }
    }
    return pieces;
  }

  private static void spread(
      LineMaps maps, int[] label, ArrayDeque<Integer> queue, double threshold) {
    while (!queue.isEmpty()) {
      int cell = queue.remove();
      int x = cell % maps.columns();
      int y = cell / maps.columns();
      for (int v = Math.max(0, y - 1); v <= Math.min(maps.rows() - 1, y + 1); v++) {
        for (int u = Math.max(0, x - 1); u <= Math.min(maps.columns() - 1, x + 1); u++) {
          int next = v * maps.columns() + u;
          if (label[next] == 0 && maps.at(LineMaps.CORE, next) >= threshold) {
            label[next] = label[cell];
            queue.add(next);
          }
        }
      }
    }
  }

  private static double mean(LineMaps maps, int map, int[] cells) {
    double sum = 0;
    for (int cell : cells) {
      sum += maps.at(map, cell);
    }
    return sum / cells.length;
  }

  private static Point unit(double x, double y) {
    double length = Math.max(1e-9, Math.hypot(x, y));
    return new Point(x / length, y / length);
  }

  /** One piece of core: its cells with their weights. */
  private static final class Core {
    private final LineMaps maps;
    private final int[] cells;
    private final double[] weight;
    private final double mass;

    Core(LineMaps maps, int[] cells) {
      this.maps = maps;
      this.cells = cells;
      weight = new double[cells.length];
      for (int i = 0; i < cells.length; i++) {
        weight[i] = maps.at(LineMaps.CORE, cells[i]);
      }
      mass = Arrays.stream(weight).sum();
    }

    private double weighted(int map) {
      double sum = 0;
      for (int i = 0; i < cells.length; i++) {
        sum += weight[i] * maps.at(map, cells[i]);
      }
      return sum / mass;
    }

    Optional<Line> line() {
      double cosine = weighted(LineMaps.COSINE);
      double sine = weighted(LineMaps.SINE);
      if (Math.hypot(cosine, sine) * mass < 1e-6) {
        return Optional.empty();
      }
      Point direction = unit(cosine, sine);
      double logHeight = weighted(LineMaps.LOG_HEIGHT);
      double height = Math.exp(logHeight);
      double step = Math.max(LineMaps.STRIDE_PX, STEP_CAPITALS * height);
      double centreX = 0;
      double centreY = 0;
      for (int i = 0; i < cells.length; i++) {
        centreX += weight[i] * maps.x(cells[i]) / mass;
        centreY += weight[i] * maps.y(cells[i]) / mass;
      }
      Point centre = new Point(centreX, centreY);
      double[] along = new double[cells.length];
      double spread = 0;
      double lean = 0;
      for (int i = 0; i < cells.length; i++) {
        double dx = maps.x(cells[i]) - centreX;
        double dy = maps.y(cells[i]) - centreY;
        along[i] = dx * direction.x() + dy * direction.y();
        double across = -dx * direction.y() + dy * direction.x();
        spread += weight[i] * along[i] * along[i];
        lean += weight[i] * along[i] * across;
      }
      double slope = spread > 1e-6 && range(along) > 2 * height ? lean / spread : 0;
      Optional<double[]> around = agreement() < RING_AGREEMENT ? around(height) : Optional.empty();
      if (around.isPresent()) {
        // Every step counts: what lies beyond the last one is taken to go on straight.
        List<Point> ring = smoothed(steps(around.get(), step));
        return Optional.of(ends(new Chain(ring), false, logHeight));
      }
      List<Point> chain = inner(steps(along, step));
      double strays = 0;
      for (Point p : chain) {
        double dx = p.x() - centreX;
        double dy = p.y() - centreY;
        double u = dx * direction.x() + dy * direction.y();
        double v = -dx * direction.y() + dy * direction.x();
        strays = Math.max(strays, Math.abs(v - slope * u));
      }
      boolean straight = chain.size() < 4 || strays < STRAIGHT_CAPITALS * height;
      if (straight) {
        Point tangent =
            unit(direction.x() - slope * direction.y(), direction.y() + slope * direction.x());
        chain = List.of(centre, new Point(centre.x() + tangent.x(), centre.y() + tangent.y()));
        return Optional.of(ends(new Chain(chain), true, logHeight));
      }
      for (int n = 0; n < SMOOTHINGS; n++) {
        chain = smoothed(inner(steps(new Chain(chain).positions(maps, cells), step)));
      }
      return Optional.of(ends(new Chain(chain), false, logHeight));
    }

    /** How far the cells agree where they are read to, 0 to 1: the length of their mean. */
    private double agreement() {
      double cosine = 0;
      double sine = 0;
      for (int i = 0; i < cells.length; i++) {
        Point d = unit(maps.at(LineMaps.COSINE, cells[i]), maps.at(LineMaps.SINE, cells[i]));
        cosine += weight[i] * d.x() / mass;
        sine += weight[i] * d.y() / mass;
      }
      return Math.hypot(cosine, sine);
    }

    /**
     * Where along a ring each cell lies, in pixels in reading direction; nothing where the piece
     * isn't a good part of a ring. The centre is that of the circle whose equation the cells fulfil
     * best (Kasa 1976, from memory).
     */
    private Optional<double[]> around(double height) {
      Point centre = centre();
      double radius = 0;
      double[] angle = new double[cells.length];
      double clockwise = 0;
      for (int i = 0; i < cells.length; i++) {
        double dx = maps.x(cells[i]) - centre.x();
        double dy = maps.y(cells[i]) - centre.y();
        angle[i] = Math.atan2(dy, dx);
        radius += weight[i] * Math.hypot(dx, dy) / mass;
        clockwise +=
            weight[i]
                * (maps.at(LineMaps.SINE, cells[i]) * Math.cos(angle[i])
                    - maps.at(LineMaps.COSINE, cells[i]) * Math.sin(angle[i]));
      }
      double strays = 0;
      for (int cell : cells) {
        double out = Math.hypot(maps.x(cell) - centre.x(), maps.y(cell) - centre.y()) - radius;
        strays += maps.at(LineMaps.CORE, cell) * out * out / mass;
      }
      double[] sorted = angle.clone();
      Arrays.sort(sorted);
      double begin = sorted[0];
      double gap = begin + 2 * Math.PI - sorted[sorted.length - 1];
      for (int i = 1; i < sorted.length; i++) {
        if (sorted[i] - sorted[i - 1] > gap) {
          gap = sorted[i] - sorted[i - 1];
          begin = sorted[i];
        }
      }
      if (radius < RING_CAPITALS * height || Math.sqrt(strays) > RING_STRAYS * radius) {
        return Optional.empty();
      }
      double[] along = new double[cells.length];
      for (int i = 0; i < cells.length; i++) {
        double turned = angle[i] - begin;
        along[i] = Math.signum(clockwise) * radius * (turned < 0 ? turned + 2 * Math.PI : turned);
      }
      return Optional.of(along);
    }

    /** The centre of the circle nearest to the cells, by the squares of their distances. */
    private Point centre() {
      double x = 0;
      double y = 0;
      for (int i = 0; i < cells.length; i++) {
        x += weight[i] * maps.x(cells[i]) / mass;
        y += weight[i] * maps.y(cells[i]) / mass;
      }
      double uu = 0;
      double uv = 0;
      double vv = 0;
      double uz = 0;
      double vz = 0;
      for (int i = 0; i < cells.length; i++) {
        double u = maps.x(cells[i]) - x;
        double v = maps.y(cells[i]) - y;
        double z = u * u + v * v;
        uu += weight[i] * u * u;
        uv += weight[i] * u * v;
        vv += weight[i] * v * v;
        uz += weight[i] * u * z / 2;
        vz += weight[i] * v * z / 2;
      }
      double determinant = Math.max(1e-9, uu * vv - uv * uv);
      return new Point(
          x + (uz * vv - vz * uv) / determinant, y + (vz * uu - uz * uv) / determinant);
    }

    private Line ends(Chain chain, boolean straight, double logHeight) {
      double height = Math.exp(logHeight);
      double[] position = chain.positions(maps, cells);
      double middle = 0;
      for (int i = 0; i < cells.length; i++) {
        middle += weight[i] * position[i] / mass;
      }
      // Letters may grow along a line seen at an angle: log height, linear in position.
      double variance = 0;
      double lean = 0;
      for (int i = 0; i < cells.length; i++) {
        double d = position[i] - middle;
        variance += weight[i] * d * d;
        lean += weight[i] * d * (maps.at(LineMaps.LOG_HEIGHT, cells[i]) - logHeight);
      }
      boolean growing = range(position) > GROWING_CAPITALS * height && variance > 1e-6;
      double growth = growing ? lean / variance : 0;
      double reach = LineMaps.STRIDE_PX / 2.0 + END_REACH_CAPITALS * height;
      double first = Arrays.stream(position).min().orElseThrow() - reach;
      double last = Arrays.stream(position).max().orElseThrow() + reach;
      int count = 2;
      if (!straight) {
        double steps = (last - first) / Math.max(height, LineMaps.STRIDE_PX);
        count = Math.max(4, (int) Math.rint(steps) + 1);
      }
      List<Point> points = new ArrayList<>();
      double[] heights = new double[count];
      for (int i = 0; i < count; i++) {
        double at = first + (last - first) * i / (count - 1);
        points.add(chain.at(at));
        heights[i] = Math.exp(logHeight + growth * (at - middle));
      }
      return new Line(
          points,
          heights,
          mean(maps, LineMaps.CORE, cells),
          mean(maps, LineMaps.FACE, cells),
          mean(maps, LineMaps.OTHER, cells));
    }

    /** Weighted centres of the cells, step by step along `position`. */
    private List<Point> steps(double[] position, double width) {
      double first = Arrays.stream(position).min().orElseThrow();
      int count = (int) Math.floor(range(position) / width) + 1;
      double[] sum = new double[count];
      double[] x = new double[count];
      double[] y = new double[count];
      for (int i = 0; i < cells.length; i++) {
        int k = Math.min(count - 1, (int) Math.floor((position[i] - first) / width));
        sum[k] += weight[i];
        x[k] += weight[i] * maps.x(cells[i]);
        y[k] += weight[i] * maps.y(cells[i]);
      }
      List<Point> centres = new ArrayList<>();
      for (int k = 0; k < count; k++) {
        if (sum[k] > 0) {
          centres.add(new Point(x[k] / sum[k], y[k] / sum[k]));
        }
      }
      return centres;
    }
  }

  /** Without the outermost steps, which a core's slanting ends pull aside. */
  private static List<Point> inner(List<Point> chain) {
    return chain.size() > 5 ? chain.subList(1, chain.size() - 1) : chain;
  }

  private static List<Point> smoothed(List<Point> chain) {
    List<Point> smooth = new ArrayList<>(chain);
    for (int i = 1; i + 1 < chain.size(); i++) {
      Point a = chain.get(i - 1);
      Point b = chain.get(i);
      Point c = chain.get(i + 1);
      smooth.set(i, new Point((a.x() + 2 * b.x() + c.x()) / 4, (a.y() + 2 * b.y() + c.y()) / 4));
    }
    return smooth;
  }

  private static double range(double[] values) {
    return Arrays.stream(values).max().orElseThrow() - Arrays.stream(values).min().orElseThrow();
  }

  /** Points joined by straight steps; the first and last step go on beyond the ends. */
  private static final class Chain {
    private final List<Point> points;
    private final double[] before;

    Chain(List<Point> points) {
      this.points = points;
      before = new double[points.size()];
      for (int i = 1; i < points.size(); i++) {
        before[i] = before[i - 1] + points.get(i - 1).distance(points.get(i));
      }
    }

    /** Arc length at the place of the chain nearest to each cell. */
    double[] positions(LineMaps maps, int[] cells) {
      double[] positions = new double[cells.length];
      for (int i = 0; i < cells.length; i++) {
        positions[i] = position(maps.x(cells[i]), maps.y(cells[i]));
      }
      return positions;
    }

    private double position(double x, double y) {
      double nearest = Double.MAX_VALUE;
      double position = 0;
      int steps = points.size() - 1;
      for (int i = 0; i < steps; i++) {
        Point from = points.get(i);
        double dx = points.get(i + 1).x() - from.x();
        double dy = points.get(i + 1).y() - from.y();
        double length = Math.hypot(dx, dy);
        double t = ((x - from.x()) * dx + (y - from.y()) * dy) / Math.max(length * length, 1e-9);
        if (i > 0) {
          t = Math.max(0, t);
        }
        if (i < steps - 1) {
          t = Math.min(1, t);
        }
        double distance = Math.hypot(x - from.x() - t * dx, y - from.y() - t * dy);
        if (distance < nearest) {
          nearest = distance;
          position = before[i] + t * length;
        }
      }
      return position;
    }

    Point at(double position) {
      int i = 0;
      while (i < points.size() - 2 && before[i + 1] <= position) {
        i++;
      }
      double length = before[i + 1] - before[i];
      return points
          .get(i)
          .towards(points.get(i + 1), (position - before[i]) / Math.max(length, 1e-9));
    }
  }

  /** Joins pieces that follow each other, the closest first. */
  private static List<Line> joined(List<Line> pieces) {
    List<Line> lines = new ArrayList<>(pieces);
    while (true) {
      double least = Double.MAX_VALUE;
      int before = -1;
      int after = -1;
      for (int i = 0; i < lines.size(); i++) {
        for (int j = 0; j < lines.size(); j++) {
          double gap = i == j ? Double.MAX_VALUE : gap(lines.get(i), lines.get(j));
          if (gap < least) {
            least = gap;
            before = i;
            after = j;
          }
        }
      }
      if (before < 0) {
        return lines;
      }
      Line whole = join(lines.get(before), lines.get(after));
      lines.remove(Math.max(before, after));
      lines.remove(Math.min(before, after));
      lines.add(whole);
    }
  }

  /** How many heights b begins beyond the end of a; the largest number if they are two lines. */
  private static double gap(Line a, Line b) {
    double tall = Math.max(a.heightPx(), b.heightPx());
    if (tall > JOIN_RATIO * Math.min(a.heightPx(), b.heightPx())) {
      return Double.MAX_VALUE;
    }
    Point d = a.direction(a.middle().size() - 1);
    Point e = b.direction(0);
    if (d.x() * e.x() + d.y() * e.y() < JOIN_TURN) {
      return Double.MAX_VALUE;
    }
    double dx = b.first().x() - a.last().x();
    double dy = b.first().y() - a.last().y();
    // Both ends were lengthened.
    double ahead = (dx * d.x() + dy * d.y()) / tall + 2 * END_REACH_CAPITALS;
    double aside = Math.abs(-dx * d.y() + dy * d.x()) / tall;
    boolean one =
        ahead > -JOIN_OVERLAP_CAPITALS && ahead < JOIN_GAP_CAPITALS && aside <= JOIN_STEP_CAPITALS;
    return one ? ahead : Double.MAX_VALUE;
  }

  private static Line join(Line a, Line b) {
    Point d = a.direction(a.middle().size() - 1);
    int from = 0;
    // Where pieces overlap, points behind the end of the first would fold the line.
    while (from < b.middle().size() - 1
        && (b.middle().get(from).x() - a.last().x()) * d.x()
                + (b.middle().get(from).y() - a.last().y()) * d.y()
            <= 0) {
      from++;
    }
    return a.then(b.part(from, b.middle().size()), b.lengthPx());
  }

  private static double[] array(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** The direction most of the lines run in; to the right if there are none. */
  static Point turn(List<Line> lines) {
    double x = 0;
    double y = 0;
    for (Line line : lines) {
      x += line.last().x() - line.first().x();
      y += line.last().y() - line.first().y();
    }
    return Math.hypot(x, y) > 1e-6 ? unit(x, y) : new Point(1, 0);
  }

  /** Top to bottom as the stone stands; lines of one row from left to right. */
  static List<Line> inReadingOrder(List<Line> lines) {
    Point d = turn(lines);
    record Placed(Line line, double left, double right, double row) {}
    List<Placed> rest = new ArrayList<>();
    for (Line line : lines) {
      Polygon level =
          line.ribbon()
              .map(p -> new Point(p.x() * d.x() + p.y() * d.y(), -p.x() * d.y() + p.y() * d.x()));
      rest.add(new Placed(line, level.left(), level.right(), level.centre().y()));
    }
    rest.sort(Comparator.comparingDouble(Placed::row));
    List<Line> ordered = new ArrayList<>();
    while (!rest.isEmpty()) {
      Placed first = rest.remove(0);
      List<Placed> row = new ArrayList<>(List.of(first));
      rest.removeIf(
          next -> {
            boolean apart = next.right() <= first.left() || first.right() <= next.left();
            double step = Math.abs(next.row() - first.row());
            double height = Math.min(next.line().heightPx(), first.line().heightPx());
            return apart && step < height / 2 && row.add(next);
          });
      row.sort(Comparator.comparingDouble(Placed::left));
      row.forEach(placed -> ordered.add(placed.line()));
    }
    return ordered;
  }
}
