package rakelight.reading;

import java.util.Optional;

/**
 * One thing a slot may hold.
 *
 * @param text a letter, several letters, a space, or nothing (the empty string)
 * @param p its probability by what the pictures show, 0 to 1
 * @param leaning its probability once {@link Language} has leant on it, 0 to 1; empty where nobody
 *     asked. Kept apart from what was seen, and shown apart
 */
public record Alternative(String text, double p, Optional<Double> leaning) {
  private static final double TOLERANCE = 1e-9;

  public Alternative {
    if (!(p >= 0 && p <= 1 + TOLERANCE)) {
      throw new IllegalArgumentException("A probability lies between 0 and 1, not at " + p);
    }
    leaning.ifPresent(
        q -> {
          if (!(q >= 0 && q <= 1 + TOLERANCE)) {
            throw new IllegalArgumentException("A leaning lies between 0 and 1, not at " + q);
          }
        });
  }

  /** What pictures show, without language. */
  public Alternative(String text, double p) {
    this(text, p, Optional.empty());
  }

  /** With the lean where there is one, else what was seen. */
  public double leant() {
    return leaning.orElse(p);
  }
}
