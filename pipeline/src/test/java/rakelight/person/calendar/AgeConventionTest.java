package rakelight.person.calendar;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AgeConventionTest {

  /**
   * The rule of 8870: Western History department, Denver Public Library. Data of the third row: A.
   * L. Giroux, "Date Calculations", OnBoard 9 (May 2003). Data of the others made up, no source;
   * all results by java.time and by arithmetic by hand.
   */
  @ParameterizedTest
  @CsvSource({
    "1889-05-06, 71, 7, 9, 18170927, 1817-09-27, 1817-09-27, 1817-09-27, 1817-09-27",
    "1857-06-25, 52, 9, 6, 18040849, 1804-09-19, 1804-09-19, 1804-09-19, 1804-09-19",
    "1868-07-17, 16, 10, 13, 18510834, 1851-09-04, 1851-09-04, 1851-09-04, 1851-09-04",
    "1904-08-03, 79, 9, 29, 18241004, 1824-10-04, 1824-10-05, 1824-10-05, 1824-10-05",
    "1850-01-05, 30, 1, 10, 18191125, 1819-11-25, 1819-11-25, 1819-11-26, 1819-11-26",
    "1900-03-10, 50, 0, 12, 18491428, 1850-02-28, 1850-02-26, 1850-02-26, 1850-02-26",
    "1863-03-01, 0, 0, 1, 18621430, 1863-02-30, 1863-02-28, 1863-02-28, 1863-02-28",
    "1863-03-30, 0, 1, 2, 18621358, 1863-02-28, 1863-02-26, 1863-02-28, 1863-02-28",
    "1875-05-31, 40, 3, 0, 18341361, 1835-02-31, 1835-02-28, 1835-02-28, 1835-02-31",
    "1880-02-29, 1, 0, 0, 18781359, 1879-02-29, 1879-02-28, 1879-02-28, 1879-02-29",
  })
  void conventionsDifferJustAsTheyDoOnPaper(
      LocalDate death,
      int years,
      int months,
      int days,
      int raw,
      String by8870,
      String yearsFirst,
      String daysFirst,
      String monthBefore) {
    Age age = Age.of(years, months, days);
    int number = death.getYear() * 10000 + death.getMonthValue() * 100 + death.getDayOfMonth();
    assertThat(number - (years * 10000 + months * 100 + days) - 8870).isEqualTo(raw);
    AgeConvention.Reckoned reckoned = AgeConvention.rule8870(death, age);
    assertThat(
            String.format(
                Locale.ROOT, "%d-%02d-%02d", reckoned.year(), reckoned.month(), reckoned.day()))
        .isEqualTo(by8870);
    expectBirth(AgeConvention.BORROW_THIRTY, death, age, by8870);
    expectBirth(AgeConvention.YEARS_FIRST, death, age, yearsFirst);
    expectBirth(AgeConvention.DAYS_FIRST, death, age, daysFirst);
    expectBirth(AgeConvention.BORROW_MONTH_BEFORE, death, age, monthBefore);
  }

  private static void expectBirth(
      AgeConvention convention, LocalDate death, Age age, String expected) {
    boolean everWas =
        !expected.endsWith("-02-30")
            && !expected.endsWith("-02-31")
            && !expected.equals("1879-02-29");
    if (everWas) {
      assertThat(convention.birth(death, age)).contains(LocalDate.parse(expected));
    } else {
      assertThat(convention.birth(death, age)).isEmpty();
    }
  }

  @Test
  void weightsOfTheConventionsSumToOne() {
    assertThat(Arrays.stream(AgeConvention.values()).mapToDouble(AgeConvention::weight).sum())
        .isCloseTo(1, within(1e-12));
  }

  /** ISO 8601 durations. */
  @Test
  void anAgeIsWrittenAsADurationInTheUnitsCarved() {
    assertThat(Age.of(71, 7, 9)).hasToString("P71Y7M9D");
    assertThat(Age.ofYears(0)).hasToString("P0Y");
    assertThat(new Age(0, 0, 3, 0, 0, Age.Unit.WEEKS)).hasToString("P3W");
    assertThat(new Age(0, 0, 0, 1, 5, Age.Unit.HOURS)).hasToString("P1DT5H");
    assertThat(new Age(0, 0, 0, 0, 5, Age.Unit.HOURS)).hasToString("PT5H");
  }

  @ParameterizedTest
  @CsvSource({
    "P57Y, 57 years",
    "P1Y1M1D, 1 year 1 month 1 day",
    "P71Y7M9D, 71 years 7 months 9 days",
    "P3W2D, 3 weeks 2 days",
    "PT5H, 5 hours",
    "P0Y, 0 years",
    "P4XY, 4? years",
    "about sixty, about sixty",
  })
  void anAgeIsSaidInWords(String duration, String words) {
    assertThat(Age.inWords(duration)).isEqualTo(words);
  }

  @Test
  void everyAgeThatCanBeCarvedIsSaidInWords() {
    for (Age.Unit finest : Age.Unit.values()) {
      Age age = new Age(2, 3, 4, 5, finest == Age.Unit.HOURS ? 6 : 0, finest);
      assertThat(Age.inWords(age.toString())).startsWith("2 years 3 months 4 weeks 5 days");
    }
  }
}
