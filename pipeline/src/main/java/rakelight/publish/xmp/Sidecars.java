package rakelight.publish.xmp;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import rakelight.archive.MarkerId;
import rakelight.inscription.Leiden;
import rakelight.marker.EmblemNote;
import rakelight.photo.CaptureTime;
import rakelight.publish.Edition;
import rakelight.publish.ExportFolder;
import rakelight.publish.ReadFrom;
import rakelight.publish.ToldFace;
import rakelight.publish.ToldMarker;
import rakelight.publish.epidoc.XmlText;

/**
 * Writes an XMP file for each photograph that is told, named as the photograph is in an export, and
 * one file of Dublin Core for all.
 */
public final class Sidecars {
  private static final String DUBLIN_CORE = "photographs/dublin-core.rdf";
  private static final String RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#";
  private static final String DC = "http://purl.org/dc/elements/1.1/";
  private static final String DCTERMS = "http://purl.org/dc/terms/";
  private static final String DCMITYPE = "http://purl.org/dc/dcmitype/";
  private static final String XMP_RIGHTS = "http://ns.adobe.com/xap/1.0/rights/";
  private static final String PHOTOSHOP = "http://ns.adobe.com/photoshop/1.0/";
  private static final String IPTC_CORE = "http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/";
  private static final Pattern ADDRESS = Pattern.compile("https?://\\S+");

  private static final Map<String, String> XMP_SPACES = new LinkedHashMap<>();

  static {
    XMP_SPACES.put("dc", DC);
    XMP_SPACES.put("xmpRights", XMP_RIGHTS);
    XMP_SPACES.put("photoshop", PHOTOSHOP);
    XMP_SPACES.put("Iptc4xmpCore", IPTC_CORE);
  }

  private final Edition edition;
  private final Map<MarkerId, ToldMarker> markers;
  private final ExportFolder folder;

  /**
   * What is said of a photograph.
   *
   * @param subjects what marker it shows and what is carved there, in words of the lists
   */
  private record Said(ReadFrom.Shot shot, String title, String inscription, List<String> subjects) {
    String fileName() {
      return String.valueOf(shot.original().getFileName());
    }
  }

  public Sidecars(Edition edition, Map<MarkerId, ToldMarker> markers, ExportFolder folder) {
    this.edition = edition;
    this.markers = markers;
    this.folder = folder;
  }

  /**
   * Writes them all.
   *
   * @return how many photographs
   */
  public int write(List<ToldFace> faces) throws IOException {
    int[] count = {0};
    folder.put(
        DUBLIN_CORE,
        out -> {
          try {
            XMLStreamWriter all = writer(out);
            all.writeStartDocument("UTF-8", "1.0");
            line(all, 0);
            start(all, "rdf", "RDF", RDF);
            all.writeNamespace("rdf", RDF);
            all.writeNamespace("dcterms", DCTERMS);
            for (ToldFace face : faces) {
              for (ReadFrom.Shot shot : edition.readFrom(face).shots()) {
                Said said = said(face, shot);
                dublinCore(all, said);
                folder.put(sidecar(shot), one -> xmp(one, said));
                count[0]++;
              }
            }
            line(all, 0);
            all.writeEndElement();
            all.writeCharacters("\n");
            all.flush();
          } catch (XMLStreamException e) {
            throw new IOException(e);
          }
        });
    return count[0];
  }

  /** The photograph's own name with another ending. */
  private static String sidecar(ReadFrom.Shot shot) {
    return ExportFolder.photograph(shot.original()).replaceFirst("\\.[^.]*$", "") + ".xmp";
  }

  private Said said(ToldFace face, ReadFrom.Shot shot) {
    List<String> subjects = new ArrayList<>();
    ToldMarker told = markers.get(face.says().marker().id());
    if (told != null) {
      told.description().kind().ifPresent(subjects::add);
      told.description().form().ifPresent(subjects::add);
      told.description().material().ifPresent(subjects::add);
      told.emblems().stream().map(EmblemNote::name).distinct().forEach(subjects::add);
    }
    return new Said(
        shot,
        edition.ground()
            + ", marker "
            + face.says().marker().number()
            + ", "
            + face.says().face().name(),
        Leiden.print(face.says().inscription()),
        subjects);
  }

  // Dublin Core

  private void dublinCore(XMLStreamWriter all, Said said) throws XMLStreamException {
    line(all, 1);
    start(all, "rdf", "Description", RDF);
    all.writeAttribute("rdf", RDF, "about", said.fileName());
    term(all, "title", said.title());
    line(all, 2);
    all.writeEmptyElement("dcterms", "type", DCTERMS);
    all.writeAttribute("rdf", RDF, "resource", DCMITYPE + "StillImage");
    term(all, "format", said.shot().format().mediaType());
    term(all, "extent", said.shot().widthPx() + " x " + said.shot().heightPx() + " pixels");
    term(all, "identifier", identifier(said));
    term(all, "source", said.shot().originalName());
    if (said.shot().photographer().isPresent()) {
      term(all, "creator", said.shot().photographer().get());
    }
    if (said.shot().taken().isPresent()) {
      line(all, 2);
      start(all, "dcterms", "created", DCTERMS);
      all.writeAttribute("rdf", RDF, "datatype", DCTERMS + "W3CDTF");
      all.writeCharacters(day(said.shot().taken().get()));
      all.writeEndElement();
    }
    if (said.shot().rights().isPresent()) {
      term(all, "rights", said.shot().rights().get());
    }
    if (said.shot().credit().isPresent()) {
      term(all, "provenance", said.shot().credit().get());
    }
    term(all, "spatial", edition.ground());
    for (String subject : said.subjects()) {
      term(all, "subject", subject);
    }
    term(all, "description", said.inscription());
    line(all, 1);
    all.writeEndElement();
  }

  private static void term(XMLStreamWriter all, String name, String words)
      throws XMLStreamException {
    line(all, 2);
    start(all, "dcterms", name, DCTERMS);
    all.writeCharacters(new XmlText(words).text());
    all.writeEndElement();
  }

  /** A time without an offset has none in W3C's form, so it is told to the day. */
  private static String day(CaptureTime taken) {
    return taken.local().toLocalDate().toString();
  }

  private static String identifier(Said said) {
    return "urn:sha256:" + said.shot().sha256().hex();
  }

  // XMP

  private void xmp(OutputStream out, Said said) throws IOException {
    out.write(
        "<?xpacket begin=\"\uFEFF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
            .getBytes(StandardCharsets.UTF_8));
    try {
      XMLStreamWriter file = writer(out);
      start(file, "x", "xmpmeta", "adobe:ns:meta/");
      file.writeNamespace("x", "adobe:ns:meta/");
      line(file, 1);
      start(file, "rdf", "RDF", RDF);
      file.writeNamespace("rdf", RDF);
      line(file, 2);
      start(file, "rdf", "Description", RDF);
      file.writeAttribute("rdf", RDF, "about", "");
      for (Map.Entry<String, String> space : XMP_SPACES.entrySet()) {
        file.writeNamespace(space.getKey(), space.getValue());
      }
      properties(file, said);
      line(file, 2);
      file.writeEndElement();
      line(file, 1);
      file.writeEndElement();
      line(file, 0);
      file.writeEndElement();
      file.flush();
    } catch (XMLStreamException e) {
      throw new IOException(e);
    }
    out.write("\n<?xpacket end=\"w\"?>\n".getBytes(StandardCharsets.UTF_8));
  }

  private void properties(XMLStreamWriter file, Said said) throws XMLStreamException {
    ReadFrom.Shot shot = said.shot();
    many(file, "dc:title", "Alt", List.of(said.title()));
    many(file, "dc:description", "Alt", List.of(said.inscription()));
    many(file, "dc:creator", "Seq", shot.photographer().stream().toList());
    many(file, "dc:date", "Seq", shot.taken().map(Sidecars::time).stream().toList());
    many(file, "dc:type", "Bag", List.of("StillImage"));
    many(file, "dc:subject", "Bag", said.subjects());
    one(file, "dc:format", Optional.of(shot.format().mediaType()));
    one(file, "dc:identifier", Optional.of(identifier(said)));
    one(file, "dc:source", Optional.of(shot.originalName()));
    one(file, "dc:coverage", Optional.of(edition.ground()));
    many(file, "dc:rights", "Alt", shot.rights().stream().toList());
    if (shot.rights().isPresent()) {
      one(file, "xmpRights:Marked", Optional.of("True"));
      many(file, "xmpRights:UsageTerms", "Alt", shot.rights().stream().toList());
      one(
          file,
          "xmpRights:WebStatement",
          shot.rights().filter(rights -> ADDRESS.matcher(rights).matches()));
    }
    one(file, "photoshop:DateCreated", shot.taken().map(Sidecars::time));
    one(file, "photoshop:Credit", shot.credit());
    one(file, "Iptc4xmpCore:Location", Optional.of(edition.ground()));
  }

  /** To the second; XMP leaves the offset out where nobody knows it. */
  private static String time(CaptureTime taken) {
    return taken
        .offset()
        .map(
            offset -> DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(taken.local().atOffset(offset)))
        .orElseGet(() -> DateTimeFormatter.ISO_LOCAL_DATE_TIME.format(taken.local()));
  }

  private static void one(XMLStreamWriter file, String name, Optional<String> value)
      throws XMLStreamException {
    if (value.isPresent()) {
      property(file, name);
      file.writeCharacters(new XmlText(value.get()).text());
      file.writeEndElement();
    }
  }

  /**
   * @param form of RDF's containers: {@code Alt} for texts in a language, {@code Seq} in order,
   *     {@code Bag} in none
   */
  private static void many(XMLStreamWriter file, String name, String form, List<String> values)
      throws XMLStreamException {
    if (values.isEmpty()) {
      return;
    }
    property(file, name);
    line(file, 4);
    start(file, "rdf", form, RDF);
    for (String value : values) {
      line(file, 5);
      start(file, "rdf", "li", RDF);
      if (form.equals("Alt")) {
        file.writeAttribute("xml", "http://www.w3.org/XML/1998/namespace", "lang", "x-default");
      }
      file.writeCharacters(new XmlText(value).text());
      file.writeEndElement();
    }
    line(file, 4);
    file.writeEndElement();
    line(file, 3);
    file.writeEndElement();
  }

  private static void property(XMLStreamWriter file, String name) throws XMLStreamException {
    String prefix = name.substring(0, name.indexOf(':'));
    line(file, 3);
    start(
        file,
        prefix,
        name.substring(prefix.length() + 1),
        Optional.ofNullable(XMP_SPACES.get(prefix)).orElseThrow());
  }

  private static XMLStreamWriter writer(OutputStream out) throws XMLStreamException {
    return XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(out, "UTF-8");
  }

  private static void start(XMLStreamWriter file, String prefix, String name, String space)
      throws XMLStreamException {
    file.writeStartElement(prefix, name, space);
  }

  private static void line(XMLStreamWriter file, int depth) throws XMLStreamException {
    file.writeCharacters("\n" + "  ".repeat(depth));
  }
}
