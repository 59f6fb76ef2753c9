package rakelight.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.person.Evidence;
import rakelight.person.LivingRule;
import rakelight.publish.TableExport;
import rakelight.publish.epidoc.EpidocExport;

@Command(
    name = "export",
    description =
        "Writes the confirmed readings as EpiDoc XML, one file for each face, for others' tools.")
final class ExportCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

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
          "The day of publication, such as 2026-11-25: names of persons who may be living then are"
              + " left out.")
  private LocalDate asOf;

  @Option(names = "--marker", paramLabel = "NUMBER", description = "Only the faces of this marker.")
  private @Nullable String marker;

  @Option(
      names = "--photographs",
      description = "Copy the photographs too. Without it the files point to those in the archive.")
  private boolean photographs;

  @Option(
      names = "--tables",
      description = "Also write readings.csv and statements.csv, for spreadsheets.")
  private boolean tables;

  @Override
  public Integer call() throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    try (Archive archive = Archive.open(root, Projections.all())) {
      List<Evidence.FaceStatements> faces =
          new Evidence(archive)
              .confirmed().stream()
                  .filter(face -> marker == null || face.marker().number().equals(marker))
                  .toList();
      if (faces.isEmpty()) {
        err.println(
            (marker == null ? "Nothing" : "Marker " + marker + ": nothing")
                + " is confirmed here; `read` or `confirm` does that.");
        return 1;
      }
      LivingRule.Withheld withheld = LivingRule.withheld(archive, asOf);
      EpidocExport export = new EpidocExport(archive, folder, photographs, withheld);
      int failed = 0;
      for (Evidence.FaceStatements face : faces) {
        try {
          out.println(
              export.write(face)
                  + (withheld.touches(face.face().id())
                      ? ": somebody on it may be living; the name, the photographs and earlier"
                          + " readings are left out"
                      : ""));
        } catch (IOException | IllegalArgumentException e) {
          failed++;
          err.println(
              "Marker "
                  + face.marker().number()
                  + ", "
                  + face.face().name()
                  + " isn't written: "
                  + e.getMessage());
        }
      }
      if (tables) {
        TableExport table = new TableExport(folder, withheld);
        out.println(table.readings(faces));
        out.println(table.statements(faces));
      }
      return failed == 0 ? 0 : 1;
    }
  }
}
