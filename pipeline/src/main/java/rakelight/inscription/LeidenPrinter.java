package rakelight.inscription;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import rakelight.inscription.SpanForest.Branch;
import rakelight.inscription.SpanForest.Leaf;
import rakelight.inscription.SpanForest.Node;

/**
 * Prints a reading so that parsing gives it back. Marks that Leiden shows by enclosing are gathered
 * into runs, one kind of enclosure after the other from the outermost in; a span always starts its
 * own runs.
 */
final class LeidenPrinter {
  private static final String ALWAYS_ESCAPED = "\\[](){}<>⟨⟩〚〛⟦⟧⸢⸣⌈⌉«»`´+|^#?=…";
  private static final String DASHES = "-–—";

  /** One way of enclosing letters, outermost first. */
  private record Enclosure(String open, String close, Predicate<Sign> holds) {}

  private final Inscription inscription;
  private final boolean running;
  private final Map<SignId, Integer> positions = new HashMap<>();
  private final Map<SignId, StringBuilder> notes = new HashMap<>();
  private final StringBuilder out = new StringBuilder();
  private boolean inUncut = false;

  /** Where the innermost span being printed begins; the first sign of all outside spans. */
  private int spanStart = 1;

  private boolean inBrackets = false;

  private final List<Enclosure> enclosures =
      List.of(
          new Enclosure("〚", "〛", Sign::erased),
          new Enclosure("[", "]", sign -> isBracketed(sign, false)),
          new Enclosure("[", "?]", sign -> isBracketed(sign, true)),
          new Enclosure("#tall(", ")", sign -> hasForm(sign, LetterForm.TALL)),
          new Enclosure("#small(", ")", sign -> hasForm(sign, LetterForm.SMALL)),
          new Enclosure("#subscript(", ")", sign -> hasForm(sign, LetterForm.SUBSCRIPT)),
          new Enclosure("#reversed(", ")", sign -> hasForm(sign, LetterForm.REVERSED)),
          new Enclosure(
              "#damaged(", ")", sign -> sign instanceof Letter letter && letter.damaged()));

  LeidenPrinter(Inscription inscription, boolean running) {
    this.inscription = inscription;
    this.running = running;
    for (int i = 0; i < inscription.signs().size(); i++) {
      positions.put(inscription.signs().get(i).id(), i);
    }
  }

  String print() {
    for (Span span : inscription.spans()) {
      if (span.kind() == Span.Kind.NOTE) {
        notes.computeIfAbsent(span.first(), id -> new StringBuilder()).append(note(span));
      }
    }
    List<Node> nodes = SpanForest.of(inscription);
    // The first line needs no sign for its beginning.
    enclose(nodes.subList(1, nodes.size()), 0);
    return out.toString();
  }

  private static String note(Span span) {
    return span.text().equals("!") ? "(!)" : "#note(" + raw(span.text()) + ")";
  }

  private static String raw(String text) {
    return text.replaceAll("[\\\\)⸣⌉]", "\\\\$0");
  }

  private int position(SignId id) {
    return positions.getOrDefault(id, -1);
  }

  private void enclose(List<Node> nodes, int level) {
    if (level == enclosures.size()) {
      for (int i = 0; i < nodes.size(); i++) {
        if (nodes.get(i) instanceof Leaf leaf) {
          sign(leaf.sign());
        } else if (nodes.get(i) instanceof Branch branch) {
          span(branch);
        }
      }
      return;
    }
    Enclosure enclosure = enclosures.get(level);
    int at = 0;
    while (at < nodes.size()) {
      int end = runEnd(nodes, at, enclosure);
      if (end > at) {
        run(nodes.subList(at, end), level);
        at = end;
      } else {
        int other = at + 1;
        while (other < nodes.size() && runEnd(nodes, other, enclosure) == other) {
          other++;
        }
        enclose(nodes.subList(at, other), level + 1);
        at = other;
      }
    }
  }

  /** The end of the run that an enclosure holds from here; {@code from} itself if there is none. */
  private int runEnd(List<Node> nodes, int from, Enclosure enclosure) {
    int end = from;
    for (int i = from; i < nodes.size() && nodes.get(i) instanceof Leaf leaf; i++) {
      Sign sign = leaf.sign();
      if (enclosure.holds().test(sign)) {
        // Two extents in one bracket would run into each other.
        boolean gapAfterGap = sign instanceof Gap && end > from && isGap(nodes.get(end - 1));
        if (gapAfterGap && enclosure.open().equals("[")) {
          break;
        }
        end = i + 1;
      } else if (i == from || !(sign instanceof Space || (running && sign instanceof Break))) {
        break;
      }
    }
    return end;
  }

  private static boolean isGap(Node node) {
    return node instanceof Leaf leaf && leaf.sign() instanceof Gap;
  }

  private void run(List<Node> nodes, int level) {
    Enclosure enclosure = enclosures.get(level);
    boolean brackets = enclosure.open().equals("[");
    out.append(enclosure.open());
    int start = out.length();
    if (brackets
        && nodes.size() == 1
        && isBareGap(nodes.get(0))
        && nodes.get(0) instanceof Leaf leaf) {
      Gap gap = (Gap) leaf.sign();
      out.append(LeidenNotes.print(gap.extent(), gap.unit()));
    } else {
      inBrackets = inBrackets || brackets;
      enclose(nodes, level + 1);
      if (brackets) {
        inBrackets = false;
        if (LeidenNotes.looksLikeExtent(out.substring(start))) {
          out.insert(start, "\\");
        }
      }
    }
    out.append(enclosure.close());
  }

  /** Whether the gap alone in its bracket prints as an extent without parentheses. */
  private boolean isBareGap(Node node) {
    return node instanceof Leaf leaf
        && leaf.sign() instanceof Gap gap
        && !notes.containsKey(gap.id())
        && !isDots(gap)
        && !isDashes(gap);
  }

  private static boolean isDots(Gap gap) {
    return gap.unit() == Gap.Unit.LETTERS && gap.extent() instanceof Extent.Exact;
  }

  private static boolean isDashes(Gap gap) {
    return gap.extent() instanceof Extent.Unknown
        || (gap.unit() == Gap.Unit.LINES && gap.extent().equals(new Extent.Exact(1)));
  }

  private void span(Branch branch) {
    Span span = branch.span();
    switch (span.kind()) {
      case EXPANSION -> uncut(branch, "(", ")");
      case OMITTED -> uncut(branch, "<", ">");
      case CORRECTION -> {
        if (span.text().isEmpty()) {
          uncut(branch, "⸢", "⸣");
        } else {
          around("⸢", branch, "=" + raw(span.text()) + "⸣");
        }
      }
      case SURPLUS -> around("{", branch, "}");
      case INSERTED -> around("`", branch, "´");
      case OVER_ERASURE -> around("«", branch, "»");
      case ABBREVIATION_MARK -> around("#mark(", branch, ")");
      case NOT_UNDERSTOOD -> around("#not-understood(", branch, ")");
      case REGULARISED -> around("#regular(", branch, "=" + raw(span.text()) + ")");
      case NUMBER -> around("#number(", branch, "=" + raw(span.text()) + ")");
      case UNEXPANDED -> {
        if (isWholeWord(span)) {
          around("", branch, "(- - -)");
        } else {
          around("#unexpanded(", branch, ")");
        }
      }
      case NOTE -> throw new IllegalStateException("notes are printed with their sign");
    }
  }

  private void around(String open, Branch branch, String close) {
    out.append(open);
    within(branch);
    out.append(close);
  }

  private void within(Branch branch) {
    int outer = spanStart;
    spanStart = position(branch.span().first());
    enclose(branch.children(), 0);
    spanStart = outer;
  }

  private void uncut(Branch branch, String open, String close) {
    out.append(open);
    int start = out.length();
    inUncut = true;
    within(branch);
    inUncut = false;
    String body = out.substring(start);
    boolean doubtful = isDoubtful(branch.children().get(0));
    if (open.equals("(") && LeidenNotes.isNote(doubtful ? body + "?" : body)) {
      out.setLength(start);
      out.append(LeidenNotes.isChoice(body) ? body.replace(" or ", " \\or ") : "\\" + body);
    }
    out.append(doubtful ? "?" : "").append(close);
  }

  private static boolean isDoubtful(Node node) {
    return node instanceof Leaf leaf && leaf.sign() instanceof Letter letter && letter.doubtful();
  }

  /** Whether the parser, meeting {@code (- - -)} after these letters, would take just them. */
  private boolean isWholeWord(Span span) {
    for (int i = position(span.first()); i <= position(span.last()); i++) {
      if (!isAlphabetic(inscription.signs().get(i))) {
        return false;
      }
    }
    int first = position(span.first());
    return first == spanStart || !isAlphabetic(inscription.signs().get(first - 1));
  }

  private static boolean isAlphabetic(Sign sign) {
    return sign instanceof Letter letter && letter.isAlphabetic();
  }

  private void sign(Sign sign) {
    if (sign instanceof Letter letter) {
      letter(letter);
    } else if (sign instanceof Gap gap) {
      gap(gap);
    } else if (sign instanceof Break line) {
      out.append(running ? "" : "\n").append(line.joined() ? "|" : running ? " | " : "");
    } else {
      out.append(' ');
    }
    out.append(notes.getOrDefault(sign.id(), new StringBuilder()));
  }

  private void letter(Letter letter) {
    if (letter.forms().contains(LetterForm.SUPERIOR)) {
      out.append('^');
    }
    if (!letter.candidates().isEmpty()) {
      choice(letter.candidates());
      return;
    }
    StringBuilder marked = new StringBuilder(letter.text());
    if (letter.standing() == Standing.UNCLEAR) {
      marked.append(Letter.DOT_BELOW);
    } else if (letter.standing() == Standing.SEEN_EARLIER) {
      marked.append(Letter.LINE_BELOW);
    }
    if (letter.forms().contains(LetterForm.LINE_ABOVE)) {
      marked.append(Letter.LINE_ABOVE);
    }
    if (letter.forms().contains(LetterForm.LIGATURE)) {
      marked.append(Letter.TIE);
    }
    out.append(needsEscape(letter) ? "\\" : "")
        .append(Normalizer.normalize(marked, Normalizer.Form.NFC));
  }

  private void choice(List<Candidate> candidates) {
    List<String> texts = candidates.stream().map(Candidate::text).toList();
    boolean even = candidates.equals(Candidate.equally(texts));
    List<String> options = new ArrayList<>();
    for (Candidate candidate : candidates) {
      boolean plain = Character.isLetterOrDigit(candidate.text().codePointAt(0));
      options.add(
          (plain ? "" : "\\") + candidate.text() + (even ? "" : " " + candidate.percent() + "%"));
    }
    out.append('(').append(String.join(" or ", options)).append(')');
  }

  private boolean needsEscape(Letter letter) {
    String first = Character.toString(letter.text().codePointAt(0));
    if (ALWAYS_ESCAPED.contains(first)) {
      return true;
    }
    int at = position(letter.id());
    if (first.equals(".")) {
      return inBrackets || startsWith(at - 1, ".") || startsWith(at + 1, ".");
    }
    if (DASHES.contains(first)) {
      return inBrackets || isDashOrGap(at, -1) || isDashOrGap(at, 1);
    }
    return first.equals("/") && !(isLetter(at - 1) && isLetter(at + 1));
  }

  private boolean isLetter(int at) {
    return at >= 0
        && at < inscription.signs().size()
        && inscription.signs().get(at) instanceof Letter;
  }

  private boolean startsWith(int at, String firsts) {
    return isLetter(at)
        && inscription.signs().get(at) instanceof Letter letter
        && firsts.contains(Character.toString(letter.text().codePointAt(0)));
  }

  private boolean isDashOrGap(int at, int step) {
    int next = at + step;
    if (next < inscription.signs().size() && inscription.signs().get(next) instanceof Space) {
      next += step;
    }
    return next < inscription.signs().size()
        && (inscription.signs().get(next) instanceof Gap || startsWith(next, DASHES));
  }

  private void gap(Gap gap) {
    String extent = LeidenNotes.print(gap.extent(), gap.unit());
    switch (gap.reason()) {
      case LOST -> {
        if (isDots(gap)) {
          out.append(".".repeat(((Extent.Exact) gap.extent()).count()));
        } else if (isDashes(gap)) {
          boolean outside = gap.unit() == Gap.Unit.LINES && gap.extent() instanceof Extent.Unknown;
          out.append(gap.unit() == Gap.Unit.LETTERS ? "- - -" : "- - - - - -");
          out.append(outside && gap.doubtful() ? " ?" : "");
        } else {
          out.append('(').append(extent).append(')');
        }
      }
      case ILLEGIBLE -> {
        if (isDots(gap)) {
          out.append("+".repeat(((Extent.Exact) gap.extent()).count()));
        } else if (gap.extent() instanceof Extent.Unknown) {
          out.append(gap.unit() == Gap.Unit.LETTERS ? "(+++)" : "(+++ lines)");
        } else {
          out.append('(').append(extent).append(')');
        }
      }
      case OMITTED -> {
        boolean afterLetter =
            isAlphabetic(inscription.signs().get(Math.max(0, position(gap.id()) - 1)));
        if (extent.isEmpty() && !afterLetter) {
          out.append("(- - -)");
        } else {
          out.append(("(om. " + extent).strip()).append(')');
        }
      }
      case BLANK ->
          out.append(("(vac. " + extent).strip()).append(gap.doubtful() ? "?" : "").append(')');
    }
  }

  private boolean isBracketed(Sign sign, boolean doubtful) {
    if (sign instanceof Letter letter) {
      return letter.standing() == Standing.SUPPLIED && !inUncut && letter.doubtful() == doubtful;
    }
    return sign instanceof Gap gap
        && gap.reason() == Gap.Reason.LOST
        && !(gap.unit() == Gap.Unit.LINES && gap.extent() instanceof Extent.Unknown)
        && gap.doubtful() == doubtful;
  }

  private static boolean hasForm(Sign sign, LetterForm form) {
    return sign instanceof Letter letter && letter.forms().contains(form);
  }
}
