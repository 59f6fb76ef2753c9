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

  /** The years among which one is, of which nothing is known. A choice. */
  private static final double SPAN_YEARS = 200;

  private static final int FIRST = 1000;
  private static final int LAST = 9999;

  /** Years that may stand on a stone, each as likely. A choice. */
  private static final int EARLIEST = 1600;

  private static final int LATEST = 2040;
  private static final int FIGURES = 4;

  private final String event;
  private final double[] sums = new double[LAST - FIRST + 2];
  private final double unknown;

  /**
   * @param misread which figures are read for which
   */
  YearsAsked(String event, Set<Integer> among, Misread misread) {
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
    double[] one = new double[near.length];
    for (int year : among) {
      misread.add(year, one);
    }
    for (int i = 0; i < near.length; i++) {
      double own = near[i] == 1 ? 1 : Math.max(beside[i], one[i]);
      sums[i + 1] = sums[i] + own;
    }
    unknown = Math.max(LEAST, Math.min(1, among.size() / SPAN_YEARS));
  }

  boolean counts(String other) {
    if (other.equals(Query.MADE) || event.equals(Query.MADE)) {
      return event.equals(other);
    }
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

  /**
   * What year a number that was read may be, one figure misread: by Bayes' rule, with every year
   * from {@value #EARLIEST} to {@value #LATEST} as likely. 1318 is hardly read right.
   */
  static final class Misread {
    private final Channel reader;
    private final double[] sums = new double[LAST - FIRST + 1];

    Misread(Channel reader) {
      this.reader = reader;
      for (int year = EARLIEST; year <= LATEST; year++) {
        spread(year, sums, false);
      }
    }

    /** Adds how likely this year is meant, to each number that may have been read for it. */
    void add(int year, double[] into) {
      if (year >= EARLIEST && year <= LATEST) {
        spread(year, into, true);
      }
    }

    private void spread(int year, double[] into, boolean shares) {
      double right = 1;
      for (int rest = year; rest > 0; rest /= 10) {
        right *= reader.letter('0' + rest % 10, '0' + rest % 10);
      }
      put(into, year, right, shares);
      int place = 1;
      for (int i = 0; i < FIGURES; i++, place *= 10) {
        int figure = year / place % 10;
        double others = right / reader.letter('0' + figure, '0' + figure);
        for (int other = 0; other < 10; other++) {
          if (other != figure) {
            put(
                into,
                year + (other - figure) * place,
                others * reader.letter('0' + figure, '0' + other),
                shares);
          }
        }
      }
    }

    private void put(double[] into, int read, double chance, boolean share) {
      if (read >= FIRST) {
        into[read - FIRST] += share ? chance / sums[read - FIRST] : chance;
      }
    }
  }
}
