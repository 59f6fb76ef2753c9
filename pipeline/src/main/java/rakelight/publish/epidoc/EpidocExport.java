package rakelight.publish.epidoc;

import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
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
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.PhotographId;
import rakelight.inscription.Apparatus;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.LivingRule;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.publish.Published;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;
import rakelight.reading.ProposedLine;

/** Writes confirmed readings as EpiDoc documents, one file for each face. */
public final class EpidocExport {
  private static final String PHOTOGRAPHS = "photographs";

  private final Archive archive;
  private final Path folder;
  private final boolean copying;
  private final LivingRule.Withheld withheld;
  private final PhotoStore photographs;
  private final ReadingStore readings;
  private final ProposalStore proposals;
  private final Set<String> namesUsed = new HashSet<>();

  /**
   * @param folder where the files go; made if need be
   * @param copying whether the photographs are copied into it; otherwise the documents point to the
   *     originals in the archive
   * @param withheld what may not be published: names are left out, and of their faces the
   *     photographs and earlier readings too
   */
  public EpidocExport(Archive archive, Path folder, boolean copying, LivingRule.Withheld withheld) {
    this.archive = archive;
    this.folder = folder.toAbsolutePath().normalize();
    this.copying = copying;
    this.withheld = withheld;
    photographs = new PhotoStore(archive);
    readings = new ReadingStore(archive);
    proposals = new ProposalStore(archive);
  }

  /**
   * Writes the document of a face whose reading is confirmed.
   *
   * @return the file
   * @throws IllegalArgumentException if XML can't hold a text of it
   */
  public Path write(FaceStatements face) throws IOException {
    XmlElement root = EpidocWriter.write(document(face));
    List<Epidoc.Remark> broken = EpidocRules.broken(root);
    if (!broken.isEmpty()) {
      throw new IllegalStateException("the document breaks a rule: " + broken.get(0).text());
    }
    Files.createDirectories(folder);
    Path file = folder.resolve(name(face) + ".xml");
    Path part = file.resolveSibling(file.getFileName() + ".part");
    Files.writeString(part, Xml.print(root), StandardCharsets.UTF_8);
    Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
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

  private EpidocDocument document(FaceStatements face) throws IOException {
    Reading current = face.reading().orElseThrow();
    List<Reading> versions = new ArrayList<>(readings.versions(face.face().id()));
    versions.removeIf(version -> version.version() > current.version());
    Collections.reverse(versions);
    String ground = archive.ground().name();
    boolean touched = withheld.touches(face.face().id());
    Published published =
        Published.of(current.inscription(), sign -> withheld.covers(face.face().id(), sign));
    List<EpidocDocument.Surface> surfaces = touched ? List.of() : surfaces(face, current);
    return new EpidocDocument(
        ground + ", marker " + face.marker().number() + ", " + face.face().name(),
        new EpidocDocument.Stone(
            Optional.of(ground),
            Optional.of(face.marker().number()),
            face.marker().earlierNumbers(),
            Optional.of(face.face().name()),
            face.face().bearingDegrees()),
        Optional.of(current.id().toString()),
        versions.stream()
            .map(
                version ->
                    new EpidocDocument.Version(
                        version.version(), version.reader(), version.at(), version.basis()))
            .toList(),
        versions.stream().map(Reading::reader).distinct().toList(),
        dates(face),
        surfaces,
        published.inscription(),
        published.withheld(),
        touched ? List.of() : lineZones(current, surfaces),
        touched ? List.of() : rejected(current, versions));
  }

  private List<EpidocDocument.CarvedDate> dates(FaceStatements face) {
    return face.statements().stream()
        .filter(
            statement ->
                statement.signs().stream()
                    .noneMatch(sign -> withheld.covers(face.face().id(), sign)))
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
                    statement.value()))
        .toList();
  }

  /** What earlier versions have otherwise; versions that agree share an entry. */
  private static List<EpidocDocument.Rejected> rejected(Reading current, List<Reading> versions) {
    Map<Apparatus.Variant, List<Integer>> variants = new LinkedHashMap<>();
    for (Reading earlier : versions) {
      if (earlier.version() != current.version()) {
        Apparatus.between(current.inscription(), earlier.inscription())
            .forEach(
                variant ->
                    variants
                        .computeIfAbsent(variant, key -> new ArrayList<>())
                        .add(earlier.version()));
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

  private List<EpidocDocument.Surface> surfaces(FaceStatements face, Reading reading)
      throws IOException {
    Optional<Proposal> proposal = counted(reading);
    Map<PhotographId, Photograph> shown = new LinkedHashMap<>();
    photographs.ofFace(face.face().id()).forEach(shot -> shown.put(shot.id(), shot));
    for (ProposedLine line : proposal.map(Proposal::lines).orElse(List.of())) {
      photographs.photograph(line.photograph()).ifPresent(shot -> shown.put(shot.id(), shot));
    }
    List<EpidocDocument.Surface> surfaces = new ArrayList<>();
    for (Photograph shot : shown.values()) {
      String id = "p" + (surfaces.size() + 1);
      List<EpidocDocument.Zone> zones = new ArrayList<>();
      for (ProposedLine line : proposal.map(Proposal::lines).orElse(List.of())) {
        if (line.photograph().equals(shot.id())) {
          zones.add(new EpidocDocument.Zone(zoneId(id, line.number()), within(line.box(), shot)));
        }
      }
      surfaces.add(
          new EpidocDocument.Surface(
              id,
              shot.sha256().hex(),
              url(shot),
              shot.uprightWidthPx(),
              shot.uprightHeightPx(),
              shot.photographer(),
              shot.credit(),
              shot.rights(),
              zones));
    }
    return surfaces;
  }

  /** The proposal whose lines the reading counts. */
  private Optional<Proposal> counted(Reading reading) {
    return reading
        .proposal()
        .flatMap(
            id ->
                proposals
                    .kept(id)
                    .or(() -> proposals.latest(reading.face()).filter(p -> p.id().equals(id))));
  }

  private static String zoneId(String surface, int line) {
    return surface + "-l" + line;
  }

  /** A proposed outline may reach a little beyond the picture. */
  private static Polygon within(Polygon box, Photograph shot) {
    return box.map(
        point ->
            new Point(
                rounded(Math.max(0, Math.min(shot.uprightWidthPx(), point.x()))),
                rounded(Math.max(0, Math.min(shot.uprightHeightPx(), point.y())))));
  }

  private static double rounded(double px) {
    return Math.round(px * 10) / 10.0;
  }

  /** Lines lead to zones where the reading has as many as the proposal it counts. */
  private List<Optional<String>> lineZones(Reading reading, List<EpidocDocument.Surface> surfaces) {
    int lines = reading.inscription().lines().size();
    Optional<Proposal> proposal = counted(reading).filter(known -> known.lines().size() == lines);
    List<Optional<String>> zones = new ArrayList<>();
    for (ProposedLine line : proposal.map(Proposal::lines).orElse(List.of())) {
      zones.add(
          surfaces.stream()
              .flatMap(surface -> surface.zones().stream())
              .map(EpidocDocument.Zone::id)
              .filter(id -> id.endsWith("-l" + line.number()))
              .findFirst());
    }
    return zones;
  }

  private String url(Photograph shot) throws IOException {
    Path original = archive.originals().path(shot.sha256(), shot.format().extension());
    if (copying) {
      Path copy = folder.resolve(PHOTOGRAPHS).resolve(String.valueOf(original.getFileName()));
      if (!Files.exists(copy)) {
        Files.createDirectories(folder.resolve(PHOTOGRAPHS));
        Files.copy(original, copy);
      }
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
