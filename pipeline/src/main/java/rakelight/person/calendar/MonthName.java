package rakelight.person.calendar;

import java.text.Normalizer;
import java.time.LocalDate;
import java.time.Month;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** Months as carved: names, their contractions, Latin genitives, 7ber and the Quakers' numbers. */
public final class MonthName {
  private static final Map<Month, Pattern> NAMES = new EnumMap<>(Month.class);

  static {
    name(Month.JANUARY, "JAN|JANY|JANRY|JANUARY|JANUARIJ?I?|IANUARIJ?I?");
    name(Month.FEBRUARY, "FEB|FEBY|FEBRY|FEBUARY|FEBRUARY|FEBRUARIJ?I?");
    name(Month.MARCH, "MAR|MCH|MARCH|MARTIJ?I?");
    name(Month.APRIL, "AP|APR|APL|APRL|APRIL|APRILIS");
    name(Month.MAY, "MAY|MAII|MAIJ");
    name(Month.JUNE, "JUN|JUNE|JUNIJ?I?");
    name(Month.JULY, "JUL|JULY|JULIJ?I?");
    name(Month.AUGUST, "AUG|AUGT|AUGST|AUGUST|AUGUSTI");
    name(
        Month.SEPTEMBER,
        "SEP|SEPT|SEPTEMR|SEPTR|SEPR|SEPTBR|SEPTEMBER|SEPTEMBRIS|(7|VII)(BER|BR|BRIS)");
    name(Month.OCTOBER, "OCT|OCTOR|OCTR|OCTBR|OCTOBER|OCTOBRIS|(8|VIII)(BER|BR|BRIS)");
    name(Month.NOVEMBER, "NOV|NOVEMR|NOVR|NOVBR|NOVEMBER|NOVEMBRIS|(9|IX|VIIII)(BER|BR|BRIS)");
    name(Month.DECEMBER, "DEC|DECEMR|DECR|DECBR|DECEMBER|DECEMBRIS|(10|X)(BER|BR|BRIS)");
  }

  private MonthName() {}

  private static void name(Month month, String forms) {
    NAMES.put(month, Pattern.compile(forms));
  }

  /** The month, or empty when the word isn't one. Case, points and raised letters don't matter. */
  public static Optional<Month> parse(String word) {
    String plain =
        Normalizer.normalize(word, Normalizer.Form.NFKD)
            .toUpperCase(Locale.ROOT)
            .replaceAll("[^A-Z0-9]", "");
    return NAMES.entrySet().stream()
        .filter(entry -> entry.getValue().matcher(plain).matches())
        .map(Map.Entry::getKey)
        .findFirst();
  }

  /**
   * The days that a Quaker date may be. To the end of 1751 the first month was March, and the
   * writer's year turned either on its first day or on Lady Day: where that matters both are given.
   *
   * @param month 1 to 12, as carved
   */
  public static List<LocalDate> quakerDays(int year, int month, int day) {
    CalendarChange british = CalendarChange.BRITISH;
    CalendarChange.Style inForce = CalendarChange.Style.IN_FORCE;
    if (year >= british.firstYearFromJanuary()) {
      return british.daysOfCountedYear(year, month, day, inForce);
    }
    int counted = (month + 1) % 12 + 1;
    if (month >= 11) {
      return british.daysOfCountedYear(year + 1, counted, day, inForce);
    }
    List<LocalDate> days = new ArrayList<>(british.daysOfCountedYear(year, counted, day, inForce));
    if (month == 1 && day < 25) {
      days.addAll(british.daysOfCountedYear(year + 1, counted, day, inForce));
    }
    return days;
  }
}
