package rakelight.survey;

import java.time.Instant;
import rakelight.archive.DecisionId;

/**
 * What somebody said of two things that look alike.
 *
 * @param <T> what names a thing
 * @param <W> what may be said
 * @param decision the saying itself, for undo
 */
public record SaidOfTwo<T, W>(
    DecisionId decision, T one, T other, W said, String reader, Instant at) {

  /** Whether it is of these two, whichever comes first. */
  public boolean isOf(T a, T b) {
    return one.equals(a) && other.equals(b) || one.equals(b) && other.equals(a);
  }

  /** Whether it is of this one and another. */
  public boolean isOf(T thing) {
    return one.equals(thing) || other.equals(thing);
  }
}
