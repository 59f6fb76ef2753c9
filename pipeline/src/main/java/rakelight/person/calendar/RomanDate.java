package rakelight.person.calendar;

import java.text.Normalizer;
import java.time.DateTimeException;
import java.time.Month;
import java.time.MonthDay;
import java.time.YearMonth;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A day counted back from the Kalends, Nones or Ides of a month, both ends counted.
 *
 * @param count 1 is the day itself, 2 the day before ({@code prid.})
 */
public record RomanDate(int count, Anchor anchor, Month month) {
  private static final Pattern FORM =
      Pattern.compile(
          "(?:A\\.?\\s?D\\.?\\s+)?(?:(?<prid>PRID(?:IE)?\\.?)|(?<count>[IVXJ]+)\\.?)?\\s*"
              + "(?<anchor>KAL(?:END(?:AS|IS))?|CAL(?:END(?:AS|IS))?|NON(?:AS|IS)?|ID(?:US|IBUS)?)"
              + "\\.?\\s+(?<month>[A-Z0-9]+)\\.?");

  /** Doubled in a leap year, hence its name: the sixth day before the Kalends of March. */
  private static final int DOUBLED = 6;

  /** The day counted from. */
  public enum Anchor {
    KALENDS,
    NONES,
    IDES
  }

  public RomanDate {
    if (count < 1 || count > 19) {
      throw new IllegalArgumentException("a Roman date counts back 1 to 19 days, got " + count);
    }
  }

  /** The date, or empty when the text isn't one. */
  public static Optional<RomanDate> parse(String text) {
    String plain =
        Normalizer.normalize(text, Normalizer.Form.NFKC).toUpperCase(Locale.ROOT).strip();
    Matcher matcher = FORM.matcher(plain);
    if (!matcher.matches()) {
      return Optional.empty();
    }
    OptionalInt count = OptionalInt.of(1);
    if (matcher.group("prid") != null) {
      count = OptionalInt.of(2);
    } else if (matcher.group("count") != null) {
      count = RomanNumeral.parse(matcher.group("count"));
    }
    Anchor anchor =
        switch (matcher.group("anchor").charAt(0)) {
          case 'K', 'C' -> Anchor.KALENDS;
          case 'N' -> Anchor.NONES;
          default -> Anchor.IDES;
        };
    Optional<Month> month = latinMonth(matcher.group("month"));
    if (count.isEmpty() || count.getAsInt() > 19 || month.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new RomanDate(count.getAsInt(), anchor, month.get()));
  }

  private static Optional<Month> latinMonth(String word) {
    return switch (word) {
      case "MART", "MARTIAS", "MARTII", "MARTIIS" -> Optional.of(Month.MARCH);
      case "MAI", "MAIAS", "MAIIS" -> Optional.of(Month.MAY);
      default -> MonthName.parse(word);
    };
  }

  /**
   * Day and month in the given year; the year only matters in February. In a leap year it is the
   * sixth day before the Kalends of March that is doubled: what lies before it is counted as in a
   * common year, and the sixth itself is the later of the two, 25 February.
   *
   * @throws DateTimeException when the count reaches back beyond the anchor before
   */
  public MonthDay in(int year) {
    if (anchor == Anchor.KALENDS) {
      if (count == 1) {
        return MonthDay.of(month, 1);
      }
      Month before = month.minus(1);
      boolean beforeDoubled = before == Month.FEBRUARY && count > DOUBLED;
      int length = beforeDoubled ? before.minLength() : YearMonth.of(year, before).lengthOfMonth();
      return MonthDay.of(before, length + 2 - count);
    }
    boolean late =
        switch (month) {
          case MARCH, MAY, JULY, OCTOBER -> true;
          default -> false;
        };
    int day = (anchor == Anchor.NONES ? 5 : 13) + (late ? 2 : 0);
    return MonthDay.of(month, day - count + 1);
  }
}
