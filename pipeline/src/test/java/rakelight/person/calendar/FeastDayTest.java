package rakelight.person.calendar;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.MonthDay;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FeastDayTest {

  /** Computed with python-dateutil 2.8 (easter, methods 3 and 1 or 2). */
  @ParameterizedTest
  @CsvSource({
    "1818,1818-03-22",
    "1850,1850-03-31",
    "1875,1875-03-28",
    "1901,1901-04-07",
    "1943,1943-04-25"
  })
  void easterIsThatOfTheGregorianReckoning(int year, LocalDate easter) {
    assertThat(FeastDay.gregorianEaster(year)).isEqualTo(easter);
  }

  /** Computed with python-dateutil 2.8 (easter, method 2). */
  @ParameterizedTest
  @CsvSource({"1649,1649-04-04", "1700,1700-04-11", "1731,1731-04-29", "1740,1740-04-17"})
  void beforeTheChangeItIsTheJulianOneAsAGregorianDay(int year, LocalDate easter) {
    assertThat(FeastDay.julianEaster(year)).isEqualTo(easter);
  }

  @ParameterizedTest
  @CsvSource({
    "Good Friday,1850,1850-03-29",
    "Whit Sunday,1850,1850-05-19",
    "Xmas Day,1861,1861-12-25",
    "Christmas Day,1740,1741-01-05",
    "Michaelmas,1860,1860-09-29",
    "Good Friday,1740,1740-04-15",
  })
  void aFeastIsADay(String name, int year, LocalDate day) {
    assertThat(FeastDay.parse(name).orElseThrow().days(year, CalendarChange.BRITISH))
        .containsExactly(day);
  }

  /** Common practice: the sixth day before the Kalends of March is doubled. */
  @Test
  void inALeapYearTheSixthDayBeforeMarchIsDoubled() {
    RomanDate date = RomanDate.parse("XVI Kal. Mart.").orElseThrow();
    assertThat(date.in(1820)).isEqualTo(MonthDay.of(2, 14));
    assertThat(date.in(1821)).isEqualTo(MonthDay.of(2, 14));
    assertThat(RomanDate.parse("prid. Kal. Mart.").orElseThrow().in(1820))
        .isEqualTo(MonthDay.of(2, 29));
    assertThat(RomanDate.parse("VII Kal. Mart.").orElseThrow().in(1820))
        .isEqualTo(MonthDay.of(2, 23));
  }

  /** The year 1751 ended in December, and Scotland's year 1599 likewise. */
  @Test
  void aDayBeforeLadyDayInTheLastOldYearIsOneDay() {
    assertThat(CalendarChange.BRITISH.days(1751, 2, 3, CalendarChange.Style.IN_FORCE))
        .containsExactly(LocalDate.of(1751, 2, 14));
    assertThat(CalendarChange.SCOTTISH.days(1599, 2, 3, CalendarChange.Style.IN_FORCE)).hasSize(1);
    assertThat(CalendarChange.BRITISH.days(1750, 2, 3, CalendarChange.Style.IN_FORCE)).hasSize(2);
  }
}
