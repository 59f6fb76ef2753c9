package rakelight.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.PhotographId;
import rakelight.publish.Edition;
import rakelight.publish.ExportFolder;
import rakelight.publish.ReadFrom;
import rakelight.publish.TableExport;
import rakelight.publish.ToldFace;
import rakelight.publish.ToldGround;
import rakelight.publish.Why;
import rakelight.publish.epidoc.EpidocExport;
import rakelight.publish.gedcom.GedcomExport;
import rakelight.publish.iiif.Manifests;
import rakelight.publish.iiif.PictureFile;
import rakelight.publish.xmp.Sidecars;
import rakelight.work.CutLetters;
import rakelight.work.Faces;
import rakelight.work.Leases;

@Command(
    name = "export",
    description =
        "Writes the confirmed readings as EpiDoc XML, one file for each face, for others' tools.")
final class ExportCommand extends ArchiveCommand {
  /** Of a picture that stands for a file browsers don't show; as large as the desk's largest. */
  private static final int LONGEST_PX = 3200;

  @Option(
      names = "--to",
      required = true,
      paramLabel = "FOLDER",
      description = "Where to write; made if need be. Files of the same name are replaced.")
  private Path folder;

  @Option(
      names = "--as-of",
      required = true,
      paramLabel = "DAY",
      description =
          "The day of publication, such as 2026-11-25: what may not be told then is left out"
              + " (`withheld` lists it).")
  private LocalDate asOf;

  @Option(names = "--marker", paramLabel = "NUMBER", description = "Only the faces of this marker.")
  private @Nullable String marker;

  @Option(
      names = "--photographs",
      description = "Copy the photographs too. Without it the files point to those in the archive.")
  private boolean photographs;

  @Option(
      names = "--tables",
      description =
          "Also write readings.csv and statements.csv, for spreadsheets, and csv-metadata.json,"
              + " which says what their columns hold.")
  private boolean tables;

  @Option(
      names = "--gedcom",
      description =
          "Also write persons.ged, persons and families as GEDCOM 7, for programs that keep"
              + " families. Of the whole ground.")
  private boolean gedcom;

  @Option(
      names = "--corpus",
      description =
          "Also write corpus.xml, all in one EpiDoc document with places, descriptions and the"
              + " words they are made of.")
  private boolean corpus;

  @Option(
      names = "--iiif",
      description =
          "Also copy the photographs and write IIIF manifests for viewers, with lines and letters"
              + " as annotations.")
  private boolean iiif;

  @Option(
      names = "--annotations",
      description =
          "Also copy the photographs and write lines and letters as W3C Web Annotations, a file"
              + " for each face.")
  private boolean annotations;

  @Option(
      names = "--address",
      paramLabel = "URL",
      description =
          "Where the folder will lie on the web, such as https://fennlane.example/stones/: what"
              + " --iiif and --annotations write names itself by it.")
  private @Nullable URI address;

  @Option(
      names = "--sidecars",
      description =
          "Also write what is told of each photograph, as XMP beside it and as Dublin Core of all.")
  private boolean sidecars;

  @Override
  int run(Archive archive) throws IOException {
    PrintWriter out = out();
    PrintWriter err = err();
    if (gedcom && marker != null) {
      throw wrong("--gedcom writes the persons of the whole ground. Leave out --marker.");
    }
    boolean forViewers = iiif || annotations;
    if (forViewers && !isOnTheWeb(address)) {
      throw wrong(
          "--iiif and --annotations need --address, where the folder will lie on the web, such as"
              + " https://fennlane.example/stones/");
    }
    Edition edition = Edition.of(archive, asOf);
    List<ToldFace> faces =
        edition.faces().stream()
            .filter(face -> marker == null || face.says().marker().number().equals(marker))
            .toList();
    List<Edition.LeftOut> leftOut =
        edition.leftOut().stream()
            .filter(left -> marker == null || left.markers().contains(marker))
            .toList();
    if (faces.isEmpty() && leftOut.isEmpty()) {
      err.println(
          (marker == null ? "Nothing" : "Marker " + marker + ": nothing")
              + " is confirmed here; `read` or `confirm` does that.");
      return 1;
    }
    ExportFolder into = new ExportFolder(folder);
    EpidocExport export = new EpidocExport(edition, into, photographs || forViewers);
    List<ToldFace> sound = new ArrayList<>();
    for (ToldFace face : faces) {
      try {
        out.println(export.write(face) + told(face));
        sound.add(face);
      } catch (IOException | IllegalArgumentException e) {
        err.println(
            "Marker "
                + face.says().marker().number()
                + ", "
                + face.says().face().name()
                + " isn't written: "
                + e.getMessage());
      }
    }
    if (tables) {
      TableExport table = new TableExport(into);
      out.println(table.readings(faces));
      out.println(table.statements(faces));
      out.println(table.metadata(edition.ground()));
    }
    if (gedcom) {
      out.println(new GedcomExport(edition, asOf).write(into));
    }
    if (corpus || forViewers || sidecars) {
      further(archive, edition, sound, export, into);
    }
    report(leftOut, out);
    if (marker == null) {
      for (Path file : into.leftFromBefore()) {
        err.println(file + ": of an earlier run; it may hold what is withheld now");
      }
    }
    return sound.size() == faces.size() ? 0 : 1;
  }

  private static boolean isOnTheWeb(@Nullable URI address) {
    return address != null
        && address.getHost() != null
        && ("https".equals(address.getScheme()) || "http".equals(address.getScheme()))
        && address.getQuery() == null
        && address.getFragment() == null;
  }

  /** What more than the readings goes into. */
  private void further(
      Archive archive,
      Edition edition,
      List<ToldFace> faces,
      EpidocExport export,
      ExportFolder into)
      throws IOException {
    ToldGround around = edition.around();
    if (corpus) {
      out().println(export.corpus(around, faces));
    }
    if (sidecars) {
      out()
          .println(
              Counted.of(new Sidecars(edition, around.byId(), into).write(faces), "photograph")
                  + " described in photographs/");
    }
    if (iiif || annotations) {
      String base = String.valueOf(address).replaceFirst("/*$", "/");
      Map<PhotographId, PictureFile> pictures = pictures(edition, faces, base, into);
      Manifests manifests =
          new Manifests(
              edition,
              faces,
              around.byId(),
              base,
              shot -> Optional.ofNullable(pictures.get(shot.id())),
              new CutLetters(archive, new Faces(archive, new Leases(Clock.systemUTC()))));
      if (iiif) {
        out()
            .println(
                Counted.of(manifests.write(into::put), "manifest")
                    + ", listed in "
                    + Manifests.COLLECTION);
      }
      if (annotations) {
        out()
            .println(
                "Annotations of "
                    + Counted.of(manifests.writeAnnotations(into::put), "face")
                    + " in annotations/");
      }
    }
  }

  /**
   * The files that viewers show: the originals, or a JPEG beside those that browsers don't show.
   */
  private Map<PhotographId, PictureFile> pictures(
      Edition edition, List<ToldFace> faces, String base, ExportFolder into) throws IOException {
    Map<PhotographId, PictureFile> pictures = new HashMap<>();
    Set<String> unshown = new TreeSet<>();
    for (ToldFace face : faces) {
      for (ReadFrom.Shot shot : edition.readFrom(face).shots()) {
        if (shot.format().isShownByBrowsers()) {
          String name = ExportFolder.photograph(shot.original());
          pictures.put(shot.id(), PictureFile.original(base + name, shot));
          continue;
        }
        Optional<Path> made = edition.picture(shot, LONGEST_PX);
        if (made.isPresent()) {
          String name = ExportFolder.photograph(shot.original()) + ".jpg";
          into.put(name, out -> Files.copy(made.get(), out));
          pictures.put(shot.id(), PictureFile.jpeg(base + name, shot, LONGEST_PX));
        } else {
          unshown.add(shot.originalName());
        }
      }
    }
    unshown.forEach(
        name ->
            err()
                .println(
                    name
                        + ": browsers don't show such a file, and no picture can be made of it"
                        + " here; viewers are told nothing of it."));
    return pictures;
  }

  private static String told(ToldFace face) {
    return face.isTouched()
        ? ": something on it is withheld ("
            + String.join("; ", new TreeSet<>(face.withheld().values()))
            + "), and with it the photographs and earlier readings"
        : "";
  }

  /** A line for each reason: how much of what was left out for it. */
  private static void report(List<Edition.LeftOut> leftOut, PrintWriter out) {
    Map<String, Map<Edition.Sort, Integer>> counts = new LinkedHashMap<>();
    for (Edition.LeftOut left : leftOut) {
      if (left.sort() != Edition.Sort.PHOTOGRAPHS) {
        for (String why : new LinkedHashSet<>(left.why().stream().map(Why::words).toList())) {
          counts
              .computeIfAbsent(why, words -> new EnumMap<>(Edition.Sort.class))
              .merge(left.sort(), 1, Integer::sum);
        }
      }
    }
    counts.forEach(
        (why, bySort) -> {
          List<String> parts = new ArrayList<>();
          bySort.forEach(
              (sort, count) ->
                  parts.add(
                      count
                          + " "
                          + sort.name().toLowerCase(Locale.ROOT)
                          + (count == 1 ? "" : "s")));
          out.println("Left out, " + why + ": " + String.join(", ", parts));
        });
  }
}
