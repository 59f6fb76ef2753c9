package rakelight.survey;

/**
 * How the number of a line's letters that can be told changes between two seasons.
 *
 * @param change natural logarithm of how many times as many there are in the later one
 * @param uncertainty one standard deviation of that
 */
record LettersTold(double change, double uncertainty) {
  /**
   * What a machine sees changes so much where nothing but the light does: .03 on 216 rendered lines
   * in two lights (see measurements.md), a little more with real cameras.
   */
  private static final double MACHINE = 0.05;

  /** Two careful people differ so much. A choice, no source. */
  private static final double PEOPLE = 0.1;

  /** So many letters more on both sides, so that one letter of none isn't without measure. */
  private static final double HALF_A_LETTER = 0.5;

  /** By the letters that a machine expects to be right in each season. */
  static LettersTold byMachine(double before, double after) {
    return new LettersTold(change(before, after), MACHINE);
  }

  /** By those that people told: one each that is clear, half of one that isn't. */
  static LettersTold byPeople(double before, double after) {
    return new LettersTold(change(before, after), PEOPLE);
  }

  private static double change(double before, double after) {
    return Math.log((after + HALF_A_LETTER) / (before + HALF_A_LETTER));
  }

  /** Both together, each by how sure it is. */
  LettersTold and(LettersTold other) {
    double own = 1 / (uncertainty * uncertainty);
    double others = 1 / (other.uncertainty * other.uncertainty);
    return new LettersTold(
        (own * change + others * other.change) / (own + others), 1 / Math.sqrt(own + others));
  }
}
