package rakelight.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.inscription.Basis;
import rakelight.inscription.Draft;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.SignId;
import rakelight.inscription.Standing;
import rakelight.work.Faces;
import rakelight.work.LineRules;
import rakelight.work.NamedReader;
import rakelight.work.Refused;
import rakelight.work.RefusedException;
import rakelight.work.Work;

/**
 * Goes through the lines of a face with a person, in words: accept, change, unclear, illegible,
 * lost, for a line or some of its letters; then the basis, then the signature. Every step is kept
 * before the next is asked for, so that ending at any moment loses nothing, and names the version
 * it was meant for, so that two terminals don't write over each other.
 */
final class ReadingDialog {
  private static final String HELP =
      """
      Enter or accept        you have looked at every letter, and the line is as shown
      change TEXT            the line says TEXT, in Leiden signs
      3=8  3=3/8             the third letter is 8; is 3 or 8, rather 3
      unclear 3-5            these letters could be others      clear 3   is sure after all
      illegible 3-5          marks, nobody can say what
      lost 3-5               the surface is gone
      illegible  lost        the whole line
      before TEXT  after TEXT   a line that is missing
      drop                   no such line on the stone
      back  line N           to another line
      basis photographs | basis stone 2025-04-30 LIGHT | basis earlier WITNESS
      sign                   put your name to it, when every line is settled
      quit                   stop; what you did is kept for next time
      """;

  private static final Pattern LETTER = Pattern.compile("(\\d{1,3}) ?= ?(\\S.*)");
  private static final Pattern PLACE = Pattern.compile("(\\d{1,3})(?: ?[-–] ?(\\d{1,3}))?");

  private final BufferedReader in;
  private final PrintWriter out;
  private final Faces faces;
  private final NamedReader by;
  private Work work;
  private Basis basis;
  private int at = 0;

  /**
   * @param work the face as the reader has it before him
   */
  ReadingDialog(
      BufferedReader in, PrintWriter out, Faces faces, Work work, NamedReader by, Basis basis) {
    this.in = in;
    this.out = out;
    this.faces = faces;
    this.work = work;
    this.by = by;
    this.basis = basis;
  }

  /** Goes through the lines until the person signs, quits or the input ends. */
  Optional<Reading> run() throws IOException {
    out.println("help tells what you can answer.");
    at = firstUnsettled();
    while (true) {
      show();
      String answer = in.readLine();
      if (answer == null || answer.strip().equals("quit")) {
        out.println("Not signed. What you did is kept; `read` goes on from here.");
        return Optional.empty();
      }
      try {
        if (answer.strip().equals("sign")) {
          return Optional.of(sign());
        }
        answer(answer.strip());
      } catch (LeidenException | DraftEditing.RefusedException e) {
        out.println("  " + e.getMessage());
      } catch (RefusedException e) {
        refused(e.refused());
      }
    }
  }

  private void refused(Refused refused) {
    out.println("  " + Refusals.words(refused));
    if (refused instanceof Refused.Changed || refused instanceof Refused.Superseded) {
      work = faces.look(work.face(), by);
      at = Math.min(at, lines().size());
      out.println();
      for (int i = 0; i < lines().size(); i++) {
        listed(i);
      }
    }
    if (refused instanceof Refused.Superseded) {
      work.before().ifPresent(reading -> print(reading, "Read by ", out));
    }
    if (refused instanceof Refused.Undecided undecided && undecided.line() > 0) {
      at = undecided.line() - 1;
    }
  }

  /** Prints a signed reading. */
  static void print(Reading reading, String by, PrintWriter out) {
    out.println(by + reading.reader() + ":");
    Leiden.printLines(reading.inscription()).forEach(line -> out.println("    " + line));
  }

  private List<Draft.Line> lines() {
    return work.draft().lines();
  }

  private void listed(int line) {
    Draft.Line one = lines().get(line);
    out.println((one.isSettled() ? "  " : "? ") + (line + 1) + "  " + one.text());
  }

  private void show() {
    out.println();
    List<Draft.Line> lines = lines();
    if (at >= lines.size()) {
      for (int i = 0; i < lines.size(); i++) {
        listed(i);
      }
      out.println(
          lines.isEmpty()
              ? "No line yet. Write the first one: after TEXT"
              : "Basis: " + described(basis) + ". sign, back, line N, after TEXT or quit");
    } else {
      Draft.Line line = lines.get(at);
      out.println("Line " + (at + 1) + " of " + lines.size() + ":  " + line.text());
      out.println(numbered(line));
      work.shown().stream()
          .filter(suggestion -> suggestion.text().equals(line.text()))
          .findFirst()
          .ifPresent(
              suggestion -> suggestion.doubts().forEach(doubt -> out.println("    " + doubt)));
    }
    out.print("> ");
    out.flush();
  }

  private static String numbered(Draft.Line line) {
    try {
      StringBuilder numbered = new StringBuilder("   ");
      int number = 0;
      for (DraftEditing.Seen seen : DraftEditing.places(line)) {
        String shown = seen.ink() instanceof Letter letter ? letter.text() : "[]";
        numbered.append(' ').append(++number).append(shown);
      }
      return numbered.toString();
    } catch (LeidenException e) {
      return "";
    }
  }

  private void answer(String answer) throws LeidenException, DraftEditing.RefusedException {
    int space = answer.indexOf(' ');
    String word = space < 0 ? answer : answer.substring(0, space);
    String rest = space < 0 ? "" : answer.substring(space + 1).strip();
    Matcher letter = LETTER.matcher(answer);
    if (letter.matches()) {
      int line = chosen();
      int number = Integer.parseInt(letter.group(1));
      Letter named = DraftEditing.letter(letter.group(2).strip());
      change(now -> DraftEditing.put(now.draft(), line, number, number, named, ""));
      return;
    }
    switch (word) {
      case "help", "?" -> out.print(HELP);
      case "", "a", "accept" -> accept();
      case "c", "change" -> settle(rest);
      case "u", "unclear" ->
          letters(rest, (line, from, to) -> LineRules.stand(line, from, to, Standing.UNCLEAR));
      case "clear" ->
          letters(rest, (line, from, to) -> LineRules.stand(line, from, to, Standing.CLEAR));
      case "i", "illegible" -> {
        if (rest.isEmpty()) {
          settle("(1 line)");
        } else {
          letters(rest, (line, from, to) -> gap(line, from, to, Gap.Reason.ILLEGIBLE));
        }
      }
      case "l", "lost" -> {
        if (rest.isEmpty()) {
          settle("[- - - - - -]");
        } else {
          letters(rest, (line, from, to) -> gap(line, from, to, Gap.Reason.LOST));
        }
      }
      case "before" -> insert(at, rest);
      case "after" -> insert(Math.min(at + 1, lines().size()), rest);
      case "drop" -> {
        if (at < lines().size()) {
          int line = chosen();
          change(now -> DraftEditing.removeLine(now.draft(), line));
        }
      }
      case "b", "back" -> at = Math.max(0, at - 1);
      case "line" -> {
        if (!rest.matches("\\d{1,3}") || Integer.parseInt(rest) > lines().size()) {
          throw refused("line needs a number from 1 to " + lines().size());
        }
        at = Math.max(0, Integer.parseInt(rest) - 1);
      }
      case "basis" -> basis = basis(rest);
      default -> throw refused("“" + answer + "” isn't an answer; help tells those there are");
    }
  }

  /** The line under work, counted from 1. */
  private int chosen() throws DraftEditing.RefusedException {
    if (at >= lines().size()) {
      throw refused("no line is chosen; line N chooses one, after TEXT adds one");
    }
    return at + 1;
  }

  private void accept() throws DraftEditing.RefusedException {
    if (at >= lines().size()) {
      throw refused("every line has been shown; sign, or quit");
    }
    change(LineRules.take(chosen()));
    at++;
  }

  private void settle(String text) throws DraftEditing.RefusedException {
    int line = chosen();
    change(now -> DraftEditing.text(now.draft(), line, text));
    at++;
  }

  private void insert(int where, String text) {
    change(now -> DraftEditing.addLine(now.draft(), where + 1, text));
    at = where + 1;
  }

  private static Faces.Change gap(int line, int from, int to, Gap.Reason reason) {
    Gap one = Gap.of(new SignId(1), reason, new Extent.Exact(1));
    return now -> DraftEditing.put(now.draft(), line, from, to, one, "");
  }

  /** What is to be done with some letters of a line, all counted from 1. */
  private interface RangeEdit {
    Faces.Change of(int line, int from, int to);
  }

  private void letters(String place, RangeEdit edit) throws DraftEditing.RefusedException {
    int line = chosen();
    if (place.isEmpty()) {
      change(edit.of(line, 1, lines().get(line - 1).places().size()));
      return;
    }
    Matcher range = PLACE.matcher(place);
    if (!range.matches()) {
      throw refused("give a letter's number or a range such as 3-5");
    }
    int from = Integer.parseInt(range.group(1));
    int to = range.group(2) == null ? from : Integer.parseInt(range.group(2));
    change(edit.of(line, from, to));
  }

  private void change(Faces.Change change) {
    work = faces.change(work.face(), by, work.version(), change);
  }

  private static Basis basis(String answer) throws DraftEditing.RefusedException {
    String[] words = answer.split(" +", 2);
    String rest = words.length > 1 ? words[1].strip() : "";
    Basis.Kind kind =
        Basis.Kind.of(words[0])
            .orElseThrow(() -> refused("basis photographs, basis stone or basis earlier"));
    try {
      Optional<LocalDate> date = Optional.empty();
      String tail = rest;
      if (rest.matches("\\d{4}-\\d{2}-\\d{2}.*")) {
        date = Optional.of(LocalDate.parse(rest.substring(0, 10)));
        tail = rest.substring(10).strip();
      }
      Optional<String> words2 = tail.isEmpty() ? Optional.empty() : Optional.of(tail);
      boolean earlier = kind == Basis.Kind.EARLIER;
      return new Basis(
          kind, date, earlier ? Optional.empty() : words2, earlier ? words2 : Optional.empty());
    } catch (DateTimeException | IllegalArgumentException e) {
      throw refused(String.valueOf(e.getMessage()));
    }
  }

  private Reading sign() {
    Work signed =
        faces.sign(work.face(), by, work.version(), basis, work.before().map(Reading::id));
    return signed.readings().versions().stream()
        .filter(reading -> reading.reader().equals(by.name()))
        .reduce((earlier, later) -> later)
        .orElseThrow();
  }

  private int firstUnsettled() {
    int first = 0;
    while (first < lines().size() && lines().get(first).isSettled()) {
      first++;
    }
    return first;
  }

  private static String described(Basis basis) {
    return basis.kind().label()
        + basis.date().map(date -> ", " + date).orElse("")
        + basis.light().map(light -> ", " + light).orElse("")
        + basis.witness().map(witness -> ", " + witness).orElse("");
  }

  private static DraftEditing.RefusedException refused(String message) {
    return new DraftEditing.RefusedException(message);
  }
}
