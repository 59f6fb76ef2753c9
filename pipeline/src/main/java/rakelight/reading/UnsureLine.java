package rakelight.reading;

/**
 * A place of a face where a line may be: no line of its proposal, but offered to whoever reads it.
 * Nothing else sees it; neither search nor statements nor scores.
 *
 * @param line its place and what may be read there; its number goes on after those of the lines
 * @param p the probability that a line of letters stands there at all, 0 to 1; the odds of its
 *     letters hold if one does
 */
public record UnsureLine(ProposedLine line, double p) {
  public UnsureLine {
    if (!(p >= 0 && p <= 1)) {
      throw new IllegalArgumentException("A probability lies in 0 to 1, not at " + p);
    }
  }

  /** The same as the one of this number. */
  UnsureLine numbered(int number) {
    return new UnsureLine(line.numbered(number), p);
  }
}
