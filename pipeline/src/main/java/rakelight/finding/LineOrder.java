package rakelight.finding;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import rakelight.picture.Point;

/** Pieces of lines joined into lines, and lines put into the order in which people read them. */
final class LineOrder {
  /** Pieces further apart than this many letter heights are two columns. */
  private static final double LARGEST_GAP_HEIGHTS = 1.6;

  /** Pieces of one line differ in height by at most this factor. */
  private static final double LARGEST_HEIGHT_RATIO = 1.5;

  /** The middles of two pieces of one line differ by at most this many heights where they meet. */
  private static final double LARGEST_STEP_HEIGHTS = 0.4;

  private LineOrder() {}

  /** Joins pieces that follow each other on one line. */
  static List<FoundLine> joined(List<FoundLine> pieces) {
    List<FoundLine> lines = new ArrayList<>(pieces);
    lines.sort(Comparator.comparingDouble(line -> line.middle().get(0).x()));
    boolean again = true;
    while (again) {
      again = false;
      for (int i = 0; i < lines.size() && !again; i++) {
        int next = nextOf(lines, i);
        if (next >= 0) {
          FoundLine whole = join(lines.get(i), lines.get(next));
          lines.remove(Math.max(i, next));
          lines.remove(Math.min(i, next));
          lines.add(whole);
          lines.sort(Comparator.comparingDouble(line -> line.middle().get(0).x()));
          again = true;
        }
      }
    }
    return lines;
  }

  private static int nextOf(List<FoundLine> lines, int i) {
    FoundLine a = lines.get(i);
    Point end = last(a.middle());
    int best = -1;
    double bestGap = Double.MAX_VALUE;
    for (int j = 0; j < lines.size(); j++) {
      FoundLine b = lines.get(j);
      if (j == i) {
        continue;
      }
      double height = Math.max(a.heightPx(), b.heightPx());
      if (height > LARGEST_HEIGHT_RATIO * Math.min(a.heightPx(), b.heightPx())) {
        continue;
      }
      Point start = b.middle().get(0);
      Point direction = direction(a);
      double gap = (start.x() - end.x()) * direction.x() + (start.y() - end.y()) * direction.y();
      double step =
          Math.abs(-(start.x() - end.x()) * direction.y() + (start.y() - end.y()) * direction.x());
      if (gap > -height
          && gap < LARGEST_GAP_HEIGHTS * height
          && step < LARGEST_STEP_HEIGHTS * height
          && last(b.middle()).x() > end.x()
          && gap < bestGap) {
        bestGap = gap;
        best = j;
      }
    }
    return best;
  }

  private static FoundLine join(FoundLine a, FoundLine b) {
    List<Point> top = new ArrayList<>(a.top());
    List<Point> foot = new ArrayList<>(a.foot());
    // Where pieces overlap, the ends inside the overlap would fold the ribbon.
    while (top.size() > 1 && last(top).x() >= b.top().get(0).x()) {
      top.remove(top.size() - 1);
      foot.remove(foot.size() - 1);
    }
    top.addAll(b.top());
    foot.addAll(b.foot());
    return FoundLine.joined(a, b, top, foot);
  }

  /**
   * Top to bottom; lines whose heights overlap by more than half are beside each other and go left
   * to right.
   */
  static List<FoundLine> inReadingOrder(List<FoundLine> lines) {
    List<FoundLine> rest = new ArrayList<>(lines);
    rest.sort(Comparator.comparingDouble(line -> line.ribbon().centre().y()));
    List<FoundLine> ordered = new ArrayList<>();
    while (!rest.isEmpty()) {
      FoundLine first = rest.remove(0);
      List<FoundLine> row = new ArrayList<>(List.of(first));
      rest.removeIf(line -> beside(first, line) && row.add(line));
      row.sort(Comparator.comparingDouble(line -> line.ribbon().left()));
      ordered.addAll(row);
    }
    return ordered;
  }

  private static boolean beside(FoundLine a, FoundLine b) {
    double step = Math.abs(a.ribbon().centre().y() - b.ribbon().centre().y());
    boolean apart =
        a.ribbon().right() <= b.ribbon().left() || b.ribbon().right() <= a.ribbon().left();
    return apart && step < Math.min(a.heightPx(), b.heightPx()) / 2;
  }

  private static Point direction(FoundLine line) {
    List<Point> middle = line.middle();
    Point from = middle.get(middle.size() - 2);
    Point to = last(middle);
    double length = Math.max(1e-6, from.distance(to));
    return new Point((to.x() - from.x()) / length, (to.y() - from.y()) / length);
  }

  private static Point last(List<Point> points) {
    return points.get(points.size() - 1);
  }
}
