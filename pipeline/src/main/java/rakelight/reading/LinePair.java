package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import rakelight.finding.FoundLine;
import rakelight.finding.LineStrip;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * Two lines of which the second goes on where the first ends, and what was read along both.
 *
 * @param gap how far apart they are, in capitals
 * @param whole both as one line
 * @param across what was read along the whole
 */
record LinePair(
    PlacedLine line, PlacedLine next, double gap, FoundLine whole, LineLattice across) {
  /** Signs this near to a piece's outermost letter are that letter, in capitals. */
  private static final double CLEAR = 0.55;

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
        if (gap < Double.MAX_VALUE && line.straight() && next.straight()) {
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
    List<Point> ribbon = new ArrayList<>(top);
    for (int i = foot.size() - 1; i >= 0; i--) {
      ribbon.add(foot.get(i));
    }
    double lengths = a.lengthPx() + b.lengthPx();
    return new FoundLine(
        new Polygon(ribbon),
        (a.heightPx() * a.lengthPx() + b.heightPx() * b.lengthPx()) / lengths,
        (a.score() * a.lengthPx() + b.score() * b.lengthPx()) / lengths);
  }

  /** Whether a dash is read between the two, or at an end that looks to the other. */
  boolean dash() {
    return between().stream().anyMatch(slot -> new PlacedLine.Sign(slot, 0, 0).dash())
        || (!line.signs().isEmpty() && line.signs().get(line.signs().size() - 1).dash())
        || (!next.signs().isEmpty() && next.signs().get(0).dash());
  }

  /** Whether a word is read between them that neither has. */
  boolean word() {
    return between().stream()
            .filter(slot -> slot.p() >= SEEN && new PlacedLine.Sign(slot, 0, 0).letter())
            .count()
        >= FEWEST_LETTERS;
  }

  /** What is read between the last letter of the first and the first of the second. */
  private List<Slot> between() {
    return zone().filter(slot -> !slot.best().isBlank()).toList();
  }

  private Stream<Slot> zone() {
    double from = columnInWhole(line, line.signs().size() - 1) + CLEAR / LineStrip.capitals(whole);
    double to = columnInWhole(next, 0) - CLEAR / LineStrip.capitals(whole);
    return across.slots().stream().filter(slot -> slot.centre() > from && slot.centre() < to);
  }

  private double columnInWhole(PlacedLine piece, int sign) {
    return column(piece, piece.signs().get(sign).column());
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
    return new ReadLine(whole, across.surplus() >= laid.surplus() ? across : laid);
  }

  /** By how many letters the whole is read better than its pieces. */
  double gain() {
    return across.surplus()
        - line.line().lattice().surplus()
        - next.line().lattice().surplus();
  }

  /** The pieces' slots beside each other, with a space or what is read between them. */
  private LineLattice laid() {
    List<Slot> slots = new ArrayList<>(moved(line));
    List<Slot> after = moved(next);
    List<Slot> between = zone().toList();
    if (between.stream().allMatch(slot -> slot.best().isEmpty())) {
      double from = slots.get(slots.size() - 1).to();
      slots.add(space(from, Math.max(from, after.get(0).from())));
    } else {
      slots.addAll(between);
    }
    slots.addAll(after);
    return new LineLattice(slots);
  }

  private static Slot space(double from, double to) {
    return new Slot(List.of(new Alternative(" ", 1)), from, to);
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

  /** Both lines, the first first. */
  Stream<PlacedLine> both() {
    return Stream.of(line, next);
  }
}
