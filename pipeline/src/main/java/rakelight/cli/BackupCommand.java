package rakelight.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
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
        "Copies an archive, or what is new in it since the last backup to that folder, while others"
            + " may go on working, and checks the copy, a BagIt bag. The copy is complete and"
            + " therefore confidential.")
final class BackupCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Parameters(
      index = "1",
      paramLabel = "TO",
      description = "A folder that isn't there yet, or that of an earlier backup of this archive.")
  private Path target;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Progress progress = Progress.on(err, "originals");
    Backup.Result copied;
    try (Archive archive = Archive.open(root, Projections.all())) {
      progress.start(Expected.originals(archive).size(), 0);
      copied =
          Backup.copy(archive, target, Clock.systemUTC().instant(), original -> progress.step(0));
      progress.clear();
    }
    Check.Result checked = CheckedBackup.of(target, file -> {});
    copied.faults().forEach(fault -> err.println(fault.where() + ": " + fault.text()));
    checked.faults().forEach(fault -> err.println(fault.where() + ": " + fault.text()));
    boolean good = copied.faults().isEmpty() && checked.faults().isEmpty();
    out.println(
        Counted.of(copied.originals(), "original")
            + " ("
            + copied.sizeBytes() / 1_000_000
            + " MB), "
            + copied.copied()
            + " of them new, and "
            + Counted.of(checked.decisions(), "decision")
            + " are in "
            + target
            + (good ? "; checked, nothing wrong." : "; not all is well, see above."));
    if (copied.purged() > 0) {
      out.println(
          Counted.of(copied.purged(), "original")
              + " that had been withdrawn and deleted here went from the backup too.");
    }
    if (!copied.ledgers().isEmpty()) {
      out.println("Earlier ledgers kept: " + String.join(", ", copied.ledgers()) + ".");
    }
    out.println(
        "CONFIDENTIAL: the copy is complete and may name people who are living. Keep it like the"
            + " archive.");
    return good ? 0 : 1;
  }
}
