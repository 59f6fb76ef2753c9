package rakelight.reading;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.IntStream;
import rakelight.finding.FoundLine;
import rakelight.finding.LineStrip;

/*
 * A finder sees ink, not rows. It breaks a row where a long dash or a wide gap stands, and it runs one
 * row of a roll into the next column where the gap is narrow or something is cut in it:
 *
 *     1865 ————— 1889          E. SALLOW        E. GARSIDE       (two lines found)
 *     (two lines found)        GEORGE SKELBY  + P. BRACKLEY      (one, with a Y for the +)
 *                              P. MOCKRIDGE     I. KESTRILL      (two)
 *
 * What is white in one row says little; what is white in row below row is the space between columns. So
 * the gaps of rows that follow each other are compared. Where they overlap they part columns: lines are
 * cut there, and none are joined over them. Elsewhere two lines that follow each other on one baseline
 * are one if the recognisers read a dash or letters between them, if the gap is no more than a word
 * space, or if the text of the rows above and below runs on where this one has its gap.
 */

/**
 * Makes lines whole after they were read: joins pieces of one row, cuts lines that run through
 * columns. Lines that bend are left as they are. Of a joined line's reading and those of its pieces
 * laid beside each other the better is kept, and of a cut line's parts likewise. Used once, for one
 * picture.
 */
final class WholeLines {
  /** Gaps up to this are word spaces, in capitals. */
  private static final double WORD_SPACE = 1.6;

  /** A joined line may be read by this part worse than its pieces; else they are two lines. */
  private static final double LARGEST_LOSS = 0.35;

  /** A row in pieces is whole after so many rounds: four pieces become two, then one. */
  private static final int MOST_ROUNDS = 3;

  /** So many gaps between two columns are looked into for dashes before the others are. */
  private static final int FEW_OF_COLUMNS = 2;

  /** How far a cut line reaches beyond the middle of its outermost letters, in capitals. */
  private static final double REACH = 0.5;

  /** Strips reach so far beyond a line's ends, in capitals ({@link LineStrip}). */
  private static final double STRIP_MARGIN = 0.5;

  private final Function<List<FoundLine>, List<LineLattice>> reading;
  private final Map<FoundLine, LineLattice> known = new HashMap<>();

  /** Parts of lines that were cut, each with the line it was cut from: never joined again. */
  private final Map<FoundLine, FoundLine> cutFrom = new HashMap<>();

  /**
   * @param reading reads lines of the picture: one lattice per line, in the same order
   */
  WholeLines(Function<List<FoundLine>, List<LineLattice>> reading) {
    this.reading = reading;
  }

  /** The picture with its lines whole, in the order they had. */
  ReadPicture of(ReadPicture picture) {
    ReadPicture whole = picture;
    for (int round = 0; round < MOST_ROUNDS; round++) {
      List<ReadLine> lines = madeWhole(whole);
      if (lines.equals(whole.lines())) {
        break;
      }
      whole = whole.withLines(lines);
    }
    return whole;
  }

  private List<ReadLine> madeWhole(ReadPicture picture) {
    List<PlacedLine> placed =
        picture.lines().stream().map(line -> PlacedLine.of(picture, line)).toList();
    List<LinePair> pairs =
        LinePair.of(placed.stream().filter(line -> !line.signs().isEmpty()).toList());
    List<LinePair> readPairs = read(pairs, new Columns(placed, pairs));
    Columns columns = new Columns(placed, readPairs);
    Map<PlacedLine, List<ReadLine>> instead = cut(placed, columns);
    Set<PlacedLine> used = new HashSet<>(instead.keySet());
    for (LinePair pair : readPairs) {
      if (!used.contains(pair.line()) && !used.contains(pair.next()) && one(pair, columns)) {
        instead.put(pair.line(), List.of(pair.best()));
        instead.put(pair.next(), List.of());
        used.add(pair.line());
        used.add(pair.next());
      }
    }
    return placed.stream()
        .flatMap(line -> instead.getOrDefault(line, List.of(line.line())).stream())
        .toList();
  }

  /**
   * The same pairs with what is read along them. Of pairs that seem to be parted by columns only
   * the first few are read, unless there are dashes in those: a roll has many.
   */
  private List<LinePair> read(List<LinePair> pairs, Columns columns) {
    List<LinePair> few =
        readAlong(
            pairs.stream()
                .filter(
                    pair ->
                        !columns.part(pair.line(), pair.next())
                            || columns.among(FEW_OF_COLUMNS, pair.line(), pair.next()))
                .toList());
    boolean dashes =
        few.stream().anyMatch(pair -> pair.dash() && columns.part(pair.line(), pair.next()));
    return dashes ? readAlong(pairs) : few;
  }

  private List<LinePair> readAlong(List<LinePair> pairs) {
    List<LineLattice> across = read(pairs.stream().map(LinePair::whole).toList());
    return IntStream.range(0, pairs.size())
        .mapToObj(i -> pairs.get(i).read(across.get(i)))
        .toList();
  }

  /** Whether two lines that follow each other are one. */
  private boolean one(LinePair pair, Columns columns) {
    return !columns.part(pair.line(), pair.next())
        && !ofOneCut(pair.line(), pair.next())
        && pair.gain() >= -LARGEST_LOSS * pair.piecesSurplus()
        && (pair.dash()
            || pair.word()
            || pair.gap() <= WORD_SPACE
            || columns.crossed(pair.line(), pair.next()));
  }

  private boolean ofOneCut(PlacedLine line, PlacedLine next) {
    FoundLine whole = cutFrom.get(line.line().line());
    return whole != null && whole.equals(cutFrom.get(next.line().line()));
  }

  /** The lines that run through columns, each with what it is cut into. */
  private Map<PlacedLine, List<ReadLine>> cut(List<PlacedLine> lines, Columns columns) {
    Map<PlacedLine, List<ReadLine>> instead = new HashMap<>();
    List<PlacedLine> through =
        lines.stream().filter(line -> !columns.inside(line).isEmpty()).toList();
    List<List<ReadLine>> cut =
        through.stream().map(line -> parts(line, columns.inside(line))).toList();
    // All at once: recognisers are quicker so.
    read(cut.stream().flatMap(List::stream).map(ReadLine::line).toList());
    for (int i = 0; i < through.size(); i++) {
      List<ReadLine> best = cut.get(i).stream().map(this::better).toList();
      // Parts of which nobody can read a word are no columns.
      if (best.stream().allMatch(part -> MachineReader.believed(part.lattice()))) {
        FoundLine whole = through.get(i).line().line();
        best.forEach(part -> cutFrom.put(part.line(), whole));
        instead.put(through.get(i), best);
      }
    }
    return instead;
  }

  /** Part of a line as it was read within the whole or by itself. */
  private ReadLine better(ReadLine part) {
    LineLattice anew = read(List.of(part.line())).get(0);
    return anew.surplus() >= part.lattice().surplus() ? new ReadLine(part.line(), anew) : part;
  }

  private List<LineLattice> read(List<FoundLine> lines) {
    List<FoundLine> unknown = lines.stream().filter(line -> !known.containsKey(line)).toList();
    if (!unknown.isEmpty()) {
      List<LineLattice> lattices = reading.apply(unknown);
      for (int i = 0; i < unknown.size(); i++) {
        known.put(unknown.get(i), lattices.get(i));
      }
    }
    return lines.stream().map(line -> Objects.requireNonNull(known.get(line))).toList();
  }

  /** What a line is cut into at its gaps, each with its part of what was read. */
  private static List<ReadLine> parts(PlacedLine line, List<Columns.White> gaps) {
    List<ReadLine> parts = new ArrayList<>();
    double margin = STRIP_MARGIN / LineStrip.capitals(line.line().line());
    double reach = margin * REACH / STRIP_MARGIN * line.capitalPx() / line.heightPx();
    double from = margin;
    double first = 0;
    for (Columns.White gap : gaps) {
      double last = line.signs().get(gap.before()).column();
      parts.add(part(line.line(), from, last + reach, first, last));
      first = line.signs().get(gap.after()).column();
      from = first - reach;
    }
    parts.add(part(line.line(), from, 1 - margin, first, 1));
    return parts;
  }

  /**
   * Part of a line.
   *
   * @param from where it begins, as a part of the line's strip
   * @param to where it ends
   * @param first its first letter's middle, or less
   * @param last its last letter's middle, or more
   */
  private static ReadLine part(ReadLine line, double from, double to, double first, double last) {
    double margin = STRIP_MARGIN / LineStrip.capitals(line.line());
    double begin = from - margin;
    double length = to - from + 2 * margin;
    List<Slot> slots =
        line.lattice().slots().stream()
            .filter(slot -> slot.centre() >= first && slot.centre() <= last)
            .map(
                slot ->
                    new Slot(
                        slot.alternatives(),
                        Math.max(0, Math.min(1, (slot.from() - begin) / length)),
                        Math.max(0, Math.min(1, (slot.to() - begin) / length)),
                        slot.superior()))
            .toList();
    FoundLine found =
        new FoundLine(
            LineStrip.ribbonOf(line.line(), from, to), line.line().heightPx(), line.line().score());
    return new ReadLine(found, new LineLattice(slots));
  }
}
