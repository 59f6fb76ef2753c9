package rakelight.cli;

import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.search.GroundSearch;

@Command(
    name = "index",
    description = "Brings the search index up to date with what people confirmed.")
final class IndexCommand extends ArchiveCommand {
  @Option(names = "--anew", description = "Makes it from the beginning.")
  private boolean anew;

  @Override
  int run(Archive archive) {
    archive.requireWritable();
    Optional<GroundSearch.Updated> updated;
    try (GroundSearch search = new GroundSearch(archive)) {
      updated = search.update(anew);
    }
    if (updated.isEmpty()) {
      err().println(root() + ": another program is updating the index.");
      return 1;
    }
    out()
        .println(
            Counted.of(updated.get().entries(), "marker")
                + " in the index, "
                + updated.get().changed()
                + " of them put in now");
    return 0;
  }
}
