package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Which gaps of a picture's rows part columns. A gap is white for more than a word space, or holds
 * one sign that stands alone; gaps that lie below each other in rows that follow each other part
 * columns, unless dashes are read in them. Text that runs across ends a column.
 */
final class Columns {
  /** Gaps inside a line are wider than this, in capitals, ... */
  private static final double LEAST_GAP = 1.3;

  /** ... and than this from letter's middle to letter's middle, in middle distances. */
  private static final double LEAST_GAP_PITCHES = 2.4;

  /** Those wider than this are no word spaces even in widely spaced lettering, in capitals. */
  private static final double WIDE_GAP = 3;

  /**
   * A word space of this many capitals may part columns set close, if it stands below another's in
   * so many rows that text would hardly do it by chance: six weigh enough.
   */
  private static final double NARROW_GAP = 0.6;

  private static final double NARROW = 0.35;

  /** One before an initial may be narrower, where a name ends and another begins: ... */
  private static final double INITIAL_GAP = 0.2;

  /** ... four such rows are a roll, ... */
  private static final double INITIAL = 0.5;

  /** ... in which the initials stand this near below each other, in capitals: rolls may lean. */
  private static final double LARGEST_LEAN = 1;

  /** What a word space shares with the gap above or below, in capitals. */
  private static final double LEAST_SHARED_NARROW = 0.4;

  /** How far word spaces may lie beside each other where wider gaps are among them, in capitals. */
  private static final double SLACK = 0.5;

  /** A sign stands alone if it has so much white on either side, in capitals. */
  private static final double ALONE = 0.35;

  /** So many signs between two columns may be grain, ... */
  private static final int MOST_ALONE = 2;

  /** ... each as wide as this, in capitals, ... */
  private static final double LETTER = 0.66;

  /** ... with so much white on either side. */
  private static final double SPARSE = 1;

  /** The gaps of two rows that part the same columns share so many capitals. */
  private static final double LEAST_SHARED = 0.8;

  /** Rows of one roll are no further apart than this, in capitals. */
  private static final double LARGEST_ROW_STEP = 7;

  /** Capitals of rows of one roll differ by no more than this factor. */
  private static final double LARGEST_RATIO = 1.4;

  /** How much speaks for columns where one is begun: two wide gaps or three doubtful ones. */
  private static final double ENOUGH = 1.95;

  private static final double DOUBTFUL = 0.67;

  /** The text of a row runs on over another row's gap if it covers this part of it. */
  private static final double CROSSED = 0.7;

  /** What a dash is worth that doesn't follow a figure. */
  private static final double DASH_ELSEWHERE = 0.5;

  /** Rows this near, in capitals, are one seen twice. */
  private static final double SAME_ROW = 0.9;

  /**
   * White in a row, inside a line or between two.
   *
   * @param from where it begins, in pixels from the left
   * @param to where it ends
   * @param line the line that it is in, or that ends before it
   * @param before the sign before it
   * @param next the line that begins after it; the same one if it is inside
   * @param after the sign after it
   * @param dash how likely it holds a dash rather than nothing, 0 to 1
   * @param weight how much it speaks for columns, 0 to 1
   * @param narrow whether it is no wider than a word space
   */
  record White(
      double from,
      double to,
      PlacedLine line,
      int before,
      PlacedLine next,
      int after,
      double dash,
      double weight,
      boolean narrow) {
    boolean inside() {
      return line == next;
    }

    /** How far from below this one another ends, in pixels. */
    double lean(White other) {
      return Math.abs(to - other.to);
    }

    /** Whether an initial follows it, as where a name begins. */
    boolean initial() {
      return next.initial(after);
    }

    /** Whether it is a word space of other text, or stands before a figure. */
    boolean partsNoNames() {
      return !initial() && (narrow || next.signs().get(after).figure());
    }

    /** What lies in both, in pixels; below 0 how far they are apart. */
    double shared(White other) {
      return Math.min(to, other.to) - Math.max(from, other.from);
    }
  }

  /** What stands on one baseline, from left to right. */
  record Row(List<PlacedLine> lines, List<White> gaps) {
    double y() {
      return lines.stream().mapToDouble(PlacedLine::y).average().orElseThrow();
    }

    double heightPx() {
      return lines.stream().mapToDouble(PlacedLine::heightPx).average().orElseThrow();
    }

    double capitalPx() {
      return lines.stream().mapToDouble(PlacedLine::capitalPx).average().orElseThrow();
    }

    /** Stretches of text without a gap: begin and end, in pixels from the left. */
    List<double[]> text() {
      List<double[]> stretches = new ArrayList<>();
      for (PlacedLine line : lines) {
        double begin = line.left();
        for (White gap : gaps) {
          if (gap.inside() && gap.line() == line && gap.weight() >= 1) {
            stretches.add(new double[] {begin, gap.from()});
            begin = gap.to();
          }
        }
        stretches.add(new double[] {begin, line.right()});
      }
      return stretches;
    }

    /** How much of a stretch its text covers, 0 to 1. */
    double covers(double from, double to) {
      double covered = 0;
      for (double[] stretch : text()) {
        covered += Math.max(0, Math.min(to, stretch[1]) - Math.max(from, stretch[0]));
      }
      return covered / Math.max(1e-6, to - from);
    }
  }

  private final List<Row> rows;
  private final List<List<White>> columns = new ArrayList<>();

  /**
   * @param pairs lines of one row that follow each other, with what is read between them
   */
  Columns(List<PlacedLine> lines, List<LinePair> pairs) {
    rows = rows(lines, pairs);
    Map<White, White> below = new HashMap<>();
    for (int i = 0; i < rows.size(); i++) {
      for (White gap : rows.get(i).gaps()) {
        next(i, gap).ifPresent(next -> below.put(gap, next));
      }
    }
    Set<White> seen = new HashSet<>();
    for (Row row : rows) {
      for (White gap : row.gaps()) {
        List<White> column = new ArrayList<>();
        Optional<White> at = Optional.of(gap);
        while (at.isPresent() && seen.add(at.get())) {
          column.add(at.get());
          at = Optional.ofNullable(below.get(at.get()));
        }
        List<White> roll = withoutHeading(column);
        if (part(roll)) {
          columns.add(roll);
        }
      }
    }
  }

  /**
   * Of names with initials, only rows that have one: a heading may have a word space above them.
   */
  private static List<White> withoutHeading(List<White> column) {
    List<White> rest = new ArrayList<>(column);
    if (mostlyInitials(column)) {
      while (rest.get(0).partsNoNames()) {
        rest.remove(0);
      }
      while (rest.get(rest.size() - 1).partsNoNames()) {
        rest.remove(rest.size() - 1);
      }
    }
    return List.copyOf(rest);
  }

  private static boolean mostlyInitials(List<White> column) {
    return !column.isEmpty() && 2 * column.stream().filter(White::initial).count() >= column.size();
  }

  private static boolean part(List<White> column) {
    double weight = column.stream().filter(gap -> gap.dash() < 1).mapToDouble(White::weight).sum();
    double dashes = column.stream().mapToDouble(White::dash).sum();
    return weight >= ENOUGH && 2 * dashes < column.size() && upright(column);
  }

  /**
   * Whether word spaces lie below each other rather than each a little beside the one above; where
   * names begin they may.
   */
  private static boolean upright(List<White> column) {
    if (column.stream().noneMatch(White::narrow) || mostlyInitials(column)) {
      return true;
    }
    boolean wider = column.stream().anyMatch(white -> !white.narrow());
    double capital =
        column.stream().mapToDouble(white -> white.line().capitalPx()).average().orElseThrow();
    double from = column.stream().mapToDouble(White::from).max().orElseThrow();
    double to = column.stream().mapToDouble(White::to).min().orElseThrow();
    return from < to + (wider ? SLACK * capital : 0);
  }

  private Stream<White> parting() {
    return columns.stream().flatMap(List::stream);
  }

  /** Whether the space between two lines parts columns. */
  boolean part(PlacedLine line, PlacedLine next) {
    return parting().anyMatch(gap -> gap.line() == line && gap.next() == next);
  }

  /** Whether the space between two lines is one of the first few of what parts two columns. */
  boolean among(int few, PlacedLine line, PlacedLine next) {
    return columns.stream()
        .flatMap(column -> column.stream().filter(gap -> !gap.inside()).limit(few))
        .anyMatch(gap -> gap.line() == line && gap.next() == next);
  }

  /** The gaps inside a line at which columns part, from left to right. */
  List<White> inside(PlacedLine line) {
    return parting()
        .filter(gap -> gap.inside() && gap.line() == line)
        .sorted(Comparator.comparingDouble(White::from))
        .toList();
  }

  /** Whether the nearest rows above and below have text where two lines of one row have none. */
  boolean crossed(PlacedLine line, PlacedLine next) {
    int at = 0;
    while (!rows.get(at).lines().contains(line)) {
      at++;
    }
    boolean any = false;
    for (int other : new int[] {at - 1, at + 1}) {
      if (other >= 0 && other < rows.size() && near(rows.get(at), rows.get(other))) {
        if (rows.get(other).covers(line.right(), next.left()) < CROSSED) {
          return false;
        }
        any = true;
      }
    }
    return any;
  }

  private static boolean near(Row a, Row b) {
    return Math.abs(a.y() - b.y()) <= LARGEST_ROW_STEP * Math.max(a.heightPx(), b.heightPx());
  }

  /** The gap that goes on with this one in a row below. */
  private Optional<White> next(int row, White gap) {
    Row from = rows.get(row);
    for (int i = row + 1; i < rows.size() && near(from, rows.get(i)); i++) {
      Row to = rows.get(i);
      double tall = Math.max(from.heightPx(), to.heightPx());
      if (to.y() - from.y() < SAME_ROW * tall) {
        continue;
      }
      if (tall > LARGEST_RATIO * Math.min(from.heightPx(), to.heightPx())) {
        return Optional.empty();
      }
      double capital = Math.max(from.capitalPx(), to.capitalPx());
      Optional<White> below =
          to.gaps().stream()
              .filter(other -> gap.shared(other) >= leastShared(gap, other) * capital)
              .max(Comparator.comparingDouble(gap::shared))
              .or(() -> initialBelow(gap, to, LARGEST_LEAN * capital));
      if (below.isPresent()) {
        return below;
      }
      if (to.covers(gap.from(), gap.to()) > 0) {
        return Optional.empty();
      }
    }
    return Optional.empty();
  }

  /** Names that are set to the left begin below each other, however near the names before end. */
  private static Optional<White> initialBelow(White gap, Row row, double lean) {
    return row.gaps().stream()
        .filter(other -> gap.initial() && other.initial() && gap.lean(other) <= lean)
        .min(Comparator.comparingDouble(gap::lean));
  }

  private static double leastShared(White gap, White other) {
    return gap.narrow() || other.narrow() ? LEAST_SHARED_NARROW : LEAST_SHARED;
  }

  private static List<Row> rows(List<PlacedLine> lines, List<LinePair> pairs) {
    List<PlacedLine> rest = new ArrayList<>(lines);
    rest.sort(Comparator.comparingDouble(PlacedLine::left));
    List<Row> rows = new ArrayList<>();
    while (!rest.isEmpty()) {
      List<PlacedLine> row = new ArrayList<>(List.of(rest.remove(0)));
      for (PlacedLine line : List.copyOf(rest)) {
        if (row.get(row.size() - 1).beside(line)) {
          row.add(line);
          rest.remove(line);
        }
      }
      rows.add(new Row(row, gaps(row, pairs)));
    }
    rows.sort(Comparator.comparingDouble(Row::y));
    return rows;
  }

  private static List<White> gaps(List<PlacedLine> row, List<LinePair> pairs) {
    List<White> gaps = new ArrayList<>();
    for (int i = 0; i < row.size(); i++) {
      PlacedLine line = row.get(i);
      gaps.addAll(inner(line));
      if (i + 1 < row.size()) {
        PlacedLine next = row.get(i + 1);
        double capital = (line.capitalPx() + next.capitalPx()) / 2;
        if (next.left() - line.right() >= LEAST_GAP * capital) {
          boolean dash =
              pairs.stream()
                  .anyMatch(pair -> pair.line() == line && pair.next() == next && pair.dash());
          int last = line.signs().size() - 1;
          double likely = dash ? dashAfter(line, last) : 0;
          gaps.add(new White(line.right(), next.left(), line, last, next, 0, likely, 1, false));
        }
      }
    }
    return gaps;
  }

  /** The gaps inside a line. */
  private static List<White> inner(PlacedLine line) {
    List<White> gaps = new ArrayList<>();
    if (!line.straight()) {
      return gaps;
    }
    List<PlacedLine.PlacedSign> signs = line.signs();
    int at = 0;
    while (at + 1 < signs.size()) {
      int from = at;
      Optional<White> gap =
          IntStream.concat(
                  IntStream.of(from + 2).filter(to -> to < signs.size() && alone(line, from + 1)),
                  IntStream.rangeClosed(from + 1, from + 1 + MOST_ALONE))
              .filter(to -> to < signs.size())
              .mapToObj(to -> gap(line, from, to))
              .flatMap(Optional::stream)
              .findFirst()
              .or(() -> wordSpace(line, from));
      gap.ifPresent(gaps::add);
      at = gap.map(White::after).orElse(at + 1);
    }
    return gaps;
  }

  private static Optional<White> wordSpace(PlacedLine line, int before) {
    int after = before + 1;
    boolean initial = line.initial(after);
    if (before > 0 && line.initial(before - 1)) {
      return Optional.empty(); // Its name follows.
    }
    return line.white(before, after) >= (initial ? INITIAL_GAP : NARROW_GAP)
            && line.spaced(before, after)
        ? Optional.of(
            new White(
                line.endOf(before),
                line.beginOf(after),
                line,
                before,
                line,
                after,
                0,
                initial ? INITIAL : NARROW,
                true))
        : Optional.empty();
  }

  /** The gap between two signs of a line, if it is one; what stands between them may be grain. */
  private static Optional<White> gap(PlacedLine line, int before, int after) {
    if (!wide(line, before, after)) {
      return Optional.empty();
    }
    List<PlacedLine.PlacedSign> between = line.signs().subList(before + 1, after);
    double white = line.white(before, after);
    boolean read =
        line.signs().subList(before, after + 1).stream().anyMatch(PlacedLine.PlacedSign::dash);
    double dash = read ? dashAfter(line, before) : 0;
    double weight = white >= WIDE_GAP ? 1 : DOUBTFUL;
    if (between.size() == 1 && alone(line, before + 1)) {
      weight = between.get(0).letter() ? 0 : DOUBTFUL;
    } else if (!between.isEmpty()) {
      if (between.stream().anyMatch(PlacedLine.PlacedSign::sure)
          || white - between.size() * LETTER < SPARSE * (between.size() + 1)) {
        return Optional.empty();
      }
      weight = DOUBTFUL;
    }
    // A dash beside it is no part of the text there: what parts columns is often read as one.
    int last = before;
    while (last > 0 && line.signs().get(last).dash()) {
      last--;
    }
    int first = after;
    while (first + 1 < line.signs().size() && line.signs().get(first).dash()) {
      first++;
    }
    return Optional.of(
        new White(
            line.endOf(last), line.beginOf(first), line, last, line, first, dash, weight, false));
  }

  /**
   * What a dash that was read after a sign is worth. Recognisers read dashes into white, after
   * names as after years: into two gaps of 86.
   */
  private static double dashAfter(PlacedLine line, int sign) {
    for (int i = sign; i >= 0; i--) {
      PlacedLine.PlacedSign last = line.signs().get(i);
      if (!last.dash()) {
        return Character.isDigit(last.slot().best().codePointAt(0)) ? 1 : DASH_ELSEWHERE;
      }
    }
    return DASH_ELSEWHERE;
  }

  private static boolean alone(PlacedLine line, int sign) {
    return !line.signs().get(sign).surelyLetter()
        && line.white(sign - 1, sign) >= ALONE
        && line.white(sign, sign + 1) >= ALONE
        && line.spaced(sign - 1, sign)
        && line.spaced(sign, sign + 1);
  }

  private static boolean wide(PlacedLine line, int before, int after) {
    double middles = (line.signs().get(after).x() - line.signs().get(before).x()) / line.heightPx();
    return line.white(before, after) >= LEAST_GAP && middles >= LEAST_GAP_PITCHES * line.pitch();
  }
}
