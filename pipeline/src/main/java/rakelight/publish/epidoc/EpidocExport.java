package rakelight.publish.epidoc;

import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import rakelight.archive.ArchiveException;
import rakelight.inscription.Apparatus;
import rakelight.inscription.Reading;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Statement;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.publish.Edition;
import rakelight.publish.ReadFrom;
import rakelight.publish.ToldFace;

/** Writes the readings of an edition as EpiDoc documents, one file for each face. */
public final class EpidocExport {
  private static final String PHOTOGRAPHS = "photographs";

  private final Edition edition;
  private final Path folder;
  private final boolean copying;
  private final Set<String> namesUsed = new HashSet<>();
  private final Set<Path> written = new TreeSet<>();

  /**
   * @param folder where the files go; made if need be
   * @param copying whether the photographs are copied into it; otherwise the documents point to the
   *     originals in the archive
   */
  public EpidocExport(Edition edition, Path folder, boolean copying) {
    this.edition = edition;
    this.folder = folder.toAbsolutePath().normalize();
    this.copying = copying;
  }

  /** Documents and photographs that lie in the folder and that this run hasn't written. */
  public List<Path> leftFromBefore() throws IOException {
    List<Path> left = new ArrayList<>();
    for (Path place : List.of(folder, folder.resolve(PHOTOGRAPHS))) {
      if (!Files.isDirectory(place)) {
        continue;
      }
      try (DirectoryStream<Path> files = Files.newDirectoryStream(place)) {
        for (Path file : files) {
          boolean ours = !place.equals(folder) || file.toString().endsWith(".xml");
          if (ours && Files.isRegularFile(file) && !written.contains(file)) {
            left.add(file);
          }
        }
      }
    }
    Collections.sort(left);
    return left;
  }

  /**
   * Writes the document of a face.
   *
   * @return the file
   * @throws IllegalArgumentException if XML can't hold a text of it
   */
  public Path write(ToldFace face) throws IOException {
    XmlElement root = EpidocWriter.write(document(face));
    List<Epidoc.Remark> broken = EpidocRules.broken(root);
    if (!broken.isEmpty()) {
      throw new IllegalStateException("the document breaks a rule: " + broken.get(0).text());
    }
    Files.createDirectories(folder);
    Path file = folder.resolve(name(face.says()) + ".xml");
    Path part = file.resolveSibling(file.getFileName() + ".part");
    Files.writeString(part, Xml.print(root), StandardCharsets.UTF_8);
    Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
    written.add(file);
    return file;
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
      Path copy = folder.resolve(PHOTOGRAPHS).resolve(String.valueOf(original.getFileName()));
      if (!Files.exists(copy)) {
        Files.createDirectories(folder.resolve(PHOTOGRAPHS));
        Files.copy(original, copy);
      }
      written.add(copy);
      return PHOTOGRAPHS + "/" + original.getFileName();
    }
    try {
      String path =
          folder.relativize(original.toAbsolutePath().normalize()).toString().replace('\\', '/');
      return new URI(null, null, path, null).toASCIIString();
    } catch (IllegalArgumentException | URISyntaxException e) {
      throw new ArchiveException(
          "From "
              + folder
              + " no relative path leads to the archive. Write to the same disk, or give"
              + " --photographs.",
          e);
    }
  }
}
