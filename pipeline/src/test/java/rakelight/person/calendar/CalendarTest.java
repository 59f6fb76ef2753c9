package rakelight.person.calendar;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.Month;
import java.time.MonthDay;
import java.time.temporal.ChronoField;
import java.time.temporal.ChronoUnit;
import java.time.temporal.JulianFields;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.threeten.extra.chrono.JulianChronology;
import rakelight.person.calendar.CalendarChange.Style;

/** Conversions: ThreeTen-Extra's Julian and British calendars and java.time, unless said. */
class CalendarTest {
  private static final CalendarChange BRITISH = CalendarChange.BRITISH;

  /** Calendar (New Style) Act 1750, 24 Geo. II c. 23. */
  @Test
  void theSecondOfSeptember1752WasFollowedByTheFourteenth() {
    LocalDate second = only(BRITISH.days(1752, 9, 2, Style.IN_FORCE));
    LocalDate fourteenth = only(BRITISH.days(1752, 9, 14, Style.IN_FORCE));
    assertThat(second.plusDays(1)).isEqualTo(fourteenth);
    assertThat(second.getDayOfWeek()).isEqualTo(DayOfWeek.WEDNESDAY);
    assertThat(fourteenth.getDayOfWeek()).isEqualTo(DayOfWeek.THURSDAY);
    assertThat(second.getLong(JulianFields.JULIAN_DAY)).isEqualTo(2361221);
    assertThat(fourteenth.getLong(JulianFields.JULIAN_DAY)).isEqualTo(2361222);
  }

  @ParameterizedTest
  @ValueSource(ints = {3, 8, 13})
  void theElevenDaysDroppedIn1752AreNoDays(int day) {
    assertThat(BRITISH.days(1752, 9, day, Style.IN_FORCE)).isEmpty();
  }

  /** 24 March 1750 was followed by 25 March 1751: Calendar (New Style) Act 1750. */
  @Test
  void theYear1751Had282DaysAnd1752Had355() {
    LocalDate first1751 = only(BRITISH.days(1751, 3, 25, Style.IN_FORCE));
    LocalDate first1752 = only(BRITISH.days(1752, 1, 1, Style.IN_FORCE));
    LocalDate first1753 = only(BRITISH.days(1753, 1, 1, Style.IN_FORCE));
    assertThat(ChronoUnit.DAYS.between(first1751, first1752)).isEqualTo(282);
    assertThat(ChronoUnit.DAYS.between(first1752, first1753)).isEqualTo(355);
    assertThat(first1752).isEqualTo("1752-01-12");
    assertThat(first1752.getDayOfWeek()).isEqualTo(DayOfWeek.WEDNESDAY);
    assertThat(BRITISH.days(1750, 3, 24, Style.IN_FORCE)).contains(first1751.minusDays(1));
  }

  @ParameterizedTest
  @CsvSource({
    "1700, 2, 28, 1700-03-10",
    "1700, 2, 29, 1700-03-11",
    "1700, 3, 1, 1700-03-12",
    "1649, 1, 30, 1649-02-09",
  })
  void theCalendarsLieTenDaysApartUntilTheEndOfFebruary1700AndThenEleven(
      int year, int month, int day, LocalDate gregorian) {
    assertThat(BRITISH.daysOfCountedYear(year, month, day, Style.OLD)).containsExactly(gregorian);
  }

  /**
   * Old Style, with the year that counts from January. Births of Washington (11 Feb 1731/2),
   * Franklin (6 Jan 1705/6), J. Adams, Jefferson; 30 January 1648/49; Newton's birth and death; the
   * Great Fire: Old Style days from memory, conversion by ThreeTen-Extra.
   */
  @ParameterizedTest
  @CsvSource({
    "1732, 2, 11, 1732-02-22, FRIDAY",
    "1649, 1, 30, 1649-02-09, TUESDAY",
    "1706, 1, 6, 1706-01-17, SUNDAY",
    "1735, 10, 19, 1735-10-30, SUNDAY",
    "1743, 4, 2, 1743-04-13, SATURDAY",
    "1642, 12, 25, 1643-01-04, SUNDAY",
    "1727, 3, 20, 1727-03-31, MONDAY",
    "1666, 9, 2, 1666-09-12, SUNDAY",
  })
  void oldStyleDaysThatAreRememberedFallWhereTheyShould(
      int year, int month, int day, LocalDate gregorian, DayOfWeek weekday) {
    LocalDate date = only(BRITISH.daysOfCountedYear(year, month, day, Style.IN_FORCE));
    assertThat(date).isEqualTo(gregorian);
    assertThat(date.getDayOfWeek()).isEqualTo(weekday);
  }

  @Test
  void aBareDayBeforeLadyDayHasTwoCandidateYearsAndOneAfterItHasOne() {
    assertThat(BRITISH.days(1731, 2, 11, Style.IN_FORCE))
        .containsExactly(LocalDate.of(1731, 2, 22), LocalDate.of(1732, 2, 22));
    assertThat(BRITISH.days(1731, 3, 25, Style.IN_FORCE)).hasSize(1);
    assertThat(BRITISH.days(1752, 2, 11, Style.IN_FORCE)).hasSize(1);
  }

  /** From memory: C. R. Cheney, Handbook of Dates. */
  @Test
  void scotlandCountedFromJanuarySince1600YetStayedJulian() {
    assertThat(CalendarChange.SCOTTISH.days(1731, 2, 11, Style.IN_FORCE))
        .containsExactly(LocalDate.of(1731, 2, 22));
  }

  /** Library of the Society of Friends, The Quaker calendar; 1751 and before. */
  @ParameterizedTest
  @CsvSource({"1, 3", "2, 4", "3, 5", "4, 6", "5, 7", "6, 8", "7, 9", "8, 10", "9, 11", "10, 12"})
  void theQuakersFirstMonthWasMarchTo1751(int carved, int month) {
    LocalDate expected = only(BRITISH.daysOfCountedYear(1740, month, 28, Style.OLD));
    assertThat(MonthName.quakerDays(1740, carved, 28)).containsExactly(expected);
    assertThat(MonthName.quakerDays(1760, carved, 28))
        .containsExactly(LocalDate.of(1760, carved, 28));
  }

  @Test
  void theQuakersEleventhAndTwelfthMonthsLieInTheNextYearAsWeCount() {
    assertThat(MonthName.quakerDays(1740, 11, 5))
        .containsExactly(only(BRITISH.daysOfCountedYear(1741, 1, 5, Style.OLD)));
    assertThat(MonthName.quakerDays(1740, 12, 5))
        .containsExactly(only(BRITISH.daysOfCountedYear(1741, 2, 5, Style.OLD)));
  }

  /** "12 1mo 1676" is 12 March 1676/7 where the year turned on the 25th, else 1676: keep both. */
  @Test
  void theTwelfthOfFirstMonth1676MayBeIn1676Or1677() {
    assertThat(MonthName.quakerDays(1676, 1, 12))
        .containsExactly(
            only(BRITISH.daysOfCountedYear(1676, 3, 12, Style.OLD)),
            only(BRITISH.daysOfCountedYear(1677, 3, 12, Style.OLD)));
  }

  /** 7ber as September: Library of the Society of Friends; the others from memory. */
  @ParameterizedTest
  @CsvSource({
    "7ber, SEPTEMBER",
    "VIIber, SEPTEMBER",
    "7br, SEPTEMBER",
    "8ber, OCTOBER",
    "VIIIber, OCTOBER",
    "9ber, NOVEMBER",
    "IXber, NOVEMBER",
    "10ber, DECEMBER",
    "Xber, DECEMBER",
    "Xbris, DECEMBER",
    "Janʸ, JANUARY",
    "Febry., FEBRUARY",
    "Septʳ, SEPTEMBER",
    "MAII, MAY",
    "Augt., AUGUST",
  })
  void monthsAreKnownByTheirCarvedForms(String carved, Month month) {
    assertThat(MonthName.parse(carved)).contains(month);
  }

  @ParameterizedTest
  @ValueSource(strings = {"MARY", "MARTHA", "AUGUSTUS", "JULIA", "APPLE", "11ber", "", "OCTAVIA"})
  void namesAreNotMonths(String word) {
    assertThat(MonthName.parse(word)).isEmpty();
  }

  /** From memory; the arithmetic is that of the inclusive count. */
  @ParameterizedTest
  @CsvSource({
    "Kal. Jan., --01-01", "prid. Kal. Jan., --12-31", "VIII Kal. Jan., --12-25",
    "XVII Kal. Jan., --12-16", "XIV Kal. Maii, --04-18", "III Non. Oct., --10-05",
    "IV Non. Sept., --09-02", "VI Id. Jan., --01-08", "VIII Id. Jul., --07-08",
    "Id. Mart., --03-15",
  })
  void romanDatesCountBackwardsWithBothEnds(String carved, String day) {
    assertThat(RomanDate.parse(carved).orElseThrow().in(1731)).isEqualTo(MonthDay.parse(day));
  }

  /** XXIIII: an example of the EpiDoc IRT corpus; the others from memory. */
  @ParameterizedTest
  @CsvSource({
    "XXIIII, 24",
    "MDCCCLXXXVIIII, 1889",
    "MDCCCLXXXIX, 1889",
    "MDCCLXXXIIII, 1784",
    "MDCLXVIJ, 1667",
    "VIIJ, 8",
    "XIIX, 18",
    "CIↃIↃCLXXXVIII, 1688",
    "mdccxl, 1740",
    "IV, 4",
    "MCM, 1900",
    "CDXLIV, 444",
  })
  void numeralsAreReadAsCarved(String carved, int value) {
    assertThat(RomanNumeral.parse(carved)).hasValue(value);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "IIIIII", "VX", "ABC", "IVI", "IXX", "XVX", "VV", "LIL", "IIIX"})
  void whatIsNoNumeralIsNotReadAsOne(String text) {
    assertThat(RomanNumeral.parse(text)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "1776-07-04, THURSDAY",
    "1789-04-30, THURSDAY",
    "1799-12-14, SATURDAY",
    "1800-01-01, WEDNESDAY",
    "1815-06-18, SUNDAY",
    "1826-07-04, TUESDAY",
    "1861-04-12, FRIDAY",
    "1865-04-14, FRIDAY",
    "1876-07-04, TUESDAY",
    "1900-01-01, MONDAY",
    "1912-04-15, MONDAY",
    "1918-11-11, MONDAY",
    "1945-08-15, WEDNESDAY",
    "2000-02-29, TUESDAY",
  })
  void weekdaysOfNewStyleDays(LocalDate date, DayOfWeek weekday) {
    LocalDate day =
        only(
            BRITISH.days(
                date.getYear(), date.getMonthValue(), date.getDayOfMonth(), Style.IN_FORCE));
    assertThat(day.getDayOfWeek()).isEqualTo(weekday);
  }

  @ParameterizedTest
  @CsvSource({"1620, 12, 21, THURSDAY", "1649, 1, 30, TUESDAY", "1700, 2, 29, THURSDAY"})
  void weekdaysOfOldStyleDays(int year, int month, int day, DayOfWeek weekday) {
    assertThat(only(BRITISH.daysOfCountedYear(year, month, day, Style.OLD)).getDayOfWeek())
        .isEqualTo(weekday);
  }

  /**
   * The dominical letter is that of the year's Sundays when 1 January is A; leap years have two.
   */
  @ParameterizedTest
  @CsvSource({
    "1600, OLD, FE", "1649, OLD, G", "1700, OLD, GF", "1731, OLD, C", "1732, OLD, BA",
    "1751, OLD, F", "1753, NEW, G", "1776, NEW, GF", "1800, NEW, E", "1863, NEW, D",
    "1864, NEW, CB", "1900, NEW, G", "2000, NEW, BA", "2024, NEW, GF", "2025, NEW, E",
    "2026, NEW, D",
  })
  void dominicalLettersFollowFromTheFirstAndLastDayOfTheYear(
      int year, Style style, String letters) {
    LocalDate first = only(BRITISH.daysOfCountedYear(year, 1, 1, style));
    LocalDate last = only(BRITISH.daysOfCountedYear(year, 12, 31, style));
    String early = letter(first, 0);
    String late = letter(last, 364);
    assertThat(early.equals(late) ? early : early + late).isEqualTo(letters);
  }

  @Test
  void britainHadLetterEUntilTheChangeOf1752ThenA() {
    assertThat(letter(only(BRITISH.days(1752, 1, 1, Style.IN_FORCE)), 0)).isEqualTo("E");
    // The second letter of a leap year holds from March; D until 2 September, A after it.
    assertThat(letter(only(BRITISH.days(1752, 3, 1, Style.IN_FORCE)), 59)).isEqualTo("D");
    assertThat(letter(only(BRITISH.days(1752, 12, 31, Style.IN_FORCE)), 364)).isEqualTo("A");
  }

  /** Day numbers: java.time's Julian fields. */
  @ParameterizedTest
  @CsvSource({
    "1600, 2, 29, NEW, 2305507", "1649, 1, 30, OLD, 2323385", "1752, 9, 2, OLD, 2361221",
    "1752, 9, 14, NEW, 2361222", "1776, 7, 4, NEW, 2369916", "1865, 4, 14, NEW, 2402341",
    "1900, 1, 1, NEW, 2415021", "2000, 1, 1, NEW, 2451545",
  })
  void dayNumbersAndTheirWeekdays(int year, int month, int day, Style style, long number) {
    LocalDate date = only(BRITISH.daysOfCountedYear(year, month, day, style));
    assertThat(date.getLong(JulianFields.JULIAN_DAY)).isEqualTo(number);
    assertThat(date.getDayOfWeek().getValue() - 1).isEqualTo((int) (number % 7));
  }

  /** Zeller's congruence, from memory; every tenth day of both calendars, 1583 to 2100. */
  @Test
  void weekdaysAgreeWithZeller() {
    for (LocalDate date = LocalDate.of(1583, 1, 1);
        date.getYear() <= 2100;
        date = date.plusDays(10)) {
      assertThat(date.getDayOfWeek())
          .isEqualTo(zeller(date.getYear(), date.getMonthValue(), date.getDayOfMonth(), false));
      var julian = JulianChronology.INSTANCE.date(date);
      assertThat(date.getDayOfWeek())
          .isEqualTo(
              zeller(
                  julian.get(ChronoField.YEAR),
                  julian.get(ChronoField.MONTH_OF_YEAR),
                  julian.get(ChronoField.DAY_OF_MONTH),
                  true));
    }
  }

  @Test
  void theYear1700WasLeapInTheOldStyleOnlyAnd1752InBoth() {
    assertThat(BRITISH.daysOfCountedYear(1700, 2, 29, Style.NEW)).isEmpty();
    assertThat(BRITISH.daysOfCountedYear(1700, 2, 29, Style.OLD)).hasSize(1);
    assertThat(BRITISH.daysOfCountedYear(1800, 2, 29, Style.NEW)).isEmpty();
    assertThat(BRITISH.daysOfCountedYear(1900, 2, 29, Style.NEW)).isEmpty();
    assertThat(BRITISH.daysOfCountedYear(1752, 2, 29, Style.NEW)).hasSize(1);
    assertThat(BRITISH.daysOfCountedYear(1752, 2, 29, Style.OLD)).hasSize(1);
  }

  private static DayOfWeek zeller(int year, int month, int day, boolean julian) {
    int m = month < 3 ? month + 12 : month;
    int y = month < 3 ? year - 1 : year;
    int k = y % 100;
    int j = y / 100;
    int h = (day + 13 * (m + 1) / 5 + k + k / 4 + (julian ? 5 + 6 * j : j / 4 + 5 * j)) % 7;
    return DayOfWeek.SATURDAY.plus(h);
  }

  private static String letter(LocalDate date, int dayOfCommonYear) {
    int sunday = (dayOfCommonYear + 7 - date.getDayOfWeek().getValue() % 7) % 7;
    return Character.toString((char) ('A' + sunday));
  }

  private static LocalDate only(List<LocalDate> days) {
    assertThat(days).hasSize(1);
    return days.get(0);
  }
}
