package rakelight.survey;

import java.time.Instant;
import java.util.Arrays;
import java.util.Optional;
import rakelight.archive.DecisionId;

/**
 * What somebody said of two carvings, each named by the decision that noted it as an emblem.
 *
 * @param decision the saying itself, for undo
 */
public record SaidOfCarvings(
    DecisionId decision, DecisionId one, DecisionId other, Alike said, String reader, Instant at) {

  /** What may be said. */
  public enum Alike {
    /** One thing is carved; of who cut it nothing is said. */
    SAME_MOTIF("same motif"),
    /** One thing, and cut by one carver. */
    SAME_HAND("same hand"),
    /** Neither. */
    NOT("not");

    private final String label;

    Alike(String label) {
      this.label = label;
    }

    public String label() {
      return label;
    }

    /** By its label. */
    public static Optional<Alike> labelled(String label) {
      return Arrays.stream(values()).filter(one -> one.label.equals(label)).findFirst();
    }
  }

  /** Whether it is of these two, whichever comes first. */
  public boolean isOf(DecisionId a, DecisionId b) {
    return one.equals(a) && other.equals(b) || one.equals(b) && other.equals(a);
  }
}
