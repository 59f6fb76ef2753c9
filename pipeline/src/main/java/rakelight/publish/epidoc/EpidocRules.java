package rakelight.publish.epidoc;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.Year;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What the EpiDoc Guidelines ask and the schema lets pass, and what else makes an edition
 * untrustworthy: pointers to nothing, lines that don't follow each other, extents that say two
 * things. RELAX NG can't say these.
 */
public final class EpidocRules {
  private static final Set<String> UNITS = Set.of("character", "line");

  /** Attributes that hold references parted by spaces; those with {@code #} lead into the file. */
  private static final Set<String> POINTERS =
      Set.of(
          "facs",
          "resp",
          "source",
          "wit",
          "who",
          "corresp",
          "next",
          "prev",
          "target",
          "calendar",
          "ana",
          "sameAs",
          "exclude",
          "start",
          "end",
          "from",
          "to");

  private static final Map<String, Integer> SIDES = Map.of("ulx", 0, "uly", 1, "lrx", 2, "lry", 3);

  private final List<Epidoc.Remark> broken = new ArrayList<>();
  private final Map<String, XmlElement> byId = new HashMap<>();

  private EpidocRules() {}

  /** What is wrong with a document, in its order of lines; empty if nothing is. */
  public static List<Epidoc.Remark> broken(XmlElement document) {
    EpidocRules rules = new EpidocRules();
    document.all().forEach(rules::register);
    document.all().forEach(rules::element);
    rules.pointers(document);
    rules.editions(document);
    rules.zones(document);
    return rules.broken.stream()
        .sorted((one, two) -> Integer.compare(one.line(), two.line()))
        .toList();
  }

  private void register(XmlElement element) {
    element
        .attribute("xml:id")
        .filter(id -> byId.putIfAbsent(id, element) != null)
        .ifPresent(id -> breaks(element, "xml:id “" + id + "” is given twice"));
  }

  private void element(XmlElement element) {
    switch (element.name()) {
      case "gap", "space" -> extent(element);
      case "supplied" -> requireAttribute(element, "reason", "why the letters aren't read");
      case "del" -> requireAttribute(element, "rend", "how the letters went");
      case "expan" ->
          element.elements("ex").stream()
              .filter(ex -> ex.text().isEmpty())
              .forEach(ex -> breaks(ex, "<ex> says nothing"));
      case "choice" -> {
        if (element.elements().size() < 2) {
          breaks(element, "<choice> leaves nothing to choose");
        }
      }
      case "unclear" -> {
        if (!element.elements().stream().allMatch(inner -> inner.name().equals("g"))) {
          breaks(element, "<unclear> holds letters only; put other elements around it");
        }
      }
      case "lb" ->
          element
              .attribute("break")
              .filter(value -> !value.equals("no") && !value.equals("yes"))
              .ifPresent(value -> breaks(element, "break is no or left out, not “" + value + "”"));
      default -> {
        // No rule of its own.
      }
    }
    if (!element.name().equals("expan")) {
      boolean inExpansion = Set.of("abbr", "choice").contains(element.name());
      element.elements("ex").stream()
          .filter(ex -> !inExpansion)
          .forEach(ex -> breaks(ex, "<ex> belongs within <expan>"));
    }
    dates(element);
  }

  private void requireAttribute(XmlElement element, String attribute, String meaning) {
    if (element.attribute(attribute).isEmpty()) {
      breaks(element, "<" + element.name() + "> needs " + attribute + ": " + meaning);
    }
  }

  private void extent(XmlElement gap) {
    String name = "<" + gap.name() + ">";
    if (gap.name().equals("gap")) {
      requireAttribute(gap, "reason", "why no letter is read");
    }
    boolean quantity = gap.attribute("quantity").isPresent();
    boolean extent = gap.attribute("extent").isPresent();
    boolean range = gap.attribute("atLeast").isPresent() || gap.attribute("atMost").isPresent();
    int ways = (quantity ? 1 : 0) + (extent ? 1 : 0) + (range ? 1 : 0);
    if (ways > 1) {
      breaks(gap, name + " gives its extent in two ways; quantity, extent or a range");
    } else if (ways == 0) {
      breaks(gap, name + " doesn't say how long it is; extent=\"unknown\" if nobody can");
    }
    for (String count : List.of("quantity", "atLeast", "atMost")) {
      gap.attribute(count)
          .filter(value -> !value.matches(count.equals("atLeast") ? "[0-9]+" : "0*[1-9][0-9]*"))
          .ifPresent(value -> breaks(gap, count + " of " + name + " counts from 1, not " + value));
    }
    if (!gap.attribute("unit").filter(UNITS::contains).isPresent()) {
      breaks(
          gap,
          "unit of "
              + name
              + " is character or line, not “"
              + gap.attribute("unit").orElse("")
              + "”");
    }
  }

  private void dates(XmlElement element) {
    Optional<LocalDate> before = day(element, "notBefore", false);
    Optional<LocalDate> after = day(element, "notAfter", true);
    day(element, "when", false);
    if (before.isPresent() && after.isPresent() && before.get().isAfter(after.get())) {
      breaks(element, "notBefore lies after notAfter");
    }
  }

  /** The first or last day of a date of a year, a month or a day, perhaps with a time. */
  private Optional<LocalDate> day(XmlElement element, String attribute, boolean last) {
    String date = element.attribute(attribute).orElse("").replaceFirst("T.*", "");
    if (date.isEmpty()) {
      return Optional.empty();
    }
    try {
      if (date.matches("-?\\d{4}")) {
        Year year = Year.parse(date);
        return Optional.of(last ? year.atMonth(12).atEndOfMonth() : year.atDay(1));
      }
      if (date.matches("-?\\d{4}-\\d{2}")) {
        YearMonth month = YearMonth.parse(date);
        return Optional.of(last ? month.atEndOfMonth() : month.atDay(1));
      }
      return Optional.of(LocalDate.parse(date));
    } catch (DateTimeException e) {
      breaks(element, attribute + "=\"" + date + "\" is no date there ever was");
      return Optional.empty();
    }
  }

  private void pointers(XmlElement document) {
    document
        .all()
        .forEach(
            element ->
                element.attributes().entrySet().stream()
                    .filter(attribute -> POINTERS.contains(attribute.getKey()))
                    .forEach(
                        attribute -> {
                          for (String target : attribute.getValue().strip().split("\\s+")) {
                            if (target.startsWith("#") && !byId.containsKey(target.substring(1))) {
                              breaks(
                                  element,
                                  attribute.getKey()
                                      + " of <"
                                      + element.name()
                                      + "> points to "
                                      + target
                                      + ", which isn't there");
                            }
                          }
                        }));
  }

  private void editions(XmlElement document) {
    List<XmlElement> editions =
        document
            .all()
            .filter(div -> div.name().equals("div"))
            .filter(div -> div.attribute("type").filter("edition"::equals).isPresent())
            .toList();
    if (editions.size() > 1) {
      breaks(editions.get(1), "a second <div type=\"edition\">; a document is of one");
    }
    for (XmlElement edition : editions) {
      lines(edition);
      List<String> languages =
          edition.all().flatMap(e -> e.attribute("xml:lang").stream()).distinct().toList();
      Set<String> declared = new HashSet<>();
      document
          .all()
          .filter(language -> language.name().equals("language"))
          .forEach(language -> language.attribute("ident").ifPresent(declared::add));
      languages.stream()
          .filter(language -> languages.size() > 1 && !declared.contains(language))
          .forEach(
              language ->
                  breaks(
                      edition,
                      "several languages, and no <language> in the header says what “"
                          + language
                          + "” is"));
    }
  }

  /** Lines are numbered one after the other, anew in each part of the text. */
  private void lines(XmlElement within) {
    List<XmlElement> parts =
        within
            .all()
            .filter(div -> div.attribute("type").filter("textpart"::equals).isPresent())
            .toList();
    if (!parts.isEmpty() && !within.attribute("type").filter("textpart"::equals).isPresent()) {
      parts.forEach(this::lines);
      return;
    }
    Optional<Integer> before = Optional.empty();
    for (XmlElement lb : within.all().filter(lb -> lb.name().equals("lb")).toList()) {
      Optional<Integer> number =
          lb.attribute("n").filter(n -> n.matches("[0-9]{1,4}")).map(Integer::valueOf);
      if (number.isPresent() && before.isPresent() && number.get() != before.get() + 1) {
        breaks(lb, "line " + number.get() + " follows line " + before.get());
      }
      before = number;
    }
  }

  private void zones(XmlElement document) {
    document
        .all()
        .filter(surface -> surface.name().equals("surface"))
        .filter(surface -> surface.attributes().keySet().containsAll(SIDES.keySet()))
        .forEach(
            surface ->
                surface.elements("zone").stream()
                    .filter(zone -> !liesWithin(zone, surface))
                    .forEach(zone -> breaks(zone, "the zone reaches beyond its photograph")));
    for (XmlElement lb : document.all().filter(lb -> lb.name().equals("lb")).toList()) {
      lb.attribute("facs")
          .filter(facs -> facs.startsWith("#"))
          .map(facs -> byId.get(facs.substring(1)))
          .filter(target -> !target.name().equals("zone"))
          .ifPresent(
              target ->
                  breaks(lb, "facs of a line leads to a <zone>, not a <" + target.name() + ">"));
    }
  }

  private static boolean liesWithin(XmlElement zone, XmlElement surface) {
    try {
      double left = Double.parseDouble(surface.attribute("ulx").orElse(""));
      double top = Double.parseDouble(surface.attribute("uly").orElse(""));
      double right = Double.parseDouble(surface.attribute("lrx").orElse(""));
      double bottom = Double.parseDouble(surface.attribute("lry").orElse(""));
      for (String point : zone.attribute("points").orElse("").strip().split("\\s+")) {
        String[] xy = point.split(",");
        if (xy.length == 2) {
          double x = Double.parseDouble(xy[0]);
          double y = Double.parseDouble(xy[1]);
          if (x < left || x > right || y < top || y > bottom) {
            return false;
          }
        }
      }
      return true;
    } catch (NumberFormatException e) {
      return false;
    }
  }

  private void breaks(XmlElement element, String text) {
    broken.add(new Epidoc.Remark(element.line(), text));
  }
}
