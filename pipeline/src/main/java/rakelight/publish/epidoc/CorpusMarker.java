package rakelight.publish.epidoc;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.ground.MarkerPosition;
import rakelight.ground.RowPlace;
import rakelight.marker.ConditionNote;
import rakelight.marker.Description;
import rakelight.marker.EmblemNote;
import rakelight.marker.Marker;
import rakelight.marker.Term.Quality;
import rakelight.publish.ToldMarker;

/**
 * One document of a corpus: a marker with its description, and the documents of its faces as parts
 * of one text. Ids of the parts get a prefix, so that none stands twice in the corpus.
 */
final class CorpusMarker {
  private static final Set<String> SHARED =
      Set.of("#" + EpidocWriter.GREGORIAN, "#" + EpidocWriter.EDTF);

  private final CorpusHeader header;
  private final Optional<ToldMarker> told;
  private final Marker marker;
  private final List<Part> parts = new ArrayList<>();

  /** A face's document. */
  private record Part(String face, String id, XmlElement tei) {
    /** Elements of a name along a path. */
    List<XmlElement> all(String name, String... path) {
      return tei.first(path).map(within -> within.elements(name)).orElse(List.of());
    }
  }

  /**
   * @param place of the marker in the corpus, from 1
   */
  CorpusMarker(
      CorpusHeader header,
      int place,
      Marker marker,
      Optional<ToldMarker> told,
      Map<String, XmlElement> faces) {
    this.header = header;
    this.told = told;
    this.marker = marker;
    faces.forEach(
        (face, tei) -> {
          String id = "m" + place + "f" + (parts.size() + 1);
          parts.add(new Part(face, id, prefixed(tei, id + "-")));
        });
  }

  /** The element with all ids in it, and all that lead to them, behind a prefix. */
  private static XmlElement prefixed(XmlElement element, String prefix) {
    Map<String, String> attributes = new LinkedHashMap<>();
    element
        .attributes()
        .forEach(
            (name, value) ->
                attributes.put(
                    name,
                    name.equals("xml:id")
                        ? prefix + value
                        : value.startsWith("#")
                            ? Arrays.stream(value.split(" ", -1))
                                .map(
                                    to -> SHARED.contains(to) ? to : "#" + prefix + to.substring(1))
                                .collect(Collectors.joining(" "))
                            : value));
    return new XmlElement(
        element.name(),
        attributes,
        element.children().stream()
            .map(child -> child instanceof XmlElement inner ? prefixed(inner, prefix) : child)
            .toList(),
        0);
  }

  XmlElement write(String ground) {
    List<XmlElement> document = new ArrayList<>();
    document.add(
        XmlElement.of("teiHeader", Stream.concat(Stream.of(file(ground)), revisions()).toList()));
    List<XmlElement> surfaces = gathered("surface", "facsimile");
    if (!surfaces.isEmpty()) {
      document.add(XmlElement.of("facsimile", surfaces));
    }
    List<XmlElement> divisions = new ArrayList<>();
    for (String type : List.of("edition", "apparatus", "commentary")) {
      List<XmlElement> textparts = textparts(type);
      if (!textparts.isEmpty()) {
        divisions.add(XmlElement.of("div", textparts).with("type", type));
      }
    }
    document.add(XmlElement.of("text", XmlElement.of("body", divisions)));
    return XmlElement.of("TEI", document);
  }

  private List<XmlElement> gathered(String name, String... path) {
    return parts.stream().flatMap(part -> part.all(name, path).stream()).toList();
  }

  private Stream<XmlElement> revisions() {
    List<XmlElement> changes = gathered("change", "teiHeader", "revisionDesc");
    return changes.isEmpty() ? Stream.of() : Stream.of(XmlElement.of("revisionDesc", changes));
  }

  private List<XmlElement> textparts(String type) {
    List<XmlElement> textparts = new ArrayList<>();
    for (Part part : parts) {
      for (XmlElement division : part.all("div", "text", "body")) {
        if (division.attribute("type").filter(type::equals).isPresent()) {
          XmlElement textpart =
              XmlElement.of("div", division.children())
                  .with("type", "textpart")
                  .with("subtype", "face")
                  .with("n", part.face());
          textparts.add(
              type.equals("edition")
                  ? textpart.with("xml:id", part.id())
                  : textpart.with("corresp", "#" + part.id()));
        }
      }
    }
    return textparts;
  }

  // The header

  private XmlElement file(String ground) {
    List<XmlElement> title = new ArrayList<>();
    title.add(XmlElement.of("title", ground + ", marker " + marker.number()));
    title.addAll(gathered("respStmt", "teiHeader", "fileDesc", "titleStmt"));
    List<XmlElement> publication = new ArrayList<>();
    publication.add(XmlElement.of("authority", ground + ", archive"));
    publication.add(XmlElement.of("idno", marker.id().toString()).with("type", "marker"));
    for (Part part : parts) {
      part.all("idno", "teiHeader", "fileDesc", "publicationStmt")
          .forEach(reading -> publication.add(reading.with("corresp", "#" + part.id())));
    }
    List<XmlElement> file = new ArrayList<>();
    file.add(XmlElement.of("titleStmt", title));
    file.add(XmlElement.of("publicationStmt", publication));
    List<XmlElement> notes = new ArrayList<>();
    for (Part part : parts) {
      part.all("note", "teiHeader", "fileDesc", "notesStmt")
          .forEach(note -> notes.add(note.with("corresp", "#" + part.id())));
    }
    if (!notes.isEmpty()) {
      file.add(XmlElement.of("notesStmt", notes));
    }
    List<XmlElement> source = new ArrayList<>();
    source.add(description(ground));
    List<XmlElement> read = gathered("bibl", "teiHeader", "fileDesc", "sourceDesc", "listBibl");
    if (!read.isEmpty()) {
      source.add(XmlElement.of("listBibl", read));
    }
    file.add(XmlElement.of("sourceDesc", source));
    return XmlElement.of("fileDesc", file);
  }

  private XmlElement description(String ground) {
    List<XmlElement> names = new ArrayList<>();
    names.add(XmlElement.of("geogName", ground).with("ref", "#" + header.ground()));
    names.add(XmlElement.of("idno", marker.number()).with("type", "marker"));
    for (String earlier : marker.earlierNumbers()) {
      names.add(
          XmlElement.of(
              "altIdentifier", XmlElement.of("idno", earlier).with("type", "earlier-number")));
    }
    List<XmlElement> parts = new ArrayList<>();
    parts.add(XmlElement.of("msIdentifier", names));
    parts.add(physical());
    List<XmlElement> history = history();
    if (!history.isEmpty()) {
      parts.add(XmlElement.of("history", history));
    }
    return XmlElement.of("msDesc", parts);
  }

  private XmlElement physical() {
    List<XmlElement> object = new ArrayList<>();
    List<XmlElement> supportDesc = new ArrayList<>();
    supportDesc.add(XmlElement.of("support", support()));
    told.flatMap(ToldMarker::condition)
        .ifPresent(note -> supportDesc.add(XmlElement.of("condition", condition(note))));
    object.add(XmlElement.of("supportDesc", supportDesc));
    object.add(XmlElement.of("layoutDesc", layouts()));
    List<XmlElement> physical = new ArrayList<>();
    physical.add(XmlElement.of("objectDesc", object));
    List<EmblemNote> emblems = told.map(ToldMarker::emblems).orElse(List.of());
    if (!emblems.isEmpty()) {
      physical.add(XmlElement.of("decoDesc", emblems.stream().map(this::emblem).toList()));
    }
    return XmlElement.of("physDesc", physical);
  }

  private List<XmlElement> support() {
    Description said = told.map(ToldMarker::description).orElse(Description.NONE);
    List<XmlElement> paragraphs = new ArrayList<>();
    List<XmlNode> words = new ArrayList<>();
    said.kind()
        .ifPresent(
            kind ->
                words.add(
                    XmlElement.of("objectType", kind)
                        .with("ref", "#" + header.term(Quality.KIND, kind))));
    said.form()
        .ifPresent(
            form -> {
              words.add(new XmlText(words.isEmpty() ? "" : ", "));
              words.add(rs("form", form, header.term(Quality.FORM, form)));
            });
    said.material()
        .ifPresent(
            material -> {
              words.add(new XmlText(words.isEmpty() ? "" : ", "));
              words.add(
                  XmlElement.of("material", material)
                      .with("ref", "#" + header.term(Quality.MATERIAL, material)));
            });
    List<XmlElement> sides = new ArrayList<>();
    said.heightCm().ifPresent(cm -> sides.add(XmlElement.of("height", number(cm))));
    said.widthCm().ifPresent(cm -> sides.add(XmlElement.of("width", number(cm))));
    said.thicknessCm().ifPresent(cm -> sides.add(XmlElement.of("depth", number(cm))));
    if (!sides.isEmpty()) {
      words.add(new XmlText(words.isEmpty() ? "" : ", "));
      words.add(XmlElement.of("dimensions", sides).with("unit", "cm"));
    }
    if (!words.isEmpty()) {
      paragraphs.add(XmlElement.of("p", words));
    }
    for (Description.Part part : said.parts()) {
      List<XmlNode> state = new ArrayList<>();
      state.add(rs("part", part.name(), header.term(Quality.PART, part.name())));
      state.add(new XmlText(": "));
      state.add(rs("state", part.state(), header.term(Quality.STATE, part.state())));
      part.leanDegrees()
          .ifPresent(
              lean -> {
                state.add(new XmlText(" "));
                state.add(
                    XmlElement.of("measure", number(lean) + " degrees")
                        .with("type", "lean")
                        .with("unit", "degree")
                        .with("quantity", number(lean)));
              });
      paragraphs.add(XmlElement.of("p", state));
    }
    for (String own :
        Stream.of(said.enclosure(), said.remark()).flatMap(Optional::stream).toList()) {
      paragraphs.add(XmlElement.of("p", own));
    }
    for (Part part : parts) {
      paragraphs.addAll(
          part.all(
              "p",
              "teiHeader",
              "fileDesc",
              "sourceDesc",
              "msDesc",
              "physDesc",
              "objectDesc",
              "supportDesc",
              "support"));
    }
    if (paragraphs.isEmpty()) {
      paragraphs.add(XmlElement.of("p", "Nobody has described it yet."));
    }
    return paragraphs;
  }

  private static XmlElement rs(String type, String words, String id) {
    return XmlElement.of("rs", words).with("type", type).with("ref", "#" + id);
  }

  private XmlElement condition(ConditionNote note) {
    List<XmlNode> words = new ArrayList<>();
    words.add(new XmlText("Seen "));
    words.add(XmlElement.of("date", note.on().toString()).with("when", note.on().toString()));
    words.add(new XmlText(": "));
    for (int i = 0; i < note.words().size(); i++) {
      words.add(new XmlText(i == 0 ? "" : ", "));
      words.add(
          rs("condition", note.words().get(i).label(), header.condition(note.words().get(i))));
    }
    if (!note.remark().isEmpty()) {
      words.add(new XmlText(" (" + note.remark() + ")"));
    }
    return XmlElement.of("p", words);
  }

  /** How many lines each face has, and how its letters are made. */
  private List<XmlElement> layouts() {
    List<XmlNode> made = new ArrayList<>();
    for (String way : told.map(one -> one.description().lettering()).orElse(List.of())) {
      made.add(new XmlText(", "));
      made.add(rs("execution", way, header.term(Quality.LETTERING, way)));
    }
    List<XmlElement> layouts = new ArrayList<>();
    for (Part part : parts) {
      part.all(
              "layout",
              "teiHeader",
              "fileDesc",
              "sourceDesc",
              "msDesc",
              "physDesc",
              "objectDesc",
              "layoutDesc")
          .forEach(layout -> layouts.add(layout.with(made).with("corresp", "#" + part.id())));
    }
    return layouts;
  }

  private XmlElement emblem(EmblemNote note) {
    List<XmlNode> words = new ArrayList<>();
    words.add(rs("emblem", note.name(), header.emblem(note.name())));
    words.add(
        new XmlText(
            " on the " + note.face() + (note.remark().isEmpty() ? "" : ": ") + note.remark()));
    return XmlElement.of("decoNote", words);
  }

  // Where it comes from and where it stands

  private List<XmlElement> history() {
    List<XmlElement> history = new ArrayList<>();
    List<XmlNode> origin = new ArrayList<>();
    parts.stream()
        .flatMap(
            part ->
                part
                    .all("p", "teiHeader", "fileDesc", "sourceDesc", "msDesc", "history", "origin")
                    .stream())
        .flatMap(paragraph -> paragraph.elements("origDate").stream())
        .min(Comparator.comparing(date -> date.attribute("notBefore").orElse("")))
        .ifPresent(origin::add);
    Description said = told.map(ToldMarker::description).orElse(Description.NONE);
    said.origin()
        .ifPresent(
            kind -> {
              origin.add(new XmlText(origin.isEmpty() ? "" : "; "));
              origin.add(rs("origin", kind, header.term(Quality.ORIGIN, kind)));
            });
    said.maker()
        .ifPresent(
            maker -> {
              origin.add(new XmlText((origin.isEmpty() ? "" : "; ") + "made by "));
              origin.add(XmlElement.of("persName", maker).with("type", "maker"));
            });
    said.madeAt()
        .ifPresent(
            place -> {
              origin.add(new XmlText((origin.isEmpty() ? "" : "; ") + "made at "));
              origin.add(XmlElement.of("origPlace", place));
            });
    if (!origin.isEmpty()) {
      history.add(XmlElement.of("origin", XmlElement.of("p", origin)));
    }
    said.earlier()
        .ifPresent(
            earlier ->
                history.add(
                    XmlElement.of("provenance", XmlElement.of("p", "Before it: " + earlier))
                        .with("type", "earlier-marker")));
    told.ifPresent(
        one ->
            history.add(
                XmlElement.of("provenance", XmlElement.of("p", stands(one)))
                    .with("type", "observed")));
    return history;
  }

  private List<XmlNode> stands(ToldMarker one) {
    List<XmlNode> words = new ArrayList<>();
    words.add(new XmlText("Stands on the ground"));
    for (String plot : one.plots()) {
      words.add(new XmlText(", in plot "));
      words.add(XmlElement.of("placeName", plot).with("ref", "#" + header.plot(plot)));
    }
    if (one.row().isPresent()) {
      RowPlace row = one.row().get();
      words.add(new XmlText(", in row "));
      words.add(XmlElement.of("placeName", row.row()).with("ref", "#" + header.row(row.row())));
      words.add(new XmlText(" at place " + row.place()));
    }
    if (one.position().isPresent()) {
      MarkerPosition at = one.position().get();
      words.add(new XmlText(", at "));
      words.add(
          XmlElement.of(
              "geo",
              CorpusHeader.degrees(at.latitudeDegrees())
                  + " "
                  + CorpusHeader.degrees(at.longitudeDegrees())));
      words.add(new XmlText(" give or take "));
      words.add(
          XmlElement.of("measure", number(at.errorMetres()) + " m")
              .with("type", "error")
              .with("unit", "m")
              .with("quantity", number(at.errorMetres())));
    }
    return words;
  }

  private static String number(double value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.format(Locale.ROOT, "%.1f", value);
  }
}
