package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence;
import rakelight.survey.DatingClue;
import rakelight.survey.MadeMarkers;
import rakelight.survey.Making;

@Command(
    name = "made",
    description = {
      "When markers were made: a span of years with four chances in five, by what they are (describe,",
      "emblems), by the dates they bear and by the ground's other markers; and whether that is of the",
      "time of the death. A date on a stone never proves when the stone was made."
    })
final class MadeCommand extends ArchiveCommand {
  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "NUMBER",
      description = "The marker; all of which anything is known if none is named.")
  private Optional<String> number = Optional.empty();

  @Option(
      names = "--region",
      paramLabel = "REGION",
      description = {
        "Fashions of a region instead of the ground's own; may be repeated. What holds everywhere is",
        "always used."
      })
  private List<String> regions = new ArrayList<>();

  @Option(
      names = "--table",
      paramLabel = "FILE.tsv",
      description = "Fashions of your own: of, clue, from, to, strict, source, parted by tabs.")
  private List<Path> tables = new ArrayList<>();

  @Option(names = "--opened", paramLabel = "YEAR", description = "When the ground was opened.")
  private Optional<Integer> opened = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    List<DatingClue> clues =
        new ArrayList<>(
            regions.isEmpty()
                ? DatingClue.ofGround(archive.ground().regions())
                : DatingClue.of(regions));
    tables.forEach(table -> clues.addAll(DatingClue.read(table)));
    MadeMarkers ground = new MadeMarkers(archive, clues, new Evidence(archive).confirmed());
    OptionalInt since = opened.map(OptionalInt::of).orElse(OptionalInt.empty());
    MarkerStore markers = new MarkerStore(archive);
    for (Marker marker : number.map(markers::named).map(List::of).orElseGet(markers::markers)) {
      Optional<Making.Made> made = ground.of(marker.id(), since);
      made.ifPresent(found -> print(marker, found));
      if (made.isEmpty() && number.isPresent() && !json) {
        out().println("marker " + marker.number() + "  not known: say what it is (describe)");
      }
    }
    return 0;
  }

  private void print(Marker marker, Making.Made made) {
    if (json) {
      ObjectNode object =
          JsonLines.object()
              .put("marker", marker.number())
              .put("from", made.from())
              .put("to", made.to())
              .put("likeliest", made.likeliest());
      made.ofItsTime().ifPresent(p -> object.put("ofItsTime", rounded(p)));
      made.later().ifPresent(p -> object.put("later", rounded(p)));
      made.before().ifPresent(p -> object.put("before", rounded(p)));
      made.olderThanGround().ifPresent(p -> object.put("olderThanGround", rounded(p)));
      made.conflict().ifPresent(words -> object.put("conflict", words));
      for (Making.Evidence one : made.evidence()) {
        object
            .withArray("evidence")
            .addObject()
            .put("words", one.words())
            .put("weight", one.weight())
            .put("bits", rounded(one.bits()));
      }
      JsonLines.print(out(), object);
      return;
    }
    out()
        .println(
            "marker "
                + marker.number()
                + "  made "
                + (made.from() == made.to() ? made.from() : made.from() + " to " + made.to())
                + made.ofItsTime()
                    .map(p -> "; of the time of the first death " + chance(p))
                    .orElse("")
                + made.later().filter(p -> p >= 0.1).map(p -> "; later " + chance(p)).orElse("")
                + made.before()
                    .filter(p -> p >= 0.1)
                    .map(p -> "; there before it " + chance(p))
                    .orElse("")
                + made.olderThanGround()
                    .filter(p -> p >= 0.1)
                    .map(p -> "; older than its ground " + chance(p))
                    .orElse(""));
    made.conflict().ifPresent(words -> out().println("  CONFLICT: " + words));
    made.evidence().forEach(one -> out().println("  " + one.weight() + ": " + one.words()));
  }

  private static String chance(double probability) {
    return Math.round(100 * probability) + " %";
  }

  private static double rounded(double value) {
    return Math.round(value * 1000) / 1000.0;
  }
}
