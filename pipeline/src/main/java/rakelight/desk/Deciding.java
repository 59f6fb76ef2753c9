package rakelight.desk;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import rakelight.finding.FoundLine;
import rakelight.inscription.Candidate;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Letter;
import rakelight.inscription.LetterForm;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.inscription.Standing;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.work.Faces;
import rakelight.work.LineRules;
import rakelight.work.SettlingRules;
import rakelight.work.Work;

/** Turns what a request asks to be decided into a change of a draft. */
final class Deciding {
  private static final SignId SOME = new SignId(1);
  private static final int LONGEST_NOTE = 300;

  /** What is done by drawing on the leading photograph. */
  static final Set<String> DRAWN = Set.of("draw-line", "move-line");

  /** What is said of a place where a line may be. */
  static final Set<String> UNSURE = Set.of("take-line", "no-line");

  private Deciding() {}

  static final String[] FIELDS = {
    "version",
    "do",
    "line",
    "at",
    "from",
    "to",
    "standing",
    "text",
    "candidates",
    "erased",
    "raised",
    "note",
    "letters",
    "spaceBefore",
    "signs",
    "of",
    "pair",
    "part",
    "ribbon",
    "middle",
    "heightPx",
    "place"
  };

  /**
   * @throws Refusal if the request can't be understood
   */
  static Faces.Change of(Fields ask) {
    String what = ask.text("do");
    int line = ask.number("line");
    return switch (what) {
      case "letter" -> {
        int at = ask.number("at");
        int to = ask.optionalNumber("to").orElse(at);
        yield work ->
            DraftEditing.put(
                work.draft(), line, at, to, ink(ask, shown(work, line, at)), note(ask));
      }
      case "accept" -> LineRules.accept(line, ask.optionalNumber("from"), ask.optionalNumber("to"));
      case "seen" ->
          LineRules.seen(
              line, OptionalInt.of(ask.number("from")), OptionalInt.of(ask.number("to")));
      case "seen-line" -> LineRules.seenLine(line);
      case "choose" -> {
        boolean first =
            switch (ask.text("of")) {
              case "first" -> true;
              case "second" -> false;
              default -> throw Refusal.malformed("“of” is first or second.");
            };
        OptionalInt pair = ask.optionalNumber("pair");
        yield pair.isPresent()
            ? SettlingRules.choose(pair.getAsInt(), first)
            : SettlingRules.choose(line, ask.number("at"), first);
      }
      case "insert" -> {
        int at = ask.number("at");
        boolean space = ask.isTrue("spaceBefore");
        yield work ->
            DraftEditing.insert(
                work.draft(), line, at, ink(ask, Optional.empty()), space, note(ask));
      }
      case "type" -> {
        int at = ask.number("at");
        List<Fields> signs = ask.objects("signs", "text", "raised");
        yield work -> DraftEditing.type(work.draft(), line, at, typed(signs));
      }
      case "remove" -> {
        int at = ask.number("at");
        yield work -> DraftEditing.remove(work.draft(), line, at);
      }
      case "split-word", "join-words" -> {
        int at = ask.number("at");
        yield work -> DraftEditing.space(work.draft(), line, at, what.equals("split-word"));
      }
      case "split-line" -> {
        int at = ask.number("at");
        yield work -> DraftEditing.splitLine(work.draft(), line, at);
      }
      case "join-lines" -> work -> DraftEditing.joinLines(work.draft(), line);
      case "add-line" -> {
        String text = ask.has("standing") ? whole(ask.text("standing")) : ask.text("text");
        yield work -> DraftEditing.addLine(work.draft(), line, text);
      }
      case "remove-line" -> work -> DraftEditing.removeLine(work.draft(), line);
      case "line" -> {
        String text = whole(ask.text("standing"));
        yield work -> DraftEditing.text(work.draft(), line, text);
      }
      case "text" -> {
        String text = ask.text("text");
        yield work -> DraftEditing.text(work.draft(), line, text);
      }
      default -> throw Refusal.malformed("There is nothing to do that is called “" + what + "”.");
    };
  }

  private static List<Letter> typed(List<Fields> signs) throws DraftEditing.RefusedException {
    if (signs.isEmpty()) {
      throw new DraftEditing.RefusedException("say which letters were typed");
    }
    return signs.stream()
        .map(
            sign ->
                new Letter(
                    SOME,
                    Normalizer.normalize(sign.text("text"), Normalizer.Form.NFC),
                    Standing.CLEAR,
                    false,
                    false,
                    false,
                    sign.isTrue("raised") ? Set.of(LetterForm.SUPERIOR) : Set.of(),
                    List.of()))
        .toList();
  }

  /**
   * Where a request draws a line: a ribbon round its letters, or the middle of them; and how high
   * its capitals are, which for a ribbon may be left out.
   *
   * @throws Refusal if it can't be understood
   */
  static FoundLine drawn(Fields ask) {
    try {
      if (ask.has("ribbon")) {
        Polygon ribbon = new Polygon(ask.points("ribbon"));
        double heightPx =
            ask.has("heightPx")
                ? ask.decimal("heightPx")
                : ribbon.area() / Math.max(1, new FoundLine(ribbon, 1, 1).lengthPx());
        return new FoundLine(ribbon, heightPx, 1);
      }
      List<Point> middle = new ArrayList<>();
      for (Point p : ask.points("middle")) {
        if (middle.isEmpty() || middle.get(middle.size() - 1).distance(p) >= 1) {
          middle.add(p);
        }
      }
      if (middle.size() < 2) {
        throw Refusal.malformed("“middle” must have two points or more.");
      }
      return FoundLine.along(middle, ask.decimal("heightPx"));
    } catch (IllegalArgumentException e) {
      throw Refusal.malformed(
          "“ribbon” must have four points or more, as many along the top as along the foot, and"
              + " some height.");
    }
  }

  /** A whole line of which nothing can be named, in Leiden signs. */
  private static String whole(String standing) {
    return switch (standing) {
      case "lost" -> "[- - - - - -]";
      case "illegible" -> "(1 line)";
      default -> throw Refusal.malformed("A whole line can be lost or illegible.");
    };
  }

  private static String note(Fields ask) throws DraftEditing.RefusedException {
    String note = ask.optionalText("note").orElse("").strip();
    if (note.length() > LONGEST_NOTE) {
      throw new DraftEditing.RefusedException("a remark has " + LONGEST_NOTE + " signs at most");
    }
    return Normalizer.normalize(note, Normalizer.Form.NFC);
  }

  /** The letter that stands at a place now. */
  private static Optional<Letter> shown(Work work, int line, int at) throws LeidenException {
    if (line < 1 || line > work.draft().lines().size()) {
      return Optional.empty();
    }
    List<DraftEditing.Seen> seen = DraftEditing.places(work.draft().lines().get(line - 1));
    return at >= 1 && at <= seen.size() && seen.get(at - 1).ink() instanceof Letter letter
        ? Optional.of(letter)
        : Optional.empty();
  }

  /** The letter or gap that a request describes. */
  private static Sign ink(Fields ask, Optional<Letter> shown) throws DraftEditing.RefusedException {
    String standing = ask.text("standing");
    boolean erased = ask.isTrue("erased");
    return switch (standing) {
      case "clear", "unclear", "supplied", "seen-earlier" -> letter(ask, standing, erased, shown);
      case "illegible", "lost", "blank" -> {
        if (ask.has("text") || ask.has("candidates") || ask.isTrue("raised")) {
          throw new DraftEditing.RefusedException("where no letter can be named, give none");
        }
        yield new Gap(
            SOME,
            Gap.Reason.valueOf(standing.toUpperCase(Locale.ROOT)),
            extent(ask),
            Gap.Unit.LETTERS,
            erased,
            false);
      }
      default -> throw Refusal.malformed("There is no standing “" + standing + "”.");
    };
  }

  private static Extent extent(Fields ask) {
    if (!ask.has("letters")) {
      return new Extent.Exact(1);
    }
    if (ask.isNumber("letters")) {
      return new Extent.Exact(ask.number("letters"));
    }
    if (!ask.text("letters").equals("unknown")) {
      throw Refusal.malformed("“letters” must be a number or “unknown”.");
    }
    return new Extent.Unknown();
  }

  private static Letter letter(Fields ask, String standing, boolean erased, Optional<Letter> shown)
      throws DraftEditing.RefusedException {
    Standing known = Standing.valueOf(standing.toUpperCase(Locale.ROOT).replace('-', '_'));
    if ((known == Standing.SUPPLIED || known == Standing.SEEN_EARLIER) && note(ask).isEmpty()) {
      throw new DraftEditing.RefusedException(
          known == Standing.SUPPLIED
              ? "say in the remark how it was worked out"
              : "name in the remark the witness who has it");
    }
    List<Candidate> candidates = candidates(ask);
    String text =
        candidates.isEmpty()
            ? ask.optionalText("text")
                .map(given -> Normalizer.normalize(given, Normalizer.Form.NFC))
                .or(() -> shown.map(Letter::text))
                .orElseThrow(() -> new DraftEditing.RefusedException("say which letter it is"))
            : candidates.get(0).text();
    return new Letter(SOME, text, known, false, erased, false, forms(ask, shown), candidates);
  }

  /** How the letter is set: as the one shown, unless the request says whether it is raised. */
  private static Set<LetterForm> forms(Fields ask, Optional<Letter> shown) {
    Set<LetterForm> forms = EnumSet.noneOf(LetterForm.class);
    shown.map(Letter::forms).ifPresent(forms::addAll);
    if (ask.has("candidates")) {
      forms.removeAll(Set.of(LetterForm.LIGATURE, LetterForm.LINE_ABOVE));
    }
    if (ask.has("raised")) {
      forms.remove(LetterForm.SUPERIOR);
      if (ask.isTrue("raised")) {
        forms.add(LetterForm.SUPERIOR);
      }
    }
    return forms;
  }

  private static List<Candidate> candidates(Fields ask) {
    List<Candidate> weighted = new ArrayList<>();
    List<String> texts = new ArrayList<>();
    for (Fields candidate : ask.objects("candidates", "text", "percent")) {
      String text = Normalizer.normalize(candidate.text("text"), Normalizer.Form.NFC);
      texts.add(text);
      candidate.optionalNumber("percent").ifPresent(p -> weighted.add(new Candidate(text, p)));
    }
    return weighted.size() == texts.size() ? weighted : Candidate.equally(texts);
  }
}
