package rakelight.person.calendar;

/**
 * An age as carved; parts not carved are 0.
 *
 * @param finest the smallest unit carved; the age is known no closer
 */
public record Age(int years, int months, int weeks, int days, int hours, Unit finest) {
  /** More than anybody reached. */
  public static final int MOST_YEARS = 150;

  /** Units of an age, coarse to fine. */
  public enum Unit {
    YEARS,
    MONTHS,
    WEEKS,
    DAYS,
    HOURS
  }

  public Age {
    if (years < 0
        || years > MOST_YEARS
        || months < 0
        || weeks < 0
        || days < 0
        || hours < 0
        || Math.max(Math.max(months, weeks), Math.max(days, hours)) > 2000) {
      throw new IllegalArgumentException(
          "an age has 0 to " + MOST_YEARS + " years and no part below 0 or above 2000");
    }
  }

  public static Age ofYears(int years) {
    return new Age(years, 0, 0, 0, 0, Unit.YEARS);
  }

  public static Age of(int years, int months, int days) {
    return new Age(years, months, 0, days, 0, Unit.DAYS);
  }

  /** Weeks and days as days. */
  int wholeDays() {
    return 7 * weeks + days;
  }

  /** ISO 8601 duration, in the units carved: {@code P71Y7M9D}, {@code P3W}, {@code PT5H}. */
  @Override
  public String toString() {
    StringBuilder text = new StringBuilder("P");
    append(text, years, 'Y', finest == Unit.YEARS);
    append(text, months, 'M', finest == Unit.MONTHS);
    append(text, weeks, 'W', finest == Unit.WEEKS);
    append(text, days, 'D', finest == Unit.DAYS);
    if (hours > 0 || finest == Unit.HOURS) {
      text.append('T').append(hours).append('H');
    }
    return text.toString();
  }

  private static void append(StringBuilder text, int count, char unit, boolean always) {
    if (count > 0 || (always && text.length() == 1)) {
      text.append(count).append(unit);
    }
  }
}
