package rakelight.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.Merging;
import rakelight.search.GroundSearch;

@Command(
    name = "merge",
    description = {
      "Brings what was decided in a copy of the archive, on another laptop, into this one; the copy",
      "is only looked at. Merging again changes nothing, and it doesn't matter which is merged into",
      "which. What was decided differently on both is listed by `apart`."
    })
final class MergeCommand extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "OTHER", description = "The folder of the copy.")
  private Path other;

  @Override
  int run(Archive archive) {
    Merging.Result merged;
    try (Archive there = Archive.openToLook(other, Projections.all())) {
      merged = Merging.of(archive, there, Projections.joinings(), 0, file -> {});
    }
    return tell(archive, merged, other, out(), err());
  }

  static int tell(
      Archive archive, Merging.Result merged, Path other, PrintWriter out, PrintWriter err) {
    merged.faults().forEach(err::println);
    archive.conclusions().forget();
    new GroundSearch(archive).makeAnewIfThere();
    out.println(
        merged.decisions() == 0
            ? "Nothing in " + other + " was new."
            : Counted.of(merged.decisions(), "decision")
                + " and "
                + Counted.of(merged.originals(), "original")
                + " came from "
                + other
                + ".");
    if (merged.follows() > 0) {
      out.println(
          "The program decided "
              + Counted.of(merged.follows(), "thing")
              + " that followed; `decisions` lists them under its own name.");
    }
    if (!merged.apart().isEmpty()) {
      out.println(
          Counted.of(merged.apart().size(), "thing")
              + " decided differently on both: see `apart`.");
    }
    return merged.faults().isEmpty() ? 0 : 1;
  }
}
