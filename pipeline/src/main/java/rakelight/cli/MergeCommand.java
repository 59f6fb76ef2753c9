package rakelight.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.ArchivePairing;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.LentPart;
import rakelight.archive.Merging;
import rakelight.inscription.ReadingStore;
import rakelight.search.GroundSearch;
import rakelight.work.BegunApart;
import rakelight.work.DecisionWords;

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
  /** As many as one looks over. */
  private static final int MOST_READINGS = 50;

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

  @Option(names = "--dry-run", description = "Only says what would come, and changes nothing.")
  private boolean dryRun;

  @Override
  int run(Archive archive) {
    if (!two.isEmpty() && !begunApart) {
      throw wrong("--two goes with --begun-apart: in copies of one archive markers have ids.");
    }
    Optional<ArchivePairing> pairing =
        begunApart ? Optional.of(new BegunApart(two)) : Optional.empty();
    try (Archive there = Archive.openToLook(other, Projections.all())) {
      if (LentPart.of(there).isPresent()) {
        throw new ArchiveException(
            other + ": a part that was lent, not a whole archive; `return` takes those back.");
      }
      Merging.Result merged =
          Merging.of(
              archive,
              there,
              new Merging.How(Projections.joinings(), pairing, 0, dryRun),
              file -> {});
      merged.pairs().ifPresent(this::tell);
      return dryRun
          ? foretell(archive, merged, there, out(), err())
          : tell(archive, merged, other, out(), err());
    }
  }

  private void tell(ArchivePairing.Pairs pairs) {
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
            : brought(merged) + " came from " + other + ".");
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

  /** What would come, in the same words; nothing is changed. */
  static int foretell(
      Archive archive, Merging.Result look, Archive there, PrintWriter out, PrintWriter err) {
    look.faults().forEach(err::println);
    out.println(
        look.decisions() == 0
            ? "Nothing in " + there.root() + " is new."
            : brought(look) + " would come from " + there.root() + ".");
    DecisionWords words = new DecisionWords(archive, there);
    readings(look, there, words).forEach(line -> out.println("  " + line));
    if (look.follows() > 0) {
      out.println(
          "The program would decide " + Counted.of(look.follows(), "thing") + " that follows.");
    }
    if (!look.apart().isEmpty()) {
      out.println(
          Counted.of(look.apart().size(), "thing")
              + " decided differently on both; neither is lost:");
      look.apart().forEach(one -> ApartCommand.print(out, "  ", words.tell(one), false));
    }
    out.println("Nothing is changed yet.");
    return look.faults().isEmpty() ? 0 : 1;
  }

  /** What was read there, and how much else was decided, reader by reader. */
  private static List<String> readings(Merging.Result look, Archive there, DecisionWords words) {
    List<String> lines = new ArrayList<>();
    Map<String, Integer> others = new TreeMap<>();
    for (DecisionId id : look.came()) {
      Decision decision = there.journal().find(id).orElseThrow();
      if (ReadingStore.isSigned(decision) && lines.size() < MOST_READINGS) {
        lines.add(
            decision.reader()
                + " read "
                + words.about(decision.subject())
                + ": "
                + words.say(decision).words());
      } else {
        others.merge(decision.reader(), 1, Integer::sum);
      }
    }
    others.forEach(
        (reader, count) -> lines.add(reader + ": " + Counted.of(count, "other decision")));
    return lines;
  }

  private static String brought(Merging.Result merged) {
    return Counted.of(merged.decisions(), "decision")
        + " and "
        + Counted.of(merged.originals(), "original");
  }
}
