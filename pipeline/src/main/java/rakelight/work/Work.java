package rakelight.work;

import java.util.List;
import java.util.Optional;
import rakelight.inscription.Draft;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Reading;
import rakelight.inscription.Suggestion;
import rakelight.photo.Face;
import rakelight.reading.Proposal;

/**
 * A face as one reader has it before him.
 *
 * @param version names the state of the draft; the same state has the same version
 * @param stored whether the draft is in the journal, or is only where the reader would begin
 * @param shown what the proposal suggests, as far as this reader may see it
 * @param readings all that was signed of it, sealed or not
 */
public record Work(
    Face face,
    String reader,
    Task task,
    String version,
    boolean stored,
    Draft draft,
    Optional<Proposal> proposal,
    List<Suggestion> shown,
    FaceReadings readings) {
  /** What there is to do for this reader. */
  public enum Task {
    READ,
    SETTLE,
    DONE,
    LOOK;

    /** As the interface writes it. */
    public String label() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }
  }

  /** Whether another reads it too, so that neither may see the other or the machine's names. */
  public boolean blind() {
    return readings.required() > 1;
  }

  /** Whether the machine's names and dates aren't to be shown: until both have signed. */
  public boolean heldBack() {
    return readings.heldBack();
  }

  /** The reading that stands, where this reader may see it. */
  public Optional<Reading> before() {
    return readings.current();
  }

  /** Whether what others sign meanwhile is nothing to this reader, who mustn't see it. */
  boolean readsAlone() {
    return (blind() || readings.test()) && task != Task.SETTLE;
  }

  /** The two readings to be settled, for whoever isn't one of their readers. */
  public Optional<FaceReadings.Two> settling() {
    return readings.toSettle(reader);
  }
}
