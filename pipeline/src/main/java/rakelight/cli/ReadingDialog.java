package rakelight.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import rakelight.archive.ProposalId;
import rakelight.inscription.Basis;
import rakelight.inscription.Draft;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Letter;
import rakelight.inscription.LineEditing;
import rakelight.inscription.Sign;
import rakelight.inscription.Suggestion;

/**
 * Goes through the lines of a face with a person, in words: accept, change, unclear, illegible,
 * lost, for a line or some of its letters; then the basis, then the signature. Every step is handed
 * on to be kept, so that ending at any moment loses nothing.
 */
final class ReadingDialog {
  private static final String HELP =
      """
      Enter or accept        the line is as shown
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

  /** Where the draft goes after every step. */
  @FunctionalInterface
  interface Keeper {
    void keep(Draft draft);
  }

  /** A reading that its reader has put his name to. */
  record Signed(Inscription inscription, Basis basis) {}

  /** A line under work. */
  private record Line(String text, boolean settled, List<String> doubts) {
    Line with(String newText, boolean nowSettled) {
      return new Line(newText, nowSettled, newText.equals(text) ? doubts : List.of());
    }
  }

  private final BufferedReader in;
  private final PrintWriter out;
  private final Keeper keeper;
  private final Optional<ProposalId> proposal;
  private final List<Line> lines = new ArrayList<>();
  private Basis basis;
  private int at = 0;

  ReadingDialog(
      BufferedReader in,
      PrintWriter out,
      List<Suggestion> suggestions,
      Optional<Draft> draft,
      Optional<ProposalId> proposal,
      Basis basis,
      Keeper keeper) {
    this.in = in;
    this.out = out;
    this.keeper = keeper;
    this.basis = basis;
    this.proposal = draft.flatMap(Draft::proposal).or(() -> proposal);
    if (draft.isPresent()) {
      draft.get().lines().forEach(line -> lines.add(line(line, suggestions)));
    } else {
      suggestions.stream()
          .filter(suggestion -> !suggestion.text().isEmpty())
          .forEach(
              suggestion -> lines.add(new Line(suggestion.text(), false, suggestion.doubts())));
    }
  }

  private static Line line(Draft.Line line, List<Suggestion> suggestions) {
    List<String> doubts =
        suggestions.stream()
            .filter(suggestion -> suggestion.text().equals(line.text()))
            .map(Suggestion::doubts)
            .findFirst()
            .orElse(List.of());
    return new Line(line.text(), line.settled(), doubts);
  }

  /** The proposal whose lines are counted. */
  Optional<ProposalId> proposal() {
    return proposal;
  }

  /** Goes through the lines until the person signs, quits or the input ends. */
  Optional<Signed> run() throws IOException {
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
          Optional<Signed> signed = sign();
          if (signed.isPresent()) {
            return signed;
          }
        } else {
          answer(answer.strip());
        }
      } catch (LeidenException e) {
        out.println("  " + e.getMessage());
      } catch (LineEditing.RefusedException e) {
        out.println("  " + e.getMessage());
      }
    }
  }

  private void show() {
    out.println();
    if (at >= lines.size()) {
      for (int i = 0; i < lines.size(); i++) {
        out.println((lines.get(i).settled() ? "  " : "? ") + (i + 1) + "  " + lines.get(i).text());
      }
      out.println(
          lines.isEmpty()
              ? "No line yet. Write the first one: after TEXT"
              : "Basis: " + described(basis) + ". sign, back, line N, after TEXT or quit");
    } else {
      Line line = lines.get(at);
      out.println("Line " + (at + 1) + " of " + lines.size() + ":  " + line.text());
      out.println(numbered(line.text()));
      line.doubts().forEach(doubt -> out.println("    " + doubt));
    }
    out.print("> ");
    out.flush();
  }

  private static String numbered(String text) {
    try {
      StringBuilder numbered = new StringBuilder("   ");
      int number = 0;
      for (Sign sign : LineEditing.ink(unjoined(text))) {
        String shown = sign instanceof Letter letter ? letter.text() : "[]";
        numbered.append(' ').append(++number).append(shown);
      }
      return numbered.toString();
    } catch (LeidenException e) {
      return "";
    }
  }

  private void answer(String answer) throws LeidenException, LineEditing.RefusedException {
    int space = answer.indexOf(' ');
    String word = space < 0 ? answer : answer.substring(0, space);
    String rest = space < 0 ? "" : answer.substring(space + 1).strip();
    Matcher letter = LETTER.matcher(answer);
    if (letter.matches()) {
      int number = Integer.parseInt(letter.group(1));
      edit(text -> LineEditing.letter(text, number, letter.group(2).strip()));
      return;
    }
    switch (word) {
      case "help", "?" -> out.print(HELP);
      case "", "a", "accept" -> accept();
      case "c", "change" -> settle(checked(rest));
      case "u", "unclear" -> letters(rest, LineEditing::unclear);
      case "clear" -> letters(rest, LineEditing::clear);
      case "i", "illegible" -> {
        if (rest.isEmpty()) {
          settle("(1 line)");
        } else {
          letters(rest, (text, from, to) -> LineEditing.gap(text, from, to, Gap.Reason.ILLEGIBLE));
        }
      }
      case "l", "lost" -> {
        if (rest.isEmpty()) {
          settle("[- - - - - -]");
        } else {
          letters(rest, (text, from, to) -> LineEditing.gap(text, from, to, Gap.Reason.LOST));
        }
      }
      case "before" -> insert(at, checked(rest));
      case "after" -> insert(Math.min(at + 1, lines.size()), checked(rest));
      case "drop" -> {
        if (at < lines.size()) {
          lines.remove(at);
          kept();
        }
      }
      case "b", "back" -> at = Math.max(0, at - 1);
      case "line" -> {
        if (!rest.matches("\\d{1,3}") || Integer.parseInt(rest) > lines.size()) {
          throw refused("line needs a number from 1 to " + lines.size());
        }
        at = Math.max(0, Integer.parseInt(rest) - 1);
      }
      case "basis" -> basis = basis(rest);
      default -> throw refused("“" + answer + "” isn't an answer; help tells those there are");
    }
  }

  private void accept() throws LineEditing.RefusedException {
    if (at >= lines.size()) {
      throw refused("every line has been shown; sign, or quit");
    }
    lines.set(at, lines.get(at).with(lines.get(at).text(), true));
    at++;
    kept();
  }

  private void settle(String text) throws LineEditing.RefusedException {
    if (at >= lines.size()) {
      throw refused("no line is chosen; line N chooses one, after TEXT adds one");
    }
    lines.set(at, lines.get(at).with(text, true));
    at++;
    kept();
  }

  private void insert(int where, String text) {
    lines.add(where, new Line(text, true, List.of()));
    at = where + 1;
    kept();
  }

  private interface Edit {
    String of(String text) throws LeidenException, LineEditing.RefusedException;
  }

  private interface RangeEdit {
    String of(String text, int from, int to) throws LeidenException, LineEditing.RefusedException;
  }

  private void letters(String place, RangeEdit edit)
      throws LeidenException, LineEditing.RefusedException {
    if (place.isEmpty()) {
      int all = at < lines.size() ? LineEditing.ink(unjoined(lines.get(at).text())).size() : 0;
      edit(text -> edit.of(text, 1, all));
      return;
    }
    Matcher range = PLACE.matcher(place);
    if (!range.matches()) {
      throw refused("give a letter's number or a range such as 3-5");
    }
    int from = Integer.parseInt(range.group(1));
    int to = range.group(2) == null ? from : Integer.parseInt(range.group(2));
    edit(text -> edit.of(text, from, to));
  }

  private void edit(Edit edit) throws LeidenException, LineEditing.RefusedException {
    if (at >= lines.size()) {
      throw refused("no line is chosen; line N chooses one");
    }
    String text = lines.get(at).text();
    String mark = text.startsWith("|") ? "|" : "";
    lines.set(at, lines.get(at).with(mark + edit.of(unjoined(text)), false));
    kept();
  }

  private static String unjoined(String text) {
    return text.startsWith("|") ? text.substring(1) : text;
  }

  /** The text if it is one line of Leiden signs. */
  private static String checked(String text) throws LeidenException, LineEditing.RefusedException {
    if (Leiden.parse(unjoined(text)).lines().size() != 1) {
      throw refused("one line at a time");
    }
    return text;
  }

  private static Basis basis(String answer) throws LineEditing.RefusedException {
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

  private Optional<Signed> sign() throws LeidenException, LineEditing.RefusedException {
    if (lines.isEmpty()) {
      throw refused("there is no line to sign");
    }
    int open = firstUnsettled();
    if (open < lines.size()) {
      at = open;
      throw refused("line " + (open + 1) + " isn't settled yet");
    }
    return Optional.of(
        new Signed(
            Leiden.parse(lines.stream().map(Line::text).collect(Collectors.joining("\n"))), basis));
  }

  private int firstUnsettled() {
    int first = 0;
    while (first < lines.size() && lines.get(first).settled()) {
      first++;
    }
    return first;
  }

  private void kept() {
    keeper.keep(
        new Draft(
            lines.stream().map(line -> new Draft.Line(line.text(), line.settled())).toList(),
            proposal));
  }

  private static String described(Basis basis) {
    return basis.kind().label()
        + basis.date().map(date -> ", " + date).orElse("")
        + basis.light().map(light -> ", " + light).orElse("")
        + basis.witness().map(witness -> ", " + witness).orElse("");
  }

  private static LineEditing.RefusedException refused(String message) {
    return new LineEditing.RefusedException(message);
  }
}
