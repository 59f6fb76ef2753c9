package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.Bag;
import rakelight.archive.Check;
import rakelight.archive.Json;
import rakelight.reading.DerivedCheck;
import rakelight.reading.MachineReader;

@Command(
    name = "check",
    description = {
      "Compares every original with its digest, the ledger with its journal, and what was",
      "derived with what is asked for now; or every file of a backup with its manifests."
    })
final class CheckCommand extends ArchiveCommand {
  /** Lines told of what is missing or out of date; a new season would fill pages. */
  private static final int MOST_TOLD = 20;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Option(names = "--rebuild", description = "First makes the state tables anew from the journal.")
  private boolean rebuild;

  @Option(
      names = "--drop-unneeded",
      description =
          "Deletes what was derived and nothing needs any more, or isn't as it was written.")
  private boolean dropUnneeded;

  @Option(
      names = "--against",
      paramLabel = "BACKUP",
      description = "Also compares the journal with that of a backup.")
  private Optional<Path> against;

  @Override
  public Integer call() throws Exception {
    return Bag.isAt(root()) ? checkBackup() : super.call();
  }

  private int checkBackup() {
    if (rebuild || dropUnneeded || against.isPresent()) {
      throw wrong(
          "A backup is only looked at: no --rebuild, --drop-unneeded or --against with it.");
    }
    Check.Result result = CheckedBackup.of(root(), file -> {});
    result.faults().forEach(fault -> print(out(), fault));
    if (json) {
      JsonLines.print(
          out(),
          JsonLines.object()
              .put("originals", result.originals())
              .put("decisions", result.decisions())
              .put("faults", result.faults().size()));
    } else {
      out()
          .println(
              "A backup of "
                  + Counted.of(result.originals(), "original")
                  + " and "
                  + Counted.of(result.decisions(), "decision")
                  + ": "
                  + (result.faults().isEmpty()
                      ? "nothing wrong."
                      : Counted.of(result.faults().size(), "thing") + " wrong."));
    }
    return result.faults().isEmpty() ? 0 : 1;
  }

  @Override
  int run(Archive archive) throws IOException {
    try {
      return check(archive);
    } catch (DateTimeException | IllegalArgumentException e) {
      // A row of the state tables, which are read to know what to look for.
      err()
          .println(
              root().resolve("ledger.sqlite")
                  + ": something in it can't be read: "
                  + e.getMessage()
                  + ". `check --rebuild` makes its tables anew from the journal; else restore it"
                  + " from a backup.");
      return 1;
    }
  }

  private int check(Archive archive) throws IOException {
    PrintWriter out = out();
    Progress progress = Progress.on(err(), "originals");
    if (rebuild) {
      archive.journal().rebuild();
    }
    Map<Path, Long> expected = Expected.originals(archive);
    long sizeBytes = expected.values().stream().mapToLong(Long::longValue).sum();
    progress.start(expected.size(), sizeBytes);
    Check check = new Check(archive);
    against.ifPresent(check::against);
    Check.Result result =
        check.run(
            expected.keySet(), original -> progress.step(expected.getOrDefault(original, 0L)));
    progress.clear();
    result.faults().forEach(fault -> print(out, fault));
    List<DerivedCheck.Finding> findings;
    int dropped = 0;
    try (MachineReader reader = MachineReader.standard()) {
      DerivedCheck derived = new DerivedCheck(archive, reader);
      findings = derived.run();
      if (dropUnneeded) {
        dropped = derived.drop() + archive.derived().dropChanged();
      }
    }
    if (json) {
      findings.forEach(finding -> JsonLines.print(out, object(finding)));
      JsonLines.print(out, summary(result, sizeBytes, findings, dropped));
    } else {
      tell(out, result, findings);
    }
    return result.faults().isEmpty() ? 0 : 1;
  }

  private void print(PrintWriter out, Check.Fault fault) {
    if (json) {
      JsonLines.print(
          out,
          JsonLines.object()
              .put("fault", fault.code())
              .put("where", fault.where())
              .put("text", fault.text()));
    } else {
      out.println(fault.where() + ": " + fault.text());
    }
  }

  private static ObjectNode object(DerivedCheck.Finding finding) {
    return JsonLines.object()
        .put("state", word(finding.state()))
        .put("stage", finding.stage())
        .put("of", finding.of())
        .put("bytes", finding.sizeBytes());
  }

  private static String word(DerivedCheck.State state) {
    return state.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static ObjectNode summary(
      Check.Result result, long sizeBytes, List<DerivedCheck.Finding> findings, int dropped) {
    ObjectNode summary =
        JsonLines.object()
            .put("originals", result.originals())
            .put("bytes", sizeBytes)
            .put("decisions", result.decisions())
            .put("faults", result.faults().size());
    summary.set("derived", Json.tree(new TreeMap<>(result.derived())));
    for (DerivedCheck.State state : DerivedCheck.State.values()) {
      summary.put(word(state), findings.stream().filter(f -> f.state() == state).count());
    }
    return summary.put("dropped", dropped);
  }

  private void tell(PrintWriter out, Check.Result result, List<DerivedCheck.Finding> findings) {
    out.println(
        Counted.of(result.originals(), "original")
            + " read, "
            + Counted.of(result.decisions(), "decision")
            + " replayed, "
            + (result.faults().isEmpty()
                ? "nothing wrong."
                : Counted.of(result.faults().size(), "thing") + " wrong."));
    new TreeMap<>(result.derived())
        .forEach((stage, count) -> out.println("derived: " + stage + " " + count));
    Map<String, List<DerivedCheck.Finding>> unneeded = new TreeMap<>();
    int open = 0;
    for (DerivedCheck.Finding finding : findings) {
      if (finding.state() == DerivedCheck.State.UNNEEDED) {
        unneeded.computeIfAbsent(finding.stage(), stage -> new ArrayList<>()).add(finding);
      } else if (++open <= MOST_TOLD) {
        out.println(
            finding.of()
                + ": its "
                + finding.stage()
                + (finding.state() == DerivedCheck.State.MISSING
                    ? " is missing."
                    : " is out of date: lights, photographs or models have changed since."));
      }
    }
    if (open > MOST_TOLD) {
      out.println("And " + (open - MOST_TOLD) + " more; --json lists all.");
    }
    if (open > 0) {
      out.println("`propose` makes what is missing or out of date.");
    }
    unneeded.forEach(
        (stage, all) ->
            out.printf(
                Locale.ROOT,
                "derived: %s %d that nothing needs any more, %.1f MB%n",
                stage,
                all.size(),
                all.stream().mapToLong(DerivedCheck.Finding::sizeBytes).sum() / 1e6));
    if (!unneeded.isEmpty()) {
      out.println(
          dropUnneeded ? "They have been deleted." : "`check --drop-unneeded` deletes them.");
    }
  }
}
