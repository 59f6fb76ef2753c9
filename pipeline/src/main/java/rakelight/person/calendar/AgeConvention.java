package rakelight.person.calendar;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Optional;

/**
 * How an age in years, months and days was reckoned from birth and death. No convention is the true
 * one; on the same figures they differ by up to three days. The weights are a project choice, no
 * source: borrowing by the real month is how people count on a calendar page, the 30-day month is
 * how they count on paper.
 */
public enum AgeConvention {
  /** Borrowed months are as long as the month before the one of death. */
  BORROW_MONTH_BEFORE("borrowing the length of the month before", 0.40),
  /** Borrowed months have 30 days: the "8870" rule read backwards. */
  BORROW_THIRTY("borrowing months of 30 days", 0.30),
  /** Whole years, then months, then days taken off the death. */
  YEARS_FIRST("taking off years, then months, then days", 0.15),
  /** Days taken off first, then months, then years. */
  DAYS_FIRST("taking off days, then months, then years", 0.10),
  /** Like the first, but the day of birth and that of death both count. */
  INCLUSIVE("counting both the first and the last day", 0.05);

  private final String words;
  private final double weight;

  AgeConvention(String words, double weight) {
    this.words = words;
    this.weight = weight;
  }

  /** Completes "the age was reckoned by ...". */
  public String words() {
    return words;
  }

  /** Share of carvers taken to have reckoned so; all sum to one. */
  public double weight() {
    return weight;
  }

  /**
   * The day of birth that gives this age on the day of death; empty where the reckoning ends on a
   * day that never was (31 February).
   */
  public Optional<LocalDate> birth(LocalDate death, Age age) {
    int days = age.wholeDays();
    return switch (this) {
      case YEARS_FIRST ->
          Optional.of(death.minusYears(age.years()).minusMonths(age.months()).minusDays(days));
      case DAYS_FIRST ->
          Optional.of(death.minusDays(days).minusMonths(age.months()).minusYears(age.years()));
      case BORROW_MONTH_BEFORE -> borrow(death, age, days, true).toDate();
      case BORROW_THIRTY -> borrow(death, age, days, false).toDate();
      case INCLUSIVE -> borrow(death, age, days, true).toDate().map(birth -> birth.plusDays(1));
    };
  }

  /**
   * What the "8870" rule gives: year, month and day, which may be no day at all (30 February).
   * YYYYMMDD of the death, less YYMMDD of the age, less 8870, brought back to 30 days and 12
   * months.
   */
  public static Reckoned rule8870(LocalDate death, Age age) {
    return borrow(death, age, age.wholeDays(), false);
  }

  /** A date on paper, possibly one that never was. */
  public record Reckoned(int year, int month, int day) {
    public Optional<LocalDate> toDate() {
      try {
        return Optional.of(LocalDate.of(year, month, day));
      } catch (DateTimeException e) {
        return Optional.empty();
      }
    }
  }

  private static Reckoned borrow(LocalDate death, Age age, int days, boolean realMonths) {
    int day = death.getDayOfMonth() - days;
    int month = death.getMonthValue() - age.months();
    int year = death.getYear() - age.years();
    LocalDate monthBefore = death.withDayOfMonth(1).minusMonths(1);
    while (day <= 0) {
      day += realMonths ? monthBefore.lengthOfMonth() : 30;
      monthBefore = monthBefore.minusMonths(1);
      month--;
    }
    while (month <= 0) {
      month += 12;
      year--;
    }
    return new Reckoned(year, month, day);
  }
}
