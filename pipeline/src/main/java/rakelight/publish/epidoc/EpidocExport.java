package rakelight.publish.epidoc;

import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import rakelight.archive.ArchiveException;
import rakelight.archive.MarkerId;
import rakelight.inscription.Apparatus;
import rakelight.inscription.Reading;
import rakelight.marker.Marker;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Statement;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.publish.Edition;
import rakelight.publish.ExportFolder;
import rakelight.publish.ReadFrom;
import rakelight.publish.ToldFace;
import rakelight.publish.ToldGround;
import rakelight.publish.ToldMarker;

/** Writes the readings of an edition as EpiDoc documents, one file for each face. */
public final class EpidocExport {
  private static final String CORPUS = "corpus.xml";

  private final Edition edition;
  private final ExportFolder folder;
  private final boolean copying;
  private final Set<String> namesUsed = new HashSet<>();

  /**
   * @param folder where the files go
   * @param copying whether the photographs are copied into it; otherwise the documents point to the
   *     originals in the archive
   */
  public EpidocExport(Edition edition, ExportFolder folder, boolean copying) {
    this.edition = edition;
    this.folder = folder;
    this.copying = copying;
  }

  /**
   * Writes the document of a face.
   *
   * @return the file
   * @throws IllegalArgumentException if XML can't hold a text of it
   */
  public Path write(ToldFace face) throws IOException {
    String document = Xml.print(checked(face));
    return folder.put(name(face.says()) + ".xml", document);
  }

  /**
   * Writes all markers of which a face is told as one document, {@code corpus.xml}: a part for each
   * marker, a part of its text for each face. One marker at a time is held in memory.
   *
   * @param around what is told of the ground around the faces
   * @throws IllegalArgumentException if XML can't hold a text of it
   */
  public Path corpus(ToldGround around, List<ToldFace> faces) throws IOException {
    CorpusHeader header = new CorpusHeader(around);
    Map<MarkerId, ToldMarker> told = around.byId();
    return folder.put(
        CORPUS,
        out -> {
          Writer words = new OutputStreamWriter(out, StandardCharsets.UTF_8);
          words.write(
              "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<teiCorpus xmlns=\""
                  + Xml.TEI
                  + "\">\n");
          words.write(Xml.within(header.write(), 1));
          int place = 0;
          for (int from = 0; from < faces.size(); ) {
            Marker marker = faces.get(from).says().marker();
            Map<String, XmlElement> own = new LinkedHashMap<>();
            for (; from < faces.size(); from++) {
              FaceStatements says = faces.get(from).says();
              if (!says.marker().id().equals(marker.id())) {
                break;
              }
              own.put(says.face().name(), checked(faces.get(from)));
            }
            place++;
            words.write(
                Xml.within(
                    new CorpusMarker(
                            header, place, marker, Optional.ofNullable(told.get(marker.id())), own)
                        .write(edition.ground()),
                    1));
          }
          words.write("</teiCorpus>\n");
          words.flush();
        });
  }

  private XmlElement checked(ToldFace face) throws IOException {
    XmlElement root = EpidocWriter.write(document(face));
    List<Epidoc.Remark> broken = EpidocRules.broken(root);
    if (!broken.isEmpty()) {
      throw new IllegalStateException("the document breaks a rule: " + broken.get(0).text());
    }
    return root;
  }

  /** A file name that no other face of this run has, on file systems blind to case too. */
  private String name(FaceStatements face) {
    String plain =
        (face.marker().number() + "-" + face.face().name())
            .replaceAll("[^\\p{L}\\p{N}._-]", "_")
            .replaceFirst("^\\.", "_");
    String name = plain;
    for (int i = 2; !namesUsed.add(name.toLowerCase(Locale.ROOT)); i++) {
      name = plain + "-" + i;
    }
    return name;
  }

  private EpidocDocument document(ToldFace face) throws IOException {
    FaceStatements says = face.says();
    Reading current = says.reading().orElseThrow();
    ReadFrom from = edition.readFrom(face);
    List<EpidocDocument.Surface> surfaces = surfaces(from);
    return new EpidocDocument(
        edition.ground() + ", marker " + says.marker().number() + ", " + says.face().name(),
        new EpidocDocument.Stone(
            Optional.of(edition.ground()),
            Optional.of(says.marker().number()),
            says.marker().earlierNumbers(),
            Optional.of(says.face().name()),
            says.face().bearingDegrees()),
        Optional.of(current.id().toString()),
        from.versions().stream()
            .map(
                version ->
                    new EpidocDocument.Version(
                        version.number(), version.reader(), version.at(), version.basis()))
            .toList(),
        from.versions().stream().map(ReadFrom.Version::reader).distinct().toList(),
        dates(says.statements()),
        surfaces,
        current.inscription(),
        face.withheld(),
        lineZones(from, surfaces),
        rejected(current, from.versions()));
  }

  private static List<EpidocDocument.CarvedDate> dates(List<Statement> statements) {
    return statements.stream()
        .filter(
            statement ->
                switch (statement.kind()) {
                  case BIRTH, MARRIAGE, DEATH, BURIAL -> true;
                  default -> false;
                })
        .map(
            statement ->
                new EpidocDocument.CarvedDate(
                    statement.kind().name().toLowerCase(Locale.ROOT),
                    statement.firstLine(),
                    statement.text(),
                    statement.value(),
                    statement.supplied()))
        .toList();
  }

  /** What earlier versions have otherwise; versions that agree share an entry. */
  private static List<EpidocDocument.Rejected> rejected(
      Reading current, List<ReadFrom.Version> versions) {
    Map<Apparatus.Variant, List<Integer>> variants = new LinkedHashMap<>();
    for (ReadFrom.Version earlier : versions) {
      if (earlier.number() != current.version() && earlier.inscription().isPresent()) {
        Apparatus.between(current.inscription(), earlier.inscription().get())
            .forEach(
                variant ->
                    variants
                        .computeIfAbsent(variant, key -> new ArrayList<>())
                        .add(earlier.number()));
      }
    }
    List<EpidocDocument.Rejected> rejected = new ArrayList<>();
    variants.forEach(
        (variant, numbers) ->
            rejected.add(
                new EpidocDocument.Rejected(
                    variant.line(), variant.lemma(), variant.rejected(), numbers)));
    rejected.sort((one, two) -> Integer.compare(one.line(), two.line()));
    return rejected;
  }

  // The photographs

  private List<EpidocDocument.Surface> surfaces(ReadFrom from) throws IOException {
    List<EpidocDocument.Surface> surfaces = new ArrayList<>();
    for (ReadFrom.Shot shot : from.shots()) {
      String id = "p" + (surfaces.size() + 1);
      surfaces.add(
          new EpidocDocument.Surface(
              id,
              shot.sha256().hex(),
              url(shot.original()),
              shot.widthPx(),
              shot.heightPx(),
              shot.photographer(),
              shot.credit(),
              shot.rights(),
              from.lines().stream()
                  .filter(line -> line.photograph().equals(shot.id()))
                  .map(
                      line ->
                          new EpidocDocument.Zone(
                              zoneId(id, line.number()), within(line.outline(), shot)))
                  .toList()));
    }
    return surfaces;
  }

  private static String zoneId(String surface, int line) {
    return surface + "-l" + line;
  }

  /** A proposed outline may reach a little beyond the picture. */
  private static Polygon within(Polygon box, ReadFrom.Shot shot) {
    return box.map(
        point ->
            new Point(
                rounded(Math.max(0, Math.min(shot.widthPx(), point.x()))),
                rounded(Math.max(0, Math.min(shot.heightPx(), point.y())))));
  }

  private static double rounded(double px) {
    return Math.round(px * 10) / 10.0;
  }

  /** Lines lead to zones where the reading has as many as the proposal it counts. */
  private static List<Optional<String>> lineZones(
      ReadFrom from, List<EpidocDocument.Surface> surfaces) {
    List<Optional<String>> zones = new ArrayList<>();
    for (int line = 1; line <= from.lineByLine(); line++) {
      String end = "-l" + line;
      zones.add(
          surfaces.stream()
              .flatMap(surface -> surface.zones().stream())
              .map(EpidocDocument.Zone::id)
              .filter(id -> id.endsWith(end))
              .findFirst());
    }
    return zones;
  }

  private String url(Path original) throws IOException {
    if (copying) {
      return folder.copied(original);
    }
    try {
      String path =
          folder
              .path()
              .relativize(original.toAbsolutePath().normalize())
              .toString()
              .replace('\\', '/');
      return new URI(null, null, path, null).toASCIIString();
    } catch (IllegalArgumentException | URISyntaxException e) {
      throw new ArchiveException(
          "From "
              + folder.path()
              + " no relative path leads to the archive. Write to the same disk, or give"
              + " --photographs.",
          e);
    }
  }
}
