package rakelight.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.search.GroundSearch;

@Command(
    name = "index",
    description = "Brings the search index up to date with what people confirmed.")
final class IndexCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Option(names = "--anew", description = "Makes it from the beginning.")
  private boolean anew;

  @Override
  public Integer call() {
    try (Archive archive = Archive.open(root, Projections.all())) {
      Optional<GroundSearch.Updated> updated = new GroundSearch(archive).update(anew);
      if (updated.isEmpty()) {
        spec.commandLine().getErr().println(root + ": another program is updating the index.");
        return 1;
      }
      spec.commandLine()
          .getOut()
          .println(
              updated.get().entries()
                  + " readings in the index, "
                  + updated.get().changed()
                  + " of them put in now");
    }
    return 0;
  }
}
