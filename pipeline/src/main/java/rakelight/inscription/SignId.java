package rakelight.inscription;

import java.util.stream.IntStream;

/**
 * Names one sign of a face. Unique within the face, kept when a later version of the reading still
 * has the sign, never given to another.
 *
 * @param number from 1
 */
public record SignId(int number) implements Comparable<SignId> {
  private static final int SHARED = 1024;
  private static final SignId[] LOW =
      IntStream.rangeClosed(1, SHARED).mapToObj(SignId::new).toArray(SignId[]::new);

  public SignId {
    if (number < 1) {
      throw new IllegalArgumentException("sign id must be 1 or more, got " + number);
    }
  }

  /** The sign of a number; of low numbers always the same object, since there are many of them. */
  public static SignId of(int number) {
    return number >= 1 && number <= SHARED ? LOW[number - 1] : new SignId(number);
  }

  @Override
  public int compareTo(SignId other) {
    return Integer.compare(number, other.number);
  }

  @Override
  public String toString() {
    return Integer.toString(number);
  }
}
