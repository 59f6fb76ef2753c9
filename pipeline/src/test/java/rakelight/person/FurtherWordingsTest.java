package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rakelight.inscription.Leiden;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.CalendarChange;

/** Three wordings and more of each class of stones that once were misunderstood. */
class FurtherWordingsTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "IN MEMORY OF ANN THORNE- / LOE DIED 3 MAY 1850 | Ann|Thorneloe",
        "HERE LIES PETER FEL- / BRIDGE WHO DEPAR- / TED THIS LIFE 3 MAY 1850 | Peter|Felbridge",
        "ELIZA- / BETH FELBRIDGE DIED / 3 MAY 1850 | Elizabeth|Felbridge",
        "ANN / ELIZA / FELBRIDGE / Died / 3 May 1850 | Ann Eliza|Felbridge",
        "Jesus Mary and Joseph / pray for PETER FELBRIDGE / who died 3 May 1850 | Peter|Felbridge",
        "Blessed Virgin Mary / intercede for ANN FELBRIDGE / died 3 May 1850 | Ann|Felbridge",
      })
  void namesBrokenByLinesAreWholeAndPrayersNameNobody(String stone, String given, String surname)
      throws Exception {
    List<Statement> found = read(stone);
    assertThat(values(found, Kind.NAME)).containsExactly(given + "|" + surname);
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1850-05-03");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "died 4th Oc[...] 1811 | 1811-10-04",
        "died on the tenth day of March / one thousand seven hundred and ninety one | 1791-03-10",
        "died 2 May / eighteen hundred and six | 1806-05-02",
        "obiit 4 Ianuar 1811 | 1811-01-04",
      })
  void monthsBegunAndYearsInWordsAreUnderstood(String event, String day) throws Exception {
    assertThat(of(read("MARY FELBRIDGE / " + event), 1, Kind.DEATH)).containsExactly(day);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "HERE LIES THE BO / DY OF PETER FEL / BRIDGE WHO DI / ED 3 MAY 1850 | Peter|Felbridge",
        "In memory of Anth / ony Felbridge who de / parted this life 3 May 1850 | Anthony|Felbridge",
        "ALICE FELBRIDGE / WHO DI / ED 3 MAY 18 / 50 | Alice|Felbridge",
      })
  void wordsBrokenWithoutAHyphenAreWhole(String stone, String given, String surname)
      throws Exception {
    List<Statement> found = read(stone);
    assertThat(values(found, Kind.NAME)).containsExactly(given + "|" + surname);
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1850-05-03");
  }

  @Test
  void twoWordsOnTwoLinesStayTwo() throws Exception {
    List<Statement> found = read("MARY / ANN / FELBRIDGE / WHO DI / ED 3 MAY 1850");
    assertThat(values(found, Kind.NAME)).containsExactly("Mary Ann|Felbridge");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "The tide that bears us to the shore / IN MEMORY OF / PETER FELBRIDGE / died 3 May 1850 | 1",
        "How soon the fairest flower is dead / ANN FELBRIDGE / died 3 May 1850 | 1",
        "A DEAR HUSBAND AND DAD / PETER FELBRIDGE / died 3 May 1850 | 0",
        "PETER FELBRIDGE / who served for many years at sea / died 3 May 1850 | 0",
        "PETER FELBRIDGE / died 3 May 1850 / one of the first settlers in this place | 0",
        "A TOKEN OF LOVE / TO ANN FELBRIDGE / died 3 May 1850 | 0",
      })
  void verseOnTopIsToldAndALifeToldIsNone(String stone, int verses) throws Exception {
    List<Statement> found = read(stone);
    assertThat(values(found, Kind.VERSE)).hasSize(verses);
    assertThat(values(found, Kind.NAME)).hasSize(1);
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1850-05-03");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "HOPE / EDWIN 1880 – 1951 / LAVINIA 1884 – 1960 | Edwin|Hope | Lavinia|Hope",
        "MARTIN / A. CLIVE 1888 – 1971 / ADA PEARL 1892 – 1985 | A Clive|Martin | Ada Pearl|Martin",
        "LEE / EDWIN LEE / died 1951 / ANN LEE / died 1960 | Edwin|Lee | Ann|Lee",
      })
  void aGivenNameOverAFamilyIsItsSurname(
      String stone, String given, String surname, String second, String secondSurname)
      throws Exception {
    assertThat(values(read(stone), Kind.NAME))
        .containsExactly(given + "|" + surname, second + "|" + secondSurname);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "EDWIN FELBRIDGE / SGT US ARMY / KOREA | US ARMY",
        "EDWIN FELBRIDGE / US AIR FORCE / 1919 1981 | US AIR FORCE",
        "PTE. EDWIN FELBRIDGE / 87TH BATTN. A.I.F. / KILLED IN ACTION 3 MAY 1916 | 87TH BATTN. A.I.F.",
        "ENSIGN EDWIN FELBRIDGE / 14th Regiment Native Infantry / died 3 May 1850"
            + " | 14th Regiment Native Infantry",
      })
  void forcesAreUnitsWhole(String stone, String unit) throws Exception {
    assertThat(
            read(stone).stream()
                .flatMap(s -> s.detail(Detail.Service.class).stream())
                .map(Detail.Service::unit)
                .filter(u -> !u.isEmpty()))
        .containsExactly(unit);
  }

  @Test
  void whoSetUpTheStoneAndLiesThereHimselfIsToldOf() throws Exception {
    List<Statement> found =
        read(
            "ERECTED BY PETER FELBRIDGE / IN MEMORY OF HIS WIFE ANN / DIED 3 MAY 1850"
                + " / AND OF HIMSELF / DIED 4 JUNE 1861");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1850-05-03");
    assertThat(of(found, 2, Kind.NAME)).containsExactly("Peter|Felbridge");
    assertThat(of(found, 2, Kind.DEATH)).containsExactly("1861-06-04");
  }

  @Test
  void whomSomebodyServedIsNobodyWhoLiesThere() throws Exception {
    List<Statement> found =
        read("PETER FELBRIDGE / servant to Mr. Nicholas Bolewick / died 3 May 1850");
    assertThat(values(found, Kind.NAME)).containsExactly("Peter|Felbridge");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1850-05-03");
  }

  @Test
  void aSonsLastGivenNameIsNotTakenForAnotherSurname() throws Exception {
    assertThat(values(read("WILFRED EARL / SON OF / J. & DORA FELBRIDGE / died 1850"), Kind.NAME))
        .containsExactly("Wilfred Earl|Felbridge");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "PETER FELBRIDGE / son of JOHN FELBRIDGE, Mason, / and ANN GREYLING his spouse / who died 3 May 1850",
        "DEPARTED THIS LIFE / ON THE 3D OF MAY 1850 / PETER FELBRIDGE / MERCHANT",
        "PETER FELBRIDGE / a servant, who lived thirty years in one family, / died 3 May 1850",
        "PETER FELBRIDGE / STATION MASTER FROM 1834 TO 1849 / DIED 3 MAY 1850",
        "PETER AND JOHN / sons of A. & B. FELBRIDGE / Petr. died 3 May 1850 / John died 4 May 1851",
        "P. F. / Here lies / PETER FELBRIDGE / died 3 May 1850",
      })
  void aDeathIsOfTheOneWhoDied(String stone) throws Exception {
    List<Statement> found = read(stone);
    assertThat(of(found, 1, Kind.NAME)).containsExactly("Peter|Felbridge");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1850-05-03");
    assertThat(values(found, Kind.AGE)).isEmpty();
  }

  @Test
  void datesInTwoColumnsAreBirthsAndDeathsOfTwo() throws Exception {
    List<Statement> found =
        read(
            "FELBRIDGE / PETER A.     MYRTLE L. / AUG. 8, 1891    NOV. 30, 1894"
                + " / JAN. 16, 1960    MAR. 22, 1987");
    assertThat(of(found, 1, Kind.BIRTH)).containsExactly("1891-08-08");
    assertThat(of(found, 2, Kind.BIRTH)).containsExactly("1894-11-30");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1960-01-16");
    assertThat(of(found, 2, Kind.DEATH)).containsExactly("1987-03-22");
  }

  @Test
  void whatBefellThemIsOfAllInTheRowsAbove() throws Exception {
    List<Statement> found =
        read(
            "PETER FELBRIDGE   AGED 44 / JOHN FELBRIDGE   AGED 31 / HENRY FELBRIDGE   AGED 19"
                + " / KILLED IN THE MINE / 9TH JANUARY 1872");
    for (int person = 1; person <= 3; person++) {
      assertThat(of(found, person, Kind.DEATH)).containsExactly("1872-01-09");
    }
  }

  @Test
  void childrenInARowOfBothSexesAreOneEach() throws Exception {
    assertThat(values(read("ANDREW FELBRIDGE / AND HIS CHILDREN / JAMES ANN JOHN"), Kind.NAME))
        .containsExactly("Andrew|Felbridge", "James|Felbridge", "Ann|Felbridge", "John|Felbridge");
  }

  @Test
  void theirInfantIsOfHusbandAndWifeNotOfHerParents() throws Exception {
    List<Statement> found =
        read(
            "Mrs. SALLY wife of Mr. IRA FELBRIDGE / & daughter of JABEZ & ANN HALLOWMERE"
                + " / died 1813 / also their infant aged 2 days");
    assertThat(of(found, 2, Kind.NAME)).containsExactly("|Felbridge");
  }

  @Test
  void aYearOfHisOfficeIsNoAge() throws Exception {
    List<Statement> found =
        read("The Revd. PETER FELBRIDGE / died 3 May 1850 / in the 12th year of his pastorate");
    assertThat(values(found, Kind.AGE)).isEmpty();
  }

  @Test
  void whoseBurialPlaceItIsIsTheOneWithYearsBelow() throws Exception {
    List<Statement> found =
        read("RESTING PLACE OF / HENRY FELBRIDGE / AND FAMILY / HENRY 1801-1870 / ANN 1804-1890");
    assertThat(values(found, Kind.NAME)).containsExactly("Henry|Felbridge", "Ann|Felbridge");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1870");
  }

  @Test
  void sheWhoIsBuriedWithHerChildIsTheOneWhoseBurialIsTold() throws Exception {
    List<Statement> found =
        read("ANN FELBRIDGE / and was buried with her infant / on the 4th June 1811");
    assertThat(values(found, Kind.NAME)).containsExactly("Ann|Felbridge");
    assertThat(of(found, 1, Kind.BURIAL)).containsExactly("1811-06-04");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "JOHN FELBRIDGE / Thorncote / who died 3 May 1850 | John|Felbridge",
        "ANN FELBRIDGE / Widow / departed this life 3 May 1850 | Ann|Felbridge",
        "WM. FELBRIDGE, Ferryman, Thorncote, / died 3 May 1850 | Wm|Felbridge",
        "JOHN FELBRIDGE / late Reedcutter of Thorncote / died 3 May 1850 | John|Felbridge",
        "JOHN FELBRIDGE / 7 Quay Terrace, Thorncote / died 3 May 1850 | John|Felbridge",
      })
  void whatStandsBetweenANameAndItsVerbIsNobody(String stone, String given, String surname)
      throws Exception {
    List<Statement> found = read(stone);
    assertThat(values(found, Kind.NAME)).containsExactly(given + "|" + surname);
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1850-05-03");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "JOHN FELBRIDGE / Oysterman / died 1850 | Oysterman",
        "JOHN FELBRIDGE / Parish Constable / died 1850 | Parish Constable",
        "JOHN FELBRIDGE, Silk Mercer, / died 1850 | Silk Mercer",
        "JOHN FELBRIDGE / late Reedman of Thorncote / died 1850 | Reedman",
        "JOHN FELBRIDGE / for 30 years Sexton here / died 1850 | for 30 years Sexton",
      })
  void aTradeIsTakenByWhereItStands(String stone, String trade) throws Exception {
    List<String> trades = values(read(stone), Kind.OCCUPATION);
    assertThat(String.join("", trades)).isEqualToIgnoringCase(trade);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "died at Port Hale / of cholera / 3 May 1850 | 1850-05-03",
        "died in Upper Wendmore, Ostland, / May 3, 1850 | 1850-05-03",
        "departed this life at the residence / of her son John in Thorncote / May 3d 1850 | 1850-05-03",
        "was drowned while crossing / the Wend on 3 May 1850 | 1850-05-03",
      })
  void placesAndCausesBeforeADayMakeNobody(String event, String day) throws Exception {
    List<Statement> found = read("MARY FELBRIDGE / " + event);
    assertThat(values(found, Kind.NAME)).containsExactly("Mary|Felbridge");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly(day);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "SARAH, daughter of the above / by ELIZA his wife, / died 1830 | 2",
        "SARAH, daughter of the above / and of ELIZA his wife, / died 1830 | 2",
        "SARAH his daughter by ELIZA / his second wife died 1830 | 2",
      })
  void theOtherParentIsNotTheOneWhoDied(String child, int person) throws Exception {
    List<Statement> found = read("JOHN FELBRIDGE / died 1850 / also / " + child);
    assertThat(values(found, Kind.NAME)).containsExactly("John|Felbridge", "Sarah|Felbridge");
    assertThat(of(found, person, Kind.DEATH)).containsExactly("1830");
    assertThat(of(found, person, Kind.KIN)).hasSize(1);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "JOHN & ANN FELBRIDGE / John died 1850 / Ann died 1860",
        "JOHN & ANN FELBRIDGE / he died 1850 / she died 1860",
        "JOHN FELBRIDGE and ANN his wife / John died 1850 / Ann died 1860",
        "FELBRIDGE / JOHN      ANN / 1800 – 1850      1810 – 1860",
      })
  void eachOfTwoHasHisOwnDeath(String stone) throws Exception {
    List<Statement> found = read(stone);
    assertThat(values(found, Kind.NAME)).containsExactly("John|Felbridge", "Ann|Felbridge");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1850");
    assertThat(of(found, 2, Kind.DEATH)).containsExactly("1860");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Erected by PETER FELBRIDGE / in memory of his father / JOHN / died 1850 / also his mother / ANN died 1860 | mother of Peter Felbridge",
        "PETER FELBRIDGE / erected this stone / in memory of his father / JOHN / died 1850 / also his sister / ANN died 1860 | sister of Peter Felbridge",
        "Erected by PETER FELBRIDGE / in memory of his son / JOHN / died 1850 / also his wife / ANN died 1860 | wife of Peter Felbridge",
      })
  void hisIsOfHimWhoSetUpTheStone(String stone, String kin) throws Exception {
    assertThat(of(read(stone), 2, Kind.KIN)).containsExactly(kin);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "ANN FELBRIDGE / died 1865 aged 70 / wife of / JOHN FELBRIDGE / died 1853 | 1853",
        "ANN FELBRIDGE / 1801 – 1865 / relict of the late JOHN FELBRIDGE / 1799 – 1853 | 1853",
        "ANN FELBRIDGE / born 1801 died 1865 / wife of / JOHN FELBRIDGE / born 1799 died 1853 | 1853",
      })
  void whatSheCannotHaveHadTwiceIsHis(String stone, String death) throws Exception {
    List<Statement> found = read(stone);
    assertThat(values(found, Kind.NAME)).containsExactly("Ann|Felbridge", "John|Felbridge");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1865");
    assertThat(of(found, 2, Kind.DEATH)).containsExactly(death);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "JOHN FELBRIDGE / for many years groom / to Lord Wendmore / died 3 May 1850",
        "JOHN FELBRIDGE / for 20 years servant / in the family of / T. R. WENDMORE / died 3 May 1850",
        "JOHN FELBRIDGE / who sailed in the \"Heather Dale\" / died 3 May 1850",
        "JOHN FELBRIDGE / ASSISTANT HARBOUR SUPERINTENDENT / GREAT WEND RAILWAY / died 3 May 1850",
        "JOHN FELBRIDGE / 5TH WEND PIONEERS / died 3 May 1850",
        "JOHN FELBRIDGE / of Thorncote in the East Indies / died 3 May 1850",
        "JOHN FELBRIDGE / died 3 May 1850 / HE GAVE HIS BEST / LOVED HUSBAND OF ANN",
        "JOHN FELBRIDGE / D. EAST HAVEN 3.5.1850",
      })
  void whoeverIsNamedBesideHimLiesNotHere(String stone) throws Exception {
    List<Statement> found = read(stone);
    assertThat(values(found, Kind.NAME)).containsExactly("John|Felbridge");
    assertThat(String.join("", of(found, 1, Kind.DEATH))).contains("1850-0");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "ER COF AM / DAFYDD FELBRIDGE / bu farw Mai 3, 1850 / yn 52 mlwydd oed | 1850-05-03",
        "DAFYDD FELBRIDGE / a fu farw 7 Medi 1850 / yn 52 oed | 1850-09-07",
        "DAFYDD FELBRIDGE / BU FARW 9 HYDREF 1850 / YN 52 MLWYDD OED | 1850-10-09",
      })
  void welshTellsDayAndAge(String stone, String day) throws Exception {
    List<Statement> found = read(stone);
    assertThat(values(found, Kind.NAME)).containsExactly("Dafydd|Felbridge");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly(day);
    assertThat(of(found, 1, Kind.AGE)).containsExactly("P52Y");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "JOHN FELBRIDGE / born 3.5.1799 died 28.6.1850 | 1799-05-03",
        "JOHN FELBRIDGE / born 5/3/1799 died 6/28/1850 | 1799-05-03",
        "JOHN FELBRIDGE / 3.5.1799 – 28.6.1850 | 1799-05-03",
      })
  void oneDateInFiguresTellsTheOrderOfTheOthers(String stone, String birth) throws Exception {
    assertThat(of(read(stone), 1, Kind.BIRTH)).containsExactly(birth);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "ANN dau. of / E. P. & M. J. / FELBRIDGE / died 1850 | E P Felbridge",
        "ANN daughter of / H. D. AND LUCY A. FELBRIDGE / died 1850 | H D Felbridge",
      })
  void initialsTakeTheSurnameBehindThem(String stone, String father) throws Exception {
    List<Statement> found = read(stone);
    assertThat(values(found, Kind.NAME)).containsExactly("Ann|Felbridge");
    String first =
        found.stream()
            .flatMap(s -> s.detail(Detail.Kinship.class).stream())
            .map(k -> k.names().get(0).replace('|', ' '))
            .findFirst()
            .orElseThrow();
    assertThat(first).isEqualTo(father);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Alsa ELIZA / his wife [.]ied M[.]y 3 1850 | 1850-05-03",
        "also ELIZA nis wise / who di[..] May 3 1850 | 1850-05-03",
        "a[.]so ELIZA h[..] wife / wha died 3[..] of May 1850 | 1850-05-03",
        "also ELIZA his wife / depar[..]d t[...] life May the 3r[.] 1850 | 1850-05-03",
      })
  void wornWordsAreReadByTheirNeighbours(String wife, String day) throws Exception {
    List<Statement> found = read("In mem[.]ry of / JOHN FELBR[.]DGE / who died 1840 / " + wife);
    assertThat(values(found, Kind.NAME)).hasSize(2);
    assertThat(of(found, 2, Kind.DEATH)).containsExactly(day);
    assertThat(of(found, 2, Kind.KIN)).hasSize(1);
  }

  @ParameterizedTest
  @CsvSource({"former", "Dyer", "Lane", "Sexton"})
  void aFaceWithoutDoubtIsReadAsItStands(String word) throws Exception {
    List<CarvedWord> words =
        WornWords.restored(CarvedWord.of(Leiden.parse("JOHN FELBRIDGE " + word + "\ndied 1850")));
    assertThat(words.get(2).folded()).isEqualToIgnoringCase(word);
    assertThat(words.get(2).likely()).isEmpty();
  }

  private static List<Statement> read(String stone) throws Exception {
    return Statements.of(Leiden.parse(stone.strip().replace(" / ", "\n")), CalendarChange.BRITISH);
  }

  private static List<String> values(List<Statement> found, Kind kind) {
    return found.stream().filter(s -> s.kind() == kind).map(Statement::value).toList();
  }

  private static List<String> of(List<Statement> found, int person, Kind kind) {
    return found.stream()
        .filter(s -> s.kind() == kind && s.persons().contains(person))
        .map(Statement::value)
        .toList();
  }
}
