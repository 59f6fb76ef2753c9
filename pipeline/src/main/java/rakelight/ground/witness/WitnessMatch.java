package rakelight.ground.witness;

import java.util.List;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;

/**
 * A row of an earlier list, and which stones it may speak of.
 *
 * @param candidates the likeliest first; none that people said it isn't
 */
public record WitnessMatch(
    WitnessList list, WitnessRow row, State state, List<Candidate> candidates) {
  /** How sure it is. */
  public enum State {
    /** Somebody said so. */
    DECIDED("decided"),
    /** What speaks for one is strong, and nothing like it speaks for another. */
    SURE("sure"),
    /** One may be it. */
    DOUBTFUL("doubtful"),
    /** Nothing speaks for any. */
    NONE("no stone");

    private final String words;

    State(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }

  /**
   * A stone that a row may speak of.
   *
   * @param weight what speaks for it less what speaks against; see {@link WitnessMatches}
   * @param reasons in words
   */
  public record Candidate(MarkerId marker, String number, double weight, List<String> reasons) {
    public Candidate {
      reasons = List.copyOf(reasons);
    }
  }

  /**
   * Where the letters of the stone and of the list differ.
   *
   * @param face whose reading it is
   */
  public record Difference(WitnessMatch match, FaceId face, String faceName, SideBySide letters) {}

  public WitnessMatch {
    candidates = List.copyOf(candidates);
  }

  /** How the row is named, such as {@code 5.3}. */
  public String place() {
    return list.place(row);
  }

  /** Whether which stone it speaks of is settled, by people or by what speaks for it. */
  public boolean isSettled() {
    return state == State.DECIDED || state == State.SURE;
  }
}
