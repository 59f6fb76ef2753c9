package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import rakelight.picture.Polygon;
import rakelight.reading.Views.Seen;
import rakelight.reading.Views.View;

/**
 * Lines of photographs that lie over each other. What overlaps is one line of the stone, though one
 * photograph may show it whole and another in pieces; the photograph that saw most of its letters
 * gives all its pieces.
 */
final class Overlaid {
  /** The middles of two views of one line are less than this part of its height apart. */
  private static final double LARGEST_STEP_HEIGHTS = 0.5;

  /** They share at least this part of the shorter one's length. */
  private static final double SMALLEST_SHARED_LENGTH = 0.3;

  /**
   * A line that may be there and shares more than this, in heights, with one that is is part of it.
   */
  private static final double TOUCHING_HEIGHTS = 0.5;

  private static final double LARGEST_TOUCHING_STEP = 0.7;

  private Overlaid() {}

  /** The surest view of every line, in reading order; the first view leads. */
  static List<Seen> surest(List<View> views) {
    return best(views, seen -> seen.line().lattice().lettersSeen());
  }

  /**
   * The best view of every line, in reading order; the first view leads.
   *
   * @param worth of what is seen of a line; pieces of it on one photograph are added up
   */
  static List<Seen> best(List<View> views, ToDoubleFunction<Seen> worth) {
    ReadPicture leading = views.get(0).picture();
    List<Seen> all = new ArrayList<>();
    for (View view : views) {
      for (ReadLine line : view.picture().lines()) {
        all.add(
            new Seen(
                view.original(),
                line,
                line.line().ribbon().map(p -> leading.level(view.toLeading().orElseThrow().map(p))),
                1));
      }
    }
    List<List<Seen>> kept = new ArrayList<>();
    for (List<Seen> line : oneLineEach(all)) {
      List<Seen> best = bestOf(line, worth);
      boolean onLeading =
          line.stream().anyMatch(seen -> seen.original().equals(views.get(0).original()));
      if (onLeading || best.stream().allMatch(seen -> Views.surelyRead(seen.line().lattice()))) {
        kept.add(best);
      }
    }
    return ReadingOrder.of(
        kept.stream().flatMap(List::stream).toList(),
        Seen::ribbon,
        seen -> seen.line().lattice().best());
  }

  private static List<List<Seen>> oneLineEach(List<Seen> all) {
    int[] group = new int[all.size()];
    for (int i = 0; i < group.length; i++) {
      group[i] = i;
    }
    for (int i = 0; i < group.length; i++) {
      for (int j = i + 1; j < group.length; j++) {
        Seen a = all.get(i);
        Seen b = all.get(j);
        if (!a.original().equals(b.original()) && overlap(a.ribbon(), b.ribbon())) {
          int from = root(group, i);
          group[from] = root(group, j);
        }
      }
    }
    Map<Integer, List<Seen>> lines = new TreeMap<>();
    for (int i = 0; i < group.length; i++) {
      lines.computeIfAbsent(root(group, i), r -> new ArrayList<>()).add(all.get(i));
    }
    return List.copyOf(lines.values());
  }

  private static int root(int[] group, int i) {
    int root = i;
    while (group[root] != root) {
      root = group[root];
    }
    return root;
  }

  static boolean overlap(Polygon a, Polygon b) {
    double shared = Math.min(a.right(), b.right()) - Math.max(a.left(), b.left());
    double shorter = Math.min(a.right() - a.left(), b.right() - b.left());
    double height = Math.min(a.bottom() - a.top(), b.bottom() - b.top());
    double step = Math.abs(a.centre().y() - b.centre().y());
    return shared >= SMALLEST_SHARED_LENGTH * shorter && step < LARGEST_STEP_HEIGHTS * height;
  }

  /** Whether two ribbons lie on each other, were it only in part: one row of letters. */
  static boolean touch(Polygon a, Polygon b) {
    double shared = Math.min(a.right(), b.right()) - Math.max(a.left(), b.left());
    double height = Math.min(a.bottom() - a.top(), b.bottom() - b.top());
    double step = Math.abs(a.centre().y() - b.centre().y());
    return shared > TOUCHING_HEIGHTS * height && step < LARGEST_TOUCHING_STEP * height;
  }

  private static List<Seen> bestOf(List<Seen> line, ToDoubleFunction<Seen> worth) {
    Map<Object, List<Seen>> byPhotograph = new HashMap<>();
    line.forEach(
        seen -> byPhotograph.computeIfAbsent(seen.original(), p -> new ArrayList<>()).add(seen));
    return line.stream()
        .map(seen -> byPhotograph.getOrDefault(seen.original(), List.of()))
        .max(Comparator.comparingDouble(pieces -> pieces.stream().mapToDouble(worth).sum()))
        .orElse(line);
  }
}
