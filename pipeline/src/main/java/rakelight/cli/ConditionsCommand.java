package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.marker.Caution;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.MarkerStore;

@Command(
    name = "conditions",
    description = {
      "Lists the newest note of each marker's condition: what is unsafe to stand beside first, then",
      "what is fading and should be recorded soon. With --marker all notes of one, the newest first."
    })
final class ConditionsCommand extends ArchiveCommand {
  @Option(names = "--marker", paramLabel = "NUMBER", description = "All notes of this one.")
  private Optional<String> number = Optional.empty();

  @Option(names = "--json", description = "One JSON object a line.")
  private boolean json;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    MarkerStore markers = new MarkerStore(archive);
    ConditionStore store = new ConditionStore(archive);
    List<ConditionNote> notes =
        number
            .map(markers::named)
            .map(marker -> store.ofMarker(marker.id()))
            .orElseGet(() -> urgentFirst(store.newest().values().stream().toList()));
    notes.forEach(note -> print(out, note, markers));
    if (!json && notes.stream().anyMatch(note -> !note.unsafe().isEmpty())) {
      out.println(Caution.CONDITION);
    }
    return 0;
  }

  private static List<ConditionNote> urgentFirst(List<ConditionNote> notes) {
    return notes.stream()
        .sorted(
            Comparator.comparing((ConditionNote note) -> note.unsafe().isEmpty())
                .thenComparing(note -> note.fading().isEmpty()))
        .toList();
  }

  private void print(PrintWriter out, ConditionNote note, MarkerStore markers) {
    String marker = markers.numberOf(note.marker());
    if (json) {
      ObjectNode object = JsonLines.object().put("marker", marker).put("on", note.on().toString());
      note.words().forEach(word -> object.withArray("words").add(word.label()));
      object.put("unsafe", !note.unsafe().isEmpty()).put("fading", !note.fading().isEmpty());
      note.where().parts().forEach(part -> object.withArray("parts").add(part));
      note.where().areas().forEach(area -> object.withArray("areas").add(area.label()));
      note.where().happened().ifPresent(when -> object.put("happened", when));
      if (!note.remark().isEmpty()) {
        object.put("remark", note.remark());
      }
      JsonLines.print(
          out,
          object
              .put("reader", note.reader())
              .put("at", note.at().toString())
              .put("decision", note.decision().toString()));
    } else {
      out.println(
          "marker "
              + marker
              + "  "
              + note.on()
              + "  "
              + note.told()
              + "  "
              + note.reader()
              + (note.unsafe().isEmpty() ? "" : "  UNSAFE"));
    }
  }
}
