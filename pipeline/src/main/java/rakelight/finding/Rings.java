package rakelight.finding;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import rakelight.picture.Point;

/**
 * Lines that run far round a circle, put together from pieces. The finder marks what runs more or
 * less to the right; letters that climb one side of a medallion and fall on the other are marked
 * when the picture is turned.
 */
final class Rings {
  /**
   * A line that bends more than this may go on where letters stand on their side. Arched headings
   * of rendered stones bend by 18 to 31 degrees, so most of them cost no further look; the other
   * bounds here are set by judgement.
   */
  private static final double BENT_RADIANS = Math.toRadians(30);

  /** Less than about one letter isn't worth adding. */
  private static final double LEAST_CAPITALS = 0.8;

  /** A piece is told from the line it continues by lying this many of its heights away. */
  private static final double SAME_CAPITALS = 0.6;

  private static final double GAP_CAPITALS = 2.5;

  /** Seen from the side, letters of one ring differ. */
  private static final double HEIGHT_RATIO = 2;

  /** How far a ring turns within a gap, and how far the way over it strays from either end's. */
  private static final double MOST_TURN_RADIANS = Math.toRadians(70);

  private static final double MOST_STRAY_RADIANS = Math.toRadians(40);

  private Rings() {}

  /** Whether the line bends so far that it may be part of a ring. */
  static boolean bent(LineDecoder.Line line) {
    return Math.abs(bend(line)) >= BENT_RADIANS;
  }

  /** How far its last third turns away from its first, clockwise; ends alone waver too much. */
  private static double bend(LineDecoder.Line line) {
    int last = line.middle().size() - 1;
    Point first = way(line, 0, last / 3);
    Point middle = way(line, last / 3, last - last / 3);
    Point third = way(line, last - last / 3, last);
    return last < 3 ? 0 : turn(first, middle) + turn(middle, third);
  }

  private static Point way(LineDecoder.Line line, int from, int to) {
    Point a = line.middle().get(from);
    Point b = line.middle().get(to);
    return new Point(b.x() - a.x(), b.y() - a.y());
  }

  /**
   * The lines, those that are bent continued by others and by pieces seen on the turned picture.
   * Pieces that continue none are left out, and so is what turns out to be part of a ring.
   *
   * @param pieces in the same pixels as the lines
   */
  static List<LineDecoder.Line> continued(
      List<LineDecoder.Line> lines, List<LineDecoder.Line> pieces) {
    List<LineDecoder.Line> rest = new ArrayList<>(lines);
    rest.sort(Comparator.comparingDouble(line -> -Math.abs(bend(line))));
    List<LineDecoder.Line> continued = new ArrayList<>();
    while (!rest.isEmpty()) {
      LineDecoder.Line line = rest.remove(0);
      if (bent(line)) {
        List<LineDecoder.Line> others = new ArrayList<>(pieces);
        LineDecoder.Line begun = longest(line, others);
        others.addAll(rest);
        others.add(line);
        LineDecoder.Line ring = continued(begun, others);
        rest.removeIf(other -> isPartOf(other, ring));
        continued.add(ring);
      } else {
        continued.add(line);
      }
    }
    return continued;
  }

  /** Whether the line is the ring seen once more, or what little of it wasn't worth adding. */
  private static boolean isPartOf(LineDecoder.Line line, LineDecoder.Line ring) {
    LineDecoder.Line stepped = stepped(line);
    return stepped.middle().stream().anyMatch(point -> on(point, ring))
        && outside(stepped, ring).isEmpty();
  }

  /** The line as that view shows it which shows most of it. */
  private static LineDecoder.Line longest(LineDecoder.Line line, List<LineDecoder.Line> pieces) {
    LineDecoder.Line longest = line;
    for (LineDecoder.Line piece : pieces) {
      long shared = line.middle().stream().filter(point -> on(point, piece)).count();
      if (2 * shared >= line.middle().size()
          && bend(piece) * bend(line) > 0
          && piece.lengthPx() > longest.lengthPx()) {
        longest = piece;
      }
    }
    return longest;
  }

  private static LineDecoder.Line continued(LineDecoder.Line begun, List<LineDecoder.Line> others) {
    LineDecoder.Line ring = begun;
    for (int i = 0; i < others.size(); i++) {
      Optional<LineDecoder.Line> longer = longer(ring, others.get(i));
      if (longer.isPresent()) {
        ring = longer.get();
        others.remove(i);
        // What was too far away before may follow now.
        i = -1;
      }
    }
    return ring;
  }

  private static Optional<LineDecoder.Line> longer(LineDecoder.Line ring, LineDecoder.Line piece) {
    return outside(stepped(piece), ring)
        .flatMap(
            rest ->
                continues(ring, rest)
                    ? Optional.of(ring.then(rest))
                    : continues(rest, ring) ? Optional.of(rest.then(ring)) : Optional.empty());
  }

  /**
   * The longest part of a piece that isn't the line itself seen once more, if it is long enough.
   */
  private static Optional<LineDecoder.Line> outside(LineDecoder.Line piece, LineDecoder.Line line) {
    int from = 0;
    int to = 0;
    for (int i = 0; i < piece.middle().size(); i++) {
      int end = i;
      while (end < piece.middle().size() && !on(piece.middle().get(end), line)) {
        end++;
      }
      if (end - i > to - from) {
        from = i;
        to = end;
      }
      i = end;
    }
    if (to - from < 2) {
      return Optional.empty();
    }
    LineDecoder.Line rest = piece.part(from, to);
    return Optional.of(rest).filter(kept -> kept.lengthPx() >= LEAST_CAPITALS * kept.heightPx());
  }

  private static LineDecoder.Line stepped(LineDecoder.Line line) {
    return line.stepped(line.heightPx() / 2);
  }

  private static boolean on(Point p, LineDecoder.Line line) {
    for (int i = 1; i < line.middle().size(); i++) {
      Point a = line.middle().get(i - 1);
      Point b = line.middle().get(i);
      double dx = b.x() - a.x();
      double dy = b.y() - a.y();
      double t = ((p.x() - a.x()) * dx + (p.y() - a.y()) * dy) / Math.max(1e-9, dx * dx + dy * dy);
      Point nearest = a.towards(b, Math.max(0, Math.min(1, t)));
      if (p.distance(nearest) < SAME_CAPITALS * line.heightsPx()[i]) {
        return true;
      }
    }
    return false;
  }

  /** Whether b follows a on one ring: little gap, turning as the bent one of them turns. */
  private static boolean continues(LineDecoder.Line a, LineDecoder.Line b) {
    double ends = a.heightsPx()[a.heightsPx().length - 1];
    double begins = b.heightsPx()[0];
    double tall = Math.max(ends, begins);
    if (tall > HEIGHT_RATIO * Math.min(ends, begins)) {
      return false;
    }
    double gap = a.last().distance(b.first());
    Point d = a.direction(a.middle().size() - 1);
    Point e = b.direction(0);
    double turn = turn(d, e);
    boolean same = turn * (bend(a) + bend(b)) >= 0 || Math.abs(turn) < MOST_STRAY_RADIANS / 2;
    if (gap > GAP_CAPITALS * tall || !same || Math.abs(turn) > MOST_TURN_RADIANS) {
      return false;
    }
    // On a circle the way over the gap lies midway between the directions of its ends.
    Point over = new Point(b.first().x() - a.last().x(), b.first().y() - a.last().y());
    double half = tall / 2;
    return gap < half || Math.abs(turn(d, over) - turn / 2) < MOST_STRAY_RADIANS;
  }

  /** From one direction to another, clockwise as seen, -pi to pi. */
  private static double turn(Point d, Point e) {
    return Math.atan2(d.x() * e.y() - d.y() * e.x(), d.x() * e.x() + d.y() * e.y());
  }
}
