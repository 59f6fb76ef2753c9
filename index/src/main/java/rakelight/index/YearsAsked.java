package rakelight.index;

import java.util.Set;

/**
 * Years as evidence: how likely these years are asked for by somebody who wants an entry that tells
 * of others. Who searches may be wrong by a few years, so a year nearby counts by its distance, and
 * none hides an entry.
 */
final class YearsAsked {
  /** Somebody may be wrong about any year by any distance. A choice. */
  static final double LEAST = 0.01;

  /** A year beside those asked for, against one of them. A choice. */
  private static final double BESIDE = 0.3;

  /** By so many years a year nearby falls to 1/e. A choice. */
  private static final double FALLS_IN_YEARS = 3;

  private static final double NEXT_TO_NOTHING = 0.015;

  /** The years among which one is, of which nothing is known. A choice. */
  private static final double SPAN_YEARS = 200;

  private static final int FIRST = 1000;
  private static final int LAST = 2199;

  private final String event;
  private final double[] sums = new double[LAST - FIRST + 2];
  private final double unknown;

  YearsAsked(String event, Set<Integer> among) {
    this.event = event;
    double[] near = new double[LAST - FIRST + 1];
    for (int i = 0; i < near.length; i++) {
      near[i] = among.contains(FIRST + i) ? 1 : 0;
    }
    double fall = Math.exp(-1 / FALLS_IN_YEARS);
    double[] beside = new double[near.length];
    double left = 0;
    for (int i = 0; i < near.length; i++) {
      left = near[i] == 1 ? BESIDE : left * fall;
      beside[i] = left;
    }
    double right = 0;
    for (int i = near.length - 1; i >= 0; i--) {
      right = near[i] == 1 ? BESIDE : right * fall;
      beside[i] = Math.max(beside[i], right);
    }
    for (int i = 0; i < near.length; i++) {
      sums[i + 1] = sums[i] + (near[i] == 1 ? 1 : beside[i]);
    }
    unknown = Math.max(LEAST, Math.min(1, among.size() / SPAN_YEARS));
  }

  /** Whether years of any event count. */
  boolean ofAnyEvent() {
    return event.isEmpty();
  }

  /** Outside of these years whatever is told answers next to nothing; empty if there are none. */
  int from() {
    int i = 0;
    while (i < LAST - FIRST && sums[i + 1] - sums[i] < NEXT_TO_NOTHING) {
      i++;
    }
    return FIRST + i;
  }

  /** The last of them. */
  int to() {
    int i = LAST - FIRST;
    while (i > 0 && sums[i + 1] - sums[i] < NEXT_TO_NOTHING) {
      i--;
    }
    return FIRST + i;
  }

  boolean counts(String other) {
    return event.isEmpty() || other.isEmpty() || event.equals(other);
  }

  /** How well years from to to answer, each as likely. */
  double of(int from, int to, String other) {
    if (!counts(other)) {
      return 0;
    }
    int low = Math.max(FIRST, Math.min(LAST, from));
    int high = Math.max(FIRST, Math.min(LAST, to));
    return (sums[high - FIRST + 1] - sums[low - FIRST]) / (high - low + 1);
  }

  /**
   * @param any whether the entry tells of any such year
   */
  double answer(double sum, boolean any) {
    return any ? Math.max(LEAST, Math.min(1, sum)) : unknown;
  }

  double unknown() {
    return unknown;
  }
}
