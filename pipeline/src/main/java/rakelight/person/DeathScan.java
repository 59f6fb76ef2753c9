package rakelight.person;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Stretches of days with more deaths than the ground's own rate makes likely: the scan statistic of
 * M. Kulldorff, "A spatial scan statistic", Communications in Statistics: Theory and Methods 26
 * (1997), 1481-1496, in time alone (J. I. Naus, "The distribution of the size of the maximum
 * cluster of points on a line", JASA 60 (1965), 532-538, began it); both from memory.
 *
 * <p>Every stretch of at most {@value #LONGEST_DAYS} days from one death to another is looked at.
 * With c deaths where e are expected, c above e, its weight is c ln(c/e) - (c - e), the logarithm
 * of the Poisson likelihood ratio. What is expected on a day is the ground's own: each death counts
 * as spread evenly over {@value #AROUND_YEARS} years before and after and {@value #AROUND_DAYS}
 * days around the same day of the year, so that a ground that fills and winters that kill aren't
 * taken for events.
 *
 * <p>So many stretches are looked at that the heaviest is heavy by chance. How heavy is found by
 * drawing all deaths anew from that expectation, {@value #DRAWS} times (from {@value #MANY} deaths
 * on {@value #FEWER_DRAWS}), the draw the same each time: the probability of a stretch is the share
 * of draws, the ground itself among them, whose heaviest stretch anywhere weighs as much (a rank
 * test by Monte Carlo; M. Dwass, Annals of Mathematical Statistics 28 (1957), from memory). So it
 * answers for all stretches at once. Stretches after the heaviest are held against the same
 * heaviest, which errs to the side of saying nothing.
 *
 * <p>Thread-safe; holds nothing.
 */
final class DeathScan {
  static final int LONGEST_DAYS = 62;
  static final int AROUND_YEARS = 5;
  static final int AROUND_DAYS = 15;
  static final int FEWEST = 3;
  static final int DRAWS = 999;
  static final int FEWER_DRAWS = 199;
  static final int MANY = 5000;

  private static final long SEED = 20;
  private static final double DAYS_IN_YEAR = 365.2425;

  /**
   * A stretch of days.
   *
   * @param from place of its first death among those given, in order
   * @param to place after its last
   * @param expected deaths, by the ground's own rate
   * @param weight natural logarithm of the likelihood ratio, above 0
   * @param probability that chance alone makes a stretch as heavy anywhere in such a ground
   */
  record Window(int from, int to, double expected, double weight, double probability) {
    int count() {
      return to - from;
    }
  }

  private final long[] days;
  private final long first;
  private final int span;

  /** Expected deaths before each day of the span. */
  private final double[] before;

  private DeathScan(long[] days) {
    this.days = days;
    first = days[0];
    span = (int) (days[days.length - 1] - first + 1);
    before = new double[span + 1];
    spread();
  }

  /**
   * The stretches that chance alone makes with this probability or less, in the order of their
   * days; no two share a death.
   *
   * @param days of the deaths in any one counting, ascending
   * @param atMost 0 to 1
   */
  static List<Window> of(long[] days, double atMost) {
    return days.length < FEWEST ? List.of() : new DeathScan(days).windows(atMost);
  }

  /** What the weight of a stretch is; 0 where no more died than expected. */
  static double weight(int count, double expected) {
    return count > expected ? count * Math.log(count / expected) - (count - expected) : 0;
  }

  private void spread() {
    double[] on = new double[span];
    double share = 1.0 / ((2 * AROUND_YEARS + 1) * (2 * AROUND_DAYS + 1));
    for (long day : days) {
      for (int year = -AROUND_YEARS; year <= AROUND_YEARS; year++) {
        long middle = day - first + Math.round(year * DAYS_IN_YEAR);
        for (int shift = -AROUND_DAYS; shift <= AROUND_DAYS; shift++) {
          on[within(middle + shift)] += share;
        }
      }
    }
    for (int i = 0; i < span; i++) {
      before[i + 1] = before[i] + on[i];
    }
  }

  /** A day beyond the first or last death is mirrored at it, so that nothing is lost. */
  private int within(long day) {
    if (span == 1) {
      return 0;
    }
    long period = 2L * (span - 1);
    long at = Math.floorMod(day, period);
    return (int) (at < span ? at : period - at);
  }

  private List<Window> windows(double atMost) {
    List<Window> all = new ArrayList<>();
    scan(days, (from, to, expected, weight) -> all.add(new Window(from, to, expected, weight, 1)));
    all.sort(Comparator.comparingDouble(Window::weight).reversed());
    double[] heaviest = all.isEmpty() ? new double[0] : heaviestByChance();
    List<Window> kept = new ArrayList<>();
    for (Window window : all) {
      double probability = probability(window.weight(), heaviest);
      if (probability > atMost) {
        break;
      }
      if (kept.stream().noneMatch(k -> k.from() < window.to() && window.from() < k.to())) {
        kept.add(
            new Window(
                window.from(), window.to(), window.expected(), window.weight(), probability));
      }
    }
    kept.sort(Comparator.comparingInt(Window::from));
    return List.copyOf(kept);
  }

  private static double probability(double weight, double[] heaviest) {
    int asHeavy = 1;
    for (double one : heaviest) {
      asHeavy += one >= weight ? 1 : 0;
    }
    return asHeavy / (heaviest.length + 1.0);
  }

  private double[] heaviestByChance() {
    double[] heaviest = new double[days.length < MANY ? DRAWS : FEWER_DRAWS];
    SplittableRandom random = new SplittableRandom(SEED);
    long[] drawn = new long[days.length];
    for (int draw = 0; draw < heaviest.length; draw++) {
      for (int i = 0; i < drawn.length; i++) {
        int year = random.nextInt(2 * AROUND_YEARS + 1) - AROUND_YEARS;
        int shift = random.nextInt(2 * AROUND_DAYS + 1) - AROUND_DAYS;
        drawn[i] = first + within(days[i] - first + Math.round(year * DAYS_IN_YEAR) + shift);
      }
      Arrays.sort(drawn);
      double[] most = {0};
      scan(drawn, (from, to, expected, weight) -> most[0] = Math.max(most[0], weight));
      heaviest[draw] = most[0];
    }
    return heaviest;
  }

  private interface Taker {
    void take(int from, int to, double expected, double weight);
  }

  /** Every stretch that begins with the first death of a day and ends with the last of one. */
  private void scan(long[] of, Taker taker) {
    for (int from = 0; from < of.length; from++) {
      if (from > 0 && of[from] == of[from - 1]) {
        continue;
      }
      for (int to = from + 1; to <= of.length && of[to - 1] - of[from] < LONGEST_DAYS; to++) {
        boolean dayEnds = to == of.length || of[to] != of[to - 1];
        if (to - from >= FEWEST && dayEnds) {
          double expected =
              before[(int) (of[to - 1] - first) + 1] - before[(int) (of[from] - first)];
          if (to - from > expected) {
            taker.take(from, to, expected, weight(to - from, expected));
          }
        }
      }
    }
  }
}
