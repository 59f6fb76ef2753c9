package rakelight.work;

import java.time.Instant;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;

/**
 * A face that somebody put aside.
 *
 * @param why for whom or what
 * @param note in the reader's words; may be empty
 */
public record LeftFace(
    FaceId face, Why why, String note, String reader, Instant at, DecisionId decision) {
  /** What a face waits for. */
  public enum Why {
    ANOTHER_READER("another-reader"),
    OTHER_LIGHT("other-light");

    private final String label;

    Why(String label) {
      this.label = label;
    }

    /** As the interface writes it. */
    public String label() {
      return label;
    }
  }
}
