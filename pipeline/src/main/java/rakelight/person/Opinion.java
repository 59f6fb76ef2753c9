package rakelight.person;

import java.time.Instant;
import java.util.Optional;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;

/**
 * What somebody decided about persons.
 *
 * @param one the mention it is about; empty for somebody known from form alone
 * @param other the second mention
 * @param marker whose form tells of somebody
 * @param note why; may be empty
 * @param decision undoing it undoes the opinion
 */
public record Opinion(
    Kind kind,
    Optional<MentionId> one,
    Optional<MentionId> other,
    Optional<MarkerId> marker,
    String note,
    String reader,
    Instant at,
    DecisionId decision) {

  /** What was decided. */
  public enum Kind {
    /** Two mentions are of one person. */
    SAME,
    /** Two mentions are of two persons; not to be proposed again. */
    DIFFERENT,
    /** There is evidence that the person is dead. */
    DIED,
    /** A marker's form tells of somebody whom no letters name. */
    UNNAMED;

    String decisionKind() {
      return "person." + name().toLowerCase(java.util.Locale.ROOT);
    }
  }
}
