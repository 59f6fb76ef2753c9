package rakelight.ground;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * What {@link FootstoneModel} makes of one footstone. Persons are places in the list of the plot;
 * an empty one means that it is of nobody who is named.
 *
 * @param stone its place in the list of the plot
 * @param best whose it is in the assignment that is expected to have most right
 * @param probability of that
 * @param runnerUp the likeliest other
 * @param runnerUpProbability of that
 * @param probabilities of each person, in their order; what is missing to one is nobody's
 * @param reasoned of whom {@code reasons} speaks: the best, or the likeliest person where that is
 *     nobody; empty where there is no person
 * @param reasons what speaks for and against; their decibans sum to the odds
 * @param wornAlone whether it rests on letters that are worn, and on nothing else to speak of: then
 *     it is no more than a reason to look
 * @param look what would decide it best, if anything would
 */
public record FootstoneFinding(
    int stone,
    Optional<Integer> best,
    double probability,
    Optional<Integer> runnerUp,
    double runnerUpProbability,
    List<Double> probabilities,
    Optional<Integer> reasoned,
    List<Reason> reasons,
    boolean wornAlone,
    Optional<Look> look) {
  /** What evidence is of. */
  public enum Sort {
    LETTERS,
    PLACE,
    SIDE,
    ROW,
    SIZE,
    YEAR,
    CUSTOM,
    CONFIRMED,
    OTHERS;

    /** As commands write it. */
    public String label() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * One piece of evidence.
   *
   * @param decibans ten times the decimal logarithm of the factor by which it changes the odds;
   *     above 0 it speaks for the person (the unit is A. M. Turing's, by I. J. Good, Probability
   *     and the Weighing of Evidence, 1950; from memory)
   */
  public record Reason(Sort sort, String words, double decibans) {
    /** In words, with its weight. */
    public String told() {
      return String.format(Locale.ROOT, "%s %+.0f", words, decibans);
    }
  }

  /**
   * An observation that would tell more.
   *
   * @param bits how much it is expected to tell of whose the stone is
   */
  public record Look(Sort sort, String words, double bits) {}

  public FootstoneFinding {
    probabilities = List.copyOf(probabilities);
    reasons = List.copyOf(reasons);
  }
}
