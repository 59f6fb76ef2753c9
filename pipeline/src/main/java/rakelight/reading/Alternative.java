package rakelight.reading;

/**
 * One thing a slot may hold.
 *
 * @param text a letter, several letters, a space, or nothing (the empty string)
 * @param p its probability, 0 to 1
 */
public record Alternative(String text, double p) {
  public Alternative {
    if (!(p >= 0 && p <= 1 + 1e-9)) {
      throw new IllegalArgumentException("A probability lies between 0 and 1, not at " + p);
    }
  }
}
