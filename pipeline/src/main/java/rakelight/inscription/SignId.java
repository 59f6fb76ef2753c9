package rakelight.inscription;

/**
 * Names one sign of a face. Unique within the face, kept when a later version of the reading still
 * has the sign, never given to another.
 *
 * @param number from 1
 */
public record SignId(int number) implements Comparable<SignId> {
  public SignId {
    if (number < 1) {
      throw new IllegalArgumentException("sign id must be 1 or more, got " + number);
    }
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
