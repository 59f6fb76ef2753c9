package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.desk.GuideSheets;
import rakelight.ground.PlannedWalk;
import rakelight.ground.PositionStore;
import rakelight.ground.Walk;
import rakelight.ground.WalkStore;
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
  private static final int LONGEST_STAY = 120;

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

  @Option(
      names = "--planned",
      paramLabel = "NAME",
      description = "A walk that somebody planned at the desk.")
  private Optional<String> planned = Optional.empty();

  @Option(names = "--pdf", paramLabel = "FILE", description = "Writes it as a sheet to print.")
  private Optional<Path> pdf = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) throws IOException {
    int ways = (numbers.isEmpty() ? 0 : 1) + (first < 1 ? 0 : 1) + (planned.isEmpty() ? 0 : 1);
    if (ways != 1) {
      throw wrong(
          "Name markers, or say how many of those to record first (--first 12), or name a walk"
              + " (--planned Saturday).");
    }
    if (!(minutes >= 0 && minutes <= LONGEST_STAY)) {
      throw wrong("--minutes must be 0 to " + LONGEST_STAY + ", not " + minutes);
    }
    PlannedWalk plan = plan(archive);
    if (pdf.isPresent()) {
      try (OutputStream file = Files.newOutputStream(pdf.get())) {
        GuideSheets.walk(archive, LocalDate.now(archive.ground().zone()), plan, file);
      }
      if (!json) {
        out().println("Written: " + pdf.get());
        return 0;
      }
    }
    MarkerStore store = new MarkerStore(archive);
    List<Marker> markers =
        plan.stops().stream().flatMap(stop -> store.marker(stop.marker()).stream()).toList();
    PositionStore positions = new PositionStore(archive);
    Walk walk = Walk.of(markers, positions.best(), positions.plane(), plan.back());
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
                    + unsafe.map(why -> "  UNSAFE: " + why + ": look from afar").orElse("")
                    + (plan.note(stop.marker().id()).isEmpty()
                        ? ""
                        : "  " + plan.note(stop.marker().id())));
      }
    }
    if (!json) {
      out()
          .println(
              Counted.of(walk.stops().size(), "stop")
                  + ", "
                  + Math.round(walk.metres())
                  + " m in straight lines, about "
                  + Math.round(walk.minutes(plan.minutes()))
                  + " min with "
                  + plan.minutes()
                  + " at each.");
      out().println(Caution.LOOK_ONLY);
      Caution.VISIT.forEach(out()::println);
    }
    return 0;
  }

  /** What is walked: as somebody planned it, or as it is asked for now. */
  private PlannedWalk plan(Archive archive) {
    if (planned.isPresent()) {
      List<PlannedWalk> walks = new WalkStore(archive).walks();
      return walks.stream()
          .filter(walk -> walk.name().equalsIgnoreCase(planned.get().strip()))
          .findFirst()
          .orElseThrow(
              () ->
                  new ArchiveException(
                      "No walk is called “"
                          + planned.get()
                          + "”; there are "
                          + walks.stream().map(PlannedWalk::name).collect(Collectors.joining(", "))
                          + "."));
    }
    MarkerStore store = new MarkerStore(archive);
    List<Marker> markers =
        numbers.isEmpty()
            ? FirstToRecord.of(archive).stream()
                .limit(first)
                .map(FirstToRecord.Urgency::marker)
                .toList()
            : numbers.stream().map(store::named).distinct().toList();
    return PlannedWalk.unkept(
        numbers.isEmpty() ? "Record these first" : "A walk",
        markers.stream().map(Marker::id).toList(),
        back,
        (int) Math.round(minutes));
  }
}
