package rakelight.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.Merging;
import rakelight.archive.Pairing;
import rakelight.search.GroundSearch;
import rakelight.work.BegunApart;

@Command(
    name = "merge",
    description = {
      "Brings what was decided in a copy of the archive, on another laptop, into this one; the"
          + " copy",
      "is only looked at. Merging again changes nothing, and it doesn't matter which is merged"
          + " into",
      "which. What was decided differently on both is listed by `apart`. With --begun-apart also"
          + " an",
      "archive of the same ground that was begun by an `init` of its own."
    })
final class MergeCommand extends ArchiveCommand {
  @Parameters(index = "1", paramLabel = "OTHER", description = "The folder of the copy.")
  private Path other;

  @Option(
      names = "--begun-apart",
      description = {
        "The other was begun by another `init`: photographs of the same bytes, markers of one",
        "number and their faces of one name become one. This can't be undone."
      })
  private boolean begunApart;

  @Option(
      names = "--two",
      paramLabel = "NUMBER",
      description = "With --begun-apart: both have this number, but they are two markers.")
  private List<String> two = new ArrayList<>();

  @Option(names = "--dry-run", description = "Only says what would be done.")
  private boolean dryRun;

  @Override
  int run(Archive archive) {
    if (!two.isEmpty() && !begunApart) {
      throw wrong("--two goes with --begun-apart: in copies of one archive markers have ids.");
    }
    Optional<Pairing> pairing = begunApart ? Optional.of(new BegunApart(two)) : Optional.empty();
    Merging.Result merged;
    try (Archive there = Archive.openToLook(other, Projections.all())) {
      merged =
          Merging.of(
              archive,
              there,
              new Merging.How(Projections.joinings(), pairing, 0, dryRun),
              file -> {});
    }
    merged.pairs().ifPresent(this::tell);
    if (dryRun) {
      out()
          .println(
              Counted.of(merged.decisions(), "decision")
                  + " and "
                  + Counted.of(merged.originals(), "original")
                  + " would come; "
                  + Counted.of(merged.apart().size(), "thing")
                  + " decided differently on both would be asked about. Nothing was changed.");
      return 0;
    }
    return tell(archive, merged, other, out(), err());
  }

  private void tell(Pairing.Pairs pairs) {
    out()
        .println(
            "Both have "
                + Counted.of(pairs.markers(), "marker")
                + " of the same number and "
                + Counted.of(pairs.photographs(), "photograph")
                + " of the same bytes.");
    pairs.keptApart().forEach(line -> out().println("Kept as two: " + line + "."));
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
