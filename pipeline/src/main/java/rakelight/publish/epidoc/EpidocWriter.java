package rakelight.publish.epidoc;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import rakelight.inscription.Basis;
import rakelight.inscription.Inscription;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/** Lays out a document as TEI, valid by EpiDoc 9.8. {@link EpidocReader} reads it back. */
final class EpidocWriter {
  static final String GREGORIAN = "gregorian";
  static final String EDTF = "edtf";

  /** One certain day, month or year; seasons and doubt have no such form. */
  private static final String W3C = "[0-9]{4}(-(0[1-9]|1[0-2])(-[0-9]{2})?)?";

  private final EpidocDocument document;

  /** Everybody who signed a version, each once; his place makes his id. */
  private final List<String> people;

  private EpidocWriter(EpidocDocument document) {
    this.document = document;
    people =
        document.versions().isEmpty()
            ? document.readers()
            : document.versions().stream().map(EpidocDocument.Version::reader).distinct().toList();
  }

  static XmlElement write(EpidocDocument document) {
    EpidocWriter writer = new EpidocWriter(document);
    List<XmlElement> parts = new ArrayList<>();
    parts.add(writer.header());
    if (!document.surfaces().isEmpty()) {
      parts.add(
          XmlElement.of(
              "facsimile", document.surfaces().stream().map(EpidocWriter::surface).toList()));
    }
    parts.add(XmlElement.of("text", XmlElement.of("body", writer.divisions())));
    return XmlElement.of("TEI", parts);
  }

  // The header

  private XmlElement header() {
    List<XmlElement> file = new ArrayList<>();
    List<XmlElement> title = new ArrayList<>();
    title.add(XmlElement.of("title", document.title()));
    for (int i = 0; i < people.size(); i++) {
      title.add(
          XmlElement.of(
                  "respStmt",
                  XmlElement.of("name", people.get(i)),
                  XmlElement.of("resp", "read and signed"))
              .with("xml:id", "r" + (i + 1)));
    }
    file.add(XmlElement.of("titleStmt", title));
    file.add(publication());
    if (document.withheld().isEmpty()) {
      // Their numbers would tell how many letters are withheld.
      file.add(
          XmlElement.of(
              "notesStmt",
              XmlElement.of("note", Epidoc.signIds(document.inscription()))
                  .with("type", "sign-ids")));
    }
    file.add(source());
    List<XmlElement> header = new ArrayList<>();
    header.add(XmlElement.of("fileDesc", file));
    header.add(
        XmlElement.of(
            "encodingDesc",
            XmlElement.of(
                "p",
                "Marked up by the EpiDoc Guidelines, release 9.8. The edition is what people read"
                    + " and signed; what a machine proposed isn't in it. Zones are in pixels of the"
                    + " upright photograph."
                    + (document.withheld().isEmpty()
                        ? ""
                        : " What may not be published yet is withheld, and with it the photographs"
                            + " and what was read before."))));
    if (!document.dates().isEmpty()) {
      header.add(XmlElement.of("profileDesc", XmlElement.of("calendarDesc", calendars())));
    }
    if (!document.versions().isEmpty()) {
      header.add(
          XmlElement.of("revisionDesc", document.versions().stream().map(this::change).toList()));
    }
    return XmlElement.of("teiHeader", header);
  }

  /** Those that dates point to. */
  static List<XmlElement> calendars() {
    return List.of(
        calendar(GREGORIAN, "Gregorian, also before it was brought in"),
        calendar(EDTF, "Extended Date/Time Format (ISO 8601-2), Gregorian"));
  }

  private static XmlElement calendar(String id, String words) {
    return XmlElement.of("calendar", XmlElement.of("p", words)).with("xml:id", id);
  }

  private XmlElement publication() {
    List<XmlElement> parts = new ArrayList<>();
    parts.add(
        XmlElement.of(
            "authority", document.stone().ground().map(name -> name + ", archive").orElse("")));
    document
        .readingId()
        .ifPresent(id -> parts.add(XmlElement.of("idno", id).with("type", "reading")));
    return XmlElement.of("publicationStmt", parts);
  }

  private XmlElement change(EpidocDocument.Version version) {
    return XmlElement.of("change", "signed")
        .with("n", Integer.toString(version.number()))
        .with("when", version.at().toString())
        .with("who", "#r" + (people.indexOf(version.reader()) + 1))
        .with("source", "#b" + version.number());
  }

  private XmlElement source() {
    List<XmlElement> parts = new ArrayList<>();
    parts.add(description());
    if (!document.versions().isEmpty()) {
      parts.add(
          XmlElement.of(
              "listBibl", document.versions().stream().map(EpidocWriter::basis).toList()));
    }
    return XmlElement.of("sourceDesc", parts);
  }

  private static XmlElement basis(EpidocDocument.Version version) {
    Basis basis = version.basis();
    List<XmlNode> says = new ArrayList<>();
    switch (basis.kind()) {
      case STONE -> says.add(new XmlText("Read at the stone."));
      case PHOTOGRAPHS -> says.add(new XmlText("Read from the photographs."));
      case EARLIER -> says.add(new XmlText("Read from an earlier witness: "));
    }
    basis.witness().ifPresent(name -> says.add(XmlElement.of("title", name)));
    basis
        .date()
        .map(LocalDate::toString)
        .ifPresent(
            day -> {
              says.add(new XmlText(" "));
              says.add(XmlElement.of("date", day).with("when", day));
            });
    basis
        .light()
        .ifPresent(
            light -> {
              says.add(new XmlText(" "));
              says.add(XmlElement.of("note", light).with("type", "light"));
            });
    return XmlElement.of("bibl", says)
        .with("xml:id", "b" + version.number())
        .with("type", "basis")
        .with("subtype", basis.kind().label());
  }

  private XmlElement description() {
    EpidocDocument.Stone stone = document.stone();
    List<XmlElement> names = new ArrayList<>();
    stone.ground().ifPresent(name -> names.add(XmlElement.of("geogName", name)));
    stone
        .marker()
        .ifPresent(number -> names.add(XmlElement.of("idno", number).with("type", "marker")));
    for (String earlier : stone.earlierNumbers()) {
      names.add(
          XmlElement.of(
              "altIdentifier", XmlElement.of("idno", earlier).with("type", "earlier-number")));
    }
    List<XmlElement> parts = new ArrayList<>();
    parts.add(XmlElement.of("msIdentifier", names));
    int lines = document.inscription().lines().size();
    XmlElement layout =
        XmlElement.of("layout", lines + (lines == 1 ? " line" : " lines"))
            .with("writtenLines", Integer.toString(lines));
    XmlElement object =
        support()
            .map(support -> XmlElement.of("objectDesc", support, around("layoutDesc", layout)))
            .orElseGet(() -> XmlElement.of("objectDesc", around("layoutDesc", layout)));
    parts.add(XmlElement.of("physDesc", object));
    origin()
        .ifPresent(
            date ->
                parts.add(XmlElement.of("history", XmlElement.of("origin", around("p", date)))));
    return XmlElement.of("msDesc", parts);
  }

  private static XmlElement around(String name, XmlNode child) {
    return XmlElement.of(name, child);
  }

  private Optional<XmlElement> support() {
    EpidocDocument.Stone stone = document.stone();
    List<XmlNode> says = new ArrayList<>();
    stone
        .face()
        .ifPresent(
            face -> {
              says.add(new XmlText("The inscription is on the face "));
              says.add(XmlElement.of("rs", face).with("type", "face"));
            });
    stone
        .bearingDegrees()
        .ifPresent(
            bearing -> {
              says.add(new XmlText(says.isEmpty() ? "The face looks to " : ", which looks to "));
              says.add(
                  XmlElement.of("measure", plain(bearing) + " degrees from true north")
                      .with("type", "bearing")
                      .with("unit", "degree")
                      .with("quantity", plain(bearing)));
            });
    return says.isEmpty()
        ? Optional.empty()
        : Optional.of(around("supportDesc", XmlElement.of("support", XmlElement.of("p", says))));
  }

  /** The stone isn't older than the first death on it, unless it was set up in somebody's life. */
  private Optional<XmlElement> origin() {
    return document.dates().stream()
        .filter(date -> date.kind().equals("death") || date.kind().equals("burial"))
        .filter(date -> Edtf.parse(date.edtf()).earliest().isPresent())
        .min((one, two) -> Edtf.ORDER.compare(Edtf.parse(one.edtf()), Edtf.parse(two.edtf())))
        .flatMap(
            date ->
                w3c(Edtf.parse(date.edtf()).earliest())
                    .map(
                        day ->
                            XmlElement.of(
                                    "origDate",
                                    "not before "
                                        + day
                                        + ", the earliest "
                                        + date.kind()
                                        + " on it, if it was cut after that")
                                .with("notBefore", day)
                                .with("calendar", "#" + GREGORIAN)
                                .with("evidence", "internal-date")
                                .with("cert", "medium")));
  }

  private static Optional<String> w3c(Optional<Day> day) {
    return day.filter(known -> known.year() > 0 && known.year() <= 9999).map(Day::toString);
  }

  // The photographs

  private static XmlElement surface(EpidocDocument.Surface surface) {
    List<XmlElement> parts = new ArrayList<>();
    parts.add(desc("sha256", surface.sha256()));
    surface.photographer().ifPresent(name -> parts.add(desc("photographer", name)));
    surface.credit().ifPresent(credit -> parts.add(desc("credit", credit)));
    surface.rights().ifPresent(rights -> parts.add(desc("rights", rights)));
    parts.add(
        XmlElement.of("graphic")
            .with("url", surface.url())
            .with("width", surface.widthPx() + "px")
            .with("height", surface.heightPx() + "px"));
    for (EpidocDocument.Zone zone : surface.zones()) {
      parts.add(
          XmlElement.of("zone").with("xml:id", zone.id()).with("points", points(zone.outline())));
    }
    return XmlElement.of("surface", parts)
        .with("xml:id", surface.id())
        .with("ulx", "0")
        .with("uly", "0")
        .with("lrx", Integer.toString(surface.widthPx()))
        .with("lry", Integer.toString(surface.heightPx()));
  }

  private static XmlElement desc(String type, String text) {
    return XmlElement.of("desc", text).with("type", type);
  }

  private static String points(Polygon outline) {
    return outline.points().stream()
        .map((Point point) -> plain(point.x()) + "," + plain(point.y()))
        .collect(Collectors.joining(" "));
  }

  private static String plain(double number) {
    BigDecimal rounded = BigDecimal.valueOf(number).setScale(1, RoundingMode.HALF_UP);
    return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
  }

  // The text

  private List<XmlElement> divisions() {
    List<XmlElement> divisions = new ArrayList<>();
    List<Optional<String>> zones =
        document.lineZones().stream().map(zone -> zone.map(id -> "#" + id)).toList();
    divisions.add(
        XmlElement.of("div", Epidoc.print(document.inscription(), zones, document.withheld()))
            .with("type", "edition"));
    if (!document.rejected().isEmpty()) {
      divisions.add(
          XmlElement.of(
                  "div",
                  XmlElement.of("listApp", document.rejected().stream().map(this::entry).toList()))
              .with("type", "apparatus"));
    }
    if (!document.dates().isEmpty()) {
      List<XmlElement> items = document.dates().stream().map(EpidocWriter::dated).toList();
      divisions.add(
          XmlElement.of("div", XmlElement.of("list", items).with("type", "dates"))
              .with("type", "commentary"));
    }
    return divisions;
  }

  private XmlElement entry(EpidocDocument.Rejected rejected) {
    List<XmlElement> parts = new ArrayList<>();
    rejected.lemma().ifPresent(lemma -> parts.add(XmlElement.of("lem", words(lemma))));
    XmlElement reading =
        XmlElement.of("rdg", rejected.reading().map(EpidocWriter::words).orElse(List.of()));
    List<String> resp = new ArrayList<>();
    List<String> source = new ArrayList<>();
    for (EpidocDocument.Version version : document.versions()) {
      if (rejected.versions().contains(version.number())) {
        resp.add("#r" + (people.indexOf(version.reader()) + 1));
        source.add("#b" + version.number());
      }
    }
    parts.add(
        reading
            .with("resp", resp.stream().distinct().collect(Collectors.joining(" ")))
            .with("source", String.join(" ", source)));
    return XmlElement.of("app", parts).with("loc", Integer.toString(rejected.line()));
  }

  /** The content of a line without its beginning. */
  private static List<XmlNode> words(Inscription line) {
    List<XmlNode> children = Epidoc.print(line).children();
    return children.subList(1, children.size());
  }

  private static XmlElement dated(EpidocDocument.CarvedDate date) {
    Edtf edtf = Edtf.parse(date.edtf());
    XmlElement element = XmlElement.of("date", date.carved());
    Optional<String> first = w3c(edtf.earliest());
    Optional<String> last = w3c(edtf.latest());
    if (date.edtf().matches(W3C)) {
      element = element.with("when", date.edtf());
    } else {
      if (first.isPresent()) {
        element = element.with("notBefore", first.get());
      }
      if (last.isPresent()) {
        element = element.with("notAfter", last.get());
      }
    }
    element =
        element
            .with("calendar", "#" + GREGORIAN)
            .with("when-custom", date.edtf())
            .with("datingMethod", "#" + EDTF)
            .with("type", date.kind());
    List<XmlNode> item = new ArrayList<>();
    item.add(new XmlText(date.kind() + ", line "));
    item.add(
        XmlElement.of("num", Integer.toString(date.line()))
            .with("type", "line")
            .with("value", Integer.toString(date.line())));
    item.add(new XmlText(": "));
    item.add(date.workedOut().isPresent() ? element.with("evidence", "conjecture") : element);
    date.workedOut()
        .ifPresent(
            reason -> {
              item.add(new XmlText(" worked out, not carved: "));
              item.add(XmlElement.of("note", reason));
            });
    return XmlElement.of("item", item);
  }
}
