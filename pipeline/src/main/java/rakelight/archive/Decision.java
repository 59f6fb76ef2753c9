package rakelight.archive;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * One entry of the journal. Never changed once written.
 *
 * @param counter its place among the decisions, from 1; order comes from this and never from the
 *     clock. As long as nothing was merged it is the decision's counter in the ledger; see {@link
 *     DecisionOrder}
 * @param reader who decided; {@link #PROGRAM} for what the program notes down itself
 * @param at when, by the clock of the machine
 * @param kind what sort of decision, such as {@code photograph.assigned}
 * @param version of the payload's form, from 1
 * @param subject the thing decided about
 * @param payload its content; what a kind and version hold is written in docs/archive-format.md
 * @param restsOn earlier decisions that must stand for this one to make sense
 */
public record Decision(
    DecisionId id,
    long counter,
    String reader,
    Instant at,
    String kind,
    int version,
    UUID subject,
    JsonNode payload,
    List<DecisionId> restsOn) {
  /** The reader's name under which the program writes what it observed by itself. */
  public static final String PROGRAM = "rakelight";

  /** The kind of an undo; its payload's {@link #UNDOES} names the decision undone. */
  public static final String UNDONE = "decision.undone";

  static final String UNDOES = "undoes";

  public Decision {
    restsOn = List.copyOf(restsOn);
  }

  /**
   * Refuses a payload of a form this program doesn't know.
   *
   * @throws ArchiveException if the version isn't the newest known or an earlier one
   */
  public void requireVersion(int newest) {
    if (version > newest) {
      throw new ArchiveException(
          kind + " of version " + version + " was written by a newer program. Use that version.");
    }
  }

  /** Of an undo, what it undoes. */
  public Optional<DecisionId> undoes() {
    return kind.equals(UNDONE)
        ? Optional.of(DecisionId.of(payload.path(UNDOES).asText()))
        : Optional.empty();
  }

  /** The payload as a record. */
  public <T> T payload(Class<T> type) {
    return Json.read(payload, type);
  }
}
