package rakelight.publish.epidoc;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The texts of a file, each as a document of its own: those of every {@code TEI} of a corpus, and
 * of each the text parts of its edition. A text part is a face, except for columns, which stand
 * beside each other on one. What the header and the apparatus say of one part goes with it.
 */
final class EpidocParts {
  private static final String PART = "textpart";

  /** Text parts by these subtypes are of one face and are read one after the other. */
  private static final Set<String> OF_ONE_FACE = Set.of("column", "section", "stanza", "line");

  private EpidocParts() {}

  /**
   * One text.
   *
   * @param face its name, where the file has several texts or names this one as a face
   * @param tei with one edition and no more than one text in it
   */
  record Part(Optional<String> face, XmlElement tei) {}

  /** A text part, with the names of those around it. */
  private record Leaf(String name, XmlElement div, Optional<String> language) {}

  /** The texts of a file, in the order in which they stand there. */
  static List<Part> of(XmlElement root) {
    return root.name().equals("teiCorpus")
        ? root.elements("TEI").stream().flatMap(tei -> parts(tei).stream()).toList()
        : parts(root);
  }

  private static List<Part> parts(XmlElement tei) {
    Optional<XmlElement> edition = divisions(tei).filter(div -> isType(div, "edition")).findFirst();
    Optional<String> language =
        Stream.of(tei.first("text"), tei.first("text", "body"), edition)
            .flatMap(Optional::stream)
            .flatMap(element -> element.attribute("xml:lang").stream())
            .reduce((outer, inner) -> inner);
    List<Leaf> leaves = edition.map(div -> leaves(div, "", language)).orElse(List.of());
    if (leaves.isEmpty()) {
      return List.of(new Part(Optional.empty(), tei));
    }
    List<Part> parts = new ArrayList<>();
    List<XmlElement> all = leaves.stream().map(Leaf::div).toList();
    XmlElement whole = edition.orElseThrow();
    XmlElement rest = without(whole);
    boolean alsoOutside = rest.elements().stream().anyMatch(block -> !block.text().isBlank());
    if (alsoOutside) {
      parts.add(
          new Part(
              Optional.empty(),
              new Excerpt(whole, with(rest, language), Optional.empty(), all).of(tei)));
    }
    Set<String> names = new LinkedHashSet<>();
    for (Leaf leaf : leaves) {
      String name = leaf.name();
      for (int i = 2; !names.add(name.toLowerCase(Locale.ROOT)); i++) {
        name = leaf.name() + " " + i;
      }
      boolean isNamed =
          leaves.size() > 1 || alsoOutside || leaf.div().attribute("subtype").isPresent();
      XmlElement own =
          new XmlElement(
              "div", Map.of("type", "edition"), leaf.div().children(), leaf.div().line());
      parts.add(
          new Part(
              Optional.of(name).filter(is -> isNamed),
              new Excerpt(whole, with(own, leaf.language()), Optional.of(leaf.div()), all)
                  .of(tei)));
    }
    return parts;
  }

  private static XmlElement with(XmlElement edition, Optional<String> language) {
    return language.map(lang -> edition.with("xml:lang", lang)).orElse(edition);
  }

  /** The innermost text parts that are faces; none where there are only columns. */
  private static List<Leaf> leaves(XmlElement within, String around, Optional<String> language) {
    List<Leaf> leaves = new ArrayList<>();
    int ordinal = 0;
    for (XmlElement div : within.elements("div")) {
      if (!isType(div, PART)
          || OF_ONE_FACE.contains(div.attribute("subtype").orElse("").toLowerCase(Locale.ROOT))) {
        continue;
      }
      ordinal++;
      String name = (around + " " + name(div, ordinal)).strip();
      Optional<String> own = div.attribute("xml:lang").or(() -> language);
      List<Leaf> inner = leaves(div, name, own);
      leaves.addAll(inner.isEmpty() ? List.of(new Leaf(name, div, own)) : inner);
    }
    return leaves;
  }

  private static String name(XmlElement div, int ordinal) {
    String subtype = div.attribute("subtype").orElse("").strip();
    String n = div.attribute("n").orElse("").strip();
    if (subtype.equals("face") && !n.isEmpty()) {
      return n;
    }
    return (subtype.isEmpty() ? "text" : subtype) + " " + (n.isEmpty() ? ordinal : n);
  }

  private static XmlElement without(XmlElement edition) {
    return new XmlElement(
        edition.name(),
        edition.attributes(),
        edition.children().stream()
            .filter(
                child ->
                    !(child instanceof XmlElement div
                        && isType(div, PART)
                        && !OF_ONE_FACE.contains(div.attribute("subtype").orElse(""))))
            .toList(),
        edition.line());
  }

  /** The document with one text as its edition, and what is said of others left out. */
  @SuppressWarnings("ReferenceEquality") // Two elements may say the same and stand elsewhere.
  private static final class Excerpt {
    private final XmlElement edition;
    private final XmlElement own;
    private final Optional<XmlElement> part;
    private final List<XmlElement> others;
    private final boolean isFirst;

    /**
     * @param own what becomes the edition
     * @param part the text part it is; empty for what stands outside of all
     */
    Excerpt(XmlElement edition, XmlElement own, Optional<XmlElement> part, List<XmlElement> all) {
      this.edition = edition;
      this.own = own;
      this.part = part;
      this.others = all.stream().filter(other -> part.filter(is -> is == other).isEmpty()).toList();
      this.isFirst = part.filter(is -> is == all.get(0)).isPresent();
    }

    XmlElement of(XmlElement tei) {
      return of(tei, false);
    }

    /**
     * @param isOwn whether all that it holds is known to be of this part
     */
    private XmlElement of(XmlElement element, boolean isOwn) {
      XmlElement now = element == edition ? own : element;
      Map<String, String> attributes = new LinkedHashMap<>();
      now.attributes()
          .forEach((name, value) -> attributes.put(name, unprefixed(value, part.map(Excerpt::id))));
      List<XmlNode> children = new ArrayList<>();
      for (XmlNode child : now.children()) {
        if (!(child instanceof XmlElement inner)) {
          children.add(child);
        } else if (inner == edition) {
          children.add(of(inner, true));
        } else if (isType(inner, PART) && !isOwn && part.isPresent()) {
          // What a division beside the edition says of a text part.
          if (isOf(inner, part.get())) {
            children.addAll(of(inner, true).children());
          }
        } else if (isOwn || !isOfAnother(inner)) {
          children.add(of(inner, isOwn));
        }
      }
      return new XmlElement(now.name(), attributes, children, now.line());
    }

    private boolean isOfAnother(XmlElement element) {
      if (element.name().equals("app") && !others.isEmpty()) {
        String loc = element.attribute("loc").orElse("");
        boolean isOwn = part.filter(is -> names(loc, is)).isPresent();
        return !isOwn && (others.stream().anyMatch(other -> names(loc, other)) || !isFirst);
      }
      return others.stream()
          .map(Excerpt::id)
          .filter(id -> !id.isEmpty())
          .anyMatch(
              id ->
                  element.attribute("corresp").filter(("#" + id)::equals).isPresent()
                      || Stream.of("xml:id", "who")
                          .flatMap(name -> element.attribute(name).stream())
                          .anyMatch(value -> value.replaceFirst("^#", "").startsWith(id + "-")));
    }

    /** Whether a location such as {@code a.3} is in a text part. */
    private static boolean names(String loc, XmlElement part) {
      String n = part.attribute("n").orElse("");
      return !n.isEmpty() && loc.matches("(?i)" + Pattern.quote(n) + "[ .,:;-].*");
    }

    private static boolean isOf(XmlElement said, XmlElement part) {
      return said.attribute("corresp").isPresent()
          ? said.attribute("corresp").filter(("#" + id(part))::equals).isPresent()
          : said.attribute("n").isPresent() && said.attribute("n").equals(part.attribute("n"));
    }

    private static String id(XmlElement part) {
      return part.attribute("xml:id").orElse("");
    }
  }

  /** Ids of our own corpora have the part's id before them. */
  private static String unprefixed(String value, Optional<String> id) {
    String prefix = id.orElse("") + "-";
    if (prefix.length() == 1 || !value.contains(prefix)) {
      return value;
    }
    return Stream.of(value.split(" ", -1))
        .map(
            one ->
                one.startsWith("#" + prefix)
                    ? "#" + one.substring(prefix.length() + 1)
                    : one.startsWith(prefix) ? one.substring(prefix.length()) : one)
        .collect(Collectors.joining(" "));
  }

  private static Stream<XmlElement> divisions(XmlElement tei) {
    return tei.first("text", "body").map(body -> body.elements("div")).orElse(List.of()).stream();
  }

  private static boolean isType(XmlElement element, String type) {
    return element.attribute("type").filter(type::equals).isPresent();
  }
}
