package rakelight.inscription;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * Recursive descent over the code points of one face. Marks that enclose letters are set on the
 * letters when the enclosing sign closes; spans remember the first and last sign within.
 */
final class LeidenParser {
  private static final int DEEPEST = 12;

  private static final Map<String, LetterForm> FORMS =
      Map.of(
          "tall", LetterForm.TALL,
          "small", LetterForm.SMALL,
          "subscript", LetterForm.SUBSCRIPT,
          "reversed", LetterForm.REVERSED);

  private static final Map<String, Span.Kind> NAMED_SPANS =
      Map.of(
          "mark", Span.Kind.ABBREVIATION_MARK,
          "unexpanded", Span.Kind.UNEXPANDED,
          "not-understood", Span.Kind.NOT_UNDERSTOOD,
          "regular", Span.Kind.REGULARISED,
          "number", Span.Kind.NUMBER);

  private final int[] text;
  private final boolean kept;
  private int at = 0;
  private int depth = 0;
  private int nextId = 1;
  private boolean spacePending = false;
  private boolean inBrackets = false;
  private boolean inUncut = false;
  private boolean inErasure = false;

  /** Where the innermost open span begins in {@link #signs}. */
  private int spanStart = 0;

  private final List<Sign> signs = new ArrayList<>();
  private final List<Span> spans = new ArrayList<>();
  private final Set<SignId> uncutSigns = new HashSet<>();

  /**
   * @param kept whether the ledger holds it, so that what was once taken is never refused
   */
  LeidenParser(String text, boolean kept) {
    this.text = text.stripTrailing().codePoints().toArray();
    this.kept = kept;
  }

  Inscription parse() throws LeidenException {
    signs.add(new Break(newId(), false));
    content();
    if (!isInk(lastSign())) {
      throw error("at least one letter or gap on the line; for a line left blank write (vac.)");
    }
    try {
      return NormalForm.of(signs, spans);
    } catch (IllegalArgumentException e) {
      throw new LeidenException(1, 1, "signs that don't go together", "that " + e.getMessage());
    }
  }

  private void content(String... closers) throws LeidenException {
    while (at < text.length && !isAtAny(closers)) {
      item();
    }
  }

  private void item() throws LeidenException {
    int sign = text[at];
    switch (sign) {
      case '\n', '\r' -> lineEnd();
      case '|' -> bar();
      case '\\' -> escaped();
      case '[' -> squareBracket();
      case '〚' -> erasure(1, "〛");
      case '⟦' -> erasure(1, "⟧");
      case '{' -> span(Span.Kind.SURPLUS, "}");
      case '<' -> uncut(Span.Kind.OMITTED, ">", "?>");
      case '⟨' -> uncut(Span.Kind.OMITTED, "⟩", "?⟩");
      case '⸢' -> correction("⸣");
      case '⌈' -> correction("⌉");
      case '«' -> span(Span.Kind.OVER_ERASURE, "»");
      case '`' -> span(Span.Kind.INSERTED, "´");
      case '(' -> parenthesis();
      case '#' -> named();
      case '^' -> superior();
      case '+' -> traces();
      case '.' -> point();
      case '-', '–', '—' -> dash();
      case '/' -> slash();
      case '?' ->
          throw error(
              "a letter: for an illegible one write +, for a doubtful one put a dot below (U+0323)"
                  + " or write (3 or 8), for a carved question mark write \\?");
      case '…' -> throw error("one point for each lost letter, in brackets: [...]");
      case '=' -> throw error("a letter; for a carved = write \\=");
      case ']', ')', '}', '>', '〛', '⟧', '⟩', '⸣', '⌉', '»', '´' ->
          throw error(
              "its opening sign before it, or \\" + Character.toString(sign) + " if it is carved");
      default -> {
        if (isSpace(sign)) {
          spaces();
        } else {
          letter();
        }
      }
    }
  }

  // Lines and spaces

  private void spaces() {
    while (at < text.length && (isSpace(text[at]) || isLineBelowASpace())) {
      at++;
    }
    spacePending = true;
  }

  /** Underlining "seen earlier" often runs on below the spaces. */
  private boolean isLineBelowASpace() {
    return at > 0 && text[at] == Letter.LINE_BELOW.codePointAt(0) && isSpace(text[at - 1]);
  }

  private void lineEnd() throws LeidenException {
    int start = at;
    takeLineEnd();
    boolean joined = false;
    if (isAt("|")) {
      at++;
      joined = at < text.length && !isSpace(text[at]) && !isLineEnd(text[at]);
    } else if (isAt("/ ")) {
      at++;
    }
    beginLine(start, joined);
  }

  private void bar() throws LeidenException {
    int start = at;
    boolean apart = spacePending || signs.size() == 1;
    at++;
    while (at < text.length && isSpace(text[at])) {
      apart = true;
      at++;
    }
    if (at < text.length && isLineEnd(text[at])) {
      takeLineEnd();
    }
    if (signs.size() > 1) {
      beginLine(start, !apart);
    }
    spacePending = false;
  }

  private void slash() throws LeidenException {
    boolean open = at == 0 || spacePending || isLineEnd(text[at - 1]);
    boolean close = at + 1 == text.length || isSpace(text[at + 1]) || isLineEnd(text[at + 1]);
    if (!open || !close) {
      letter();
      return;
    }
    int start = at;
    at++;
    if (signs.size() > 1) {
      beginLine(start, false);
    }
  }

  private void beginLine(int start, boolean joined) throws LeidenException {
    if (!isInk(lastSign())) {
      throw errorAt(
          start, "at least one letter or gap on the line before; for a blank line write (vac.)");
    }
    spacePending = false;
    signs.add(new Break(newId(), joined));
  }

  private void takeLineEnd() {
    if (isAt("\r\n")) {
      at++;
    }
    at++;
  }

  // Letters

  private void escaped() throws LeidenException {
    at++;
    if (at == text.length || isSpace(text[at]) || isLineEnd(text[at])) {
      throw error("the carved sign that \\ announces");
    }
    letter();
  }

  private void letter() throws LeidenException {
    int start = at;
    if (Letter.isCombining(text[at])) {
      throw error("a letter before this mark");
    }
    if (!Letter.isBase(text[at])) {
      throw error("a letter, a figure or a Leiden sign");
    }
    at++;
    while (at < text.length && Letter.isCombining(text[at])) {
      at++;
    }
    String cluster = Normalizer.normalize(new String(text, start, at - start), Normalizer.Form.NFD);
    boolean unclear = cluster.contains(Letter.DOT_BELOW);
    boolean seenEarlier = cluster.contains(Letter.LINE_BELOW);
    if ((unclear || seenEarlier) && (inBrackets || inUncut)) {
      throw errorAt(start, "no dot or line below: letters in brackets aren't on the stone");
    }
    if (unclear && seenEarlier) {
      throw errorAt(start, "a dot or a line below the letter, not both");
    }
    Set<LetterForm> forms = EnumSet.noneOf(LetterForm.class);
    if (cluster.contains(Letter.LINE_ABOVE)) {
      forms.add(LetterForm.LINE_ABOVE);
    }
    if (cluster.contains(Letter.TIE)) {
      forms.add(LetterForm.LIGATURE);
    }
    Standing standing = Standing.CLEAR;
    if (inBrackets || inUncut) {
      standing = Standing.SUPPLIED;
    } else if (unclear) {
      standing = Standing.UNCLEAR;
    } else if (seenEarlier) {
      standing = Standing.SEEN_EARLIER;
    }
    String bare =
        Normalizer.normalize(
            cluster
                .replace(Letter.DOT_BELOW, "")
                .replace(Letter.LINE_BELOW, "")
                .replace(Letter.LINE_ABOVE, "")
                .replace(Letter.TIE, ""),
            Normalizer.Form.NFC);
    try {
      addInk(new Letter(newId(), bare, standing, false, false, false, forms, List.of()));
    } catch (IllegalArgumentException e) {
      throw errorAt(start, "a letter that Unicode composes to one sign");
    }
  }

  private void superior() throws LeidenException {
    int start = at;
    at++;
    int before = signs.size();
    boolean letterFollows =
        at < text.length && !isSpace(text[at]) && !isLineEnd(text[at]) && text[at] != '^';
    if (letterFollows) {
      item();
    }
    long added = signs.subList(before, signs.size()).stream().filter(LeidenParser::isInk).count();
    if (added != 1 || !(lastSign() instanceof Letter letter)) {
      throw errorAt(start, "a raised letter after ^, or \\^ if it is carved");
    }
    signs.set(signs.size() - 1, letter.withForm(LetterForm.SUPERIOR));
  }

  private void point() throws LeidenException {
    int points = runOf('.');
    if (inBrackets) {
      addGap(points, Gap.Reason.LOST);
    } else if (points > 1) {
      throw error("[...] for lost letters, +++ for illegible ones, \\. for each carved point");
    } else {
      letter();
    }
  }

  private void traces() throws LeidenException {
    if (inBrackets) {
      throw error("no traces among lost letters: close the bracket before +");
    }
    addGap(runOf('+'), Gap.Reason.ILLEGIBLE);
  }

  private void addGap(int count, Gap.Reason reason) throws LeidenException {
    if (count > Extent.MOST) {
      throw error("no more than " + Extent.MOST + " letters");
    }
    int start = at;
    at += count;
    addGap(start, Gap.of(newId(), reason, new Extent.Exact(count)));
  }

  private void addGap(int start, Gap gap) throws LeidenException {
    if (inUncut) {
      throw errorAt(start, "letters only: nothing is lost that was never cut");
    }
    addInk(gap);
  }

  private void dash() throws LeidenException {
    int start = at;
    int end = at;
    int endOfSix = at;
    int dashes = 0;
    for (int i = at; i < text.length && (isDash(text[i]) || text[i] == ' '); i++) {
      if (isDash(text[i])) {
        dashes++;
        end = i + 1;
        endOfSix = dashes == 6 ? end : endOfSix;
      } else if (!isDash(text[i - 1])) {
        break;
      }
    }
    if (dashes == 3 && inBrackets) {
      at = end;
      addGap(start, Gap.of(newId(), Gap.Reason.LOST, new Extent.Unknown()));
    } else if (dashes % 6 == 0) {
      // Twelve are lines lost twice over.
      at = endOfSix;
      addGap(start, lostLines());
    } else if (dashes > 2) {
      throw error(
          "[- - -] for letters lost, [- - - - - -] for one line lost, - - - - - - for lines lost,"
              + " \\- for each carved dash");
    } else {
      letter();
    }
  }

  private Gap lostLines() {
    if (inBrackets) {
      Extent one = new Extent.Exact(1);
      return new Gap(newId(), Gap.Reason.LOST, one, Gap.Unit.LINES, false, false);
    }
    boolean doubtful = isAt("?") || isAt(" ?");
    if (doubtful) {
      at += isAt("?") ? 1 : 2;
    }
    return new Gap(newId(), Gap.Reason.LOST, new Extent.Unknown(), Gap.Unit.LINES, false, doubtful);
  }

  // What encloses letters

  private void squareBracket() throws LeidenException {
    if (inBrackets) {
      throw error("a letter: brackets don't stand within brackets; \\[ if it is carved");
    }
    if (isAt("[[") && !inErasure) {
      erasure(2, "]]");
      return;
    }
    int opening = at;
    Optional<Gap> bare = bareExtent();
    if (bare.isPresent()) {
      addGap(opening, bare.get());
      return;
    }
    at++;
    int start = signs.size();
    inBrackets = true;
    enclosed(opening, "]", "?]");
    inBrackets = false;
    requireInk(opening, start);
    if (closeWithDoubt(opening, "]", "?]")) {
      change(start, opening, LeidenParser::doubted);
    }
  }

  /** {@code [c. 5]}, {@code [4–6]} and {@code [3 lines]}. */
  private Optional<Gap> bareExtent() throws LeidenException {
    int end = closing(at + 1, ']');
    if (end < 0) {
      return Optional.empty();
    }
    String inner = new String(text, at + 1, end - at - 1).strip();
    if (!kept && LeidenNotes.isDashesWithoutSense(inner)) {
      throw error(
          "[.] for a letter that is lost, one point for each; [- - -] where nobody knows how many;"
              + " [\\-] for a carved dash that is worked out");
    }
    Optional<Gap> gap = gap(inner, Gap.Reason.LOST);
    if (gap.isPresent()) {
      if (gap.get().reason() == Gap.Reason.ILLEGIBLE) {
        throw error("no traces among lost letters: +++ without brackets");
      }
      if (gap.get().reason() != Gap.Reason.LOST) {
        throw error("parentheses, not brackets, around what isn't lost, as in (vac. 3)");
      }
      at = end + 1;
    }
    return gap;
  }

  private void erasure(int length, String closer) throws LeidenException {
    int opening = at;
    if (inErasure || inUncut) {
      throw error("a letter: an erasure doesn't stand here");
    }
    at += length;
    int start = signs.size();
    inErasure = true;
    enclosed(opening, closer);
    inErasure = false;
    requireInk(opening, start);
    close(opening, closer);
    change(
        start,
        opening,
        sign -> {
          if (sign instanceof Letter letter) {
            return uncutSigns.contains(letter.id()) ? letter : letter.withErased();
          }
          return sign instanceof Gap gap ? gap.withErased() : sign;
        });
  }

  private void span(Span.Kind kind, String closer) throws LeidenException {
    int opening = at;
    at++;
    int start = signs.size();
    int slot = spans.size();
    enclosedSpan(opening, closer);
    close(opening, closer);
    addSpan(slot, kind, start, opening, "");
  }

  private void uncut(Span.Kind kind, String closer, String doubtfulCloser) throws LeidenException {
    int opening = at;
    if (inUncut) {
      throw error("a letter: letters that were never cut carry no further sign");
    }
    at++;
    int start = signs.size();
    int slot = spans.size();
    inUncut = true;
    enclosedSpan(opening, closer, doubtfulCloser);
    inUncut = false;
    boolean doubtful = closeWithDoubt(opening, closer, doubtfulCloser);
    addSpan(slot, kind, start, opening, "");
    if (doubtful) {
      change(start, opening, LeidenParser::doubted);
    }
  }

  /** {@code ⸢cut=meant⸣}, or {@code ⸢meant⸣} when nobody noted what was cut. */
  private void correction(String closer) throws LeidenException {
    int opening = at;
    at++;
    int start = signs.size();
    int slot = spans.size();
    enclosedSpan(opening, "=", closer, "?" + closer);
    if (isAt("=")) {
      at++;
      String meant = rawText(opening, closer);
      addSpan(slot, Span.Kind.CORRECTION, start, opening, meant);
      return;
    }
    boolean doubtful = closeWithDoubt(opening, closer, "?" + closer);
    change(
        start,
        opening,
        sign ->
            sign instanceof Letter letter
                    && (letter.standing() == Standing.CLEAR || !letter.candidates().isEmpty())
                ? letter.supplied()
                : sign);
    addSpan(slot, Span.Kind.CORRECTION, start, opening, "");
    if (doubtful) {
      change(start, opening, LeidenParser::doubted);
    }
  }

  private void parenthesis() throws LeidenException {
    int opening = at;
    int end = closing(at + 1, ')');
    if (end < 0) {
      throw error("a ) for this (, or \\( if it is carved");
    }
    String inner = new String(text, at + 1, end - at - 1).strip();
    if (LeidenNotes.isRemark(inner)) {
      at = end + 1;
      note(opening, "!");
    } else if (LeidenNotes.isChoice(inner)) {
      at = end + 1;
      choice(opening, inner);
    } else if (LeidenNotes.isStop(inner)) {
      at = end + 1;
      stop(opening);
    } else {
      Optional<Gap> gap = gap(inner, inBrackets ? Gap.Reason.LOST : Gap.Reason.ILLEGIBLE);
      if (gap.isPresent()) {
        at = end + 1;
        addGap(opening, gap.get());
      } else {
        uncut(Span.Kind.EXPANSION, ")", "?)");
      }
    }
  }

  /** {@code (3 or 8)}, {@code (3 70% or 8 30%)}. */
  private void choice(int opening, String inner) throws LeidenException {
    String[] options = inner.split(" +or +(?! *$)");
    List<String> letters = new ArrayList<>();
    List<Integer> percents = new ArrayList<>();
    for (String option : options) {
      String[] parts = option.strip().split(" +");
      String raw =
          parts[0].startsWith("\\") && parts[0].length() > 1 ? parts[0].substring(1) : parts[0];
      String decomposed = Normalizer.normalize(raw, Normalizer.Form.NFD);
      letters.add(
          Normalizer.normalize(decomposed.replace(Letter.DOT_BELOW, ""), Normalizer.Form.NFC));
      if (parts.length > 2 || (parts.length == 2 && !parts[1].matches("[0-9]{1,3}%?"))) {
        throw errorAt(opening, "on each side of \"or\" a letter, or a letter and its per cent");
      }
      if (parts.length == 2) {
        percents.add(Integer.parseInt(parts[1].replace("%", "")));
      }
    }
    if (!percents.isEmpty() && percents.size() < letters.size()) {
      throw errorAt(opening, "a weight for each of the letters left open, or for none");
    }
    try {
      List<Candidate> candidates = new ArrayList<>();
      if (percents.isEmpty()) {
        candidates.addAll(Candidate.equally(letters));
      } else {
        for (int i = 0; i < letters.size(); i++) {
          candidates.add(new Candidate(letters.get(i), percents.get(i)));
        }
      }
      boolean supplied = inBrackets || inUncut;
      addInk(
          new Letter(
              newId(),
              letters.get(0),
              supplied ? Standing.SUPPLIED : Standing.UNCLEAR,
              false,
              false,
              false,
              Set.of(),
              candidates));
    } catch (IllegalArgumentException e) {
      throw errorAt(opening, "that " + e.getMessage());
    }
  }

  /**
   * {@code (- - -)}: right after letters a word not expanded, elsewhere something never finished.
   */
  private void stop(int opening) throws LeidenException {
    int first = signs.size();
    while (!spacePending
        && first > spanStart
        && signs.get(first - 1) instanceof Letter letter
        && letter.isAlphabetic()) {
      first--;
    }
    if (first == signs.size() || inUncut) {
      addGap(opening, Gap.of(newId(), Gap.Reason.OMITTED, new Extent.Unknown()));
      return;
    }
    int from = first;
    int slot = spans.size();
    while (slot > 0 && indexOf(spans.get(slot - 1).first()) >= from) {
      slot--;
    }
    addSpan(slot, Span.Kind.UNEXPANDED, from, opening, "");
  }

  private void named() throws LeidenException {
    int opening = at;
    int nameEnd = at + 1;
    while (nameEnd < text.length && (isLower(text[nameEnd]) || text[nameEnd] == '-')) {
      nameEnd++;
    }
    String name = new String(text, at + 1, nameEnd - at - 1);
    boolean known =
        FORMS.containsKey(name)
            || NAMED_SPANS.containsKey(name)
            || name.equals("damaged")
            || name.equals("note");
    if (!known || nameEnd == text.length || text[nameEnd] != '(') {
      throw error(
          "#small( #tall( #subscript( #reversed( #damaged( #mark( #unexpanded( #not-understood("
              + " #regular( #number( or #note( — or \\# if it is carved");
    }
    at = nameEnd + 1;
    if (name.equals("note")) {
      String remark = rawText(opening, ")");
      note(opening, remark);
      return;
    }
    int start = signs.size();
    int slot = spans.size();
    Span.Kind kind = NAMED_SPANS.get(name);
    if (kind == null) {
      enclosed(opening, ")");
      close(opening, ")");
      requireInk(opening, start);
      change(start, opening, sign -> shaped(sign, name));
    } else if (kind.hasText()) {
      enclosedSpan(opening, "=");
      close(opening, "=");
      addSpan(slot, kind, start, opening, rawText(opening, ")"));
    } else {
      enclosedSpan(opening, ")");
      close(opening, ")");
      addSpan(slot, kind, start, opening, "");
    }
  }

  private Sign shaped(Sign sign, String name) {
    if (!(sign instanceof Letter letter) || (uncutSigns.contains(sign.id()) && !inUncut)) {
      return sign;
    }
    LetterForm form = FORMS.get(name);
    return form == null ? letter.withDamage() : letter.withForm(form);
  }

  private void note(int opening, String remark) throws LeidenException {
    if (!isInk(lastSign()) || spacePending) {
      throw errorAt(opening, "the letter or gap that the remark is on, right before it");
    }
    SignId on = lastSign().id();
    try {
      spans.add(new Span(Span.Kind.NOTE, on, on, remark));
    } catch (IllegalArgumentException e) {
      throw errorAt(opening, "that " + e.getMessage());
    }
  }

  private static Sign doubted(Sign sign) {
    if (sign instanceof Letter letter && letter.standing() == Standing.SUPPLIED) {
      return letter.withDoubt();
    }
    return sign instanceof Gap gap && gap.reason() == Gap.Reason.LOST ? gap.withDoubt() : sign;
  }

  // The machinery of enclosing

  private void enclosed(int opening, String... closers) throws LeidenException {
    if (++depth > DEEPEST) {
      throw errorAt(opening, "no more than " + DEEPEST + " signs within each other");
    }
    content(closers);
    depth--;
  }

  private void enclosedSpan(int opening, String... closers) throws LeidenException {
    int outer = spanStart;
    spanStart = signs.size();
    enclosed(opening, closers);
    spanStart = outer;
  }

  private void close(int opening, String closer) throws LeidenException {
    if (!isAt(closer)) {
      throw error(closer + " to close what column " + column(opening) + " opens");
    }
    at += closer.codePointCount(0, closer.length());
  }

  private boolean closeWithDoubt(int opening, String closer, String doubtfulCloser)
      throws LeidenException {
    boolean doubtful = isAt(doubtfulCloser);
    close(opening, doubtful ? doubtfulCloser : closer);
    return doubtful;
  }

  /** Plain text up to the closing sign, which is taken too. */
  private String rawText(int opening, String closer) throws LeidenException {
    StringBuilder raw = new StringBuilder();
    while (at < text.length && !isAt(closer)) {
      if (text[at] == '\\' && at + 1 < text.length) {
        at++;
      }
      if (isLineEnd(text[at])) {
        break;
      }
      raw.appendCodePoint(text[at]);
      at++;
    }
    close(opening, closer);
    return raw.toString().strip();
  }

  private void addSpan(int slot, Span.Kind kind, int start, int opening, String spanText)
      throws LeidenException {
    requireInk(opening, start);
    List<Sign> ink =
        signs.subList(start, signs.size()).stream().filter(LeidenParser::isInk).toList();
    try {
      spans.add(slot, new Span(kind, ink.get(0).id(), ink.get(ink.size() - 1).id(), spanText));
    } catch (IllegalArgumentException e) {
      throw errorAt(opening, "that " + e.getMessage());
    }
  }

  private void requireInk(int opening, int start) throws LeidenException {
    if (signs.subList(start, signs.size()).stream().noneMatch(LeidenParser::isInk)) {
      throw errorAt(opening, "at least one letter or gap within");
    }
  }

  private void change(int start, int opening, UnaryOperator<Sign> change) throws LeidenException {
    try {
      signs.subList(start, signs.size()).replaceAll(change);
    } catch (IllegalArgumentException e) {
      throw errorAt(opening, "that " + e.getMessage());
    }
  }

  private Optional<Gap> gap(String inner, Gap.Reason plain) throws LeidenException {
    if (!kept && LeidenNotes.isTooMany(inner)) {
      throw error("no more than " + Extent.MOST + " letters or lines");
    }
    try {
      return LeidenNotes.gap(inner, plain, newId());
    } catch (IllegalArgumentException e) {
      throw error("that " + e.getMessage());
    }
  }

  private void addInk(Sign sign) {
    if (spacePending && isInk(lastSign())) {
      signs.add(new Space(newId()));
    }
    spacePending = false;
    signs.add(sign);
    if (inUncut) {
      uncutSigns.add(sign.id());
    }
  }

  private int indexOf(SignId id) {
    for (int i = 0; i < signs.size(); i++) {
      if (signs.get(i).id().equals(id)) {
        return i;
      }
    }
    return -1;
  }

  // Looking at the text

  private SignId newId() {
    return SignId.of(nextId++);
  }

  private Sign lastSign() {
    return signs.get(signs.size() - 1);
  }

  private static boolean isInk(Sign sign) {
    return sign instanceof Letter || sign instanceof Gap;
  }

  private boolean isAt(String expected) {
    int[] codePoints = expected.codePoints().toArray();
    return at + codePoints.length <= text.length
        && Arrays.equals(text, at, at + codePoints.length, codePoints, 0, codePoints.length);
  }

  private boolean isAtAny(String... expected) {
    for (String one : expected) {
      if (isAt(one)) {
        return true;
      }
    }
    return false;
  }

  private int runOf(int codePoint) {
    int end = at;
    while (end < text.length && text[end] == codePoint) {
      end++;
    }
    return end - at;
  }

  /** Where the next closing sign stands that isn't escaped; -1 if there is none. */
  private int closing(int from, int closer) {
    for (int i = from; i < text.length; i++) {
      if (text[i] == '\\') {
        i++;
      } else if (text[i] == closer) {
        return i;
      }
    }
    return -1;
  }

  private static boolean isDash(int codePoint) {
    return codePoint == '-' || codePoint == '–' || codePoint == '—';
  }

  private static boolean isLower(int codePoint) {
    return codePoint >= 'a' && codePoint <= 'z';
  }

  private static boolean isLineEnd(int codePoint) {
    return codePoint == '\n' || codePoint == '\r';
  }

  private static boolean isSpace(int codePoint) {
    return !isLineEnd(codePoint)
        && (Character.isWhitespace(codePoint) || Character.isSpaceChar(codePoint));
  }

  private LeidenException error(String expected) {
    return errorAt(at, expected);
  }

  private LeidenException errorAt(int position, String expected) {
    return new LeidenException(line(position), column(position), found(position), expected);
  }

  private String found(int position) {
    if (position >= text.length) {
      return "the end";
    }
    int codePoint = text[position];
    boolean shows = Letter.isBase(codePoint);
    String shown = shows ? "“" + Character.toString(codePoint) + "”" : "";
    String number = String.format(Locale.ROOT, "U+%04X", codePoint);
    return shows ? shown : number;
  }

  private int line(int position) {
    int line = 1;
    for (int i = 0; i < position && i < text.length; i++) {
      if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.length || text[i + 1] != '\n'))) {
        line++;
      }
    }
    return line;
  }

  private int column(int position) {
    int column = 1;
    for (int i = Math.min(position, text.length) - 1; i >= 0 && !isLineEnd(text[i]); i--) {
      column++;
    }
    return column;
  }
}
