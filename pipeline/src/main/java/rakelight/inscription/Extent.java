package rakelight.inscription;

/** How much a gap takes up, counted in the gap's unit. */
public sealed interface Extent {
  /** The largest count taken; more than any face carries. */
  int MOST = 999;

  /** The number is sure. */
  record Exact(int count) implements Extent {
    public Exact {
      requireCount(count);
    }
  }

  /** Roughly this number. */
  record About(int count) implements Extent {
    public About {
      requireCount(count);
    }
  }

  /** No fewer and no more than these. */
  record Range(int atLeast, int atMost) implements Extent {
    public Range {
      requireCount(atMost);
      if (atLeast < 0 || atLeast >= atMost) {
        throw new IllegalArgumentException(
            "range of a gap must rise from 0 or more, got " + atLeast + " to " + atMost);
      }
    }
  }

  /** Nobody can say. */
  record Unknown() implements Extent {}

  private static void requireCount(int count) {
    if (count < 1 || count > MOST) {
      throw new IllegalArgumentException("count of a gap must be 1 to " + MOST + ", got " + count);
    }
  }
}
