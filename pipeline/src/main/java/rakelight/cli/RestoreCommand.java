package rakelight.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.archive.Check;
import rakelight.archive.Restore;

@Command(
    name = "restore",
    description =
        "Makes an archive of a backup: compares every file with its digest, copies what is sound,"
            + " names what isn't, and checks the archive.")
final class RestoreCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "BACKUP", description = "The folder `backup` wrote.")
  private Path backup;

  @Parameters(index = "1", paramLabel = "TO", description = "A folder that isn't there yet.")
  private Path target;

  @Option(
      names = "--ledger",
      paramLabel = "TIME",
      description =
          "Takes an earlier ledger, by the time `backup` names it, such as 2026-11-30T184502Z.")
  private Optional<String> ledger;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Restore.Result restored = Restore.copy(backup, target, ledger, file -> {});
    restored.faults().forEach(fault -> err.println(fault.where() + ": " + fault.text()));
    Check.Result checked;
    try (Archive archive = Archive.open(target, Projections.all())) {
      checked = new Check(archive).run(Expected.originals(archive).keySet(), original -> {});
    }
    checked.faults().forEach(fault -> err.println(fault.where() + ": " + fault.text()));
    boolean good = restored.faults().isEmpty() && checked.faults().isEmpty();
    out.println(
        Counted.of(restored.originals(), "original")
            + " and "
            + Counted.of(checked.decisions(), "decision")
            + " are in "
            + target
            + (good ? "; checked, nothing wrong." : "; not all is well, see above."));
    return good ? 0 : 1;
  }
}
