package rakelight.person;

import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.Collection;
import rakelight.person.edtf.Day;

/** How many of a ground's dates of one kind can fall within a span of days. */
final class SpanShares {
  /** As how many dates an even spread over the ground's years counts; a choice, no source. */
  private static final double HELD = 20;

  private static final double LEAST_DAYS = 365.25 * 50;

  private final long[] firsts;
  private final long[] lasts;
  private final double days;

  SpanShares(Collection<Day[]> spans) {
    firsts = spans.stream().mapToLong(span -> number(span[0])).sorted().toArray();
    lasts = spans.stream().mapToLong(span -> number(span[1])).sorted().toArray();
    days =
        firsts.length == 0
            ? LEAST_DAYS
            : Math.max(LEAST_DAYS, lasts[lasts.length - 1] - firsts[0] + 1.0);
  }

  /** The share of dates that can fall within it, but for those of the two who are compared. */
  double of(Day[] span) {
    long first = number(span[0]);
    long last = number(span[1]);
    int before = below(lasts, first);
    int after = firsts.length - below(firsts, last + 1);
    double others = Math.max(0, firsts.length - before - after - 2);
    double evenly = Math.min(1, (last - first + 1) / days);
    return (others + HELD * evenly) / (firsts.length + HELD);
  }

  private static int below(long[] sorted, long limit) {
    int at = Arrays.binarySearch(sorted, limit);
    int place = at < 0 ? -at - 1 : at;
    while (place > 0 && sorted[place - 1] == limit) {
      place--;
    }
    return place;
  }

  /** Days since 1970; a little off outside the years of the calendar's common use. */
  static long number(Day day) {
    return ChronoUnit.DAYS.between(java.time.LocalDate.EPOCH, day.toLocalDate());
  }
}
