package rakelight.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.publish.Edition;
import rakelight.publish.TableExport;
import rakelight.publish.ToldFace;
import rakelight.publish.Why;
import rakelight.publish.epidoc.EpidocExport;
import rakelight.publish.gedcom.GedcomExport;

@Command(
    name = "export",
    description =
        "Writes the confirmed readings as EpiDoc XML, one file for each face, for others' tools.")
final class ExportCommand extends ArchiveCommand {
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

  @Override
  int run(Archive archive) throws IOException {
    PrintWriter out = out();
    PrintWriter err = err();
    if (gedcom && marker != null) {
      throw wrong("--gedcom writes the persons of the whole ground. Leave out --marker.");
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
    EpidocExport export = new EpidocExport(edition, folder, photographs);
    int failed = 0;
    for (ToldFace face : faces) {
      try {
        out.println(export.write(face) + told(face));
      } catch (IOException | IllegalArgumentException e) {
        failed++;
        err.println(
            "Marker "
                + face.says().marker().number()
                + ", "
                + face.says().face().name()
                + " isn't written: "
                + e.getMessage());
      }
    }
    Set<Path> others = new LinkedHashSet<>();
    if (tables) {
      TableExport table = new TableExport(folder);
      others.add(table.readings(faces));
      others.add(table.statements(faces));
      others.add(table.metadata(edition.ground()));
    }
    if (gedcom) {
      others.add(new GedcomExport(edition, asOf).write(folder));
    }
    others.forEach(out::println);
    report(leftOut, out);
    if (marker == null) {
      List<Path> left = new ArrayList<>(export.leftFromBefore());
      for (String name : List.of("persons.ged", "readings.csv", "statements.csv")) {
        Path file = folder.toAbsolutePath().normalize().resolve(name);
        if (Files.exists(file) && !others.contains(file)) {
          left.add(file);
        }
      }
      for (Path file : left) {
        err.println(file + ": of an earlier run; it may hold what is withheld now");
      }
    }
    return failed == 0 ? 0 : 1;
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
