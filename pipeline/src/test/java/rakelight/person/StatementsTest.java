package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.CalendarChange;

class StatementsTest {

  @Test
  void aWifeTakesHerHusbandsNameAndItIsMarkedAsSupplied() throws Exception {
    List<Statement> found = read("HANNAH\nwife of\nJosiah Quillan\ndied March 14, 1851");
    Statement name = only(found, Kind.NAME);
    assertThat(name.value()).isEqualTo("Hannah|Quillan");
    assertThat(name.supplied()).contains("surname from the kin named");
    assertThat(only(found, Kind.KIN).value()).isEqualTo("wife of Josiah Quillan");
    assertThat(only(found, Kind.DEATH).supplied()).isEmpty();
  }

  @Test
  void everyStatementPointsToTheSignsItWasReadFrom() throws Exception {
    Inscription inscription = Leiden.parse("JOHN GARSIDE\ndied 3 May 1848");
    for (Statement statement : Statements.of(inscription, CalendarChange.BRITISH)) {
      assertThat(statement.signs()).isNotEmpty();
      statement.signs().forEach(sign -> assertThat(inscription.position(sign)).isNotNegative());
    }
  }

  @Test
  void aLostFigureStaysLost() throws Exception {
    assertThat(only(read("JOHN GARSIDE\ndied 3 May 18[.]8"), Kind.DEATH).value())
        .isEqualTo("18X8-05-03");
    assertThat(only(read("JOHN GARSIDE\ndied 3 May 1848\naged 4[.] years"), Kind.AGE).value())
        .isEqualTo("P4XY");
  }

  @Test
  void aLetterSuppliedByTheReaderMakesTheDateSupplied() throws Exception {
    assertThat(only(read("JOHN GARSIDE\ndied 3 May 18[4]8"), Kind.DEATH).supplied())
        .contains("letters supplied by the reader");
  }

  /** "In the 73rd year of her age" is 72: as secondary works on such stones explain it. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "in the 73rd year of her age|P72Y",
        "in yᵉ 58ᵗʰ Year of her Age|P57Y",
        "anno aetatis suae 83|P82Y",
        "in the 7th year of his age|P6Y",
        "aged 71 years 7 months & 9 days|P71Y7M9D",
        "AE. 66|P66Y",
        "Aged 5 weeks|P5W",
        "aged 9 hours|PT9H",
        "aged 41 y’rs, 3 mo’s & 11 days.|P41Y3M11D",
      })
  void agesAreReadAsCarved(String carved, String value) throws Exception {
    assertThat(only(read("JOHN GARSIDE\n" + carved), Kind.AGE).value()).isEqualTo(value);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "died Feb. 11, 1731/2|1732-02-22",
        "died Feb. 11, 1731|[1731-02-22,1732-02-22]",
        "died the XIV of 9ber MDCCXXXI|1731-11-25",
        "obiit IV Non. Oct. MDCCCLXXVII|1877-10-04",
        "died about the 10th of Octr. 1793|1793-10-10~",
        "departed this life April 30, 1848|1848-04-30",
        "died in 1822|1822",
        "died about 1822|1822~",
        "died 31 June 1848|",
      })
  void daysAreKeptInTheNewStyleWithTheirDoubt(String carved, String value) throws Exception {
    List<Statement> deaths =
        read("JOHN GARSIDE\n" + carved).stream().filter(s -> s.kind() == Kind.DEATH).toList();
    assertThat(deaths.stream().map(Statement::value).findFirst())
        .isEqualTo(Optional.ofNullable(value));
  }

  @Test
  void aVerseMakesNoStatement() throws Exception {
    assertThat(read("The deep shall keep what it has won\nUntil the Sea gives up her Son"))
        .isEmpty();
  }

  /** Common practice, no source. */
  @Test
  void aMakersSignatureAtTheFootIsNobodyBuriedHere() throws Exception {
    Statement maker = only(read("JANE SALLOW\ndied 1822\nI. Pask, sculpt."), Kind.MAKER);
    assertThat(maker.person()).isZero();
    assertThat(maker.text()).isEqualTo("I. Pask, sculpt.");
  }

  private static List<Statement> read(String leiden) throws LeidenException {
    return Statements.of(Leiden.parse(leiden), CalendarChange.BRITISH);
  }

  private static Statement only(List<Statement> statements, Kind kind) {
    List<Statement> ofKind = statements.stream().filter(s -> s.kind() == kind).toList();
    assertThat(ofKind).as("%s", statements).hasSize(1);
    return ofKind.get(0);
  }
}
