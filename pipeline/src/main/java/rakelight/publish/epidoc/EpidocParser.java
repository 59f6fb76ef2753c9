package rakelight.publish.epidoc;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import rakelight.inscription.Break;
import rakelight.inscription.Candidate;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Letter;
import rakelight.inscription.LetterForm;
import rakelight.inscription.NormalForm;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.inscription.Space;
import rakelight.inscription.Span;
import rakelight.inscription.Standing;

/**
 * Takes the signs out of an edition. What a reading has no place for is told in a remark, with the
 * line of the file; of an edition by {@link EpidocPrinter} nothing is.
 */
final class EpidocParser {
  /** More letters, gaps and spaces than any face carries; a file of more is no edition of one. */
  private static final int MOST_SIGNS = 5000;

  private static final Map<String, LetterForm> FORMS =
      Map.of(
          "tall", LetterForm.TALL,
          "small", LetterForm.SMALL,
          "subscript", LetterForm.SUBSCRIPT,
          "superscript", LetterForm.SUPERIOR,
          "reversed", LetterForm.REVERSED,
          "supraline", LetterForm.LINE_ABOVE);

  /** Attributes that are taken or that follow from what is, by element. */
  private static final Map<String, Set<String>> TAKEN =
      Map.ofEntries(
          Map.entry("lb", Set.of("n", "break", "facs")),
          Map.entry(
              "gap",
              Set.of("reason", "quantity", "extent", "unit", "precision", "atLeast", "atMost")),
          Map.entry(
              "space", Set.of("quantity", "extent", "unit", "precision", "atLeast", "atMost")),
          Map.entry("supplied", Set.of("reason", "cert", "evidence")),
          Map.entry("unclear", Set.of("cert")),
          Map.entry("hi", Set.of("rend")),
          Map.entry("del", Set.of("rend")),
          Map.entry("add", Set.of("place")),
          Map.entry("num", Set.of("value")),
          Map.entry("ex", Set.of("cert")),
          Map.entry("rdg", Set.of("resp", "source")),
          Map.entry("corr", Set.of("cert")),
          Map.entry("seg", Set.of("type", "cert")),
          Map.entry("certainty", Set.of("match", "locus")),
          Map.entry("div", Set.of("type", "n", "subtype", "xml:space")));

  /** On any element; which letters it is said of is kept as remarks on them. */
  private static final String LANGUAGE = "xml:lang";

  /** Blocks of lines: the text within begins on a new line. */
  private static final Set<String> BLOCKS = Set.of("div", "ab", "p", "lg", "l");

  /** What says more of words that are read all the same. */
  private static final Set<String> TRANSPARENT =
      Set.of("expan", "subst", "app", "lem", "c", "foreign");

  /** What stands in an edition and isn't carved text. */
  private static final Set<String> PASSED_OVER =
      Set.of(
          "head",
          "desc",
          "figure",
          "fw",
          "pb",
          "cb",
          "gb",
          "milestone",
          "anchor",
          "ptr",
          "link",
          "handShift",
          "index",
          "certainty",
          "precision",
          "listApp",
          "witDetail");

  /** What the elements around a letter say of it. */
  private record Marks(
      Standing standing,
      boolean doubtful,
      boolean erased,
      boolean damaged,
      boolean uncut,
      Set<LetterForm> forms,
      Set<Span.Kind> open) {
    static final Marks NONE =
        new Marks(Standing.CLEAR, false, false, false, false, Set.of(), Set.of());

    Marks standing(Standing other, boolean doubt) {
      return new Marks(other, doubt, erased, damaged, uncut, forms, open);
    }

    Marks erasure() {
      return new Marks(standing, doubtful, !uncut, damaged, uncut, forms, open);
    }

    Marks damage() {
      return new Marks(standing, doubtful, erased, true, uncut, forms, open);
    }

    Marks neverCut(boolean doubt) {
      return new Marks(Standing.SUPPLIED, doubt, false, false, true, forms, open);
    }

    Marks form(LetterForm form) {
      Set<LetterForm> more = EnumSet.of(form);
      more.addAll(forms);
      return new Marks(standing, doubtful, erased, damaged, uncut, more, open);
    }

    Marks within(Span.Kind kind) {
      Set<Span.Kind> more = EnumSet.of(kind);
      more.addAll(open);
      return new Marks(standing, doubtful, erased, damaged, uncut, forms, more);
    }
  }

  private final List<Sign> signs = new ArrayList<>();
  private final List<Span> spans = new ArrayList<>();
  private final List<Optional<String>> lineZones = new ArrayList<>();
  private final List<String> lineNumbers = new ArrayList<>();
  private final Map<String, Integer> remarks = new LinkedHashMap<>();
  private int nextId = 1;
  private boolean spacePending = false;

  /** The {@code lb} that the next letter follows, if any since the last one. */
  private Optional<XmlElement> linePending = Optional.empty();

  private boolean linePendingByBlock = false;

  /** What the elements around say that the text is in, and what was last told of the letters. */
  private String language = "";

  private String languageTold = "";

  Epidoc.Edition parse(XmlElement edition) throws EpidocException {
    language = edition.attribute(LANGUAGE).orElse("");
    for (XmlNode child : edition.children()) {
      node(child, Marks.NONE, edition);
    }
    linePending.ifPresent(lb -> remark(lb, "a line with nothing on it is left out"));
    if (signs.isEmpty()) {
      throw new EpidocException(edition.line(), "the edition holds no letter and no gap.");
    }
    if (signs.size() > MOST_SIGNS) {
      throw new EpidocException(
          edition.line(),
          "the edition has " + signs.size() + " signs; no more than " + MOST_SIGNS + " are taken.");
    }
    try {
      List<Epidoc.Remark> told = new ArrayList<>();
      remarks.forEach((text, line) -> told.add(new Epidoc.Remark(line, text)));
      return new Epidoc.Edition(NormalForm.of(signs, spans), lineZones, lineNumbers, told);
    } catch (IllegalArgumentException e) {
      throw new EpidocException(
          edition.line(), "the edition's elements don't go together: " + e.getMessage() + ".");
    }
  }

  // Elements

  private void node(XmlNode node, Marks marks, XmlElement parent) {
    if (node instanceof XmlText run) {
      text(run.text(), marks, parent);
    } else if (node instanceof XmlElement element) {
      remarkAttributes(element);
      String around = language;
      language = element.attribute(LANGUAGE).orElse(around);
      element(element, marks, parent);
      language = around;
    }
  }

  private void children(XmlElement element, Marks marks) {
    for (XmlNode child : element.children()) {
      node(child, marks, element);
    }
  }

  private void element(XmlElement element, Marks marks, XmlElement parent) {
    String name = element.name();
    switch (name) {
      case "lb" -> line(element);
      case "gap", "space" -> gap(element, marks);
      case "unclear" ->
          children(
              element,
              marks.standing() == Standing.CLEAR ? marks.standing(Standing.UNCLEAR, false) : marks);
      case "supplied" -> supplied(element, marks);
      case "choice" -> choice(element, marks);
      case "abbr" -> {
        if (parent.name().equals("expan")) {
          children(element, marks);
        } else {
          span(element, Span.Kind.UNEXPANDED, "", marks);
        }
      }
      case "expan" -> {
        boolean marked =
            element.all().anyMatch(part -> Set.of("abbr", "ex", "am").contains(part.name()));
        if (marked) {
          children(element, marks);
        } else {
          remark(element, "<expan> with no <abbr> or <ex> in it is taken as never cut");
          uncut(element, Span.Kind.EXPANSION, marks);
        }
      }
      case "ex" -> uncut(element, Span.Kind.EXPANSION, marks);
      case "am" -> span(element, Span.Kind.ABBREVIATION_MARK, "", marks);
      case "seg" -> {
        String type = element.attribute("type").orElse("");
        if (type.equals("expansion")) {
          uncut(element, Span.Kind.EXPANSION, marks);
        } else if (type.equals("mark")) {
          span(element, Span.Kind.ABBREVIATION_MARK, "", marks);
        } else {
          remark(element, "<seg> isn't carried, its text is");
          children(element, marks);
        }
      }
      case "corr" -> uncut(element, Span.Kind.CORRECTION, marks);
      case "reg" -> {
        remark(element, "<reg> with no <orig> beside it is taken as corrected text");
        uncut(element, Span.Kind.CORRECTION, marks);
      }
      case "sic" -> {
        children(element, marks);
        remark(element, "<sic> with no <corr> beside it is taken as the remark (!)");
        note(element, "!");
      }
      case "orig" -> span(element, Span.Kind.NOT_UNDERSTOOD, "", marks);
      case "surplus" -> span(element, Span.Kind.SURPLUS, "", marks);
      case "add" -> added(element, marks);
      case "del" -> {
        if (!element.attribute("rend").filter("erasure"::equals).isPresent()) {
          remark(element, "<del> is taken as an erasure, whatever its rend");
        }
        children(element, marks.erasure());
      }
      case "hi" -> hi(element, marks);
      case "damage" -> children(element, marks.damage());
      case "num" -> number(element, marks);
      case "note" -> note(element, element.text());
      case "rdg" -> note(element, "elsewhere read: " + read(element));
      default -> other(element, marks);
    }
  }

  private void other(XmlElement element, Marks marks) {
    String name = element.name();
    if (BLOCKS.contains(name)) {
      partRemarks(element);
      linePendingByBlock = linePendingByBlock || !signs.isEmpty();
      spacePending = false;
      children(element, marks);
      linePendingByBlock = true;
    } else if (TRANSPARENT.contains(name)) {
      children(element, marks);
    } else if (PASSED_OVER.contains(name) || name.startsWith("{")) {
      remark(element, "<" + name + "> isn't carried");
    } else if (element.children().isEmpty()) {
      remark(element, "<" + name + "> isn't carried; it holds no letter");
    } else {
      remark(element, "<" + name + "> isn't carried, its text is");
      children(element, marks);
    }
  }

  /** A reading is one text: where parts of it begin is told. */
  private void partRemarks(XmlElement block) {
    boolean isPart = block.attribute("type").filter("textpart"::equals).isPresent();
    if (isPart && !signs.isEmpty()) {
      remark(
          block,
          "text part “"
              + block.attribute("n").orElse("")
              + "” is read as going on from the one before; that it is a part isn't carried");
    }
  }

  private static String read(XmlElement rdg) {
    String by = rdg.attribute("resp").or(() -> rdg.attribute("source")).orElse("");
    String text = rdg.text().isEmpty() ? "nothing" : rdg.text();
    return by.isEmpty() ? text : text + " (" + by.replace("#", "") + ")";
  }

  private void line(XmlElement lb) {
    linePending.ifPresent(before -> remark(before, "a line with nothing on it is left out"));
    linePending = Optional.of(lb);
    spacePending = false;
    String runsOn = lb.attribute("break").orElse("yes");
    if (!runsOn.equals("no") && !runsOn.equals("yes")) {
      remark(lb, "break=\"" + runsOn + "\" is taken as yes");
    }
    if (runsOn.equals("no") && signs.isEmpty()) {
      remark(lb, "no word can run on to the first line");
    }
  }

  private void supplied(XmlElement element, Marks marks) {
    String reason = element.attribute("reason").orElse("");
    String evidence = element.attribute("evidence").orElse("");
    boolean doubtful = doubt(element);
    if (evidence.equals("previouseditor")) {
      if (!reason.equals("undefined")) {
        remark(element, "reason=\"" + reason + "\" of what an earlier editor saw isn't carried");
      }
      if (doubtful) {
        remark(element, "doubt about what an earlier editor saw isn't carried");
      }
      children(element, marks.uncut() ? marks : marks.standing(Standing.SEEN_EARLIER, false));
      return;
    }
    if (!evidence.isEmpty()) {
      remark(element, "evidence=\"" + evidence + "\" isn't carried");
    }
    switch (reason) {
      case "omitted" -> uncut(element, Span.Kind.OMITTED, marks);
      case "subaudible", "explanation" -> {
        remark(element, "reason=\"" + reason + "\" is taken as omitted");
        uncut(element, Span.Kind.OMITTED, marks);
      }
      default -> {
        if (!reason.equals("lost")) {
          remark(element, "reason=\"" + reason + "\" of <supplied> is taken as lost");
        }
        children(element, marks.uncut() ? marks : marks.standing(Standing.SUPPLIED, doubtful));
      }
    }
  }

  /** Whether {@code cert} says that it may be otherwise. */
  private boolean doubt(XmlElement element) {
    String cert = element.attribute("cert").orElse("high");
    if (!cert.equals("high") && !cert.equals("low")) {
      remark(element, "cert=\"" + cert + "\" is taken as low");
    }
    return !cert.equals("high");
  }

  private void choice(XmlElement choice, Marks marks) {
    List<XmlElement> options = choice.elements();
    Set<String> names = Set.copyOf(options.stream().map(XmlElement::name).toList());
    if (names.equals(Set.of("unclear"))) {
      open(choice, options, marks);
      return;
    }
    options.forEach(this::remarkAttributes);
    if (options.size() == 2 && names.equals(Set.of("sic", "corr"))) {
      String meant = choice.first("corr").map(XmlElement::text).orElse("");
      choice.first("sic").ifPresent(sic -> span(sic, Span.Kind.CORRECTION, meant, marks));
      choice.first("corr").ifPresent(this::remarkMarkup);
    } else if (options.size() == 2 && names.equals(Set.of("orig", "reg"))) {
      String today = choice.first("reg").map(XmlElement::text).orElse("");
      choice.first("orig").ifPresent(orig -> span(orig, Span.Kind.REGULARISED, today, marks));
      choice.first("reg").ifPresent(this::remarkMarkup);
    } else if (options.size() == 2 && names.equals(Set.of("abbr", "expan"))) {
      choice.first("abbr").ifPresent(abbr -> span(abbr, Span.Kind.UNEXPANDED, "", marks));
      choice
          .first("expan")
          .ifPresent(
              expan -> {
                remark(expan, "what the abbreviation stands for is taken as a remark");
                note(expan, expan.text());
              });
    } else if (options.isEmpty()) {
      remark(choice, "<choice> of nothing is left out");
    } else {
      XmlElement first = options.get(0);
      options.stream()
          .skip(1)
          .forEach(
              option ->
                  remark(
                      option,
                      "the other choice <"
                          + option.name()
                          + "> “"
                          + option.text()
                          + "” isn't carried"));
      element(first, marks, choice);
    }
  }

  /** Tells of markup within what is taken as plain text. */
  private void remarkMarkup(XmlElement element) {
    element
        .elements()
        .forEach(
            inner ->
                remark(
                    inner,
                    "<"
                        + inner.name()
                        + "> within <"
                        + element.name()
                        + "> isn't carried, its text is"));
  }

  /** One letter of which the reader leaves open what it is. */
  private void open(XmlElement choice, List<XmlElement> options, Marks marks) {
    List<String> texts =
        options.stream()
            .map(option -> Normalizer.normalize(option.text(), Normalizer.Form.NFC))
            .toList();
    try {
      List<Candidate> candidates = new ArrayList<>();
      if (options.stream().noneMatch(option -> option.attributes().containsKey("cert"))) {
        candidates.addAll(Candidate.equally(texts));
      } else {
        for (int i = 0; i < texts.size(); i++) {
          double weight = Double.parseDouble(options.get(i).attribute("cert").orElse(""));
          candidates.add(new Candidate(texts.get(i), (int) Math.round(weight * 100)));
        }
      }
      Standing standing =
          marks.standing() == Standing.SUPPLIED ? Standing.SUPPLIED : Standing.UNCLEAR;
      add(
          new Letter(
              newId(),
              texts.get(0),
              standing,
              marks.doubtful(),
              marks.erased(),
              marks.damaged() && standing == Standing.UNCLEAR,
              marks.forms(),
              candidates));
    } catch (IllegalArgumentException e) {
      remark(
          choice,
          "letters that may be one or the other ("
              + String.join(" or ", texts)
              + ") aren't carried as such, the first is taken as unclear: "
              + e.getMessage());
      children(options.get(0), marks.standing(Standing.UNCLEAR, false));
    }
  }

  private void added(XmlElement add, Marks marks) {
    String place = add.attribute("place").orElse("");
    if (place.equals("overstrike")) {
      span(add, Span.Kind.OVER_ERASURE, "", marks);
      return;
    }
    if (!place.equals("above")) {
      remark(add, "place=\"" + place + "\" of <add> is taken as above");
    }
    span(add, Span.Kind.INSERTED, "", marks);
  }

  private void hi(XmlElement hi, Marks marks) {
    Marks within = marks;
    boolean ligature = false;
    boolean toNext = false;
    for (String rend : hi.attribute("rend").orElse("").split("\\s+")) {
      LetterForm form = FORMS.get(rend);
      if (form != null) {
        within = within.form(form);
      } else if (rend.equals("ligature")) {
        ligature = true;
      } else if (rend.equals(EpidocPrinter.TIED_TO_NEXT)) {
        toNext = true;
      } else {
        remark(hi, "rend=\"" + rend + "\" of <hi> isn't carried");
      }
    }
    int start = signs.size();
    children(hi, within);
    if (ligature) {
      tie(hi, start, toNext);
    }
  }

  private void tie(XmlElement hi, int start, boolean toNext) {
    boolean tied = false;
    for (int i = start; i < signs.size(); i++) {
      boolean last = i == signs.size() - 1;
      boolean beforeLetter = last ? toNext : signs.get(i + 1) instanceof Letter;
      if (beforeLetter && signs.get(i) instanceof Letter letter && letter.candidates().isEmpty()) {
        signs.set(i, letter.withForm(LetterForm.LIGATURE));
        tied = true;
      }
    }
    if (!tied) {
      remark(hi, "a ligature of fewer than two letters isn't carried");
    }
  }

  private void number(XmlElement num, Marks marks) {
    Optional<String> value = num.attribute("value");
    if (value.filter(figures -> figures.matches("[0-9]{1,9}")).isPresent()) {
      span(num, Span.Kind.NUMBER, value.get(), marks);
    } else {
      remark(num, "<num> with no value in whole figures isn't carried, its text is");
      children(num, marks);
    }
  }

  private void note(XmlElement element, String remark) {
    Optional<Sign> on =
        signs.isEmpty() ? Optional.empty() : Optional.of(signs.get(signs.size() - 1));
    String oneLine = remark.replaceAll("\\p{Cntrl}", " ").strip();
    if (on.isEmpty() || oneLine.isEmpty()) {
      remark(element, "a note with no letter before it or nothing in it isn't carried");
      return;
    }
    Span span = new Span(Span.Kind.NOTE, on.get().id(), on.get().id(), oneLine);
    if (spans.contains(span)) {
      remark(element, "the same note twice is taken once");
    } else {
      spans.add(span);
    }
  }

  // Spans

  private void span(XmlElement element, Span.Kind kind, String text, Marks marks) {
    if (marks.uncut() || marks.open().contains(kind)) {
      remark(
          element,
          "<"
              + element.name()
              + "> within "
              + (marks.uncut() ? "letters never cut" : "its like")
              + " isn't carried, its text is");
      children(element, marks);
      return;
    }
    if (kind.hasText() && text.isBlank()) {
      remark(element, "<" + element.name() + "> beside an empty element isn't carried");
      children(element, marks);
      return;
    }
    int slot = spans.size();
    int start = signs.size();
    children(element, marks.within(kind));
    close(element, slot, start, kind, text);
  }

  /** Letters that were never cut. */
  private void uncut(XmlElement element, Span.Kind kind, Marks marks) {
    if (marks.uncut() || marks.open().contains(kind)) {
      remark(
          element, "<" + element.name() + "> within letters never cut isn't carried, its text is");
      children(element, marks);
      return;
    }
    int slot = spans.size();
    int start = signs.size();
    children(element, marks.within(kind).neverCut(doubt(element)));
    close(element, slot, start, kind, "");
  }

  private void close(XmlElement element, int slot, int start, Span.Kind kind, String text) {
    List<Sign> ink = signs.subList(start, signs.size()).stream().filter(this::isInk).toList();
    if (ink.isEmpty()) {
      remark(element, "<" + element.name() + "> with no letter in it isn't carried");
      return;
    }
    spans.add(slot, new Span(kind, ink.get(0).id(), ink.get(ink.size() - 1).id(), text));
  }

  // Letters and gaps

  private void text(String text, Marks marks, XmlElement parent) {
    int[] points = Normalizer.normalize(text, Normalizer.Form.NFC).codePoints().toArray();
    int at = 0;
    while (at < points.length) {
      int point = points[at];
      if (Character.isWhitespace(point) || Character.isSpaceChar(point)) {
        spacePending = true;
        at++;
      } else if (Letter.isBase(point)) {
        int end = at + 1;
        while (end < points.length && Letter.isCombining(points[end])) {
          end++;
        }
        letter(new String(points, at, end - at), marks, parent);
        at = end;
      } else {
        remark(parent, String.format("the character U+%04X isn't carried", point));
        at++;
      }
    }
  }

  private void letter(String text, Marks marks, XmlElement parent) {
    Standing standing = marks.standing();
    String bare = text;
    try {
      Letter.requireOneLetter(text);
    } catch (IllegalArgumentException e) {
      bare = withoutOurMarks(text);
      remark(parent, "marks over or under the letter “" + text + "” aren't carried");
    }
    boolean seen = standing == Standing.CLEAR || standing == Standing.UNCLEAR;
    if (marks.damaged() && !seen) {
      remark(parent, "damage of a letter that isn't seen isn't carried");
    }
    add(
        new Letter(
            newId(),
            bare,
            standing,
            marks.doubtful() && standing == Standing.SUPPLIED,
            marks.erased(),
            marks.damaged() && seen,
            marks.forms(),
            List.of()));
  }

  private static String withoutOurMarks(String text) {
    String decomposed = Normalizer.normalize(text, Normalizer.Form.NFD);
    for (String mark :
        List.of(Letter.DOT_BELOW, Letter.LINE_BELOW, Letter.LINE_ABOVE, Letter.TIE)) {
      decomposed = decomposed.replace(mark, "");
    }
    return Normalizer.normalize(decomposed, Normalizer.Form.NFC);
  }

  private void gap(XmlElement element, Marks marks) {
    boolean blank = element.name().equals("space");
    if (marks.uncut()) {
      remark(element, "<" + element.name() + "> within letters never cut isn't carried");
      return;
    }
    Gap.Reason reason = blank ? Gap.Reason.BLANK : reason(element);
    boolean perhaps =
        element.elements("certainty").stream()
            .anyMatch(sure -> sure.attribute("locus").filter("name"::equals).isPresent());
    element.elements().stream()
        .filter(inner -> !inner.name().equals("certainty"))
        .forEach(inner -> remark(inner, "<" + inner.name() + "> within a gap isn't carried"));
    boolean mayDoubt = reason == Gap.Reason.LOST || reason == Gap.Reason.BLANK;
    if (perhaps && !mayDoubt) {
      remark(element, "doubt whether this gap is there isn't carried");
    }
    boolean mayErase = reason == Gap.Reason.LOST || reason == Gap.Reason.ILLEGIBLE;
    if (marks.erased() && !mayErase) {
      remark(element, "erasure of what was never cut isn't carried");
    }
    if (marks.standing() != Standing.CLEAR || marks.damaged()) {
      remark(element, "what is said of letters isn't carried for a gap within");
    }
    add(
        new Gap(
            newId(),
            reason,
            extent(element),
            unit(element),
            marks.erased() && mayErase,
            perhaps && mayDoubt));
  }

  private Gap.Reason reason(XmlElement gap) {
    String reason = gap.attribute("reason").orElse("");
    return switch (reason) {
      case "lost" -> Gap.Reason.LOST;
      case "illegible" -> Gap.Reason.ILLEGIBLE;
      case "omitted" -> Gap.Reason.OMITTED;
      default -> {
        remark(gap, "reason=\"" + reason + "\" of <gap> is taken as illegible");
        yield Gap.Reason.ILLEGIBLE;
      }
    };
  }

  private Gap.Unit unit(XmlElement gap) {
    String unit = gap.attribute("unit").orElse("");
    if (!unit.equals("character") && !unit.equals("line")) {
      remark(gap, "unit=\"" + unit + "\" is taken as character");
    }
    return unit.equals("line") ? Gap.Unit.LINES : Gap.Unit.LETTERS;
  }

  private Extent extent(XmlElement gap) {
    try {
      Optional<String> quantity = gap.attribute("quantity");
      if (quantity.isPresent()) {
        int count = Integer.parseInt(quantity.get());
        return gap.attribute("precision").filter("low"::equals).isPresent()
            ? new Extent.About(count)
            : new Extent.Exact(count);
      }
      if (gap.attribute("atLeast").isPresent() || gap.attribute("atMost").isPresent()) {
        return new Extent.Range(
            Integer.parseInt(gap.attribute("atLeast").orElse("0")),
            Integer.parseInt(gap.attribute("atMost").orElse("")));
      }
    } catch (IllegalArgumentException e) {
      remark(
          gap,
          "extent of <"
              + gap.name()
              + "> can't be read and is taken as unknown: "
              + e.getMessage());
      return new Extent.Unknown();
    }
    String extent = gap.attribute("extent").orElse("unknown");
    if (!extent.equals("unknown")) {
      remark(gap, "extent=\"" + extent + "\" is taken as unknown");
    }
    return new Extent.Unknown();
  }

  private void add(Sign sign) {
    if (signs.isEmpty() || linePending.isPresent() || linePendingByBlock) {
      boolean joined =
          !signs.isEmpty()
              && linePending.flatMap(lb -> lb.attribute("break")).filter("no"::equals).isPresent();
      signs.add(new Break(newId(), joined));
      lineZones.add(linePending.flatMap(lb -> lb.attribute("facs")));
      lineNumbers.add(linePending.flatMap(lb -> lb.attribute("n")).orElse(""));
    } else if (spacePending) {
      signs.add(new Space(newId()));
    }
    linePending = Optional.empty();
    linePendingByBlock = false;
    spacePending = false;
    signs.add(sign);
    if (!language.equals(languageTold)) {
      languageTold = language;
      String told = "language: " + (language.isBlank() ? "not said" : language.strip());
      spans.add(new Span(Span.Kind.NOTE, sign.id(), sign.id(), told));
    }
  }

  private boolean isInk(Sign sign) {
    return sign instanceof Letter || sign instanceof Gap;
  }

  private SignId newId() {
    return new SignId(nextId++);
  }

  // What isn't carried

  private void remarkAttributes(XmlElement element) {
    Set<String> taken = TAKEN.getOrDefault(element.name(), Set.of());
    element.attributes().keySet().stream()
        .filter(attribute -> !taken.contains(attribute) && !attribute.equals(LANGUAGE))
        .forEach(
            attribute ->
                remark(
                    element,
                    "the attribute " + attribute + " of <" + element.name() + "> isn't carried"));
  }

  /** Each remark once, with the line where it was first needed. */
  private void remark(XmlElement element, String text) {
    remarks.putIfAbsent(text, element.line());
  }
}
