package rakelight.archive;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.UUID;

/**
 * A decision about to be written; the journal gives it id, counter and time.
 *
 * @see Decision
 */
public record NewDecision(
    String reader,
    String kind,
    int version,
    UUID subject,
    JsonNode payload,
    List<DecisionId> restsOn) {
  /**
   * @throws IllegalArgumentException if reader or kind is blank or the version is below 1
   */
  public NewDecision {
    if (reader.isBlank()) {
      throw new IllegalArgumentException("a decision needs the reader's name (--reader)");
    }
    if (kind.isBlank() || version < 1) {
      throw new IllegalArgumentException("a decision needs a kind and a version from 1");
    }
    restsOn = List.copyOf(restsOn);
  }

  /** A decision whose payload is a record, resting on nothing. */
  public static NewDecision of(
      String reader, String kind, int version, UUID subject, Object payload) {
    return new NewDecision(reader, kind, version, subject, Json.tree(payload), List.of());
  }

  /** The undo of a decision. */
  public static NewDecision undoing(Decision decision, String reader) {
    return of(
        reader, Decision.UNDONE, 1, decision.subject(), Map.of(Decision.UNDOES, decision.id()));
  }

  /** The same decision, resting on these. */
  public NewDecision restingOn(List<DecisionId> decisions) {
    return new NewDecision(reader, kind, version, subject, payload, decisions);
  }
}
