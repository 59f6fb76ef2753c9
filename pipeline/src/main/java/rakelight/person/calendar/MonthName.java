package rakelight.person.calendar;

import java.text.Normalizer;
import java.time.LocalDate;
import java.time.Month;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Months as carved: names, their contractions, in Latin and Welsh, 7ber and the Quakers' numbers.
 */
public final class MonthName {
  private static final Map<String, Month> NAMES = new HashMap<>();
  private static final Pattern IS_CARVED = Pattern.compile("[A-Z0-9]+");
  private static final Pattern NOT_CARVED = Pattern.compile("[^A-Z0-9]");
  private static final int LONGEST = 24;

  static {
    name(
        Month.JANUARY,
        "IAN IANUAR JANUAR IANUARI IANUARII IANUARIJ IANUARIJI IANUARY JAN JANR JANRY JANU JANUARI JANUARIAS JANUARII JANUARIJ JANUARIJI JANUARY JANUAR IONAWR JANUY JANY");
    name(
        Month.FEBRUARY,
        "FEB FEBR FEBRU FEBRUARI FEBRUARIAS FEBRUARII FEBRUARIJ FEBRUARIJI FEBRUARY FEBRY FEBU FEBUARY FEBRUAR CHWEFROR FEBY");
    name(Month.MARCH, "MAR MARCH MARTI MARTIAS MARTII MARTIJ MARTIJI MCH MAWRTH");
    name(Month.APRIL, "AP APL APR APRI APRIL APRILES APRILIS APRILL APRYL APRYLL EBRILL APRL");
    name(Month.MAY, "MAIAS MAIE MAII MAIJ MAI MAY MAYE");
    name(
        Month.JUNE, "IUNE IUNI IUNII IUNIJ IUNIJI JUN JUNE JUNI JUNIAS JUNII JUNIJ JUNIJI MEHEFIN");
    name(
        Month.JULY,
        "IULI IULII IULIJ IULIJI IULY JUL JULI JULIAS JULII JULIJ JULIJI JULY GORFFENNAF");
    name(Month.AUGUST, "AGUST AUG AUGST AUGT AUGU AUGUS AUGUST AUGUSTAS AUGUSTI AWST");
    name(
        Month.SEPTEMBER,
        "7BER 7BR 7BRIS SEP SEPB SEPBR SEPR SEPT SEPTB SEPTBR SEPTEM SEPTEMB SEPTEMBER SEPTEMBR SEPTEMBRES SEPTEMBRIS SEPTEMR SEPTR VIIBER VIIBR VIIBRIS MEDI");
    name(
        Month.OCTOBER,
        "8BER 8BR 8BRIS OCT OCTBR OCTO OCTOB OCTOBER OCTOBR OCTOBRES OCTOBRIS OCTOR OCTR VIIIBER VIIIBR VIIIBRIS HYDREF");
    name(
        Month.NOVEMBER,
        "9BER 9BR 9BRIS IXBER IXBR IXBRIS NOV NOVB NOVBR NOVEM NOVEMB NOVEMBER NOVEMBR NOVEMBRES NOVEMBRIS NOVEMR NOVR VIIIIBER VIIIIBR VIIIIBRIS TACHWEDD");
    name(
        Month.DECEMBER,
        "10BER 10BR 10BRIS DEC DECB DECBR DECEM DECEMB DECEMBER DECEMBR DECEMBRES DECEMBRIS DECEMR DECR XBER XBR XBRIS RHAGFYR");
  }

  private MonthName() {}

  private static void name(Month month, String forms) {
    for (String form : forms.split(" ", -1)) {
      NAMES.put(form, month);
    }
  }

  /** The month, or empty when the word isn't one. Case, points and raised letters don't matter. */
  public static Optional<Month> parse(String word) {
    if (word.isEmpty() || word.length() > LONGEST) {
      return Optional.empty();
    }
    String upper = word.toUpperCase(Locale.ROOT);
    String plain =
        IS_CARVED.matcher(upper).matches()
            ? upper
            : NOT_CARVED
                .matcher(Normalizer.normalize(word, Normalizer.Form.NFKD).toUpperCase(Locale.ROOT))
                .replaceAll("");
    // As cut before U had a sign of its own.
    return Optional.ofNullable(NAMES.getOrDefault(plain, NAMES.get(plain.replace('V', 'U'))));
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
