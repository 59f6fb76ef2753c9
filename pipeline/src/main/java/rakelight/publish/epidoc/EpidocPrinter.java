package rakelight.publish.epidoc;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import rakelight.inscription.Break;
import rakelight.inscription.Candidate;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.LetterForm;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.inscription.Space;
import rakelight.inscription.Span;
import rakelight.inscription.SpanForest;
import rakelight.inscription.SpanForest.Branch;
import rakelight.inscription.SpanForest.Leaf;
import rakelight.inscription.SpanForest.Node;
import rakelight.inscription.Standing;

/**
 * Marks a reading up so that {@link EpidocParser} gives it back. As in the Leiden form, marks of
 * letters are gathered into runs, one kind of element within the other; a span always starts runs
 * of its own.
 */
final class EpidocPrinter {
  /** Says of a single letter that it is joined to the next, which another element holds. */
  static final String TIED_TO_NEXT = "next";

  /** What may stand within {@code am}. */
  private static final Set<String> IN_MARK =
      Set.of("add", "corr", "damage", "del", "orig", "sic", "supplied", "surplus", "unclear");

  /** One way of enclosing letters, outermost first. */
  private record Enclosure(XmlElement element, Predicate<Sign> holds) {}

  private final Inscription inscription;
  private final List<Optional<String>> lineZones;
  private final Map<SignId, String> withheld;
  private final Map<SignId, List<XmlElement>> notes = new HashMap<>();
  private final Set<SignId> tiedWithin = new HashSet<>();
  private int line = 0;
  private boolean inUncut = false;

  private final List<Enclosure> enclosures =
      List.of(
          new Enclosure(XmlElement.of("del").with("rend", "erasure"), Sign::erased),
          new Enclosure(
              XmlElement.of("supplied").with("reason", "lost"), sign -> isSupplied(sign, false)),
          new Enclosure(
              XmlElement.of("supplied").with("reason", "lost").with("cert", "low"),
              sign -> isSupplied(sign, true)),
          new Enclosure(
              XmlElement.of("supplied")
                  .with("reason", "undefined")
                  .with("evidence", "previouseditor"),
              sign -> sign instanceof Letter letter && letter.standing() == Standing.SEEN_EARLIER),
          hi("tall", LetterForm.TALL),
          hi("small", LetterForm.SMALL),
          hi("subscript", LetterForm.SUBSCRIPT),
          hi("superscript", LetterForm.SUPERIOR),
          hi("reversed", LetterForm.REVERSED),
          hi("supraline", LetterForm.LINE_ABOVE),
          new Enclosure(
              XmlElement.of("damage"), sign -> sign instanceof Letter letter && letter.damaged()));

  /**
   * @param lineZones for each line the reference to its zone, if it has one
   * @param withheld why, for gaps that stand for what may not be published
   */
  EpidocPrinter(
      Inscription inscription, List<Optional<String>> lineZones, Map<SignId, String> withheld) {
    this.inscription = inscription;
    this.lineZones = lineZones;
    this.withheld = withheld;
  }

  XmlElement print() {
    for (Span span : inscription.spans()) {
      if (span.kind() == Span.Kind.NOTE) {
        notes
            .computeIfAbsent(span.first(), id -> new ArrayList<>())
            .add(XmlElement.of("note", span.text()));
      }
    }
    return XmlElement.of("ab", words(SpanForest.of(inscription)));
  }

  private static Enclosure hi(String rend, LetterForm form) {
    return new Enclosure(
        XmlElement.of("hi").with("rend", rend),
        sign -> sign instanceof Letter letter && letter.forms().contains(form));
  }

  // Words that hold an expansion

  private List<XmlNode> words(List<Node> nodes) {
    List<XmlNode> out = new ArrayList<>();
    int at = 0;
    while (at < nodes.size()) {
      int expansion = at;
      while (expansion < nodes.size() && !isExpansion(nodes.get(expansion))) {
        expansion++;
      }
      int word = expansion;
      if (expansion < nodes.size()) {
        while (word > at && isOfWord(nodes.get(word - 1))) {
          word--;
        }
      }
      out.addAll(ties(nodes.subList(at, word)));
      int end = expansion;
      while (end < nodes.size() && (isExpansion(nodes.get(end)) || isOfWord(nodes.get(end)))) {
        end++;
      }
      if (end > word) {
        out.add(word(nodes.subList(word, end)));
      }
      at = Math.max(end, word);
    }
    return substituted(out);
  }

  /** The word with an expansion in it: what was cut as {@code abbr}, the rest as {@code ex}. */
  private XmlElement word(List<Node> nodes) {
    List<XmlNode> parts = new ArrayList<>();
    int at = 0;
    while (at < nodes.size()) {
      int end = at;
      while (end < nodes.size() && !isExpansion(nodes.get(end))) {
        end++;
      }
      if (end > at) {
        parts.add(XmlElement.of("abbr", substituted(ties(nodes.subList(at, end)))));
      }
      if (end < nodes.size() && nodes.get(end) instanceof Branch branch) {
        parts.add(uncut("ex", branch));
        end++;
      }
      at = end;
    }
    return XmlElement.of("expan", parts);
  }

  private boolean isOfWord(Node node) {
    if (node instanceof Leaf leaf) {
      return leaf.sign() instanceof Letter
          || (leaf.sign() instanceof Break line && line.joined())
          || (leaf.sign() instanceof Gap gap
              && gap.unit() == Gap.Unit.LETTERS
              && gap.reason() != Gap.Reason.BLANK);
    }
    return true;
  }

  /** Whether it is an expansion of letters alone; {@code ex} can't hold more. */
  private boolean isExpansion(Node node) {
    return node instanceof Branch branch
        && branch.span().kind() == Span.Kind.EXPANSION
        && branch.children().stream().allMatch(this::isBare);
  }

  private boolean isBare(Node node) {
    return node instanceof Leaf leaf
        && !notes.containsKey(leaf.sign().id())
        && (leaf.sign() instanceof Space
            || (leaf.sign() instanceof Letter letter
                && letter.forms().isEmpty()
                && letter.candidates().isEmpty()));
  }

  /** An erasure with what was cut over it is one substitution. */
  private static List<XmlNode> substituted(List<XmlNode> nodes) {
    List<XmlNode> out = new ArrayList<>();
    for (XmlNode node : nodes) {
      if (node instanceof XmlElement add
          && add.name().equals("add")
          && add.attribute("place").filter("overstrike"::equals).isPresent()
          && !out.isEmpty()
          && out.get(out.size() - 1) instanceof XmlElement del
          && del.name().equals("del")) {
        out.set(out.size() - 1, XmlElement.of("subst", del, add));
      } else {
        out.add(node);
      }
    }
    return out;
  }

  // Marks of letters

  /** Ligatures whose letters all stand here, as one element each; then the other marks. */
  private List<XmlNode> ties(List<Node> nodes) {
    List<XmlNode> out = new ArrayList<>();
    int at = 0;
    int plain = 0;
    while (at < nodes.size()) {
      int end = at;
      while (end < nodes.size() && isTied(nodes.get(end))) {
        end++;
      }
      if (end > at && end < nodes.size() && isLetter(nodes.get(end))) {
        out.addAll(enclose(nodes.subList(plain, at), 0));
        List<Node> joined = nodes.subList(at, end + 1);
        for (Node node : joined) {
          if (node instanceof Leaf leaf) {
            tiedWithin.add(leaf.sign().id());
          }
        }
        out.add(XmlElement.of("hi", enclose(joined, 0)).with("rend", "ligature"));
        plain = end + 1;
      }
      at = end + 1;
    }
    out.addAll(enclose(nodes.subList(plain, nodes.size()), 0));
    return out;
  }

  private static boolean isTied(Node node) {
    return node instanceof Leaf leaf
        && leaf.sign() instanceof Letter letter
        && letter.forms().contains(LetterForm.LIGATURE);
  }

  private static boolean isLetter(Node node) {
    return node instanceof Leaf leaf && leaf.sign() instanceof Letter;
  }

  private List<XmlNode> enclose(List<Node> nodes, int level) {
    if (level == enclosures.size()) {
      return leaves(nodes);
    }
    Enclosure enclosure = enclosures.get(level);
    List<XmlNode> out = new ArrayList<>();
    int at = 0;
    while (at < nodes.size()) {
      int end = runEnd(nodes, at, enclosure);
      if (end > at) {
        out.add(enclosure.element().with(enclose(nodes.subList(at, end), level + 1)));
        at = end;
      } else {
        int other = at + 1;
        while (other < nodes.size() && runEnd(nodes, other, enclosure) == other) {
          other++;
        }
        out.addAll(enclose(nodes.subList(at, other), level + 1));
        at = other;
      }
    }
    return out;
  }

  /** The end of the run that an enclosure holds from here; {@code from} itself if there is none. */
  private static int runEnd(List<Node> nodes, int from, Enclosure enclosure) {
    int end = from;
    for (int i = from; i < nodes.size() && nodes.get(i) instanceof Leaf leaf; i++) {
      if (enclosure.holds().test(leaf.sign())) {
        end = i + 1;
      } else if (i == from || !(leaf.sign() instanceof Space || leaf.sign() instanceof Break)) {
        break;
      }
    }
    return end;
  }

  private List<XmlNode> leaves(List<Node> nodes) {
    List<XmlNode> out = new ArrayList<>();
    StringBuilder text = new StringBuilder();
    StringBuilder unclear = new StringBuilder();
    for (Node node : nodes) {
      boolean runsOn = node instanceof Leaf leaf && isUnclear(leaf.sign());
      if (!runsOn && !unclear.isEmpty()) {
        out.add(XmlElement.of("unclear", take(unclear)));
      }
      boolean isText = node instanceof Leaf leaf && isText(leaf.sign());
      if (!isText && !text.isEmpty()) {
        out.add(new XmlText(take(text)));
      }
      if (node instanceof Branch branch) {
        out.add(span(branch));
      } else if (node instanceof Leaf leaf) {
        if (runsOn && leaf.sign() instanceof Letter letter) {
          unclear.append(letter.text());
        } else if (isText) {
          text.append(leaf.sign() instanceof Letter letter ? letter.text() : " ");
        } else {
          out.add(sign(leaf.sign()));
        }
        List<XmlElement> remarks = notes.getOrDefault(leaf.sign().id(), List.of());
        if (!remarks.isEmpty()) {
          if (!unclear.isEmpty()) {
            out.add(XmlElement.of("unclear", take(unclear)));
          }
          if (!text.isEmpty()) {
            out.add(new XmlText(take(text)));
          }
          out.addAll(remarks);
        }
      }
    }
    if (!unclear.isEmpty()) {
      out.add(XmlElement.of("unclear", take(unclear)));
    }
    if (!text.isEmpty()) {
      out.add(new XmlText(take(text)));
    }
    return out;
  }

  private static String take(StringBuilder gathered) {
    String text = gathered.toString();
    gathered.setLength(0);
    return text;
  }

  private boolean isTiedBeyond(Letter letter) {
    return letter.forms().contains(LetterForm.LIGATURE) && !tiedWithin.contains(letter.id());
  }

  private boolean isUnclear(Sign sign) {
    return sign instanceof Letter letter
        && letter.standing() == Standing.UNCLEAR
        && letter.candidates().isEmpty()
        && !isTiedBeyond(letter);
  }

  private boolean isText(Sign sign) {
    return sign instanceof Space
        || (sign instanceof Letter letter
            && letter.standing() != Standing.UNCLEAR
            && letter.candidates().isEmpty()
            && !isTiedBeyond(letter));
  }

  private XmlElement sign(Sign sign) {
    if (sign instanceof Letter letter) {
      return isTiedBeyond(letter)
          ? XmlElement.of("hi", alone(letter)).with("rend", "ligature " + TIED_TO_NEXT)
          : choice(letter.candidates());
    }
    if (sign instanceof Gap gap) {
      String why = withheld.get(gap.id());
      return why == null ? gap(gap) : notPublished(why);
    }
    Break begin = (Break) sign;
    line++;
    XmlElement lb = XmlElement.of("lb").with("n", Integer.toString(line));
    Optional<String> zone = line > lineZones.size() ? Optional.empty() : lineZones.get(line - 1);
    if (zone.isPresent()) {
      lb = lb.with("facs", zone.get());
    }
    return begin.joined() ? lb.with("break", "no") : lb;
  }

  private static XmlNode alone(Letter letter) {
    return letter.standing() == Standing.UNCLEAR
        ? XmlElement.of("unclear", letter.text())
        : new XmlText(letter.text());
  }

  private static XmlElement choice(List<Candidate> candidates) {
    boolean even =
        candidates.equals(Candidate.equally(candidates.stream().map(Candidate::text).toList()));
    List<XmlElement> options = new ArrayList<>();
    for (Candidate candidate : candidates) {
      XmlElement unclear = XmlElement.of("unclear", candidate.text());
      String weight = BigDecimal.valueOf(candidate.percent(), 2).stripTrailingZeros().toString();
      options.add(even ? unclear : unclear.with("cert", weight));
    }
    return XmlElement.of("choice", options);
  }

  private static XmlElement notPublished(String why) {
    return XmlElement.of("gap", XmlElement.of("desc", "withheld: " + why))
        .with("reason", "ellipsis")
        .with("extent", "unknown")
        .with("unit", "character");
  }

  private static XmlElement gap(Gap gap) {
    boolean blank = gap.reason() == Gap.Reason.BLANK;
    XmlElement element = XmlElement.of(blank ? "space" : "gap");
    if (!blank) {
      element =
          element.with(
              "reason",
              switch (gap.reason()) {
                case LOST -> "lost";
                case ILLEGIBLE -> "illegible";
                case OMITTED -> "omitted";
                case BLANK -> throw new IllegalStateException("a blank is a space");
              });
    }
    String unit = gap.unit() == Gap.Unit.LINES ? "line" : "character";
    if (gap.extent() instanceof Extent.Exact exact) {
      element = element.with("quantity", Integer.toString(exact.count())).with("unit", unit);
    } else if (gap.extent() instanceof Extent.About about) {
      element =
          element
              .with("quantity", Integer.toString(about.count()))
              .with("unit", unit)
              .with("precision", "low");
    } else if (gap.extent() instanceof Extent.Range range) {
      element =
          element
              .with("atLeast", Integer.toString(range.atLeast()))
              .with("atMost", Integer.toString(range.atMost()))
              .with("unit", unit);
    } else {
      element = element.with("extent", "unknown").with("unit", unit);
    }
    return gap.doubtful()
        ? element.with(
            List.of(XmlElement.of("certainty").with("match", "..").with("locus", "name")))
        : element;
  }

  // Spans

  private XmlElement span(Branch branch) {
    Span span = branch.span();
    return switch (span.kind()) {
      case EXPANSION -> uncut("seg", branch).with("type", "expansion");
      case OMITTED -> uncut("supplied", branch).with("reason", "omitted");
      case CORRECTION ->
          span.text().isEmpty()
              ? uncut("corr", branch)
              : XmlElement.of("choice", around("sic", branch), XmlElement.of("corr", span.text()));
      case REGULARISED ->
          XmlElement.of("choice", around("orig", branch), XmlElement.of("reg", span.text()));
      case SURPLUS -> around("surplus", branch);
      case INSERTED -> around("add", branch).with("place", "above");
      case OVER_ERASURE -> around("add", branch).with("place", "overstrike");
      case NUMBER -> around("num", branch).with("value", span.text());
      case NOT_UNDERSTOOD -> around("orig", branch);
      case UNEXPANDED -> around("abbr", branch);
      case ABBREVIATION_MARK -> {
        XmlElement mark = around("am", branch);
        boolean plain =
            mark.elements().stream().allMatch(element -> IN_MARK.contains(element.name()));
        yield plain ? mark : new XmlElement("seg", Map.of("type", "mark"), mark.children(), 0);
      }
      case NOTE -> throw new IllegalStateException("notes are printed with their sign");
    };
  }

  private XmlElement around(String name, Branch branch) {
    return XmlElement.of(name, words(branch.children()));
  }

  private XmlElement uncut(String name, Branch branch) {
    inUncut = true;
    XmlElement element = XmlElement.of(name, ties(branch.children()));
    inUncut = false;
    boolean doubtful =
        branch.children().get(0) instanceof Leaf leaf
            && leaf.sign() instanceof Letter letter
            && letter.doubtful();
    return doubtful ? element.with("cert", "low") : element;
  }

  private boolean isSupplied(Sign sign, boolean doubtful) {
    return sign instanceof Letter letter
        && letter.standing() == Standing.SUPPLIED
        && !inUncut
        && letter.doubtful() == doubtful;
  }
}
