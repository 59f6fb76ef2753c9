package rakelight.cli;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rakelight.archive.Archive;
import rakelight.marker.Caution;
import rakelight.marker.Condition;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

@Command(
    name = "condition",
    description = {
      "Notes what was seen of a marker's condition on a day, in words of the trade: sound, leaning,",
      "loose, broken, fallen, sunken, cracked, delaminating, sugaring, scaling, eroding, crust,",
      "biological growth, repaired, illegible. `conditions` lists, `undo` takes back.",
      Caution.CONDITION
    })
final class ConditionCommand extends ArchiveCommand {
  private static final String WORDS =
      Arrays.stream(Condition.values()).map(Condition::label).collect(Collectors.joining(", "));

  @Parameters(index = "1", paramLabel = "NUMBER", description = "The marker.")
  private String number;

  @Parameters(
      index = "2..*",
      arity = "1..*",
      paramLabel = "WORD",
      description = "What was seen; a word of two is quoted.")
  private List<String> words;

  @Option(names = "--on", required = true, paramLabel = "DAY", description = "The day it was seen.")
  private LocalDate on;

  @Option(names = "--remark", paramLabel = "WORDS", description = "Anything worth saying.")
  private String remark = "";

  @Option(names = "--reader", required = true, paramLabel = "NAME", description = "Your name.")
  private String reader;

  @Override
  int run(Archive archive) {
    List<Condition> seen =
        words.stream()
            .map(
                word ->
                    Condition.of(word)
                        .orElseThrow(() -> wrong("'" + word + "' isn't one of " + WORDS)))
            .toList();
    Marker marker = new MarkerStore(archive).named(number);
    ConditionStore store = new ConditionStore(archive);
    store.note(marker.id(), on, seen, remark, reader);
    store
        .newest(marker.id())
        .ifPresent(note -> out().println("marker " + marker.number() + ": " + note.told()));
    return 0;
  }
}
