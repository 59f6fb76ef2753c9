package rakelight.cli;

import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.Merging;
import rakelight.work.LendingOut;
import rakelight.work.ReaderStore;

@Command(
    name = "return",
    description =
        "Takes in what was decided in a part that `lend` packed. Again, it changes nothing; more may"
            + " be decided in the part and returned later.")
final class ReturnCommand extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "FOLDER", description = "The folder `lend` packed.")
  private Path folder;

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    Merging.Result merged =
        new LendingOut(archive, Projections.all())
            .takeBack(
                folder,
                Projections.joinings(),
                new ReaderStore(archive).atTheTerminal(reader),
                file -> {});
    return MergeCommand.tell(archive, merged, folder, out(), err());
  }
}
