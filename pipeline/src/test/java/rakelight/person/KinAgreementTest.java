package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.Period;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.person.CarvedLife.Filled;
import rakelight.person.CarvedLife.WornAge;
import rakelight.person.CarvedLife.WornDate;
import rakelight.person.calendar.CalendarChange;

class KinAgreementTest {

  @Test
  void aLostFigureIsForcedByTheAgeAndSaysSo() throws Exception {
    assertThat(words("JOHN WREN\nborn Oct. 2, 1806\ndied Aug. 27, 18[.]8\naged 61 years"))
        .containsExactly("death year, figure 3 must be 6 by the age");
  }

  @Test
  void aCarvedWeekdayNarrowsTheYear() throws Exception {
    // java.time: 11 November was a Monday in 1912 and 1918 of that decade.
    assertThat(words("JOHN WREN\ndied Monday 11 Nov. 191[.]"))
        .containsExactly("death year, figure 4 can only be 2, 8 by the weekday");
  }

  @Test
  void aWeekdayThatItsDateNeverWasIsAContradiction() throws Exception {
    // java.time: 14 April 1865 was a Friday.
    assertThat(words("JOHN WREN\ndied Friday April 14, 1865")).isEmpty();
    assertThat(words("JOHN WREN\ndied Monday April 14, 1865"))
        .containsExactly("death 1865-04-14 and the Monday can't all be right");
  }

  /** ThreeTen-Extra: 11 February 1731/2 Old Style was a Friday. */
  @Test
  void aWeekdayIsThatOfTheGroundsOwnCalendar() throws Exception {
    assertThat(words("JOHN WREN\ndied Friday Feb. 11, 1731/2")).isEmpty();
    assertThat(words("JOHN WREN\ndied Monday Feb. 11, 1731/2")).hasSize(1);
  }

  @Test
  void aFigureTheReaderMarkedUnclearIsToldWhenItCannotBeAsRead() throws Exception {
    assertThat(words("JOHN WREN\nborn Oct. 2, 1806\ndied Aug. 27, 183̣8\naged 61 years"))
        .containsExactly("death year, figure 3 can't be the 3 read; it must be 6 by the age");
  }

  @Test
  void aWidowOutlivedHerHusband() throws Exception {
    assertThat(
            words("JOHN WREN\ndied May 3, 1866\nAlso ANN relict of the above\ndied June 1, 18[.]5"))
        .containsExactly("death year, figure 3 can only be 7, 8, 9 by the relict’s outliving");
  }

  @Test
  void aMotherWasAliveWhenHerChildWasBorn() throws Exception {
    assertThat(
            words(
                "ANN WREN\nborn May 3, 1800\ndied May 3, 1840\nMARY her daughter\n"
                    + "born May 1, 18[.]9\ndied May 9, 1899"))
        .containsExactly("birth year, figure 3 can only be 1, 2, 3 by the parent’s years");
  }

  @Test
  void datesOfTwoKinThatCannotBothStandAreAContradictionOfTheStone() throws Exception {
    assertThat(
            words("JOHN WREN\ndied May 3, 1866\nAlso ANN relict of the above\ndied June 1, 1855"))
        .containsExactly("the dates of persons 1 and 2 don’t allow the relict’s outliving");
  }

  @Test
  void ofTwoNumberedBurialsInOneGraveTheFirstCameFirst() throws Exception {
    assertThat(
            words(
                "JOHN WREN\nfirst interred\ndied May 3, 1866\nANN WREN\nsecond interred\n"
                    + "died June 1, 18[.]5"))
        .containsExactly("death year, figure 3 can only be 7, 8, 9 by the order of burial");
  }

  @Test
  void nothingIsSaidOfFiguresThatMayBeAnything() throws Exception {
    assertThat(words("JOHN WREN\ndied 18[..]")).isEmpty();
  }

  @Test
  void anAgeOfEighteenMonthsIsNoContradiction() throws Exception {
    assertThat(words("JOHN WREN\nborn Jan. 1, 1840\ndied July 2, 1841\naged 18 months")).isEmpty();
  }

  /**
   * "Aetatis" was cut for the years completed and for the year begun: aet. 60 on a stone whose
   * dates give 59 isn't a contradiction, aged 60 is. Common practice, no source.
   */
  @Test
  void afterAetatisOneYearLessIsAllowed() throws Exception {
    String dates = "JOHN WREN\nborn May 3, 1800\ndied May 1, 1860\n";
    assertThat(words(dates + "Aet. 60")).isEmpty();
    assertThat(words(dates + "aged 60 years")).hasSize(1);
  }

  /** By arithmetic: who died on 31 December 1850 aged 30 was born in 1820. */
  @Test
  void fromTheYearsAloneTheBirthLiesWithinOneYear() {
    CarvedLife stone =
        new CarvedLife(
            Optional.empty(),
            Optional.of(WornDate.of("1850-12-31")),
            Optional.of(WornAge.ofYears(Worn.of("30"))),
            Optional.empty());
    StoneArithmetic.Life life = StoneArithmetic.solve(stone).keySet().iterator().next();
    LocalDate[] born = life.bornWithin().orElseThrow();
    assertThat(born).containsExactly(LocalDate.of(1820, 1, 1), LocalDate.of(1820, 12, 31));
  }

  /** java.time: a clamp at the end of a month gives another age back than the one taken off. */
  @Test
  void takingOffAnAgeAndPuttingItOnAgainMayDifferByDays() {
    LocalDate death = LocalDate.of(1875, 5, 31);
    LocalDate birth = death.minusYears(40).minusMonths(3);
    assertThat(birth).isEqualTo("1835-02-28");
    assertThat(Period.between(birth, death)).isEqualTo(Period.of(40, 3, 3));
    CarvedLife stone =
        new CarvedLife(
            Optional.of(WornDate.of("1835-02-28")),
            Optional.of(WornDate.of("1875-05-31")),
            Optional.of(
                new WornAge(
                    Worn.of("40"), Optional.of(Worn.of("3")), Optional.of(Worn.of("0")), false)),
            Optional.empty());
    assertThat(StoneArithmetic.solve(stone)).hasSize(1);
  }

  @Test
  void aYearCarvedAloneMayBeAnyDayOfIt() {
    Filled filled =
        new WornDate(
                Worn.of("1849"),
                Optional.empty(),
                Optional.empty(),
                false,
                CarvedLife.Reckoning.OF_THE_GROUND,
                CalendarChange.BRITISH)
            .readings()
            .keySet()
            .iterator()
            .next();
    assertThat(filled.from()).isEqualTo("1849-01-01");
    assertThat(filled.to()).isEqualTo("1849-12-31");
  }

  private static List<String> words(String leiden) throws LeidenException {
    return KinAgreement.of(Statements.of(Leiden.parse(leiden), CalendarChange.BRITISH)).stream()
        .map(KinAgreement.Finding::words)
        .toList();
  }
}
