package rakelight.cli;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.marker.Caution;
import rakelight.marker.Condition;
import rakelight.marker.Condition.Concern;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

@Command(
    name = "condition",
    description = {
      "Notes what was seen of a marker's condition on a day, in words of the trade (--words lists them):",
      "how it stands, how its stone decays, and what endangers whoever comes. `conditions` lists, `undo`",
      "takes back.",
      Caution.CONDITION
    })
final class ConditionCommand extends ArchiveCommand {
  private static final String WORDS =
      Arrays.stream(Condition.values()).map(Condition::label).collect(Collectors.joining(", "));

  @Parameters(index = "1", arity = "0..1", paramLabel = "NUMBER", description = "The marker.")
  private Optional<String> number = Optional.empty();

  @Parameters(
      index = "2..*",
      arity = "0..*",
      paramLabel = "WORD",
      description = "What was seen; a word of two is quoted.")
  private List<String> seenWords = new ArrayList<>();

  @Option(names = "--words", description = "Lists the words that may be used, and what they mean.")
  private boolean listed;

  @Option(names = "--on", paramLabel = "DAY", description = "The day it was seen.")
  private Optional<LocalDate> on = Optional.empty();

  @Option(
      names = "--part",
      paramLabel = "PART",
      description = "The part of the marker it is on, such as shaft; may be repeated.")
  private List<String> parts = new ArrayList<>();

  @Option(
      names = "--area",
      paramLabel = "AREA",
      description = {
        "Where on the face: top left, top, top right, left, middle, right, foot left, foot, foot right;",
        "may be repeated."
      })
  private List<String> areas = new ArrayList<>();

  @Option(
      names = "--happened",
      paramLabel = "WHEN",
      description = "When damage came about, if that is known: 2024, 2024-05 or 2024-05-12")
  private Optional<String> happened = Optional.empty();

  @Option(names = "--remark", paramLabel = "WORDS", description = "Anything worth saying.")
  private String remark = "";

  @Option(names = "--reader", paramLabel = "NAME", description = "Your name.")
  private Optional<String> reader = Optional.empty();

  @Override
  int run(Archive archive) {
    if (listed) {
      for (Condition word : Condition.values()) {
        out()
            .println(
                word.label()
                    + ": "
                    + word.meaning()
                    + (word.concerns().contains(Concern.UNSAFE) ? "  (unsafe)" : "")
                    + (word.concerns().contains(Concern.FADING) ? "  (letters going)" : ""));
      }
      return 0;
    }
    if (number.isEmpty() || seenWords.isEmpty() || on.isEmpty() || reader.isEmpty()) {
      throw wrong("Name the marker and what you saw, the day (--on) and yourself (--reader)");
    }
    List<Condition> seen =
        seenWords.stream()
            .map(
                word ->
                    Condition.of(word)
                        .orElseThrow(() -> wrong("'" + word + "' isn't one of " + WORDS)))
            .toList();
    List<ConditionNote.Area> places =
        areas.stream()
            .map(
                area ->
                    ConditionNote.Area.of(area)
                        .orElseThrow(() -> wrong("--area must be such as top left, not " + area)))
            .toList();
    Marker marker = new MarkerStore(archive).named(number.get());
    ConditionStore store = new ConditionStore(archive);
    store.note(
        marker.id(),
        on.get(),
        seen,
        new ConditionNote.Where(parts, places, happened),
        remark,
        reader.get());
    out().println("marker " + marker.number() + ": " + store.ofMarker(marker.id()).get(0).told());
    return 0;
  }
}
