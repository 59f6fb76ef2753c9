package rakelight.ground;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.StreamSupport;
import rakelight.archive.Archive;
import rakelight.archive.Conclusions;
import rakelight.archive.Json;
import rakelight.archive.Sha256;
import rakelight.ground.FootstoneModel.Answer;

/**
 * Answers of {@link FootstoneModel}, each question solved once. The question holds all that the
 * answer follows from, so that its digest is the key; after a link is confirmed only its own family
 * is solved anew, and undoing finds the answer that was there before. Thread-safe.
 */
public final class KeptAnswers {
  static final Conclusions.Kind KIND = new Conclusions.Kind("footstones", FootstoneModel.VERSION);

  private final Conclusions conclusions;
  private final Map<String, String> known;
  private final Map<String, String> made = new HashMap<>();
  private final Map<FamilyPlot, Answer> inMind = new HashMap<>();

  /** An answer as it is written down. */
  private record Written(
      List<FootstoneFinding> findings, boolean exact, double samplingError, String row) {}

  public KeptAnswers(Archive archive) {
    conclusions = archive.conclusions();
    known = conclusions.all(KIND);
  }

  /** The answer to a question, solved if nobody has asked before. */
  synchronized Answer of(FamilyPlot plot) {
    return inMind.computeIfAbsent(plot, this::found);
  }

  private Answer found(FamilyPlot plot) {
    String key = key(plot);
    String kept = known.get(key);
    if (kept != null) {
      Written written = Json.read(kept, Written.class);
      return new Answer(
          written.findings(), written.exact(), written.samplingError(), written.row());
    }
    Answer answer = FootstoneModel.solve(plot);
    made.put(
        key,
        Json.text(
            new Written(
                answer.findings(), answer.isExact(), answer.samplingError(), answer.row())));
    return answer;
  }

  /** Keeps what was solved since. */
  synchronized void keep() {
    conclusions.keep(KIND, made);
    known.putAll(made);
    made.clear();
  }

  /** The digest of a question; what has no order in it is put into one. */
  static String key(FamilyPlot plot) {
    ObjectNode tree = (ObjectNode) Json.tree(plot);
    sort(tree, "confirmed");
    sort(tree, "refused");
    tree.path("persons").forEach(person -> sort((ObjectNode) person, "relations"));
    return Sha256.of(Json.canonical(tree)).hex();
  }

  private static void sort(ObjectNode of, String field) {
    List<JsonNode> sorted =
        StreamSupport.stream(of.path(field).spliterator(), false)
            .sorted((one, other) -> one.toString().compareTo(other.toString()))
            .toList();
    of.putArray(field).addAll(sorted);
  }
}
