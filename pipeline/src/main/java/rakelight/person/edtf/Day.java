package rakelight.person.edtf;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.Locale;

/**
 * A day of the proleptic Gregorian calendar. Unlike {@link LocalDate} it reaches any year that the
 * format can write.
 *
 * @param year astronomical: 0 is 1 BC
 * @param month 1 to 12
 * @param day 1 to the length of the month
 */
public record Day(long year, int month, int day) implements Comparable<Day> {
  private static final Comparator<Day> ORDER =
      Comparator.comparingLong(Day::year).thenComparingInt(Day::month).thenComparingInt(Day::day);

  public Day {
    if (month < 1 || month > 12 || day < 1 || day > lengthOfMonth(year, month)) {
      throw new DateTimeException("no such day: " + year + "-" + month + "-" + day);
    }
  }

  public static Day of(LocalDate date) {
    return new Day(date.getYear(), date.getMonthValue(), date.getDayOfMonth());
  }

  public static int lengthOfMonth(long year, int month) {
    return switch (month) {
      case 4, 6, 9, 11 -> 30;
      case 2 -> isLeap(year) ? 29 : 28;
      default -> 31;
    };
  }

  static boolean isLeap(long year) {
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
  }

  static Day firstOf(long year, int month) {
    return new Day(year, month, 1);
  }

  static Day lastOf(long year, int month) {
    return new Day(year, month, lengthOfMonth(year, month));
  }

  /**
   * @throws DateTimeException beyond the years of {@link LocalDate}
   */
  public LocalDate toLocalDate() {
    if (year < LocalDate.MIN.getYear() || year > LocalDate.MAX.getYear()) {
      throw new DateTimeException("year " + year + " is beyond what LocalDate can hold");
    }
    return LocalDate.of((int) year, month, day);
  }

  @Override
  public int compareTo(Day other) {
    return ORDER.compare(this, other);
  }

  @Override
  public String toString() {
    return String.format(
        Locale.ROOT, "%s%04d-%02d-%02d", year < 0 ? "-" : "", Math.abs(year), month, day);
  }
}
