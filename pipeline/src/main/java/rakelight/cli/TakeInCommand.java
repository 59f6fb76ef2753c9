package rakelight.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.archive.TakeIn;
import rakelight.reading.MergeFace;
import rakelight.reading.ReadPhotograph;

@Command(
    name = "take-in",
    description =
        "Takes readings and proposals that were made on other machines, each checked against its"
            + " key. `propose` then makes only what is missing.")
final class TakeInCommand implements Callable<Integer> {
  private static final int MOST_SHOWN = 20;

  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Parameters(
      index = "1",
      paramLabel = "FOLDER",
      description = "Where they were written to; laid out as an archive's derived folder.")
  private Path folder;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    TakeIn.Report report;
    try (Archive archive = Archive.open(root, Projections.all())) {
      archive.requireWritable();
      report = TakeIn.of(archive, folder, List.of(ReadPhotograph.KIND, MergeFace.KIND));
    }
    List<TakeIn.Refused> refused = report.refused();
    refused.stream()
        .limit(MOST_SHOWN)
        .forEach(one -> err.println(folder + ": " + one.name() + ": " + one.reason()));
    if (refused.size() > MOST_SHOWN) {
      err.println("and " + (refused.size() - MOST_SHOWN) + " more.");
    }
    out.println(
        report.taken()
            + " taken in, "
            + report.thereBefore()
            + " there before"
            + (refused.isEmpty() ? "" : "; " + refused.size() + " refused")
            + ".");
    return refused.isEmpty() ? 0 : 1;
  }
}
