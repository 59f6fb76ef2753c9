package rakelight.person.calendar;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * An age as carved; parts not carved are 0.
 *
 * @param finest the smallest unit carved; the age is known no closer
 */
public record Age(int years, int months, int weeks, int days, int hours, Unit finest) {
  /** More than anybody reached. */
  public static final int MOST_YEARS = 150;

  /** As {@link #toString} writes it, an X where a figure is lost. */
  private static final Pattern DURATION =
      Pattern.compile(
          "P(?:([0-9X]+)Y)?(?:([0-9X]+)M)?(?:([0-9X]+)W)?(?:([0-9X]+)D)?(?:T([0-9X]+)H)?");

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

  /** The age that {@link #toString} wrote; empty where a figure is lost, or for anything else. */
  public static Optional<Age> parse(String duration) {
    Matcher parts = DURATION.matcher(duration);
    if (!parts.matches() || duration.indexOf('X') >= 0) {
      return Optional.empty();
    }
    int[] counts = new int[Unit.values().length];
    Optional<Unit> finest = Optional.empty();
    for (Unit unit : Unit.values()) {
      String count = parts.group(unit.ordinal() + 1);
      if (count != null) {
        counts[unit.ordinal()] = Integer.parseInt(count);
        finest = Optional.of(unit);
      }
    }
    return finest.map(unit -> new Age(counts[0], counts[1], counts[2], counts[3], counts[4], unit));
  }

  /**
   * An age's duration in words: {@code 57 years}, {@code 3 weeks 2 days}, {@code 4? years} where a
   * figure is lost; anything else as it is.
   */
  public static String inWords(String duration) {
    Matcher parts = DURATION.matcher(duration);
    if (!parts.matches()) {
      return duration;
    }
    List<String> words = new ArrayList<>();
    for (Unit unit : Unit.values()) {
      String count = parts.group(unit.ordinal() + 1);
      if (count != null) {
        String units = unit.name().toLowerCase(Locale.ROOT);
        String word = count.equals("1") ? units.substring(0, units.length() - 1) : units;
        words.add(count.replace('X', '?') + " " + word);
      }
    }
    return words.isEmpty() ? duration : String.join(" ", words);
  }

  private static void append(StringBuilder text, int count, char unit, boolean always) {
    if (count > 0 || (always && text.length() == 1)) {
      text.append(count).append(unit);
    }
  }
}
