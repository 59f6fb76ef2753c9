package rakelight.publish.epidoc;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import rakelight.ground.Plot;
import rakelight.marker.Condition;
import rakelight.marker.EmblemNote;
import rakelight.marker.GlossaryEmblem;
import rakelight.marker.Term;
import rakelight.publish.ToldGround;
import rakelight.publish.ToldMarker;

/**
 * What a corpus says once for all its documents: the words by which markers are described, each
 * with its meaning and where that comes from, and the places of the ground. Documents point here.
 */
final class CorpusHeader {
  private final ToldGround around;
  private final Map<String, String> ids = new HashMap<>();
  private final Set<String> idsUsed = new HashSet<>();

  CorpusHeader(ToldGround around) {
    this.around = around;
    idsUsed.add(EpidocWriter.GREGORIAN);
    idsUsed.add(EpidocWriter.EDTF);
  }

  /** The place that stands for the whole ground. */
  String ground() {
    return id("place", "ground");
  }

  String plot(String name) {
    return id("plot", name);
  }

  String row(String name) {
    return id("row", name);
  }

  String term(Term.Quality list, String name) {
    return id(list.label(), name);
  }

  String condition(Condition word) {
    return id("condition", word.label());
  }

  String emblem(String name) {
    return id("emblem", name);
  }

  /** The same for the same thing, and no other's. */
  private String id(String list, String name) {
    return ids.computeIfAbsent(
        list + "\n" + name,
        key -> {
          String plain = list + "-" + name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
          String free = plain;
          for (int i = 2; !idsUsed.add(free); i++) {
            free = plain + "-" + i;
          }
          return free;
        });
  }

  /** The {@code teiHeader} of the corpus. */
  XmlElement write() {
    List<XmlElement> source = new ArrayList<>();
    source.add(places());
    return XmlElement.of(
        "teiHeader",
        XmlElement.of(
            "fileDesc",
            XmlElement.of(
                "titleStmt",
                XmlElement.of("title", "Inscriptions on the grave markers of " + around.name())),
            XmlElement.of(
                "publicationStmt", XmlElement.of("authority", around.name() + ", archive")),
            XmlElement.of("sourceDesc", source)),
        XmlElement.of(
            "encodingDesc",
            XmlElement.of(
                "p",
                "Marked up by the EpiDoc Guidelines, release 9.8: a document for each marker, a part"
                    + " of its text for each face. Editions are what people read and signed; what a"
                    + " machine proposed isn't in them. What may not be published yet is withheld."
                    + " Zones are in pixels of the upright photograph."),
            XmlElement.of("classDecl", taxonomies())),
        XmlElement.of("profileDesc", XmlElement.of("calendarDesc", EpidocWriter.calendars())));
  }

  private List<XmlElement> taxonomies() {
    List<XmlElement> all = new ArrayList<>();
    for (Term.Quality list : Term.Quality.values()) {
      List<XmlElement> categories = new ArrayList<>();
      for (Term term : around.terms().of(list)) {
        categories.add(
            category(term(list, term.name()), term.name(), term.meaning(), term.source()));
      }
      taxonomy(all, list.label(), categories);
    }
    List<XmlElement> conditions = new ArrayList<>();
    for (Condition word : Condition.values()) {
      conditions.add(
          category(
              condition(word),
              word.label(),
              word.meaning(),
              "words for decay after ICOMOS-ISCS, Illustrated Glossary on Stone Deterioration"
                  + " Patterns, 2008; others common words of the trade"));
    }
    taxonomy(all, "condition", conditions);
    taxonomy(all, "emblem", emblems());
    return all;
  }

  private List<XmlElement> emblems() {
    Map<String, Optional<GlossaryEmblem>> seen = new TreeMap<>();
    for (ToldMarker marker : around.markers()) {
      for (EmblemNote note : marker.emblems()) {
        seen.put(note.name(), note.entry());
      }
    }
    List<XmlElement> categories = new ArrayList<>();
    seen.forEach(
        (name, entry) ->
            categories.add(
                entry
                    .map(
                        known ->
                            category(
                                emblem(name),
                                name,
                                known.seen()
                                    + "; often said to mean "
                                    + String.join(", or ", known.readings())
                                    + " ("
                                    + known.strength().label()
                                    + "); it never proves "
                                    + known.neverProves(),
                                known.source()))
                    .orElseGet(
                        () ->
                            category(
                                emblem(name),
                                name,
                                "in a reader's own words",
                                "seen on a marker"))));
    return categories;
  }

  private static void taxonomy(List<XmlElement> all, String id, List<XmlElement> categories) {
    if (!categories.isEmpty()) {
      all.add(XmlElement.of("taxonomy", categories).with("xml:id", id + "-words"));
    }
  }

  private static XmlElement category(String id, String name, String meaning, String source) {
    return XmlElement.of(
            "category",
            XmlElement.of(
                "catDesc",
                XmlElement.of("term", name),
                new XmlText(": "),
                XmlElement.of("gloss", meaning),
                new XmlText(". Source: "),
                XmlElement.of("rs", source).with("type", "source")))
        .with("xml:id", id);
  }

  // Places

  private XmlElement places() {
    List<XmlElement> places = new ArrayList<>();
    places.add(place(ground(), "ground", around.name(), List.of()));
    for (Plot plot : around.plots()) {
      String corners =
          plot.boundary().stream()
              .map(corner -> degrees(corner.get(1)) + " " + degrees(corner.get(0)))
              .collect(Collectors.joining(" "));
      places.add(
          place(
              plot(plot.name()),
              "plot",
              plot.name(),
              List.of(
                  XmlElement.of("location", XmlElement.of("geo", corners))
                      .with("type", "boundary"))));
    }
    around
        .rows()
        .keySet()
        .forEach(row -> places.add(place(row(row), "row", "row " + row, List.of())));
    return XmlElement.of("listPlace", places);
  }

  private static XmlElement place(String id, String type, String name, List<XmlElement> further) {
    List<XmlElement> says = new ArrayList<>();
    says.add(XmlElement.of("placeName", name));
    says.addAll(further);
    return XmlElement.of("place", says).with("xml:id", id).with("type", type);
  }

  /** To about a centimetre. */
  static String degrees(double value) {
    return String.format(Locale.ROOT, "%.7f", value);
  }
}
