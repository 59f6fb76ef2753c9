package rakelight.reading;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
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
 * columns. Lines that bend are left as they are. Nothing that was read is lost by it: of a joined
 * line's reading and those of its pieces laid beside each other the better is kept, and likewise of
 * a cut line's.
 */
final class WholeLines {
  /** Gaps up to this are word spaces, in capitals. */
  private static final double WORD_SPACE = 1.6;

  /** A joined line may be read by this part worse than its pieces: the places are right then. */
  private static final double LARGEST_LOSS = 0.35;

  /** A row in pieces is whole after so many rounds; more pieces aren't known. */
  private static final int MOST_ROUNDS = 3;

  /** How far a cut line reaches beyond the middle of its outermost letters, in capitals. */
  private static final double REACH = 0.5;

  /** Strips reach so far beyond a line's ends, in capitals ({@link LineStrip}). */
  private static final double STRIP_MARGIN = 0.5;

  private final Function<List<FoundLine>, List<LineLattice>> reading;
  private final Map<FoundLine, LineLattice> known = new HashMap<>();

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
      List<ReadLine> lines = round(whole);
      if (lines.equals(whole.lines())) {
        break;
      }
      whole = whole.withLines(lines);
    }
    return whole;
  }

  private List<ReadLine> round(ReadPicture picture) {
    List<PlacedLine> placed =
        picture.lines().stream().map(line -> PlacedLine.of(picture, line)).toList();
    List<LinePair> pairs =
        LinePair.of(placed.stream().filter(line -> !line.signs().isEmpty()).toList());
    List<LineLattice> across = read(pairs.stream().map(LinePair::whole).toList());
    List<LinePair> read = new ArrayList<>();
    for (int i = 0; i < pairs.size(); i++) {
      read.add(pairs.get(i).read(across.get(i)));
    }
    Columns columns = new Columns(placed, read);
    List<PlacedLine> cut =
        placed.stream().filter(line -> !columns.inside(line).isEmpty()).toList();
    Map<PlacedLine, LinePair> joined = new HashMap<>();
    Set<PlacedLine> used = new HashSet<>(cut);
    for (LinePair pair : read) {
      if (pair.both().noneMatch(used::contains) && one(pair, columns)) {
        joined.put(pair.line(), pair);
        pair.both().forEach(used::add);
      }
    }
    // Parts of all lines that are cut are read at once.
    Map<PlacedLine, List<ReadLine>> parts = new HashMap<>();
    cut.forEach(line -> parts.put(line, parts(line, columns.inside(line))));
    List<LineLattice> anew =
        read(cut.stream().flatMap(line -> parts.get(line).stream()).map(ReadLine::line).toList());
    List<ReadLine> lines = new ArrayList<>();
    int at = 0;
    for (PlacedLine line : cut) {
      List<ReadLine> best = new ArrayList<>();
      for (ReadLine part : parts.getOrDefault(line, List.of())) {
        LineLattice lattice = anew.get(at++);
        boolean better = lattice.surplus() >= part.lattice().surplus();
        best.add(better ? new ReadLine(part.line(), lattice) : part);
      }
      parts.put(line, legible(best) ? best : List.of(line.line()));
    }
    for (PlacedLine line : placed) {
      LinePair pair = joined.get(line);
      if (pair != null) {
        lines.add(pair.best());
      } else if (parts.containsKey(line)) {
        lines.addAll(parts.getOrDefault(line, List.of()));
      } else if (joined.values().stream().noneMatch(one -> one.next() == line)) {
        lines.add(line.line());
      }
    }
    return lines;
  }

  /** Whether each part of a line that is cut is a line by itself. */
  private static boolean legible(List<ReadLine> parts) {
    return parts.stream().allMatch(part -> MachineReader.believed(part.lattice()));
  }

  /** Whether two lines that follow each other are one. */
  private static boolean one(LinePair pair, Columns columns) {
    return !columns.part(pair.line(), pair.next())
        && pair.gain() >= -LARGEST_LOSS * pair.piecesSurplus()
        && (pair.dash()
            || pair.word()
            || pair.gap() <= WORD_SPACE
            || columns.crossed(pair.line(), pair.next()));
  }

  private List<LineLattice> read(List<FoundLine> lines) {
    List<FoundLine> unknown = lines.stream().filter(line -> !known.containsKey(line)).toList();
    if (!unknown.isEmpty()) {
      List<LineLattice> lattices = reading.apply(unknown);
      for (int i = 0; i < unknown.size(); i++) {
        known.put(unknown.get(i), lattices.get(i));
      }
    }
    return lines.stream().map(known::get).toList();
  }

  /** What a line is cut into at its gaps, each with its part of what was read. */
  private static List<ReadLine> parts(PlacedLine line, List<Columns.Gap> gaps) {
    List<ReadLine> parts = new ArrayList<>();
    double capital = 1 / LineStrip.capitals(line.line().line());
    double from = STRIP_MARGIN * capital;
    double fromText = 0;
    for (int i = 0; i <= gaps.size(); i++) {
      boolean last = i == gaps.size();
      double end = last ? 1 : line.signs().get(gaps.get(i).before()).column();
      double to = last ? 1 - STRIP_MARGIN * capital : end + REACH * capital;
      parts.add(part(line.line(), from, to, fromText, end));
      if (!last) {
        double begin = line.signs().get(gaps.get(i).after()).column();
        from = begin - REACH * capital;
        fromText = begin;
      }
    }
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
            LineStrip.ribbonOf(line.line(), from, to),
            line.line().heightPx(),
            line.line().score());
    return new ReadLine(found, new LineLattice(slots));
  }
}
