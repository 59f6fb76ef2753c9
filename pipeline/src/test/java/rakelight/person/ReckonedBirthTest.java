package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rakelight.inscription.Leiden;
import rakelight.inscription.SignId;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.CalendarChange;

/** Births worked out from death and age. */
class ReckonedBirthTest {
  private static List<Statement> read(String leiden) throws Exception {
    return Statements.of(Leiden.parse(leiden.replace(" / ", "\n")), CalendarChange.BRITISH);
  }

  private static Optional<Statement> birth(String leiden) throws Exception {
    return read(leiden).stream().filter(s -> s.kind() == Kind.BIRTH).findFirst();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "died 3 May 1851 / aged 60 years; [1790-05-04..1791-05-03]",
        "died May 1851 / aged 60 years; [1790..1791]",
        "died 1851 / aged 60 years; [1790..1791]",
        "died 3 May 1851 / aged 7 months; [1850-09-04..1850-10-03]",
        "died 31 May 1851 / aged 3 weeks; [1851-05-10,1851-05-11]",
        "died 3 May 1851 / in the 60th year of his age; [1791-05-04..1792-05-03]",
        "died 27 Aug. 18[.]8 / born 2 Oct. 1806 / aged 61 years; 1806-10-02",
      })
  void deathAndAgeLeaveABirth(String carved, String birth) throws Exception {
    assertThat(birth("JOHN WREN / " + carved)).map(Statement::value).contains(birth);
  }

  @Test
  void itSaysThatItIsWorkedOutAndRestsOnTheSignsOfBoth() throws Exception {
    List<Statement> all = read("JOHN WREN / died 3 May 1851 / aged 60 years");
    Statement birth = all.get(3);
    assertThat(birth.supplied()).contains("reckoned from death and age");
    assertThat(birth.valueInWords()).isEqualTo("between 1790-05-04 and 1791-05-03");
    assertThat(birth.standingInWords("", ""))
        .isEqualTo("worked out, not carved: reckoned from death and age");
    assertThat(birth.text()).isEqualTo("died 3 May 1851 / aged 60 years");
    List<SignId> signs = birth.signs();
    assertThat(signs).containsAll(all.get(1).signs()).containsAll(all.get(2).signs());
    assertThat(birth.odds()).isLessThanOrEqualTo(Math.min(all.get(1).odds(), all.get(2).odds()));
  }

  @Test
  void whatIsCarvedWornOrSaidTwiceIsLeft() throws Exception {
    assertThat(birth("JOHN WREN / born 9 March 1790 / died 3 May 1851 / aged 60 years"))
        .map(Statement::isReckoned)
        .contains(false);
    assertThat(birth("JOHN WREN / died 3 May 18[..] / aged 60 years")).isEmpty();
    assertThat(birth("JOHN WREN / died 3 May 1851 / aged [.]0 years")).isEmpty();
    assertThat(birth("JOHN WREN / died 3 May 1851")).isEmpty();
  }

  @Test
  void aLostFigureThatIsWorkedOutIsReckonedOnWith() throws Exception {
    List<Statement> widow =
        read("JOHN WREN / died 3 May 1899 / MARY his widow / died 18[.]9 / aged 60 years");
    assertThat(widow)
        .filteredOn(s -> s.kind() == Kind.DEATH && s.isReckoned())
        .extracting(Statement::value)
        .containsExactly("1899");
    assertThat(widow)
        .filteredOn(s -> s.kind() == Kind.BIRTH)
        .extracting(Statement::value)
        .containsExactly("[1838..1839]");
  }
}
