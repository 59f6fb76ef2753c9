package rakelight.person.edtf;

import java.util.Comparator;
import java.util.Optional;

/**
 * A date as far as it is known.
 *
 * <p><b>Order.</b> By earliest day, then by latest, then by text. A date without an earliest day
 * (open or unknown beginning) takes its latest day's place, before dates that begin there; one
 * without a latest day comes after those that begin with it and end. A date with neither comes
 * first of all.
 *
 * <p><b>Ranges.</b> {@link #mayTouch} is true when some day of the date, or of one member of a set,
 * may lie in the range, its ends included; {@link #liesWithin} when none can lie outside. Masked
 * figures within a date ({@code 156X-12-25}) count here as the whole span from the first day to the
 * last; {@link #admits} asks about one day exactly.
 */
public sealed interface Edtf permits EdtfDate, EdtfDateTime, EdtfInterval, EdtfSet {

  Comparator<Edtf> ORDER =
      Comparator.<Edtf, Optional<Day>>comparing(
              date -> date.earliest().or(date::latest), Days.NONE_FIRST)
          .thenComparing(Edtf::earliest, Days.NONE_FIRST)
          .thenComparing(Edtf::latest, Days.NONE_LAST)
          .thenComparing(Edtf::toString);

  /**
   * @throws IllegalArgumentException naming the text and what is wrong with it
   */
  static Edtf parse(String text) {
    return EdtfParser.parse(text);
  }

  /** The first day it can be; empty when nothing bounds it. */
  Optional<Day> earliest();

  /** The last day it can be; empty when nothing bounds it. */
  Optional<Day> latest();

  /** The least level of the format that can write this: 0, 1 or 2. */
  int level();

  /** Whether the day may be the one meant, or one of those meant. */
  boolean admits(Day day);

  /** Whether it may have to do with some day from {@code first} to {@code last}. */
  default boolean mayTouch(Day first, Day last) {
    return earliest().map(day -> day.compareTo(last) <= 0).orElse(true)
        && latest().map(day -> day.compareTo(first) >= 0).orElse(true);
  }

  /** Whether it can't reach beyond the days from {@code first} to {@code last}. */
  default boolean liesWithin(Day first, Day last) {
    return earliest().map(day -> day.compareTo(first) >= 0).orElse(false)
        && latest().map(day -> day.compareTo(last) <= 0).orElse(false);
  }

  /** Two ways to order days that may be missing. */
  final class Days {
    static final Comparator<Optional<Day>> NONE_FIRST = byDay(false);
    static final Comparator<Optional<Day>> NONE_LAST = byDay(true);

    private Days() {}

    private static Comparator<Optional<Day>> byDay(boolean noneLast) {
      return (a, b) -> {
        if (a.isPresent() && b.isPresent()) {
          return a.get().compareTo(b.get());
        }
        int noneFirst = Boolean.compare(a.isPresent(), b.isPresent());
        return noneLast ? -noneFirst : noneFirst;
      };
    }
  }
}
