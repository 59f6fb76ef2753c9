package rakelight.cli;

import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.Merging;
import rakelight.work.LendingOut;
import rakelight.work.NamedReader;
import rakelight.work.ReaderStore;

@Command(
    name = "return",
    description =
        "Takes in what was decided in a part that `lend` packed. Again, it changes nothing; more"
            + " may be decided in the part and returned later.")
final class ReturnCommand extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "FOLDER", description = "The folder `lend` packed.")
  private Path folder;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Option(names = "--dry-run", description = "Only says what would come, and changes nothing.")
  private boolean dryRun;

  @Override
  int run(Archive archive) {
    LendingOut lending = new LendingOut(archive, Projections.all());
    NamedReader by = new ReaderStore(archive).atTheTerminal(reader);
    if (dryRun) {
      Merging.Result look = lending.lookAt(folder, Projections.joinings(), by, file -> {});
      try (Archive part = Archive.openToLook(folder, Projections.all())) {
        return MergeCommand.foretell(archive, look, part, out(), err());
      }
    }
    return MergeCommand.tell(
        archive,
        lending.takeBack(folder, Projections.joinings(), by, file -> {}),
        folder,
        out(),
        err());
  }
}
