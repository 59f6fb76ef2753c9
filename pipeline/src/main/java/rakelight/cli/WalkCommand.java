package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.ground.PositionStore;
import rakelight.ground.Walk;
import rakelight.marker.Caution;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.survey.FirstToRecord;

@Command(
    name = "walk",
    description = {
      "A walk past markers in a good order: those named, the first where it begins, or those to record",
      "first. Distances are straight lines between what is known of where they stand (position)."
    })
final class WalkCommand extends ArchiveCommand {
  @Parameters(
      index = "1..*",
      arity = "0..*",
      paramLabel = "NUMBER",
      description = "The markers; the walk begins at the first.")
  private List<String> numbers = new ArrayList<>();

  @Option(names = "--first", paramLabel = "N", description = "The N markers to record first.")
  private int first;

  @Option(names = "--back", description = "Return to where it begins.")
  private boolean back;

  @Option(
      names = "--minutes",
      paramLabel = "N",
      defaultValue = "5",
      description = "How long one stays at each (default: ${DEFAULT-VALUE}).")
  private double minutes;

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    if (numbers.isEmpty() == (first < 1)) {
      throw wrong("Name markers, or say how many of those to record first (--first 12).");
    }
    MarkerStore store = new MarkerStore(archive);
    List<Marker> markers =
        numbers.isEmpty()
            ? FirstToRecord.of(archive).stream()
                .limit(first)
                .map(FirstToRecord.Urgency::marker)
                .toList()
            : numbers.stream().map(store::named).distinct().toList();
    PositionStore positions = new PositionStore(archive);
    Walk walk = Walk.of(markers, positions.best(), positions.plane(), back);
    ConditionStore conditions = new ConditionStore(archive);
    int place = 0;
    for (Walk.Stop stop : walk.stops()) {
      place++;
      Optional<String> unsafe =
          conditions
              .newest(stop.marker().id())
              .map(ConditionNote::unsafe)
              .filter(why -> !why.isEmpty());
      if (json) {
        ObjectNode object =
            JsonLines.object().put("stop", place).put("marker", stop.marker().number());
        stop.metres().ifPresent(way -> object.put("metres", Math.round(way * 10) / 10.0));
        unsafe.ifPresent(why -> object.put("unsafe", why));
        JsonLines.print(out(), object);
      } else {
        out()
            .println(
                place
                    + ". marker "
                    + stop.marker().number()
                    + stop.metres().map(way -> "  " + Math.round(way) + " m on").orElse("")
                    + (place > walk.stops().size() - walk.unplaced()
                        ? "  nobody knows where it stands"
                        : "")
                    + unsafe.map(why -> "  UNSAFE: " + why + ": look from afar").orElse(""));
      }
    }
    if (!json) {
      out()
          .println(
              Counted.of(walk.stops().size(), "stop")
                  + ", "
                  + Math.round(walk.metres())
                  + " m in straight lines, about "
                  + Math.round(walk.minutes(minutes))
                  + " min with "
                  + Math.round(minutes)
                  + " at each.");
      out().println(Caution.LOOK_ONLY);
      Caution.VISIT.forEach(out()::println);
    }
    return 0;
  }
}
