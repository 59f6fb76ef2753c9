package rakelight.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.archive.Backup;
import rakelight.archive.Check;

@Command(
    name = "backup",
    description =
        "Copies an archive to a new folder, while others may go on working, and checks the copy."
            + " The copy is complete and therefore confidential.")
final class BackupCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Parameters(index = "1", paramLabel = "TO", description = "A folder that isn't there yet.")
  private Path target;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Progress progress = Progress.on(err, "originals");
    Backup.Result copied;
    try (Archive archive = Archive.open(root, Projections.all())) {
      progress.start(Expected.originals(archive).size(), 0);
      copied = Backup.copy(archive, target, original -> progress.step(0));
      progress.clear();
    }
    Check.Result checked;
    try (Archive copy = Archive.open(target, Projections.all())) {
      checked = new Check(copy).run(Expected.originals(copy).keySet(), original -> {});
    }
    copied.faults().forEach(fault -> err.println(fault.where() + ": " + fault.text()));
    checked.faults().forEach(fault -> err.println(fault.where() + ": " + fault.text()));
    boolean good = copied.faults().isEmpty() && checked.faults().isEmpty();
    out.println(
        Counted.of(copied.originals(), "original")
            + " ("
            + copied.sizeBytes() / 1_000_000
            + " MB) and "
            + Counted.of(checked.decisions(), "decision")
            + " are in "
            + target
            + (good ? "; checked, nothing wrong." : "; not all is well, see above."));
    out.println(
        "CONFIDENTIAL: the copy is complete and may name people who are living. Keep it like the"
            + " archive.");
    return good ? 0 : 1;
  }
}
