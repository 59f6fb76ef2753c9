package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import rakelight.archive.Archive;
import rakelight.archive.Check;
import rakelight.archive.Json;
import rakelight.person.Source;
import rakelight.person.SourceStore;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;

@Command(
    name = "check",
    description = "Compares every original with its digest, and the ledger with its journal.")
final class CheckCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "ARCHIVE", description = "The archive's folder.")
  private Path root;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Option(names = "--rebuild", description = "First makes the state tables anew from the journal.")
  private boolean rebuild;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    Progress progress = Progress.on(spec.commandLine().getErr(), "originals");
    try (Archive archive = Archive.open(root, Projections.all())) {
      if (rebuild) {
        archive.journal().rebuild();
      }
      Map<Path, Long> expected = new LinkedHashMap<>();
      for (Photograph photograph : new PhotoStore(archive).photographs()) {
        expected.put(
            archive.originals().path(photograph.sha256(), photograph.format().extension()),
            photograph.sizeBytes());
      }
      for (Source source : new SourceStore(archive).sources()) {
        for (Source.Scan scan : source.scans()) {
          expected.put(archive.originals().path(scan.sha256(), scan.extension()), scan.sizeBytes());
        }
      }
      long sizeBytes = expected.values().stream().mapToLong(Long::longValue).sum();
      progress.start(expected.size(), sizeBytes);
      Check.Result result =
          new Check(archive)
              .run(
                  expected.keySet(),
                  original -> progress.step(expected.getOrDefault(original, 0L)));
      progress.clear();
      print(out, result, sizeBytes);
      return result.faults().isEmpty() ? 0 : 1;
    }
  }

  private void print(PrintWriter out, Check.Result result, long sizeBytes) {
    for (Check.Fault fault : result.faults()) {
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
    Map<String, Long> derived = new TreeMap<>(result.derived());
    if (json) {
      ObjectNode summary =
          JsonLines.object()
              .put("originals", result.originals())
              .put("bytes", sizeBytes)
              .put("decisions", result.decisions())
              .put("faults", result.faults().size());
      summary.set("derived", Json.tree(derived));
      JsonLines.print(out, summary);
      return;
    }
    out.println(
        result.originals()
            + " originals read, "
            + result.decisions()
            + " decisions replayed, "
            + (result.faults().isEmpty()
                ? "nothing wrong."
                : result.faults().size() + " things wrong."));
    derived.forEach((stage, count) -> out.println("derived: " + stage + " " + count));
  }
}
