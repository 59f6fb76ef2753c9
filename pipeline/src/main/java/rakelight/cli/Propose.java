package rakelight.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicBoolean;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.reading.MachineReader;
import rakelight.reading.Proposer;

@Command(
    name = "propose",
    description = "Reads what hasn't been read yet and proposes readings for people to confirm.")
final class Propose implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Option(
      names = "--workers",
      paramLabel = "N",
      description = "Photographs read at a time (default: by cores and memory).")
  private int workers;

  @Override
  public Integer call() {
    if (workers < 0
        || (workers == 0 && spec.commandLine().getParseResult().hasMatchedOption("--workers"))) {
      throw new ParameterException(spec.commandLine(), "--workers must be 1 or more");
    }
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Proposer.Report report;
    Progress progress = Progress.on(err, "photographs");
    try (Archive archive = Archive.open(root, Projections.all());
        MachineReader machine = MachineReader.standard()) {
      archive.requireWritable();
      AtomicBoolean started = new AtomicBoolean();
      report =
          new Proposer(archive, machine)
              .run(
                  workers == 0 ? Proposer.workersHere() : workers,
                  (done, all, photograph) -> {
                    if (started.compareAndSet(false, true)) {
                      progress.start(all, 0);
                    }
                    progress.step(0);
                  });
    }
    progress.clear();
    for (Proposer.Refused refused : report.refused()) {
      err.println(refused.photograph().originalPath() + ": " + refused.reason());
    }
    out.println(
        Counted.of(report.read(), "photograph")
            + " read, "
            + report.readBefore()
            + " read before; "
            + Counted.of(report.made(), "proposal")
            + " made, "
            + report.madeBefore()
            + " up to date"
            + (report.refused().isEmpty() ? "" : "; " + report.refused().size() + " not read")
            + ".");
    if (report.beside() > 0) {
      out.println(
          Counted.of(report.beside(), "inscribed stone")
              + " beside others: `beside` lists them, for somebody to say which they are.");
    }
    return report.refused().isEmpty() ? 0 : 1;
  }
}
