package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.CalendarChange;

/** Who is meant, and what is no person at all. */
class ClausesTest {

  @Test
  void aWifeWhoseDeathIsNotCutHasABirthAlone() throws Exception {
    List<Statement> found = read("COBLEY\nERNEST 1921-1989\nalso his wife KYLIE 1942-");
    assertThat(values(found, Kind.NAME)).containsExactly("Ernest|Cobley", "Kylie|Cobley");
    assertThat(of(found, 2, Kind.BIRTH)).containsExactly("1942");
    assertThat(of(found, 2, Kind.DEATH)).isEmpty();
    assertThat(values(found, Kind.FAMILY)).containsExactly("Cobley");
  }

  @Test
  void mournersAreNobodyBuriedHere() throws Exception {
    List<Statement> found =
        read("ALBERT COBLEY\ndied 1990\nsadly missed by Sharon, Darren\nand baby Kylie");
    assertThat(values(found, Kind.NAME)).containsExactly("Albert|Cobley");
    assertThat(values(found, Kind.MOURNER)).containsExactly("Sharon; Darren; Kylie");
    Statement mourners = found.stream().filter(s -> s.kind() == Kind.MOURNER).findFirst().get();
    assertThat(mourners.persons()).isEmpty();
    assertThat(mourners.isFact()).isFalse();
    assertThat(mourners.lastLine()).isEqualTo(4);
  }

  @Test
  void whoSetUpAStoneIsNoPersonOfItUntilHeIsSaidToHaveDied() throws Exception {
    String stone = "ERECTED BY\nROBERT CROWGATE\nin memory of his spouse\nAGNES\ndied 1841";
    assertThat(values(read(stone), Kind.NAME)).containsExactly("Agnes|Crowgate");
    List<Statement> both = read(stone + "\nThe said ROBERT CROWGATE\ndied 1860");
    assertThat(values(both, Kind.NAME)).containsExactly("Agnes|Crowgate", "Robert|Crowgate");
    assertThat(of(both, 2, Kind.DEATH)).containsExactly("1860");
    assertThat(kin(both).get(0).persons()).containsExactly(2);
  }

  @Test
  void theAboveIsSomebodyNamedOnlyAsAHusband() throws Exception {
    List<Statement> found =
        read("MARY wife of JOHN SMITH\ndied 3 May 1850\nAlso the said JOHN SMITH\ndied 4 May 1851");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1850-05-03");
    assertThat(of(found, 2, Kind.DEATH)).containsExactly("1851-05-04");
    assertThat(kin(found).get(0).persons()).containsExactly(2);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "JOHN and ANN SMITH / He died 3 May 1850 / She died 4 May 1851|1850-05-03|1851-05-04",
        "JOHN & ANN SMITH / the former died 3 May 1850 / the latter 4 May 1851|1850-05-03|1851-05-04",
        "JOHN and JANE / twin children of / A. & B. QUARBY / died 4 & 6 March 1839|1839-03-04|1839-03-06",
        "JOHN SMITH died 1850 / his wife ROSE died 1851|1850|1851",
        "JOHN SMITH / died 1850 aged 3 years / PETER \" 1851 \" 5 \"|1850|1851",
      })
  void eachOfTwoHasHisOwnDeath(String stone, String first, String second) throws Exception {
    List<Statement> found = read(stone.replace(" / ", "\n"));
    assertThat(of(found, 1, Kind.DEATH)).as("%s", found).containsExactly(first);
    assertThat(of(found, 2, Kind.DEATH)).as("%s", found).containsExactly(second);
  }

  @Test
  void aNameBrokenByALineIsOneName() throws Exception {
    assertThat(values(read("In memory of\nMARY ANN\nSMALLEY\nwho died 1869"), Kind.NAME))
        .containsExactly("Mary Ann|Smalley");
    assertThat(values(read("In memory of JOHN\nSMALLEY who died 1869"), Kind.NAME))
        .containsExactly("John|Smalley");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Farewell dear wife my grief is great",
        "Jesus said I am the way",
        "Grace and Mercy led her home",
        "Faith Hope and Charity",
        "William and Mary wear the crown",
        "Aged hands shall lay the lilies down",
        "Lord remember me",
        "Dear Mother rest in peace",
      })
  void wordsOfComfortMakeNoPerson(String verse) throws Exception {
    List<Statement> found = read("ANN POTTERLY\ndied May 1 1850\n" + verse);
    assertThat(values(found, Kind.NAME)).containsExactly("Ann|Potterly");
    assertThat(of(found, 1, Kind.AGE)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"R. I. P.", "I.H.S.", "H. S. E.", "H.S.E.", "HIC IACET", "M. S."})
  void lettersOverAStoneAreNobody(String letters) throws Exception {
    assertThat(values(read(letters + "\nJOHN SMALLEY\ndied 1 May 1869"), Kind.NAME))
        .containsExactly("John|Smalley");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "JOHN SMITH / Blacksmith / died 1850|OCCUPATION|Blacksmith",
        "JOHN SMITH, Kelby, / who died 1850|ORIGIN|Kelby",
        "JOHN SMITH / Surgeon R.N. / died 1850|OCCUPATION|Surgeon R.N.",
        "JOHN SMITH / 41 years schoolmaster here / died 1850|OCCUPATION|41 years schoolmaster",
        "JOHN SMITH / who was drowned in the River Wend / 3 May 1850|CAUSE|drowned in the River Wend",
        "JOHN SMITH / ROYAL FLYING CORPS / 3 MAY 1916|SERVICE|ROYAL FLYING CORPS",
        "JOHN SMITH / died 1850 / J. Pask, Sculptor, Kelby|MAKER|J. Pask, Sculptor, Kelby",
      })
  void whatStandsBesideANameIsNoOtherPerson(String stone, Kind kind, String value)
      throws Exception {
    List<Statement> found = read(stone.replace(" / ", "\n"));
    assertThat(values(found, Kind.NAME)).containsExactly("John|Smith");
    assertThat(values(found, kind)).contains(value);
    assertThat(of(found, 1, Kind.DEATH)).hasSize(1);
  }

  @Test
  void aBirthInAPlaceIsNoDeath() throws Exception {
    List<Statement> found = read("JOHN SMITH\nBORN IN VERMONT\nAPRIL 2, 1801\nDIED MAY 3, 1850");
    assertThat(of(found, 1, Kind.BIRTH)).containsExactly("1801-04-02");
    assertThat(of(found, 1, Kind.DEATH)).containsExactly("1850-05-03");
    Statement birth = found.stream().filter(s -> s.kind() == Kind.BIRTH).findFirst().get();
    assertThat(birth.detail(Detail.Dated.class).get().place()).isEqualTo("VERMONT");
  }

  @ParameterizedTest
  @ValueSource(strings = {"née JONES", "nee JONES", "formerly JONES", "alias JONES"})
  void theNameAtBirthIsKept(String maiden) throws Exception {
    Statement name = read("MARY SMITH\n" + maiden + "\ndied 1850").get(0);
    assertThat(name.detail(Detail.Name.class).get().birthSurname()).isEqualTo("Jones");
    assertThat(name.value()).isEqualTo("Mary|Smith");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "d[.]ed 1 May 1869|1869-05-01",
        "died 19th Auguſ[.] 1812|1812-08-19",
        "died 3 Octo[...] 1850|1850-10-03",
        "died 1 M[..] 1869|[1869-03-01,1869-05-01]",
        "dled 1 May 1869|1869-05-01",
      })
  void formulasAreReadThroughTheirDoubt(String carved, String death) throws Exception {
    assertThat(values(read("THOMAS WREXLEY\n" + carved), Kind.DEATH)).containsExactly(death);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "died 31 June 1850",
        "died Septr. 8th 1752",
        "DIED FEB. 29, 1900",
        "died 1850\ndied 1860",
        "died on Monday 18 June 1815",
      })
  void whatCannotBeIsAContradiction(String carved) throws Exception {
    List<Statement> found = read("JOHN SMITH\n" + carved);
    assertThat(KinAgreement.of(found)).anyMatch(KinAgreement.Finding::contradiction);
  }

  @Test
  void aLostFigureIsToldBesideTheReadOne() throws Exception {
    List<Statement> found = read("EZRA DRAYLEY\ndied Octr. 2d 1[.]88 aged 71 years\nborn 1817");
    List<Statement> deaths = found.stream().filter(s -> s.kind() == Kind.DEATH).toList();
    assertThat(deaths).extracting(Statement::value).containsExactly("1X88-10-02", "1888-10-02");
    assertThat(deaths.get(1).supplied()).contains("reckoned from the age");
    assertThat(deaths.get(1).isReckoned()).isTrue();
  }

  private static List<Statement> read(String leiden) throws LeidenException {
    return Statements.of(Leiden.parse(leiden), CalendarChange.BRITISH);
  }

  private static List<String> values(List<Statement> statements, Kind kind) {
    return statements.stream().filter(s -> s.kind() == kind).map(Statement::value).toList();
  }

  private static List<String> of(List<Statement> statements, int person, Kind kind) {
    return statements.stream()
        .filter(s -> s.kind() == kind && s.persons().contains(person))
        .map(Statement::value)
        .toList();
  }

  private static List<Detail.Kinship> kin(List<Statement> statements) {
    return statements.stream().flatMap(s -> s.detail(Detail.Kinship.class).stream()).toList();
  }
}
