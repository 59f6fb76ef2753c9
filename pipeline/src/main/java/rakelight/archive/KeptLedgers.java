package rakelight.archive;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.time.temporal.TemporalAdjusters;
import java.util.Collection;
import java.util.HashSet;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;

/**
 * Which of the ledgers in a backup are kept: the seven newest, and the last of each of seven days,
 * of each of five weeks, of each of twelve months, and of every year, counted back from the newest;
 * days in UTC. Daily, weekly and monthly copies in turn: common practice, no source.
 */
final class KeptLedgers {
  private static final int NEWEST = 7;
  private static final int DAYS = 7;
  private static final int WEEKS = 5;
  private static final int MONTHS = 12;

  private KeptLedgers() {}

  /** Those of these times that are kept; the newest always is. */
  static SortedSet<Instant> of(Collection<Instant> times) {
    TreeSet<Instant> all = new TreeSet<>(times);
    TreeSet<Instant> kept = new TreeSet<>();
    if (all.isEmpty()) {
      return kept;
    }
    all.descendingSet().stream().limit(NEWEST).forEach(kept::add);
    LocalDate newest = day(all.last());
    kept.addAll(lastOfEach(all, newest.minusDays(DAYS - 1L), day -> day));
    kept.addAll(lastOfEach(all, monday(newest).minusWeeks(WEEKS - 1L), KeptLedgers::monday));
    kept.addAll(
        lastOfEach(
            all, newest.minusMonths(MONTHS - 1L).withDayOfMonth(1), day -> YearMonth.from(day)));
    kept.addAll(lastOfEach(all, LocalDate.MIN, LocalDate::getYear));
    return kept;
  }

  private static Set<Instant> lastOfEach(
      TreeSet<Instant> all, LocalDate from, Function<LocalDate, Object> span) {
    Set<Object> seen = new HashSet<>();
    Set<Instant> last = new HashSet<>();
    for (Instant time : all.descendingSet()) {
      if (!day(time).isBefore(from) && seen.add(span.apply(day(time)))) {
        last.add(time);
      }
    }
    return last;
  }

  private static LocalDate day(Instant time) {
    return LocalDate.ofInstant(time, ZoneOffset.UTC);
  }

  private static LocalDate monday(LocalDate day) {
    return day.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
  }
}
