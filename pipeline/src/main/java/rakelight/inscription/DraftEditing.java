package rakelight.inscription;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.archive.ProposalId;

/**
 * What a reader may do to a draft, at the terminal and at the desk. Each change gives a new draft.
 * Lines and places are counted from 1; every letter is a place, and so is each letter of a gap
 * whose number is known.
 */
public final class DraftEditing {
  private DraftEditing() {}

  /** A change that can't be made, and what to do instead. */
  public static final class RefusedException extends Exception {
    public RefusedException(String message) {
      super(message);
    }
  }

  /**
   * What stands at a place of a line.
   *
   * @param ink a letter, or a gap
   * @param note the reader's remark on it; may be empty
   */
  public record Seen(Sign ink, boolean spaceBefore, String note, Draft.Place place) {}

  /** The places of a line, for whoever shows them. */
  public static List<Seen> places(Draft.Line line) throws LeidenException {
    OpenLine open = OpenLine.of(line);
    List<Seen> seen = new ArrayList<>();
    for (int i = 0; i < open.size(); i++) {
      OpenLine.Cell cell = open.cells().get(i);
      seen.add(new Seen(cell.ink(), cell.spaceBefore(), open.note(i), cell.place()));
    }
    return seen;
  }

  /** The sign that stands at each place of each line of a reading. */
  public static List<List<SignId>> signs(Inscription inscription) {
    List<List<SignId>> lines = new ArrayList<>();
    for (List<Sign> line : inscription.lines()) {
      List<SignId> places = new ArrayList<>();
      for (Sign sign : line) {
        if (sign instanceof Letter || sign instanceof Gap) {
          places.addAll(Collections.nCopies(OpenLine.letters(sign), sign.id()));
        }
      }
      lines.add(places);
    }
    return lines;
  }

  /** A letter as {@code 8}, or several that it may be as {@code 3/8}, the favoured one first. */
  public static Letter letter(String letters) throws LeidenException, RefusedException {
    String[] options = letters.length() > 1 ? letters.split("/", -1) : new String[] {letters};
    String written = options.length == 1 ? options[0] : "(" + String.join(" or ", options) + ")";
    List<OpenLine.Cell> read = OpenLine.of(written).cells();
    if (read.size() != 1 || !(read.get(0).ink() instanceof Letter letter)) {
      throw new RefusedException("one letter, or two that it may be as in 3/8");
    }
    return letter;
  }

  /** Decides what stands at these places: the same letter or gap at each. */
  public static Draft put(Draft draft, int line, int from, int to, Sign ink, String note)
      throws LeidenException, RefusedException {
    return change(
        draft,
        line,
        open -> {
          requirePlaces(open, from, to);
          int each = OpenLine.letters(ink);
          if (each > 1 && to > from) {
            throw new RefusedException("give one place for a gap of several letters");
          }
          for (int i = from - 1; i < to; i++) {
            open.put(i, ink, note);
          }
          decide(open, from, to + each - 1, true);
        });
  }

  /** Decides how the letters at these places are known; the letters stay. */
  public static Draft stand(Draft draft, int line, int from, int to, Standing standing)
      throws LeidenException, RefusedException {
    return each(
        draft,
        line,
        from,
        to,
        (open, i) -> {
          if (!(open.cells().get(i).ink() instanceof Letter letter)) {
            throw new RefusedException("there is no letter at that place; say which letter it is");
          }
          open.put(i, letter.withStanding(standing), open.note(i));
        });
  }

  /** The reader sees the letters shown at these places; what was decided there stays. */
  public static Draft seen(Draft draft, int line, int from, int to)
      throws LeidenException, RefusedException {
    return each(
        draft,
        line,
        from,
        to,
        (open, i) -> {
          OpenLine.Cell cell = open.cells().get(i);
          if (cell.place().decided()) {
            return;
          }
          if (!(cell.ink() instanceof Letter letter)) {
            throw new RefusedException(
                "say what stands at letter " + (i + 1) + "; nobody has read it yet");
          }
          open.put(i, letter.withStanding(Standing.CLEAR), open.note(i));
        });
  }

  /**
   * The reader has looked at every letter of the line and sees what is shown; what was decided
   * there stays. Letters decided so are marked as decided with their line.
   *
   * @throws RefusedException if a place that isn't decided shows no clear letter
   */
  public static Draft seenLine(Draft draft, int line) throws LeidenException, RefusedException {
    return change(
        draft,
        line,
        open -> {
          for (int i = 0; i < open.size(); i++) {
            OpenLine.Cell cell = open.cells().get(i);
            if (cell.place().decided()) {
              continue;
            }
            if (!(cell.ink() instanceof Letter letter) || letter.standing() != Standing.CLEAR) {
              throw new RefusedException("decide letter " + (i + 1) + " by itself first");
            }
            open.set(i, cell.with(cell.place().decided(Draft.Decided.WITH_ITS_LINE)));
          }
        });
  }

  /** The reader agrees with what is shown at these places. */
  public static Draft accept(Draft draft, int line, int from, int to)
      throws LeidenException, RefusedException {
    return each(draft, line, from, to, (open, i) -> {});
  }

  /** The reader agrees with the whole line. */
  public static Draft accept(Draft draft, int line) throws LeidenException, RefusedException {
    return accept(draft, line, 1, OpenLine.of(line(draft, line)).size());
  }

  /**
   * Puts in a place that was missed.
   *
   * @param at where it will stand, 1 to one more than the line has
   */
  public static Draft insert(
      Draft draft, int line, int at, Sign ink, boolean spaceBefore, String note)
      throws LeidenException, RefusedException {
    return change(
        draft,
        line,
        open -> {
          if (at < 1 || at > open.size() + 1) {
            throw new RefusedException(
                "a letter of this line can be put in at 1 to " + (open.size() + 1));
          }
          open.insert(at - 1, ink, spaceBefore && at > 1, note);
          decide(open, at, at + OpenLine.letters(ink) - 1, true);
        });
  }

  /**
   * Letters typed one after the other: each stands where one stood, and what goes beyond the line's
   * end is put in there.
   *
   * @param at of the first, 1 to one more than the line has
   */
  public static Draft type(Draft draft, int line, int at, List<Letter> letters)
      throws LeidenException, RefusedException {
    return change(
        draft,
        line,
        open -> {
          if (at < 1 || at > open.size() + 1) {
            throw new RefusedException(
                "letters of this line can be typed from 1 to " + (open.size() + 1));
          }
          for (int i = 0; i < letters.size(); i++) {
            int place = at - 1 + i;
            if (place < open.size()) {
              open.put(place, letters.get(i), "");
            } else {
              open.insert(place, letters.get(i), false, "");
            }
          }
          decide(open, at, at + letters.size() - 1, true);
        });
  }

  /** There is no letter at this place. */
  public static Draft remove(Draft draft, int line, int at)
      throws LeidenException, RefusedException {
    return change(
        draft,
        line,
        open -> {
          requirePlaces(open, at, at);
          open.remove(at - 1);
        });
  }

  /** A word begins at this place, or doesn't. */
  public static Draft space(Draft draft, int line, int at, boolean spaceBefore)
      throws LeidenException, RefusedException {
    return change(
        draft,
        line,
        open -> {
          requirePlaces(open, at, at);
          if (at == 1) {
            throw new RefusedException("no space stands before the first letter of a line");
          }
          open.set(at - 1, open.cells().get(at - 1).after(spaceBefore));
        });
  }

  /** A new line begins at this place. */
  public static Draft splitLine(Draft draft, int line, int at)
      throws LeidenException, RefusedException {
    OpenLine first = OpenLine.of(line(draft, line));
    if (at < 2 || at > first.size()) {
      throw new RefusedException("a line can be split at letters 2 to " + first.size());
    }
    OpenLine second = first.splitOff(at - 1);
    return splice(draft, line, 1, List.of(first.close(), second.close()));
  }

  /** This line and the next are one. */
  public static Draft joinLines(Draft draft, int line) throws LeidenException, RefusedException {
    OpenLine first = OpenLine.of(line(draft, line));
    if (line == draft.lines().size()) {
      throw new RefusedException("there is no next line to join with");
    }
    first.append(OpenLine.of(line(draft, line + 1)));
    return splice(draft, line, 2, List.of(first.close()));
  }

  /**
   * Puts in a line that was missed.
   *
   * @param at where it will stand, 1 to one more than there are
   * @param text in Leiden signs
   */
  public static Draft addLine(Draft draft, int at, String text)
      throws LeidenException, RefusedException {
    requireNewLine(draft, at);
    return splice(draft, at, 0, List.of(typed(text, true)));
  }

  /** A line as somebody typed it, which no proposal shows. */
  private static Draft.Line typed(String text, boolean decided) throws LeidenException {
    Leiden.parse(text.startsWith("|") ? text.substring(1) : text);
    OpenLine.of(text);
    return Draft.Line.of(text, decided);
  }

  /** There is no such line on the stone. */
  public static Draft removeLine(Draft draft, int line) throws RefusedException {
    line(draft, line);
    return splice(draft, line, 1, List.of());
  }

  /** The line says this, in Leiden signs. Letters that stay keep their place on the stone. */
  public static Draft text(Draft draft, int line, String text)
      throws LeidenException, RefusedException {
    List<OpenLine.Cell> before = OpenLine.of(line(draft, line)).cells();
    OpenLine after = OpenLine.of(typed(text, true));
    List<OpenLine.Cell> cells = after.cells();
    for (Pairing.Pair pair :
        Pairing.of(
            before.size(),
            cells.size(),
            (i, j) ->
                unlike(
                    Comparison.says(before.get(i).ink()), Comparison.says(cells.get(j).ink())))) {
      if (pair.later() >= 0) {
        Draft.Place place =
            pair.earlier() >= 0 ? before.get(pair.earlier()).place() : Draft.Place.NOWHERE;
        after.set(pair.later(), cells.get(pair.later()).with(place.decidedIs(true)));
      }
    }
    return splice(draft, line, 1, List.of(after.close()));
  }

  /** How many letters' widths apart two places are on the stone, as far as that is known. */
  @FunctionalInterface
  public interface Apart {
    /**
     * @param before index of a place that is laid over, from 0
     * @param read index of a place of the line that was read anew, from 0
     */
    int of(int before, int read);
  }

  /** So far apart letters count as strangers. */
  private static final int STRANGERS = 3;

  /**
   * Lays what a machine reads anew over some places of a line: letters that the reader has decided
   * stay as they are, on the places read anew; the others are as they are read now.
   *
   * @param first the first place that is laid over
   * @param last the last; one less than {@code first} if there is none
   * @param read as it is put before the reader, nothing decided
   */
  public static Draft relaid(
      Draft draft, int line, int first, int last, Draft.Line read, Apart apart)
      throws LeidenException, RefusedException {
    List<OpenLine.Cell> after = OpenLine.of(read).cells();
    return change(
        draft,
        line,
        open -> {
          List<OpenLine.Cell> before = open.cells().subList(first - 1, last);
          List<Pairing.Pair> pairs =
              Pairing.of(
                  before.size(),
                  after.size(),
                  (i, j) ->
                      unlike(
                              Comparison.says(before.get(i).ink()),
                              Comparison.says(after.get(j).ink()))
                          + Math.min(STRANGERS, apart.of(i, j)));
          int at = first - 1;
          boolean keepsSpace = true;
          for (Pairing.Pair pair : pairs) {
            boolean decided = pair.earlier() >= 0 && before.get(pair.earlier()).place().decided();
            if (pair.later() < 0 && !decided) {
              open.remove(at);
              continue;
            }
            OpenLine.Cell old = pair.earlier() < 0 ? after.get(pair.later()) : open.cells().get(at);
            Draft.Place place =
                pair.later() < 0 ? Draft.Place.NOWHERE : after.get(pair.later()).place();
            boolean space =
                pair.later() < 0 || (decided && keepsSpace)
                    ? old.spaceBefore()
                    : after.get(pair.later()).spaceBefore();
            if (pair.earlier() < 0) {
              open.insert(at, old.ink(), false, "");
            } else if (!decided) {
              open.put(at, after.get(pair.later()).ink(), "");
            }
            OpenLine.Cell cell = open.cells().get(at);
            Draft.Decided how = decided ? cell.place().how() : Draft.Decided.NOT;
            open.set(at, cell.with(place.decided(how)).after(space && at > 0));
            keepsSpace = decided;
            at++;
          }
        });
  }

  /** Puts in a line that a machine has read where none was, nothing decided. */
  public static Draft addRead(Draft draft, int at, Draft.Line read) throws RefusedException {
    requireNewLine(draft, at);
    return splice(draft, at, 0, List.of(read));
  }

  private static void requireNewLine(Draft draft, int at) throws RefusedException {
    if (at < 1 || at > draft.lines().size() + 1) {
      throw new RefusedException("a line can be put in at 1 to " + (draft.lines().size() + 1));
    }
  }

  /** What it costs that one letter stands where another stood. */
  private static int unlike(String before, String after) {
    return before.equals(after) ? 0 : before.equalsIgnoreCase(after) ? 1 : 2;
  }

  /** Nothing is decided about this place any more. */
  static Draft reconsider(Draft draft, int line, int at) throws LeidenException, RefusedException {
    return change(draft, line, open -> decide(open, at, at, false));
  }

  /** A word begins at this place or doesn't, also at a line's first, where one may go on. */
  static Draft wordBegins(Draft draft, int line, int at, boolean begins)
      throws LeidenException, RefusedException {
    if (at > 1) {
      return space(draft, line, at, begins);
    }
    Draft.Line whole = line(draft, line);
    String text = whole.text().startsWith("|") ? whole.text().substring(1) : whole.text();
    String joined = begins || line == 1 ? text : "|" + text;
    return splice(draft, line, 1, List.of(new Draft.Line(joined, whole.places())));
  }

  /**
   * A draft of what was signed, all of it decided, to be changed and signed again. What reaches
   * over a line's end is parted there: every letter is marked as before, once on each line.
   *
   * @param shown what the proposal it may be laid over suggests, with its places
   * @throws RefusedException if something that has a text of its own reaches over several lines, so
   *     that it can't be parted
   */
  public static Draft reopened(
      Inscription inscription, List<Suggestion> shown, Optional<ProposalId> proposal)
      throws RefusedException {
    for (Span span : inscription.spans()) {
      if (!isPartable(span)
          && lineOf(inscription, span.first()) < lineOf(inscription, span.last())) {
        throw new RefusedException(
            "lines "
                + lineOf(inscription, span.first())
                + " and "
                + lineOf(inscription, span.last())
                + " share one "
                + span.kind().name().toLowerCase(Locale.ROOT).replace('_', ' ')
                + (span.text().isEmpty() ? "" : ", “" + span.text() + "”")
                + ", so they can't be changed one by one; write the whole reading anew with"
                + " `confirm`");
      }
    }
    try {
      return laidOver(Leiden.printLines(partedAtLines(inscription)), shown, proposal);
    } catch (LeidenException e) {
      throw new IllegalStateException("lines without a span over their ends can't be read", e);
    }
  }

  /** What was signed, line by line, to be looked at; what can't be parted at lines is left out. */
  public static Draft plain(
      Inscription inscription, List<Suggestion> shown, Optional<ProposalId> proposal) {
    try {
      return laidOver(Leiden.printLines(partedAtLines(inscription)), shown, proposal);
    } catch (LeidenException | RefusedException e) {
      throw new IllegalStateException("lines without a span over their ends can't be read", e);
    }
  }

  /** Whether a span over two lines says the same as one on each. */
  private static boolean isPartable(Span span) {
    return span.text().isEmpty() && span.kind() != Span.Kind.UNEXPANDED;
  }

  private static int lineOf(Inscription inscription, SignId id) {
    return (int)
        inscription.signs().subList(0, inscription.position(id) + 1).stream()
            .filter(Break.class::isInstance)
            .count();
  }

  /** The same reading with spans parted at the ends of lines; what can't be parted is left out. */
  private static Inscription partedAtLines(Inscription inscription) {
    List<Span> parted = new ArrayList<>();
    for (Span span : inscription.spans()) {
      int first = inscription.position(span.first());
      int last = inscription.position(span.last());
      List<Sign> covered = inscription.signs().subList(first, last + 1);
      if (covered.stream().noneMatch(Break.class::isInstance)) {
        parted.add(span);
      } else if (isPartable(span)) {
        SignId from = span.first();
        for (int i = 1; i < covered.size(); i++) {
          if (covered.get(i) instanceof Break) {
            parted.add(Span.of(span.kind(), from, covered.get(i - 1).id()));
            from = covered.get(i + 1).id();
          }
        }
        parted.add(Span.of(span.kind(), from, span.last()));
      }
    }
    return new Inscription(inscription.signs(), parted);
  }

  private static Draft laidOver(
      List<String> texts, List<Suggestion> shown, Optional<ProposalId> proposal)
      throws LeidenException, RefusedException {
    List<Draft.Line> lines = new ArrayList<>();
    List<Pairing.Pair> pairs =
        Pairing.of(
            shown.size(),
            texts.size(),
            (i, j) -> Pairing.APART * distance(shown.get(i).text(), texts.get(j)) / 100);
    for (Pairing.Pair pair : pairs) {
      if (pair.later() < 0) {
        continue;
      }
      String text = texts.get(pair.later());
      OpenLine.of(text);
      if (pair.earlier() < 0) {
        lines.add(Draft.Line.of(text, true));
      } else {
        Draft one = new Draft(List.of(shown.get(pair.earlier()).line()), proposal);
        lines.add(text(one, 1, text).lines().get(0));
      }
    }
    return new Draft(lines, proposal);
  }

  /** How far two lines are from each other, 0 to 200; more than that is said to be no pair. */
  private static int distance(String shown, String text) {
    if (shown.isEmpty()) {
      return 1000;
    }
    int apart =
        Pairing.of(
                shown.length(), text.length(), (i, j) -> shown.charAt(i) == text.charAt(j) ? 0 : 2)
            .stream()
            .mapToInt(
                pair ->
                    pair.earlier() >= 0
                            && pair.later() >= 0
                            && shown.charAt(pair.earlier()) == text.charAt(pair.later())
                        ? 0
                        : 1)
            .sum();
    return 200 * apart / Math.max(shown.length(), text.length());
  }

  /** A change to one line that has been taken apart. */
  private interface Change {
    void to(OpenLine open) throws RefusedException;
  }

  private static Draft change(Draft draft, int line, Change change)
      throws LeidenException, RefusedException {
    OpenLine open = OpenLine.of(line(draft, line));
    change.to(open);
    return splice(draft, line, 1, List.of(open.close()));
  }

  /** A change to one place of a line, counted from 0. */
  private interface PlaceChange {
    void to(OpenLine open, int at) throws RefusedException;
  }

  /** Changes each of these places and has them decided. */
  private static Draft each(Draft draft, int line, int from, int to, PlaceChange change)
      throws LeidenException, RefusedException {
    return change(
        draft,
        line,
        open -> {
          requirePlaces(open, from, to);
          for (int i = from - 1; i < to; i++) {
            change.to(open, i);
          }
          decide(open, from, to, true);
        });
  }

  private static Draft.Line line(Draft draft, int line) throws RefusedException {
    if (line < 1 || line > draft.lines().size()) {
      throw new RefusedException(
          draft.lines().isEmpty()
              ? "there is no line yet; put one in"
              : "lines go from 1 to " + draft.lines().size());
    }
    return draft.lines().get(line - 1);
  }

  private static Draft splice(Draft draft, int at, int removed, List<Draft.Line> put)
      throws RefusedException {
    List<Draft.Line> lines = new ArrayList<>(draft.lines());
    lines.subList(at - 1, at - 1 + removed).clear();
    lines.addAll(at - 1, put);
    if (!lines.isEmpty() && lines.get(0).text().startsWith("|")) {
      Draft.Line first = lines.get(0);
      lines.set(0, new Draft.Line(first.text().substring(1), first.places()));
    }
    if (lines.size() > Extent.MOST) {
      throw new RefusedException("a face holds " + Extent.MOST + " lines at most");
    }
    return new Draft(lines, draft.proposal());
  }

  private static void requirePlaces(OpenLine open, int from, int to) throws RefusedException {
    if (from < 1 || to < from || to > open.size()) {
      throw new RefusedException("the line has letters 1 to " + open.size());
    }
  }

  private static void decide(OpenLine open, int from, int to, boolean decided) {
    for (int i = from - 1; i < to; i++) {
      OpenLine.Cell cell = open.cells().get(i);
      open.set(i, cell.with(cell.place().decidedIs(decided)));
    }
  }
}
