package rakelight.publish.epidoc;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.NormalForm;
import rakelight.inscription.Sign;
import rakelight.inscription.Span;

/**
 * What others read, as the apparatus of a file has it. Whole readings of theirs can't be made of
 * it; each entry becomes a remark on the letter it begins at: the first of its words in its line,
 * or of the line, or of the text where no line is given.
 */
final class OtherReadings {
  private static final Pattern FIGURES = Pattern.compile("[0-9]{1,4}");

  private final XmlElement root;
  private final Epidoc.Edition edition;
  private final List<Span> notes = new ArrayList<>();
  private final List<Epidoc.Remark> notCarried = new ArrayList<>();

  OtherReadings(XmlElement root, Epidoc.Edition edition) {
    this.root = root;
    this.edition = edition;
  }

  /** Takes an entry. */
  void add(XmlElement app) {
    String loc = app.attribute("loc").orElse("");
    Optional<List<Sign>> line = line(loc);
    if (line.isEmpty()) {
      notCarried.add(
          new Epidoc.Remark(
              app.line(),
              "an entry of the apparatus isn't carried, there is no line "
                  + loc
                  + ": "
                  + app.text()));
      return;
    }
    String lemma = app.first("lem").map(XmlElement::text).orElse("");
    Sign on = at(line.get(), lemma);
    String where = loc.isEmpty() ? ", no line given" : "";
    List<XmlElement> readings = app.elements("rdg");
    for (XmlElement rdg : readings) {
      String read = rdg.text().isEmpty() ? "nothing" : rdg.text();
      String instead = lemma.isEmpty() ? "" : " for " + lemma;
      note(on, "elsewhere read: " + read + instead + by(rdg) + where);
    }
    for (XmlElement note : app.elements("note")) {
      note(on, "apparatus: " + note.text() + (readings.isEmpty() ? by(note) + where : ""));
    }
    if (readings.isEmpty() && app.elements("note").isEmpty()) {
      note(on, "apparatus: " + app.text() + where);
    }
  }

  /** The reading with these remarks in it. */
  Inscription noted() {
    if (notes.isEmpty()) {
      return edition.inscription();
    }
    List<Span> spans = new ArrayList<>(edition.inscription().spans());
    notes.stream().filter(note -> !spans.contains(note)).distinct().forEach(spans::add);
    return NormalForm.of(edition.inscription().signs(), spans);
  }

  List<Epidoc.Remark> notCarried() {
    return List.copyOf(notCarried);
  }

  private void note(Sign on, String text) {
    String oneLine = text.replaceAll("\\p{Cntrl}", " ").strip();
    notes.add(new Span(Span.Kind.NOTE, on.id(), on.id(), oneLine));
  }

  /** Who read so, or where it is printed. */
  private String by(XmlElement element) {
    String who =
        Stream.of("resp", "source", "wit")
            .flatMap(name -> element.attribute(name).stream())
            .flatMap(references -> Stream.of(references.strip().split("\\s+")))
            .filter(reference -> !reference.isEmpty())
            .map(this::name)
            .distinct()
            .collect(Collectors.joining(", "));
    return who.isEmpty() ? "" : " (" + who + ")";
  }

  private String name(String reference) {
    return root.all()
        .filter(to -> to.attribute("xml:id").filter(id -> reference.equals("#" + id)).isPresent())
        .findFirst()
        .map(
            to ->
                to.all()
                    .filter(inner -> inner.name().endsWith("ame") && inner != to)
                    .findFirst()
                    .orElse(to)
                    .text())
        .filter(text -> !text.isEmpty())
        .orElse(reference.replaceFirst("^#", ""));
  }

  /** The letters and gaps of the line that a location names; of all where it names none. */
  private Optional<List<Sign>> line(String loc) {
    List<List<Sign>> lines =
        edition.inscription().lines().stream().map(OtherReadings::ink).toList();
    if (loc.isEmpty()) {
      return Optional.of(lines.stream().flatMap(List::stream).toList());
    }
    Matcher figures = FIGURES.matcher(loc);
    while (figures.find()) {
      int at = edition.lineNumbers().indexOf(figures.group());
      if (at >= 0 && at < lines.size() && !lines.get(at).isEmpty()) {
        return Optional.of(lines.get(at));
      }
    }
    return Optional.empty();
  }

  private static List<Sign> ink(List<Sign> line) {
    return line.stream().filter(sign -> sign instanceof Letter || sign instanceof Gap).toList();
  }

  /** The sign at which some words begin; the first where they aren't in the line. */
  private static Sign at(List<Sign> line, String words) {
    String sought = bare(words);
    StringBuilder text = new StringBuilder();
    List<Sign> of = new ArrayList<>();
    for (Sign sign : line) {
      if (sign instanceof Letter letter) {
        for (char c : bare(letter.text()).toCharArray()) {
          text.append(c);
          of.add(sign);
        }
      }
    }
    int at = sought.isEmpty() ? -1 : text.indexOf(sought);
    return at < 0 ? line.get(0) : of.get(at);
  }

  private static String bare(String text) {
    return text.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]", "");
  }
}
