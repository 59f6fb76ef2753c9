package rakelight.survey;

import java.time.Instant;
import java.util.Arrays;
import java.util.Optional;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;

/**
 * What somebody said of who lettered two faces.
 *
 * @param decision the saying itself, for undo
 */
public record SaidOfHands(
    DecisionId decision, FaceId one, FaceId other, Hands said, String reader, Instant at) {

  /** What may be said. */
  public enum Hands {
    /** One cutter lettered both. */
    ONE("one hand"),
    /** Two cutters did. */
    TWO("other hands"),
    /** Somebody looked and can't say. */
    OPEN("can't tell");

    private final String label;

    Hands(String label) {
      this.label = label;
    }

    public String label() {
      return label;
    }

    /** By its label. */
    public static Optional<Hands> labelled(String label) {
      return Arrays.stream(values()).filter(one -> one.label.equals(label)).findFirst();
    }
  }

  /** Whether it is of these two, whichever comes first. */
  public boolean isOf(FaceId a, FaceId b) {
    return one.equals(a) && other.equals(b) || one.equals(b) && other.equals(a);
  }

  /** Whether it is of this face and another. */
  public boolean isOf(FaceId face) {
    return one.equals(face) || other.equals(face);
  }
}
