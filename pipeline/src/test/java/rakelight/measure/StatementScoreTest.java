package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.inscription.SignId;
import rakelight.measure.KnownStone.Kind;
import rakelight.person.Detail;
import rakelight.person.Statement;
import rakelight.samples.inscriptions.Inscriptions;

/** What is said here is put together by hand, so that nothing hangs on how stones are read. */
class StatementScoreTest {
  private static final String COUPLE =
      "stone S\nMARY wife of\nJOHN HALLAM\ndied 1850\n--\n"
          + "a = Mary|Hallam ; wife of b ; death 1850 ; age P40Y\n"
          + "b = John|Hallam ; death 1871-02-07\n";

  @TempDir Path folder;
  private final List<Statement> said = new ArrayList<>();

  @Test
  void whatIsSaidOfTheRightPersonIsRightWhateverTheNumbers() throws IOException {
    name(7, "MARY", "Hallam");
    kin(7, "wife", List.of("John|Hallam"));
    fact(7, Statement.Kind.DEATH, "1850");
    fact(7, Statement.Kind.AGE, "P40Y");
    name(3, "john", "HALLAM");
    fact(3, Statement.Kind.DEATH, "1871-02-07");

    StatementScore score = score(COUPLE);

    assertThat(score.faults()).isEmpty();
    assertThat(score.whollyRight()).isEqualTo(1);
    assertThat(score.together().known()).isEqualTo(6);
    assertThat(score.together().precision()).isEqualTo(1);
    assertThat(score.together().recall()).isEqualTo(1);
  }

  @Test
  void aDeathOfHisThatIsSaidOfHerIsOnAWrongPerson() throws IOException {
    name(1, "Mary", "Hallam");
    fact(1, Statement.Kind.DEATH, "1871-02-07");

    StatementScore score = score(COUPLE);

    assertThat(score.onWrongPerson()).isEqualTo(1);
    assertThat(score.phantoms()).isZero();
    assertThat(row(score, Kind.DEATH)).isEqualTo("2 known, 1 said, 0 right");
    assertThat(score.personsFound()).isEqualTo(1);
  }

  @Test
  void somebodyWhomNobodyOnTheStoneAnswersDoesNotExistAndTakesNothingWithHim() throws IOException {
    name(1, "Mary", "Hallam");
    name(2, "Farewell", "Hallam");
    fact(2, Statement.Kind.AGE, "P40Y");

    StatementScore score = score(COUPLE);

    assertThat(score.phantoms()).isEqualTo(1);
    assertThat(score.onWrongPerson()).isEqualTo(1);
    assertThat(row(score, Kind.AGE)).isEqualTo("1 known, 1 said, 0 right");
    assertThat(row(score, Kind.NAME)).isEqualTo("2 known, 2 said, 1 right");
  }

  @Test
  void theOddsOfWhatIsSaidAreHeldAgainstHowOftenItIsRight() throws IOException {
    name(1, "Mary", "Hallam");
    fact(1, Statement.Kind.DEATH, "1850");
    fact(1, Statement.Kind.AGE, "P41Y");

    StatementScore score = score(COUPLE);

    // All are said at odds of 1 and one in three is wrong.
    assertThat(score.odds().size()).isEqualTo(3);
    assertThat(score.odds().expectedError()).isCloseTo(1 / 3.0, within(1e-9));
  }

  @Test
  void onePersonSaidTwiceIsOnePersonTooMany() throws IOException {
    name(1, "Mary", "Hallam");
    name(2, "Mary", "Hallam");

    assertThat(score(COUPLE).phantoms()).isEqualTo(1);
  }

  @Test
  void theSameSaidTwiceOfOnePersonCountsOnce() throws IOException {
    name(1, "Mary", "Hallam");
    name(1, "Mary", "Hallam");
    fact(1, Statement.Kind.DEATH, "1850");
    fact(1, Statement.Kind.DEATH, "1850");

    StatementScore score = score(COUPLE);

    assertThat(row(score, Kind.NAME)).isEqualTo("2 known, 1 said, 1 right");
    assertThat(row(score, Kind.DEATH)).isEqualTo("2 known, 1 said, 1 right");
  }

  @Test
  void aPersonWithoutANameIsWhoeverHasHisDates() throws IOException {
    name(1, "", "");
    fact(1, Statement.Kind.DEATH, "1850");

    StatementScore score = score(COUPLE);

    assertThat(score.phantoms()).isZero();
    assertThat(row(score, Kind.DEATH)).isEqualTo("2 known, 1 said, 1 right");
    assertThat(row(score, Kind.NAME)).isEqualTo("2 known, 0 said, 0 right");
  }

  @Test
  void kinshipSaidTheOtherWayRoundIsTheSameAndWithoutDirectionItIsNot() throws IOException {
    name(1, "John", "Hallam");
    kin(1, "husband", List.of("Mary|"));
    assertThat(row(score(COUPLE), Kind.KIN)).isEqualTo("1 known, 1 said, 1 right");

    said.clear();
    name(1, "John", "Hallam");
    kin(1, "wife", List.of("Mary|Hallam"));
    assertThat(row(score(COUPLE), Kind.KIN)).isEqualTo("1 known, 1 said, 0 right");
  }

  @Test
  void kinMayBeNamedByNumberAndByNameAndCountsOnce() throws IOException {
    name(1, "Mary", "Hallam");
    name(2, "John", "Hallam");
    said.add(
        statement(
            1,
            Statement.Kind.KIN,
            "",
            new Detail.Kinship("consort", List.of("John|Hallam"), List.of(2))));
    assertThat(row(score(COUPLE), Kind.KIN)).isEqualTo("1 known, 1 said, 1 right");
  }

  @Test
  void whoIsOnlyNamedAsKinOrMournerMayBeSaidAndNeedNot() throws IOException {
    String stone =
        "stone S\nMARY wife of JOHN HALLAM\nmissed by Lee\n--\n"
            + "a = Mary|Hallam ; wife of b\nb (kin) = John|Hallam\nc (mourner) = Lee|- / Hallam\n";
    name(1, "Mary", "Hallam");
    name(2, "John", "Hallam");
    name(3, "Lee", "");
    StatementScore score = score(stone);
    assertThat(score.phantoms()).isZero();
    assertThat(row(score, Kind.NAME)).isEqualTo("1 known, 1 said, 1 right");

    fact(3, Statement.Kind.DEATH, "1990");
    assertThat(row(score(stone), Kind.DEATH)).isEqualTo("0 known, 1 said, 0 right");
  }

  @Test
  void theSurnameCountsAndTwoOfOneGivenNameAreToldApartByWhatIsSaidOfThem() throws IOException {
    String stone =
        "stone S\nJOHN HALLAM\nJOHN HALLAM\n--\n"
            + "a = John|Hallam ; death 1801\nb = John|Hallam ; death 1850\n";
    name(1, "John", "Hallam");
    fact(1, Statement.Kind.DEATH, "1850");
    name(2, "John", "Hall");
    fact(2, Statement.Kind.DEATH, "1801");

    StatementScore score = score(stone);

    assertThat(score.onWrongPerson()).isZero();
    assertThat(row(score, Kind.DEATH)).isEqualTo("2 known, 2 said, 2 right");
    assertThat(row(score, Kind.NAME)).isEqualTo("2 known, 2 said, 1 right");
  }

  @Test
  void anotherSurnameWithNothingInCommonIsAnotherPerson() throws IOException {
    name(1, "John", "Pellwick");
    assertThat(score(COUPLE).phantoms()).isEqualTo(1);
  }

  @Test
  void ofAWornDateWhatLeavesTheTruthPossibleIsRight() throws IOException {
    String worn = "stone S\nANN\n--\na = Ann|- ; worn death 1848-05-03 / 1843-05-03\n";
    String clear = "stone S\nANN\n--\na = Ann|- ; death 1848-05-03\n";
    for (String date : List.of("1848-05-03", "184X-05-03", "1848", "1843-05-03", "1848-05")) {
      assertThat(deathRight(worn, date)).as(date).isTrue();
    }
    for (String date : List.of("1847-05-03", "XXXX-05-03", "184X-06-03")) {
      assertThat(deathRight(worn, date)).as(date).isFalse();
    }
    assertThat(deathRight(clear, "184X-05-03")).isFalse();
    assertThat(deathRight(clear, "1848")).isFalse();
  }

  @Test
  void aSetOfDatesIsTheSameInAnyOrder() throws IOException {
    String stone = "stone S\nANN\n--\na = Ann|- ; death [1731-02-22,1732-02-22]\n";
    assertThat(deathRight(stone, "[1732-02-22,1731-02-22]")).isTrue();
    assertThat(deathRight(stone, "1731-02-22")).isFalse();
  }

  @Test
  void wordsAreTheSameIfOneHasTheOtherAndIsNotMuchLonger() throws IOException {
    String stone = "stone S\nANN\n--\na = Ann|- ; cause cholera\n";
    for (Map.Entry<String, String> one :
        Map.of(
                "Cholera", "1 known, 1 said, 1 right",
                "of Asiatic cholera", "1 known, 1 said, 1 right",
                "fever", "1 known, 1 said, 0 right",
                "of cholera on the third of May", "1 known, 1 said, 0 right")
            .entrySet()) {
      said.clear();
      name(1, "Ann", "");
      fact(1, Statement.Kind.CAUSE, one.getKey());
      assertThat(row(score(stone), Kind.CAUSE)).as(one.getKey()).isEqualTo(one.getValue());
    }
  }

  @Test
  void aRankSaidAsATitleCounts() throws IOException {
    String stone = "stone S\nSerjt. ANN\n--\na = Ann|- ; rank Serjt\n";
    said.add(
        statement(
            1,
            Statement.Kind.NAME,
            "Ann|",
            new Detail.Name("Ann", "", "", List.of("Serjt."), List.of())));
    assertThat(row(score(stone), Kind.RANK)).isEqualTo("1 known, 1 said, 1 right");
  }

  @Test
  void verseIsCountedLineByLineAndSomeLinesMayBeEither() throws IOException {
    String stone = "stone S\nI.H.S.\nANN\nWeep not\nfor me\n--\na = Ann|-\nverse 3-4\neither 1\n";
    name(1, "Ann", "");
    said.add(verse(1, 1));
    said.add(verse(2, 3));
    assertThat(row(score(stone), Kind.VERSE)).isEqualTo("2 known, 2 said, 1 right");
  }

  @Test
  void aMaidenNameNeedNotBeSaidWhereADashStands() throws IOException {
    String stone = "stone S\nANN\n--\na = Ann|Hallam|Pell / -\n";
    name(1, "Ann", "Hallam");
    assertThat(score(stone).faults()).isEmpty();
    assertThat(score("stone S\nANN\n--\na = Ann|Hallam|Pell\n").faults())
        .containsExactly("S: not said of a: maiden Pell");
  }

  @Test
  void faultsOfTheFileAreToldWithTheirLine() {
    assertThatThrownBy(() -> stone("stone S\nANN\n--\na = Ann\n"))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("line 4: a name is given|surname");
    assertThatThrownBy(() -> stone("stone S\nANN\n--\na = Ann|B ; wife of z\n"))
        .hasMessageContaining("nobody has the key z");
    assertThatThrownBy(() -> stone("stone S\nANN\n--\na = Ann|B ; death soon\n"))
        .hasMessageContaining("line 4");
    assertThatThrownBy(() -> stone("stone S\nANN\n--\nverse 2\n"))
        .hasMessageContaining("the stone has no lines 2");
    assertThatThrownBy(() -> stone("stone S\n[..\n--\n")).hasMessageContaining("stone S");
    assertThatThrownBy(() -> stone("stone S\nANN\n")).hasMessageContaining("no line --");
    assertThatThrownBy(() -> stone("# nothing\n")).hasMessageContaining("holds no stone");
  }

  @Test
  void theStonesThatTravelWithTheSourcesCanBeRead() throws IOException {
    Path samples = Path.of("../samples/inscriptions");
    assertThat(KnownStones.read(samples.resolve("kept-apart.txt")))
        .hasSizeGreaterThanOrEqualTo(200);
    assertThat(KnownStones.read(samples.resolve("forms.txt"))).hasSize(81);
  }

  @Test
  void inventedStonesCanBeReadAtAnyLoss() throws IOException {
    Inscriptions.write(folder, 1400, 20261129, List.of(0, 20));
    for (int loss : List.of(0, 20)) {
      assertThat(KnownStones.read(folder.resolve("inscriptions-" + loss + ".txt"))).hasSize(1400);
    }
  }

  private boolean deathRight(String stone, String date) throws IOException {
    said.clear();
    name(1, "Ann", "");
    fact(1, Statement.Kind.DEATH, date);
    return row(score(stone), Kind.DEATH).equals("1 known, 1 said, 1 right");
  }

  private KnownStone stone(String text) throws IOException {
    Path file = folder.resolve("stones.txt");
    Files.writeString(file, text);
    return KnownStones.read(file).get(0);
  }

  private StatementScore score(String text) throws IOException {
    StatementScore score = new StatementScore();
    score.add(stone(text), said);
    return score;
  }

  private static String row(StatementScore score, Kind kind) {
    Map<Optional<Kind>, String> rows =
        score.rows().stream()
            .collect(
                Collectors.toMap(
                    StatementScore.Row::kind,
                    row ->
                        row.known() + " known, " + row.said() + " said, " + row.right() + " right",
                    (a, b) -> a,
                    () -> new TreeMap<>(java.util.Comparator.comparing(Optional::orElseThrow))));
    return rows.getOrDefault(Optional.of(kind), "0 known, 0 said, 0 right");
  }

  private void name(int person, String given, String surname) {
    said.add(
        statement(
            person,
            Statement.Kind.NAME,
            given + "|" + surname,
            new Detail.Name(given, surname, "", List.of(), List.of())));
  }

  private void kin(int person, String relation, List<String> of) {
    said.add(
        statement(
            person, Statement.Kind.KIN, relation, new Detail.Kinship(relation, of, List.of())));
  }

  private void fact(int person, Statement.Kind kind, String value) {
    said.add(statement(person, kind, value, Optional.empty(), 1, 1));
  }

  private static Statement verse(int first, int last) {
    return statement(0, Statement.Kind.VERSE, "", Optional.empty(), first, last);
  }

  private static Statement statement(int person, Statement.Kind kind, String value, Detail detail) {
    return statement(person, kind, value, Optional.of(detail), 1, 1);
  }

  private static Statement statement(
      int person, Statement.Kind kind, String value, Optional<Detail> detail, int first, int last) {
    return new Statement(
        Stream.of(person).filter(number -> number > 0).toList(),
        kind,
        first,
        last,
        value,
        value,
        detail,
        Optional.empty(),
        1,
        List.of(new SignId(1)));
  }
}
