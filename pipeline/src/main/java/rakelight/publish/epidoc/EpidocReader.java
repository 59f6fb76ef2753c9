package rakelight.publish.epidoc;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import rakelight.inscription.Basis;
import rakelight.inscription.Inscription;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * Reads a document, our own or one made elsewhere. Of our own everything comes back; of others the
 * edition, who read it and the photographs do, and what doesn't is told.
 */
final class EpidocReader {
  /** Divisions that are read, and what is read of them. */
  private static final Map<String, Set<String>> KNOWN_DIVISIONS =
      Map.of(
          "edition", Set.of("ab"),
          "apparatus", Set.of("listApp"),
          "commentary", Set.of("list"));

  /** Elements of the header whose text is carried, whoever wrote it. */
  private static final Set<String> CARRIED =
      Set.of("title", "name", "persName", "orgName", "editor", "author", "geogName");

  /** Elements of the header that we write ourselves. */
  private static final Set<String> OURS =
      Set.of(
          "note",
          "idno",
          "p",
          "authority",
          "layout",
          "origDate",
          "bibl",
          "date",
          "rs",
          "measure",
          "change",
          "resp");

  private final XmlElement root;
  private final List<Epidoc.Remark> remarks = new ArrayList<>();
  private final Set<XmlElement> ours = Collections.newSetFromMap(new IdentityHashMap<>());

  /**
   * What was read.
   *
   * @param remarks what isn't carried
   */
  record Read(EpidocDocument document, List<Epidoc.Remark> remarks) {
    Read {
      remarks = List.copyOf(remarks);
    }
  }

  private EpidocReader(XmlElement root) {
    this.root = root;
  }

  /**
   * @throws EpidocException if it holds no edition that can be read
   */
  static Read read(XmlElement root) throws EpidocException {
    return new EpidocReader(root).read();
  }

  private Read read() throws EpidocException {
    List<XmlElement> editions = divisions().filter(div -> isOfType(div, "edition")).toList();
    if (!root.name().equals("TEI") || editions.isEmpty()) {
      throw EpidocException.at(root, "no <TEI> with a <div type=\"edition\"> in it.");
    }
    editions.stream()
        .skip(1)
        .forEach(div -> remark(div, "a second <div type=\"edition\"> isn't carried"));
    Epidoc.Edition edition = Epidoc.parse(editions.get(0));
    remarks.addAll(edition.remarks());
    Optional<String> signIds =
        ofType(path("teiHeader", "fileDesc", "notesStmt"), "note", "sign-ids")
            .map(XmlElement::text)
            .findFirst();
    List<EpidocDocument.Version> versions = versions();
    List<EpidocDocument.Rejected> rejected = rejected(versions);
    OtherReadings others = new OtherReadings(root, edition);
    path("text", "body", "div", "listApp", "app")
        .filter(app -> !ours.contains(app))
        .forEach(others::add);
    remarks.addAll(others.notCarried());
    Inscription read = others.noted();
    Inscription inscription = signIds.flatMap(ids -> Epidoc.withSignIds(read, ids)).orElse(read);
    notCarried(signIds.isPresent());
    List<Optional<String>> zones =
        edition.lineZones().stream()
            .map(zone -> zone.filter(to -> to.startsWith("#")).map(to -> to.substring(1)))
            .toList();
    EpidocDocument document =
        new EpidocDocument(
            path("teiHeader", "fileDesc", "titleStmt", "title")
                .map(XmlElement::text)
                .findFirst()
                .orElse(""),
            stone(),
            ofType(path("teiHeader", "fileDesc", "publicationStmt"), "idno", "reading")
                .map(XmlElement::text)
                .findFirst(),
            versions,
            readers(),
            dates(),
            surfaces(),
            inscription,
            Map.of(),
            zones.stream().anyMatch(Optional::isPresent) ? zones : List.of(),
            rejected);
    return new Read(document, remarks);
  }

  /** Tells what of the rest of the document nothing was taken from. */
  private void notCarried(boolean ours) {
    Set<String> told = new HashSet<>();
    path("teiHeader")
        .flatMap(XmlElement::all)
        .filter(element -> holdsText(element) && !CARRIED.contains(element.name()))
        .filter(element -> !(ours && OURS.contains(element.name())))
        .filter(element -> told.add(element.name()))
        .forEach(
            element -> remark(element, "<" + element.name() + "> of the header isn't carried"));
    Stream.of(
            root.elements().stream()
                .filter(part -> !Set.of("teiHeader", "facsimile", "text").contains(part.name())),
            path("text")
                .flatMap(text -> text.elements().stream())
                .filter(part -> !part.name().equals("body")),
            path("text", "body")
                .flatMap(body -> body.elements().stream())
                .filter(part -> !part.name().equals("div")))
        .flatMap(parts -> parts)
        .forEach(part -> remark(part, "<" + part.name() + "> isn't carried"));
    for (XmlElement div : divisions().toList()) {
      String type = div.attribute("type").orElse("");
      Set<String> parts = KNOWN_DIVISIONS.getOrDefault(type, Set.of());
      if (parts.isEmpty()) {
        remark(div, "<div type=\"" + type + "\"> isn't carried");
      } else if (!type.equals("edition")) {
        div.elements().stream()
            .filter(part -> !parts.contains(part.name()))
            .forEach(
                part -> remark(part, "<" + part.name() + "> of the " + type + " isn't carried"));
      }
    }
  }

  private static boolean holdsText(XmlElement element) {
    return element.children().stream()
        .anyMatch(child -> child instanceof XmlText run && !run.text().isBlank());
  }

  private Stream<XmlElement> divisions() {
    return path("text", "body", "div");
  }

  /** The elements at the end of a path of names from the root. */
  private Stream<XmlElement> path(String... names) {
    Stream<XmlElement> at = Stream.of(root);
    for (String name : names) {
      at = at.flatMap(element -> element.elements(name).stream());
    }
    return at;
  }

  private static Stream<XmlElement> ofType(Stream<XmlElement> within, String name, String type) {
    return within
        .flatMap(element -> element.elements(name).stream())
        .filter(element -> isOfType(element, type));
  }

  private static boolean isOfType(XmlElement element, String type) {
    return element.attribute("type").filter(type::equals).isPresent();
  }

  // The header

  private EpidocDocument.Stone stone() {
    Stream<XmlElement> identifiers =
        path("teiHeader", "fileDesc", "sourceDesc", "msDesc", "msIdentifier");
    List<XmlElement> known = identifiers.toList();
    List<XmlElement> support =
        path(
                "teiHeader",
                "fileDesc",
                "sourceDesc",
                "msDesc",
                "physDesc",
                "objectDesc",
                "supportDesc",
                "support",
                "p")
            .toList();
    return new EpidocDocument.Stone(
        known.stream()
            .flatMap(element -> element.elements("geogName").stream())
            .map(XmlElement::text)
            .findFirst(),
        ofType(known.stream(), "idno", "marker").map(XmlElement::text).findFirst(),
        ofType(
                known.stream().flatMap(element -> element.elements("altIdentifier").stream()),
                "idno",
                "earlier-number")
            .map(XmlElement::text)
            .toList(),
        ofType(support.stream(), "rs", "face").map(XmlElement::text).findFirst(),
        ofType(support.stream(), "measure", "bearing")
            .flatMap(measure -> measure.attribute("quantity").stream())
            .flatMap(degrees -> number(degrees).stream())
            .findFirst());
  }

  private static Optional<Double> number(String text) {
    try {
      double number = Double.parseDouble(text);
      return Double.isFinite(number) ? Optional.of(number) : Optional.empty();
    } catch (NumberFormatException e) {
      return Optional.empty();
    }
  }

  /** Whoever the file names as having read or edited it. */
  private List<String> readers() {
    Set<String> names = new LinkedHashSet<>();
    for (XmlElement title : path("teiHeader", "fileDesc", "titleStmt").toList()) {
      for (XmlElement element : title.elements()) {
        if (element.name().equals("respStmt")) {
          element.elements().stream()
              .filter(name -> Set.of("name", "persName", "orgName").contains(name.name()))
              .map(XmlElement::text)
              .forEach(names::add);
        } else if (Set.of("editor", "author").contains(element.name())) {
          names.add(element.text());
        }
      }
    }
    names.remove("");
    return List.copyOf(names);
  }

  private List<EpidocDocument.Version> versions() {
    List<EpidocDocument.Version> versions = new ArrayList<>();
    for (XmlElement change : path("teiHeader", "revisionDesc", "change").toList()) {
      Optional<EpidocDocument.Version> version = version(change);
      version.ifPresent(versions::add);
      if (version.isEmpty()) {
        remark(change, "<change> isn't carried");
      }
    }
    return versions;
  }

  private Optional<EpidocDocument.Version> version(XmlElement change) {
    try {
      int number = Integer.parseInt(change.attribute("n").orElse(""));
      Optional<String> reader =
          target(change, "who").flatMap(statement -> statement.first("name")).map(XmlElement::text);
      Optional<Basis> basis = target(change, "source").flatMap(EpidocReader::basis);
      Instant at = Instant.parse(change.attribute("when").orElse(""));
      return reader.flatMap(
          name -> basis.map(known -> new EpidocDocument.Version(number, name, at, known)));
    } catch (NumberFormatException | DateTimeException e) {
      return Optional.empty();
    }
  }

  /** What the attribute's one reference leads to. */
  private Optional<XmlElement> target(XmlElement element, String attribute) {
    String reference = element.attribute(attribute).orElse("");
    return root.all()
        .filter(
            other -> other.attribute("xml:id").filter(id -> reference.equals("#" + id)).isPresent())
        .findFirst();
  }

  private static Optional<Basis> basis(XmlElement bibl) {
    try {
      return bibl.attribute("subtype")
          .flatMap(Basis.Kind::of)
          .map(
              kind ->
                  new Basis(
                      kind,
                      bibl.first("date")
                          .flatMap(date -> date.attribute("when"))
                          .map(LocalDate::parse),
                      ofType(Stream.of(bibl), "note", "light").map(XmlElement::text).findFirst(),
                      bibl.first("title").map(XmlElement::text)));
    } catch (DateTimeException | IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  // The photographs

  private List<EpidocDocument.Surface> surfaces() {
    List<EpidocDocument.Surface> surfaces = new ArrayList<>();
    for (XmlElement surface : path("facsimile", "surface").toList()) {
      Optional<XmlElement> graphic = surface.first("graphic");
      Optional<Double> width = surface.attribute("lrx").flatMap(EpidocReader::number);
      Optional<Double> height = surface.attribute("lry").flatMap(EpidocReader::number);
      Optional<String> sha256 = described(surface, "sha256");
      if (graphic.isEmpty() || width.isEmpty() || height.isEmpty() || sha256.isEmpty()) {
        remark(surface, "a photograph that doesn't say its digest and size isn't carried");
        continue;
      }
      surfaces.add(
          new EpidocDocument.Surface(
              surface.attribute("xml:id").orElse(""),
              sha256.get(),
              graphic.get().attribute("url").orElse(""),
              width.get().intValue(),
              height.get().intValue(),
              described(surface, "photographer"),
              described(surface, "credit"),
              described(surface, "rights"),
              surface.elements("zone").stream().flatMap(zone -> zone(zone).stream()).toList()));
    }
    return surfaces;
  }

  private static Optional<String> described(XmlElement surface, String type) {
    return ofType(Stream.of(surface), "desc", type).map(XmlElement::text).findFirst();
  }

  private Optional<EpidocDocument.Zone> zone(XmlElement zone) {
    List<Point> points = new ArrayList<>();
    for (String point : zone.attribute("points").orElse("").strip().split("\\s+")) {
      String[] xy = point.split(",", -1);
      if (xy.length == 2 && number(xy[0]).isPresent() && number(xy[1]).isPresent()) {
        points.add(new Point(number(xy[0]).get(), number(xy[1]).get()));
      }
    }
    if (points.size() < 3 || zone.attribute("xml:id").isEmpty()) {
      remark(zone, "a zone with no id or fewer than three points isn't carried");
      return Optional.empty();
    }
    return Optional.of(
        new EpidocDocument.Zone(zone.attribute("xml:id").get(), new Polygon(points)));
  }

  // The text

  private List<EpidocDocument.CarvedDate> dates() {
    List<EpidocDocument.CarvedDate> dates = new ArrayList<>();
    for (XmlElement item : path("text", "body", "div", "list", "item").toList()) {
      Optional<XmlElement> date = item.first("date");
      Optional<String> edtf = date.flatMap(element -> element.attribute("when-custom"));
      Optional<Double> line =
          item.first("num").flatMap(num -> num.attribute("value")).flatMap(EpidocReader::number);
      if (edtf.isPresent() && line.isPresent()) {
        dates.add(
            new EpidocDocument.CarvedDate(
                date.flatMap(element -> element.attribute("type")).orElse(""),
                line.get().intValue(),
                date.map(XmlElement::text).orElse(""),
                edtf.get(),
                item.first("note").map(XmlElement::text)));
      } else {
        remark(item, "<item> of a commentary isn't carried");
      }
    }
    return dates;
  }

  private List<EpidocDocument.Rejected> rejected(List<EpidocDocument.Version> versions)
      throws EpidocException {
    List<EpidocDocument.Rejected> rejected = new ArrayList<>();
    for (XmlElement app : path("text", "body", "div", "listApp", "app").toList()) {
      Optional<Integer> line =
          app.attribute("loc").filter(loc -> loc.matches("[0-9]{1,4}")).map(Integer::valueOf);
      List<XmlElement> readings = app.elements("rdg");
      List<String> sources =
          readings.stream()
              .flatMap(rdg -> Stream.of(rdg.attribute("source").orElse("").split("\\s+")))
              .toList();
      if (line.isEmpty()
          || readings.size() != 1
          || versions.stream().noneMatch(version -> sources.contains("#b" + version.number()))) {
        continue; // Somebody else's: see OtherReadings.
      }
      ours.add(app);
      rejected.add(
          new EpidocDocument.Rejected(
              line.get(),
              words(app.first("lem")),
              words(app.first("rdg")),
              versions.stream()
                  .map(EpidocDocument.Version::number)
                  .filter(number -> sources.contains("#b" + number))
                  .toList()));
    }
    return rejected;
  }

  private Optional<Inscription> words(Optional<XmlElement> element) throws EpidocException {
    if (element.isEmpty() || element.get().children().isEmpty()) {
      return Optional.empty();
    }
    Epidoc.Edition edition = Epidoc.parse(element.get());
    remarks.addAll(edition.remarks());
    return Optional.of(edition.inscription());
  }

  private void remark(XmlElement element, String text) {
    remarks.add(new Epidoc.Remark(element.line(), text));
  }
}
