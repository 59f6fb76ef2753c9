package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.desk.GuideSheets;
import rakelight.marker.Caution;
import rakelight.survey.FirstToRecord;

@Command(
    name = "first",
    description = {
      "Which markers to record first: those that may lose soonest what nobody has read yet, each with",
      "its reasons. Material comes from `describe`, decay from `condition`. A ranking, no forecast."
    })
final class FirstCommand extends ArchiveCommand {
  @Option(
      names = "--limit",
      paramLabel = "N",
      defaultValue = "20",
      description = "So many at most (default: ${DEFAULT-VALUE}).")
  private int limit;

  @Option(names = "--pdf", paramLabel = "FILE", description = "Writes them as a sheet to print.")
  private Optional<Path> pdf = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) throws IOException {
    if (limit < 1) {
      throw wrong("--limit must be 1 or more, not " + limit);
    }
    List<FirstToRecord.Urgency> all = FirstToRecord.of(archive);
    if (pdf.isPresent()) {
      LocalDate day = LocalDate.now(archive.ground().zone());
      try (OutputStream file = Files.newOutputStream(pdf.get())) {
        GuideSheets.first(archive, day, all.subList(0, Math.min(limit, all.size())), file);
      }
      if (!json) {
        out().println("Written: " + pdf.get());
        return 0;
      }
    }
    int rank = 0;
    for (FirstToRecord.Urgency one : all.subList(0, Math.min(limit, all.size()))) {
      rank++;
      if (json) {
        ObjectNode object =
            JsonLines.object()
                .put("rank", rank)
                .put("marker", one.marker().number())
                .put("expectedLoss", Math.round(one.expectedLoss() * 1000) / 1000.0);
        one.reasons().forEach(reason -> object.withArray("reasons").add(reason));
        if (!one.unsafe().isEmpty()) {
          object.put("unsafe", one.unsafe());
        }
        JsonLines.print(out(), object);
      } else {
        out()
            .println(
                rank
                    + ". marker "
                    + one.marker().number()
                    + "  "
                    + String.join("; ", one.reasons())
                    + (one.unsafe().isEmpty() ? "" : "  UNSAFE: " + one.unsafe()));
      }
    }
    if (!json && rank > 0) {
      if (all.size() > rank) {
        out().println("and " + Counted.of(all.size() - rank, "more marker") + " (--limit).");
      }
      out().println(Caution.LOOK_ONLY);
      Caution.VISIT.forEach(out()::println);
    }
    return 0;
  }
}
