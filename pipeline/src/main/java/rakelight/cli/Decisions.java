package rakelight.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.Json;
import rakelight.work.Sight;

@Command(name = "decisions", description = "Lists what was decided, by whom, when; oldest first.")
final class Decisions extends ArchiveCommand {
  private static final int PAYLOAD_CHARS = 100;

  @Option(
      names = "--last",
      defaultValue = "50",
      paramLabel = "N",
      description = "How many, the newest (default: ${DEFAULT-VALUE}; 0 for all).")
  private long last;

  @Option(names = "--json", description = "One JSON object a line, with the whole payload.")
  private boolean json;

  @Override
  int run(Archive archive) {
    PrintWriter out = out();
    long newest = archive.journal().lastCounter();
    List<Decision> decisions = archive.journal().since(last == 0 ? 0 : newest - last);
    Map<DecisionId, DecisionId> undone = archive.journal().undone();
    Sight sight = new Sight(archive);
    for (Decision whole : decisions) {
      Decision decision = sight.isOpen(whole) ? whole : sealed(whole);
      if (json) {
        ObjectNode object = JsonLines.object();
        object.setAll((ObjectNode) Json.tree(decision));
        object.put("stands", !undone.containsKey(decision.id()));
        JsonLines.print(out, object);
      } else {
        out.println(line(decision, undone.containsKey(decision.id())));
      }
    }
    return 0;
  }

  /**
   * The same decision without what it says: a second reader mustn't see it before he has signed.
   */
  private static Decision sealed(Decision decision) {
    return new Decision(
        decision.id(),
        decision.counter(),
        decision.reader(),
        decision.at(),
        decision.kind(),
        decision.version(),
        decision.subject(),
        Json.tree(Map.of("sealed", true)),
        decision.restsOn());
  }

  private static String line(Decision decision, boolean undone) {
    String payload = Json.text(decision.payload());
    return decision.counter()
        + "  "
        + decision.id()
        + "  "
        + decision.at()
        + "  "
        + decision.reader()
        + "  "
        + decision.kind()
        + (undone ? " (undone)" : "")
        + "  "
        + (payload.length() <= PAYLOAD_CHARS ? payload : payload.substring(0, PAYLOAD_CHARS) + "…");
  }
}
