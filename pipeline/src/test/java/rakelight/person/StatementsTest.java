package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DayOfWeek;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rakelight.inscription.Inscription;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.CalendarChange;

class StatementsTest {

  @Test
  void aWifeTakesHerHusbandsNameAndItIsMarkedAsSupplied() throws Exception {
    List<Statement> found = read("HANNAH\nwife of\nJasper Quillan\ndied March 14, 1851");
    Statement name = only(found, Kind.NAME);
    assertThat(name.value()).isEqualTo("Hannah|Quillan");
    assertThat(name.supplied()).contains("surname from the kin named");
    assertThat(only(found, Kind.KIN).value()).isEqualTo("wife of Jasper Quillan");
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

  /** "In the 73rd year of her age" is 72 completed: common practice, no source. */
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
        "died 31 June 1848|1848-06",
      })
  void daysAreKeptInTheNewStyleWithTheirDoubt(String carved, String value) throws Exception {
    List<Statement> deaths =
        read("JOHN GARSIDE\n" + carved).stream().filter(s -> s.kind() == Kind.DEATH).toList();
    assertThat(deaths.stream().map(Statement::value).findFirst())
        .isEqualTo(Optional.ofNullable(value));
  }

  @Test
  void aVerseIsToldApartAndAssertsNothingOfAnybody() throws Exception {
    List<Statement> found =
        read(
            "PETER DUNNOCK\ndied May 3 1840\nThe deep shall keep what it has won\n"
                + "Until the Sea gives up her Son");
    Statement verse = only(found, Kind.VERSE);
    assertThat(verse.persons()).isEmpty();
    assertThat(verse.isFact()).isFalse();
    assertThat(verse.firstLine()).isEqualTo(3);
    assertThat(verse.lastLine()).isEqualTo(4);
    assertThat(found).filteredOn(Statement::isFact).hasSize(2);
  }

  @Test
  void aVerseAloneMakesNoStatement() throws Exception {
    assertThat(read("The deep shall keep what it has won\nUntil the Sea gives up her Son"))
        .isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Blessed are the dead\\nRev. xiv. 13",
        "He giveth his beloved sleep\\nPSALM 127",
        "I have fought a good fight\\n2 Tim. iv. 7",
      })
  void wordsWithAPlaceInScriptureAreScripture(String words) throws Exception {
    List<Statement> found = read("PETER DUNNOCK\ndied May 3 1840\n" + words.replace("\\n", "\n"));
    Statement scripture = only(found, Kind.SCRIPTURE);
    assertThat(scripture.persons()).isEmpty();
    assertThat(scripture.lastLine()).isEqualTo(4);
    assertThat(found).filteredOn(s -> s.kind() == Kind.NAME).hasSize(1);
  }

  /** Common practice, no source. */
  @ParameterizedTest
  @ValueSource(strings = {"I. Pask, sculpt.", "Tull & Son, Tarrow", "H. Lunt, maker"})
  void aMakersSignatureAtTheFootIsNobodyBuriedHere(String signature) throws Exception {
    List<Statement> found = read("JANE SALLOW\ndied 1822\n" + signature);
    Statement maker = only(found, Kind.MAKER);
    assertThat(maker.person()).isZero();
    assertThat(maker.text()).isEqualTo(signature);
    assertThat(found).filteredOn(s -> s.kind() == Kind.NAME).hasSize(1);
  }

  /** The month of an "inst." is that of the date named before, of an "ult." the one before it. */
  @ParameterizedTest
  @CsvSource({"12th inst.,1840-01-12", "12th ult.,1839-12-12"})
  void instAndUltTakeTheirMonthFromTheDateBefore(String carved, String value) throws Exception {
    List<Statement> found =
        read("JOHN GARSIDE\ndied Jan. 3 1840\nAlso RUTH his wife\ndied " + carved);
    Statement second =
        found.stream().filter(s -> s.kind() == Kind.DEATH).skip(1).findFirst().orElseThrow();
    assertThat(second.value()).isEqualTo(value);
    assertThat(second.supplied()).contains("month from the date before");
  }

  @Test
  void anInstWithNoDateBeforeItKeepsItsDayAlone() throws Exception {
    assertThat(only(read("JOHN GARSIDE\ndied the 12th inst."), Kind.DEATH).value())
        .isEqualTo("XXXX-XX-12");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "died on Friday the 3d of May 1844|1844-05-03|FRIDAY",
        "died Sunday morning July 14 1850|1850-07-14|SUNDAY",
        "died on First Day 14th of July 1850|1850-07-14|SUNDAY",
        "died Thurs. 4 July 1844|1844-07-04|THURSDAY",
      })
  void theDayOfTheWeekIsReadWithItsDate(String carved, String value, DayOfWeek day)
      throws Exception {
    Statement death = only(read("JOHN GARSIDE\n" + carved), Kind.DEATH);
    assertThat(death.value()).isEqualTo(value);
    assertThat(death.detail(Detail.Dated.class).orElseThrow().weekday()).contains(day);
  }

  /** Library of the Society of Friends, The Quaker calendar. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "died 12th of 9th Mo. 1840|1840-09-12",
        "died 9 mo. 12th 1840|1840-09-12",
        "died 5th day of 10th Month 1740|1740-12-16",
        "died 12 1mo 1676|[1676-03-22,1677-03-22]",
      })
  void quakerMonthsAreCountedFromMarchTo1751(String carved, String value) throws Exception {
    assertThat(only(read("JOHN GARSIDE\n" + carved), Kind.DEATH).value()).isEqualTo(value);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Here lyes þe Body of\nMARY WREN",
        "Here lyes yᵉ Body of\nMARY WREN",
        "ye Body of MARY WREN"
      })
  void aThornIsNoLetterOfAName(String carved) throws Exception {
    assertThat(only(read(carved), Kind.NAME).value()).isEqualTo("Mary|Wren");
  }

  @Test
  void theNameBorneAtBirthIsKeptBesideTheOneBorneAtDeath() throws Exception {
    Statement name = only(read("MARY WREN née SALLOW\ndied 1880"), Kind.NAME);
    Detail.Name parts = name.detail(Detail.Name.class).orElseThrow();
    assertThat(parts.surname()).isEqualTo("Wren");
    assertThat(parts.birthSurname()).isEqualTo("Sallow");
  }

  @Test
  void titleAndSuffixArePartsOfTheNameAndNotOfItsSurname() throws Exception {
    Statement name = only(read("In memory of\nCapt. JOHN WREN Esqr.\ndied 1880"), Kind.NAME);
    assertThat(name.value()).isEqualTo("John|Wren");
    assertThat(name.detail(Detail.Name.class).orElseThrow().titles()).containsExactly("Capt.");
    assertThat(name.detail(Detail.Name.class).orElseThrow().suffixes()).containsExactly("Esqr.");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "relict of John Wren|relict|John Wren",
        "Conſort of Mr Joſiah Wren|consort|Josiah Wren",
        "dau. of A. & B. Wren|daughter|A. Wren;B. Wren",
        "infant son of Abel and Ruth Wren|son|Abel Wren;Ruth Wren",
        "youngest daughter of the late Capt. John Wren|daughter|John Wren",
        "widow of John Wren|widow|John Wren",
      })
  void kinshipHasADirectionAndNamesItsPersons(String carved, String relation, String names)
      throws Exception {
    Statement kin = only(read("ANN\n" + carved + "\ndied 1840"), Kind.KIN);
    Detail.Kinship parts = kin.detail(Detail.Kinship.class).orElseThrow();
    assertThat(parts.relation()).isEqualTo(relation);
    assertThat(parts.names().stream().map(n -> n.replace(".", "").replace('|', ' ')).toList())
        .containsExactly(names.replace(".", "").split(";"));
    assertThat(kin.persons()).containsExactly(1);
  }

  @Test
  void hisWifeIsTheWifeOfTheManNamedBeforeAndThatIsSupplied() throws Exception {
    Statement kin = only(read("JOHN WREN\ndied 1840\nalso ANN his wife\ndied 1850"), Kind.KIN);
    assertThat(kin.value()).isEqualTo("wife of John Wren");
    assertThat(kin.persons()).containsExactly(2);
    assertThat(kin.detail(Detail.Kinship.class).orElseThrow().persons()).containsExactly(1);
    assertThat(kin.supplied()).isPresent();
  }

  @Test
  void childrenNamedAfterTheWordAreAllOfTheParentsNamed() throws Exception {
    List<Statement> found =
        read("Children of Abel and Ruth Wren\nMARY died 1840\nJOHN died 1841\nANN died 1842");
    assertThat(only(found, Kind.KIN).persons()).containsExactly(1, 2, 3);
    assertThat(found)
        .filteredOn(s -> s.kind() == Kind.NAME)
        .extracting(Statement::value)
        .containsExactly("Mary|Wren", "John|Wren", "Ann|Wren");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "who was drowned at Sea 4 May 1840|drowned at Sea",
        "killed in action 4 May 1917|killed in action",
        "died of smallpox May 4 1840|smallpox",
        "killed by the fall of a tree May 4 1840|killed by the fall of a tree",
      })
  void whatSomebodyDiedOfIsAStatementOfItsOwn(String carved, String value) throws Exception {
    List<Statement> found = read("JOHN WREN\n" + carved);
    assertThat(only(found, Kind.CAUSE).value()).isEqualTo(value);
    assertThat(only(found, Kind.DEATH).value()).endsWith("-05-04");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "CO. B / 3 SKER. INF.||CO. B 3 SKER. INF.|",
        "PVT. 5 SKER. RIFLES|PVT.|5 SKER. RIFLES|",
        "CIVIL WAR|||CIVIL WAR",
        "WAR OF 1812|||WAR OF 1812",
      })
  void serviceHasRankUnitAndWar(String carved, String rank, String unit, String war)
      throws Exception {
    Detail.Service service =
        only(read("AMOS LIDGATE\n" + carved.replace(" / ", "\n")), Kind.SERVICE)
            .detail(Detail.Service.class)
            .orElseThrow();
    assertThat(service.rank()).isEqualTo(rank == null ? "" : rank);
    assertThat(service.unit()).isEqualTo(unit == null ? "" : unit);
    assertThat(service.war()).isEqualTo(war == null ? "" : war);
  }

  @Test
  void somebodyWhoseNameIsGoneIsStillAPersonOfTheStone() throws Exception {
    List<Statement> found =
        read("JOHN WREN\ndied 1840\n& of [- - -]\nhis wife who died May 30 1879");
    List<Statement> names = found.stream().filter(s -> s.kind() == Kind.NAME).toList();
    assertThat(names).hasSize(2);
    assertThat(names.get(1).detail(Detail.Name.class).orElseThrow().isUnnamed()).isTrue();
    assertThat(only(found, Kind.KIN).persons()).containsExactly(2);
  }

  @Test
  void aWifeWhoIsNeverNamedIsAPersonToo() throws Exception {
    List<Statement> found = read("JOHN WREN\ndied 1840\nalso his wife\ndied 1850");
    assertThat(found).filteredOn(s -> s.kind() == Kind.NAME).hasSize(2);
    assertThat(found)
        .filteredOn(s -> s.kind() == Kind.DEATH)
        .extracting(Statement::person)
        .containsExactly(1, 2);
  }

  @Test
  void bodiesThatWereMovedAreARemoval() throws Exception {
    Statement removal =
        only(
            read("JOHN WREN\ndied 1840\nRemoved from the Old Chapel Yard\nby his sons, 1902"),
            Kind.REMOVAL);
    assertThat(removal.persons()).containsExactly(1);
    assertThat(removal.lastLine()).isEqualTo(4);
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
