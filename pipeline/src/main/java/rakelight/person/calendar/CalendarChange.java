package rakelight.person.calendar;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.threeten.extra.chrono.JulianChronology;
import rakelight.archive.Ground;

/**
 * When a country, and so a ground, went from the Julian to the Gregorian calendar, and from which
 * year on it counted years from 1 January instead of Lady Day, 25 March.
 *
 * @param firstGregorianDay the first day reckoned the new way, in the new calendar
 * @param firstYearFromJanuary the first year that began on 1 January by law
 */
public record CalendarChange(LocalDate firstGregorianDay, int firstYearFromJanuary) {
  /** Great Britain, Ireland and the colonies: 2 September 1752 was followed by 14 September. */
  public static final CalendarChange BRITISH = new CalendarChange(LocalDate.of(1752, 9, 14), 1752);

  /** Scotland: the year from 1 January since 1600, the calendar Julian until 1752. */
  public static final CalendarChange SCOTTISH = new CalendarChange(LocalDate.of(1752, 9, 14), 1600);

  /** Where every date on the ground is Gregorian. */
  public static final CalendarChange NONE = new CalendarChange(LocalDate.of(1582, 10, 15), 1500);

  private static final int LADY_DAY_MONTH = 3;
  private static final int LADY_DAY = 25;

  /** Which calendar a carved day is in. */
  public enum Style {
    /** The one in force on that day, by the change of the ground. */
    IN_FORCE,
    /** Julian, said to be so ("O.S."). */
    OLD,
    /** Gregorian, said to be so ("N.S."). */
    NEW
  }

  /** The change that holds on a ground: the British one where none has been stated. */
  public static CalendarChange of(Ground ground) {
    return ground
        .calendar()
        .map(c -> new CalendarChange(c.firstGregorianDay(), c.firstYearFromJanuary()))
        .orElse(BRITISH);
  }

  /**
   * Reads a change as people give it: {@code british}, {@code scottish}, {@code gregorian}, or the
   * first Gregorian day, perhaps with a comma and the first year from January (else that of the
   * day): {@code 1700-03-01,1500}.
   *
   * @throws IllegalArgumentException if it is none of these
   */
  public static CalendarChange parse(String text) {
    switch (text.strip().toLowerCase(Locale.ROOT)) {
      case "british":
        return BRITISH;
      case "scottish":
        return SCOTTISH;
      case "gregorian":
        return NONE;
      default:
        break;
    }
    String[] parts = text.split(",", -1);
    try {
      LocalDate day = LocalDate.parse(parts[0].strip());
      int year = parts.length > 1 ? Integer.parseInt(parts[1].strip()) : day.getYear();
      if (parts.length > 2 || day.isBefore(NONE.firstGregorianDay()) || year > day.getYear() + 1) {
        throw new IllegalArgumentException(text);
      }
      return new CalendarChange(day, year);
    } catch (DateTimeException | IllegalArgumentException e) {
      throw new IllegalArgumentException(
          "a calendar is british, scottish, gregorian, or the first Gregorian day (not before"
              + " 1582-10-15) and perhaps the first year from January: 1752-09-14,1752",
          e);
    }
  }

  /**
   * The days that a carved date may be. A day before Lady Day under the old beginning of the year
   * may belong to the year carved or, as we count, to the one after: both are given. Not so in the
   * last year of the old beginning, since the year after it began in January. Empty when there is
   * no such day, which includes the days dropped at the change.
   */
  public List<LocalDate> days(int year, int month, int day, Style style) {
    List<LocalDate> days = new ArrayList<>(daysOfCountedYear(year, month, day, style));
    boolean beforeLadyDay = month < LADY_DAY_MONTH || (month == LADY_DAY_MONTH && day < LADY_DAY);
    if (beforeLadyDay && year + 1 < firstYearFromJanuary && style != Style.NEW) {
      days.addAll(daysOfCountedYear(year + 1, month, day, style));
    }
    return days;
  }

  /**
   * The day of a date whose year is counted from 1 January, as the second figure of a double year
   * is. Empty when there is no such day.
   */
  public List<LocalDate> daysOfCountedYear(int year, int month, int day, Style style) {
    boolean julian =
        switch (style) {
          case OLD -> true;
          case NEW -> false;
          case IN_FORCE -> isBeforeChange(year, month, day);
        };
    try {
      LocalDate date =
          julian
              ? LocalDate.from(JulianChronology.INSTANCE.date(year, month, day))
              : LocalDate.of(year, month, day);
      boolean dropped = style == Style.IN_FORCE && julian && !date.isBefore(firstGregorianDay);
      return dropped ? List.of() : List.of(date);
    } catch (DateTimeException e) {
      return List.of();
    }
  }

  /** Whether every day of the year, as carved, is Gregorian and counted from January. */
  public boolean isModern(int year) {
    return year > firstGregorianDay.getYear() && year >= firstYearFromJanuary;
  }

  private boolean isBeforeChange(int year, int month, int day) {
    if (year != firstGregorianDay.getYear()) {
      return year < firstGregorianDay.getYear();
    }
    int change = firstGregorianDay.getMonthValue() * 100 + firstGregorianDay.getDayOfMonth();
    return month * 100 + day < change;
  }
}
