package rakelight.reading;

import static java.util.stream.Collectors.joining;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import rakelight.finding.FoundLine;
import rakelight.finding.LineStrip;
import rakelight.picture.Point;

/**
 * Two lines of which the second goes on where the first ends, and what was read along both.
 *
 * @param gap how far apart they are, in capitals
 * @param whole both as one line
 * @param across what was read along the whole
 */
record LinePair(PlacedLine line, PlacedLine next, double gap, FoundLine whole, LineLattice across) {
  /** What a sign more between two lines costs, in signs of theirs read otherwise. */
  private static final double EXTRA = 0.5;

  /** Lines no further up or down than this, in capitals, stand in each other's way. */
  private static final double SAME_ROW = 0.7;

  /** A sign between two lines is seen from this probability on. */
  private static final double SEEN = 0.5;

  /** So many letters are seen where lines are parted by a word that was missed. */
  private static final int FEWEST_LETTERS = 2;

  /** Pairs of lines, each the nearest of the other, not yet read. */
  static List<LinePair> of(List<PlacedLine> lines) {
    List<LinePair> all = new ArrayList<>();
    for (PlacedLine line : lines) {
      for (PlacedLine next : lines) {
        double gap = line == next ? Double.MAX_VALUE : line.before(next);
        if (gap < Double.MAX_VALUE
            && line.straight()
            && next.straight()
            && lines.stream().noneMatch(other -> between(line, other, next))) {
          all.add(
              new LinePair(
                  line,
                  next,
                  gap,
                  joined(line.line().line(), next.line().line()),
                  new LineLattice(List.of())));
        }
      }
    }
    all.sort(Comparator.comparingDouble(LinePair::gap));
    Map<PlacedLine, LinePair> after = new LinkedHashMap<>();
    Map<PlacedLine, LinePair> before = new LinkedHashMap<>();
    for (LinePair pair : all) {
      if (!after.containsKey(pair.line()) && !before.containsKey(pair.next())) {
        after.put(pair.line(), pair);
        before.put(pair.next(), pair);
      }
    }
    return List.copyOf(after.values());
  }

  /** Whether another line stands where the one ends and the next begins. */
  private static boolean between(PlacedLine line, PlacedLine other, PlacedLine next) {
    return other != line
        && other != next
        && other.right() > line.right()
        && other.left() < next.left()
        && Math.abs(other.y() - line.y()) < SAME_ROW * Math.max(other.heightPx(), line.heightPx());
  }

  /** The same pair with what was read along both. */
  LinePair read(LineLattice lattice) {
    return new LinePair(line, next, gap, whole, lattice);
  }

  private static FoundLine joined(FoundLine a, FoundLine b) {
    List<Point> top = new ArrayList<>(a.top());
    List<Point> foot = new ArrayList<>(a.foot());
    List<Point> middle = a.middle();
    Point end = middle.get(middle.size() - 1);
    Point begin = middle.get(middle.size() - 2);
    for (int i = 0; i < b.top().size(); i++) {
      Point p = b.middle().get(i);
      // Where pieces overlap, points behind the end of the first would fold the line.
      double ahead =
          (p.x() - end.x()) * (end.x() - begin.x()) + (p.y() - end.y()) * (end.y() - begin.y());
      if (ahead > 0) {
        top.add(b.top().get(i));
        foot.add(b.foot().get(i));
      }
    }
    return FoundLine.joined(a, b, top, foot);
  }

  /** Whether a dash is read between the two, or at an end that looks to the other. */
  boolean dash() {
    return between().stream().anyMatch(LinePair::dash)
        || (!line.signs().isEmpty() && line.signs().get(line.signs().size() - 1).dash())
        || (!next.signs().isEmpty() && next.signs().get(0).dash());
  }

  /** Whether a word is read between them that neither has. */
  boolean word() {
    return between().stream()
            .filter(slot -> slot.p() >= SEEN && new PlacedLine.PlacedSign(slot, 0, 0).letter())
            .count()
        >= FEWEST_LETTERS;
  }

  /** What is read between the two, spaces left out. */
  private List<Slot> between() {
    return zone().stream().filter(slot -> !slot.best().isBlank()).toList();
  }

  /**
   * The slots of the whole that are neither the first line's nor the second's: what is read before
   * them is nearest to the first line's text, what is read after them to the second's.
   */
  private List<Slot> zone() {
    List<Slot> slots = across.slots().stream().filter(slot -> !slot.best().isEmpty()).toList();
    List<Integer> signs =
        IntStream.range(0, slots.size())
            .filter(i -> !slots.get(i).best().isBlank())
            .boxed()
            .toList();
    String read = signs.stream().map(i -> slots.get(i).best().substring(0, 1)).collect(joining());
    int[] left = distances(line.text(), read);
    int[] right = distances(reversed(next.text()), reversed(read));
    int from = 0;
    int to = read.length();
    double least = Double.MAX_VALUE;
    for (int i = 0; i <= read.length(); i++) {
      for (int j = i; j <= read.length(); j++) {
        double cost = left[i] + right[read.length() - j] + EXTRA * (j - i);
        if (cost < least) {
          least = cost;
          from = i;
          to = j;
        }
      }
    }
    int first = from == 0 ? 0 : signs.get(from - 1) + 1;
    int last = to == signs.size() ? slots.size() : signs.get(to);
    return slots.subList(first, Math.max(first, last));
  }

  /** Edits from a text to each beginning of another, blind to case. */
  private static int[] distances(String text, String read) {
    int[] cost = IntStream.rangeClosed(0, read.length()).toArray();
    for (char c : text.toCharArray()) {
      int diagonal = cost[0]++;
      for (int j = 1; j < cost.length; j++) {
        int same = Character.toLowerCase(c) == Character.toLowerCase(read.charAt(j - 1)) ? 0 : 1;
        int pair = diagonal + same;
        diagonal = cost[j];
        cost[j] = Math.min(pair, Math.min(cost[j], cost[j - 1]) + 1);
      }
    }
    return cost;
  }

  private static String reversed(String text) {
    return new StringBuilder(text).reverse().toString();
  }

  /** The column of the whole's strip that shows what a column of a piece's strip shows. */
  private double column(PlacedLine piece, double column) {
    FoundLine found = piece.line().line();
    return LineStrip.columnOf(whole, LineStrip.boxOf(found, column, column).centre());
  }

  /**
   * The better of two readings: of the whole as it was read, and of the pieces as they were, with
   * what is read between them. A line, wherever it was read, is worth its {@link
   * LineLattice#surplus}.
   */
  ReadLine best() {
    LineLattice laid = laid();
    LineLattice read = oneDash(across.slots());
    return new ReadLine(whole, read.surplus() >= laid.surplus() ? read : laid);
  }

  /** By how many letters the whole is read better than its pieces. */
  double gain() {
    return across.surplus() - piecesSurplus();
  }

  /** What the two pieces are worth. */
  double piecesSurplus() {
    return line.line().lattice().surplus() + next.line().lattice().surplus();
  }

  /** The pieces' slots beside each other, with what is surely read between them or a space. */
  private LineLattice laid() {
    List<Slot> before = moved(line);
    List<Slot> after = moved(next);
    double from = before.get(before.size() - 1).to();
    double to = Math.max(from, after.get(0).from());
    List<Slot> between =
        zone().stream().filter(slot -> slot.best().isBlank() || slot.p() >= SEEN).toList();
    List<Slot> slots = new ArrayList<>(before);
    if (between.isEmpty()) {
      slots.add(new Slot(List.of(new Alternative(" ", 1)), from, to));
    }
    for (Slot slot : between) {
      slots.add(
          new Slot(
              slot.alternatives(),
              Math.max(from, Math.min(to, slot.from())),
              Math.max(from, Math.min(to, slot.to())),
              slot.superior()));
    }
    slots.addAll(after);
    return oneDash(slots);
  }

  /** Of dashes that only white parts the surest: of one long dash each piece may have an end. */
  private static LineLattice oneDash(List<Slot> slots) {
    List<Slot> kept = new ArrayList<>();
    int dash = -1;
    for (Slot slot : slots) {
      if (!dash(slot)) {
        dash = slot.best().isBlank() ? dash : -1;
        kept.add(slot);
      } else if (dash < 0) {
        dash = kept.size();
        kept.add(slot);
      } else if (slot.p() > kept.get(dash).p()) {
        kept.set(dash, slot);
      }
    }
    return new LineLattice(kept);
  }

  private static boolean dash(Slot slot) {
    return new PlacedLine.PlacedSign(slot, 0, 0).dash();
  }

  private List<Slot> moved(PlacedLine piece) {
    return piece.line().lattice().slots().stream()
        .map(
            slot ->
                new Slot(
                    slot.alternatives(),
                    column(piece, slot.from()),
                    column(piece, slot.to()),
                    slot.superior()))
        .toList();
  }
}
