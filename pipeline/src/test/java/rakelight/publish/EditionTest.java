package rakelight.publish;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.person.Person;
import rakelight.person.PersonStore;
import rakelight.person.Statement;
import rakelight.person.edtf.Day;
import rakelight.photo.Credits;
import rakelight.photo.Frame;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.publish.Withholding.Cause;
import rakelight.publish.Withholding.Subject;
import rakelight.samples.Samples;

/** What is told of a ground on a day, and why the rest isn't. */
class EditionTest {
  private static final String COUPLE =
      "ROBERT GARSIDE | born 2 May 1849 died 1911 | ALICE HIS WIFE | born 3 May 1853 died 1921";

  @TempDir Path folder;
  private SmallGround ground;

  @BeforeEach
  void open() {
    ground = new SmallGround(folder);
    ground.stone("12", "front", "IN MEMORY OF | HANNAH WREN | died March 14, 1851");
  }

  @AfterEach
  void close() {
    ground.close();
  }

  @Test
  void allIsToldWhereNothingIsWithheld() throws Exception {
    ground.stone("14", "front", COUPLE);
    Edition edition = ground.edition();
    assertThat(edition.leftOut()).isEmpty();
    assertThat(edition.faces()).hasSize(2).noneMatch(ToldFace::isTouched);
    assertThat(edition.persons()).extracting(Person::called).contains("Alice Garside");
    assertThat(ground.exported()).contains("ALICE", "HANNAH", "1853-05-03", "type=\"sign-ids\"");
  }

  @Test
  void withAPersonGoesAllThatIsStatedOfHim() throws Exception {
    Reading reading = ground.stone("14", "front", COUPLE);
    DecisionId decision = ground.withholdPerson("14:front:2");
    Edition edition = ground.edition();
    StringBuilder letters = new StringBuilder();
    reading.inscription().signs().stream()
        .filter(s -> s instanceof Letter && !edition.why(reading.face(), s.id()).isEmpty())
        .forEach(s -> letters.append(((Letter) s).text()));
    assertThat(letters).hasToString("ALICEHISWIFEborn3May1853died1921");
    assertThat(edition.why(ground.person("14:front:2")))
        .singleElement()
        .satisfies(why -> assertThat(why.words()).isEqualTo("wish of the family"));
    assertThat(edition.why(ground.person("14:front:1"))).isEmpty();
    assertThat(ground.mention("14:front:2").about())
        .isNotEmpty()
        .noneMatch(statement -> edition.why(reading.face(), statement).isEmpty());
    assertThat(edition.persons()).extracting(Person::called).doesNotContain("Alice Garside");
    List<Statement> told =
        edition.faces().stream().flatMap(f -> f.says().statements().stream()).toList();
    assertThat(told)
        .extracting(Statement::value)
        .contains("1849-05-02")
        .doesNotContain("1853-05-03");
    assertThat(ground.exported())
        .contains("ROBERT", "withheld: wish of the family")
        .doesNotContainIgnoringCase("alice")
        .doesNotContain("1853", "1921", "as they asked", "a daughter");

    ground.undo(decision);
    assertThat(ground.exported()).contains("ALICE", "1853-05-03");
  }

  /** Their numbers would say how long the name is. */
  @Test
  void theIdsOfSignsAreLeftOutWhereSomethingIsWithheld() throws Exception {
    ground.withholdPerson("12:front:1");
    assertThat(ground.exported()).contains("12-front.xml").doesNotContain("sign-ids");
  }

  @Test
  void aPersonIsWithheldWhereverPeopleHaveSaidHeIsNamed() throws Exception {
    ground.stone("14", "front", "In memory of | HANNAH WREN | wife of Abel Wren | died 1851");
    new PersonStore(ground.archive)
        .same(ground.mention("12:front:1"), ground.mention("14:front:1"), "", "Ada Penrose");
    ground.withholdPerson("14:front:1");
    assertThat(ground.exported()).doesNotContain("HANNAH").doesNotContain("1851");
  }

  @Test
  void kinWhoAreWithheldAreNamedByNobodyElse() throws Exception {
    ground.stone(
        "14", "front", "In memory of | MARY | daughter of Abel & Ruth Lidgate | died 1840");
    ground.withholdPerson("14:front:1a");
    Edition edition = ground.edition();
    assertThat(edition.persons())
        .filteredOn(person -> person.called().startsWith("Mary"))
        .singleElement()
        .satisfies(
            mary -> assertThat(mary.mentions()).allSatisfy(m -> assertThat(m.kin()).isEmpty()));
    assertThat(ground.exported()).contains("MARY").doesNotContain("Abel");
  }

  @Test
  void aFatherNamedWithAWifeIsWithheldWhereTheirSonNamesHimToo() throws Exception {
    ground.stone(
        "14", "front", "ALICE | wife of Abel Garside | died 1850 | THOMAS | their son | died 1861");
    ground.withholdPerson("14:front:1a");
    assertThat(ground.exported()).contains("THOMAS").doesNotContainIgnoringCase("abel");
  }

  @Test
  void aMarkerOrAFaceOfItIsWithheldWhole() throws Exception {
    ground.stone("14", "front", COUPLE);
    ground.stone("14", "back", "In memory of | THOMAS GARSIDE | died 1860");
    DecisionId face =
        ground.withhold(new Subject.OfFace(ground.face("14", "back").id()), Cause.RULE);
    assertThat(ground.exported()).contains("ALICE").doesNotContain("THOMAS", "14-back");
    Edition edition = ground.edition();
    assertThat(edition.why(ground.face("14", "back").id())).hasSize(1);
    assertThat(edition.why(ground.person("14:back:1"))).hasSize(1);
    assertThat(edition.leftOut())
        .extracting(Edition.LeftOut::sort)
        .containsExactly(Edition.Sort.FACE, Edition.Sort.PERSON);
    ground.undo(face);
    assertThat(ground.exported()).contains("THOMAS");

    for (Cause cause : List.of(Cause.FAMILY, Cause.KEEPER, Cause.RULE, Cause.TAKEN_DOWN)) {
      DecisionId marker =
          ground.withhold(new Subject.OfMarker(ground.face("14", "front").marker()), cause);
      assertThat(ground.exported())
          .contains("HANNAH")
          .doesNotContain("ALICE", "THOMAS", "14-front", "14-back");
      assertThat(ground.edition().why(ground.face("14", "front").marker()))
          .extracting(Why::label)
          .containsExactly(cause.label());
      ground.undo(marker);
      assertThat(ground.exported()).contains("ALICE", "THOMAS");
    }
  }

  @Test
  void whatIsCarvedOnAWithheldFaceAndWordsThatNameSomebodyWithheldAreNotTold() {
    ground.stone("14", "front", COUPLE);
    ground.stone("14", "back", "In memory of | THOMAS GARSIDE | died 1860");
    EmblemStore emblems = new EmblemStore(ground.archive);
    for (String face : List.of("front", "back")) {
      emblems.note(
          ground.face("14", "front").marker(),
          face,
          "urn",
          Optional.empty(),
          Map.of(),
          "as for Thomas Garside",
          "Ada Penrose");
    }
    assertThat(told("14").emblems())
        .extracting(EmblemNote::remark)
        .containsExactly("as for Thomas Garside", "as for Thomas Garside");
    ground.withhold(new Subject.OfFace(ground.face("14", "back").id()), Cause.RULE);
    assertThat(told("14").emblems())
        .singleElement()
        .satisfies(
            note -> {
              assertThat(note.face()).isEqualTo("front");
              assertThat(note.remark()).isEmpty();
            });
  }

  private ToldMarker told(String number) {
    return ground.edition().around().markers().stream()
        .filter(one -> one.marker().number().equals(number))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void withoutPermissionToPhotographTheReadingIsStillTold() throws Exception {
    DecisionId decision =
        ground.withhold(
            new Subject.OfMarker(ground.face("12", "front").marker()), Cause.NO_PERMISSION);
    Edition edition = ground.edition();
    assertThat(edition.why(ground.face("12", "front").marker())).isEmpty();
    assertThat(edition.leftOut())
        .singleElement()
        .satisfies(left -> assertThat(left.called()).isEqualTo("photographs of marker 12"));
    assertThat(ground.exported()).contains("HANNAH");
    ground.undo(decision);
    assertThat(ground.edition().leftOut()).isEmpty();
  }

  @Test
  void aPhotographThatAlsoShowsAWithheldStoneIsNotTold() throws Exception {
    ground.stone("14", "front", COUPLE);
    PhotoStore photos = new PhotoStore(ground.archive);
    Path file = Files.write(folder.resolve("row.jpg"), Samples.bytes("M07-W.jpg"));
    new Ingest(ground.archive, Credits.NONE, "Ada Penrose", new NoListener())
        .run(List.of(file), Set.of());
    Photograph row = photos.photographs().get(0);
    photos.assign(
        row.id(), ground.face("12", "front").id(), Optional.empty(), "person", "Ada Penrose");
    photos.alsoShows(row, ground.face("14", "front").id(), new Frame(0, 0, 10, 10), "Ada Penrose");
    assertThat(ground.edition().why(row.id())).isEmpty();
    DecisionId decision =
        ground.withhold(new Subject.OfMarker(ground.face("14", "front").marker()), Cause.RULE);
    assertThat(ground.edition().why(row.id())).isNotEmpty();
    ground.undo(decision);
    assertThat(ground.edition().why(row.id())).isEmpty();
  }

  @Test
  void whoMayBeLivingIsWithheldAsBefore() throws Exception {
    ground.stone("14", "front", "ROBERT GARSIDE | 1949 - 2011 | ALICE HIS WIFE | 1953 - (vac.)");
    assertThat(ground.edition().why(ground.person("14:front:2")))
        .containsExactly(new Why.MayBeLiving());
    assertThat(ground.exported())
        .contains("ROBERT", "2011", "withheld: may be living")
        .doesNotContain("ALICE", "1953");
    Edition later = Edition.of(ground.archive, LocalDate.of(2070, 1, 1));
    assertThat(later.leftOut()).isEmpty();
  }

  /** An earlier reader saw a name that the present reading has lost. */
  @Test
  void somebodyLivingWhomOnlyAnEarlierReadingNamesIsNotInTheApparatus() throws Exception {
    ground.stone("14", "front", "ROBERT GARSIDE | 1949 - 2011 | ALICE HIS WIFE");
    ground.stone("14", "front", "ROBERT GARSIDE | 1949 - 2011 | (1 line)");
    assertThat(ground.exported()).contains("ROBERT").doesNotContainIgnoringCase("alice");
    ground.stone("15", "front", "IN MEMORY OF | HARRAH LIDGATE | died 1851");
    ground.stone("15", "front", "IN MEMORY OF | HANNAH LIDGATE | died 1851");
    assertThat(ground.exported()).contains("HARRAH");
  }

  @Test
  void aCorrectedReadingTellsNobodyWhomADecisionWithholds() throws Exception {
    ground.stone("14", "front", COUPLE);
    DecisionId decision = ground.withholdPerson("14:front:2");
    ground.stone("14", "front", COUPLE.replace("ALICE", "ELLEN").replace("HIS WIFE", "his wife"));
    assertThat(ground.exported()).doesNotContain("ELLEN", "1853");
    ground.stone("14", "front", "ROBERT GARSIDE | died 1911");
    Edition edition = ground.edition();
    assertThat(edition.why(ground.face("14", "front").id()))
        .extracting(Why::label)
        .containsExactly("not-found");
    assertThat(ground.exported()).doesNotContain("ROBERT");
    ground.undo(decision);
    assertThat(ground.exported()).contains("ROBERT");
  }

  @Test
  void aBurialIsToldOnceItIsAsOldAsTheGroundsRuleAsks() throws Exception {
    ground.stone("14", "front", "In memory of | THOMAS GARSIDE | died November 25, 1951");
    ground.stone("15", "front", "In memory of | ELLEN LIDGATE | died November 26, 1951");
    ground.withholdings.tellAfter(OptionalInt.of(75), "Ada Penrose");
    assertThat(ground.exported()).contains("HANNAH", "THOMAS").doesNotContain("ELLEN", "15-front");
    assertThat(ground.edition().why(ground.face("15", "front").marker()))
        .containsExactly(new Why.YoungBurial(75, new Day(1951, 11, 26)));
    DecisionId none = lastDecision();
    ground.undo(none);
    assertThat(ground.exported()).contains("ELLEN");
  }

  @Test
  void aYearThatIsNotReadForCertainCountsAsTheLastItCanBe() {
    ground.stone("14", "front", "In memory of | THOMAS GARSIDE | died 19[.]1");
    ground.withholdings.tellAfter(OptionalInt.of(75), "Ada Penrose");
    assertThat(ground.edition().why(ground.face("14", "front").marker()))
        .containsExactly(new Why.YoungBurial(75, new Day(1991, 12, 31)));
  }

  @Test
  void underThatRuleNobodyIsToldWhoseYearOfDeathIsUnknown() throws Exception {
    ground.stone("14", "front", "In memory of | THOMAS GARSIDE");
    ground.stone("15", "front", "ROBERT LIDGATE | died 1851 | Also ELLEN HIS WIFE | aged 70");
    assertThat(ground.exported()).contains("THOMAS", "ELLEN");
    ground.withholdings.tellAfter(OptionalInt.of(75), "Ada Penrose");
    assertThat(ground.edition().why(ground.face("14", "front").marker()))
        .containsExactly(new Why.DeathUnknown(75));
    assertThat(ground.exported())
        .contains("ROBERT", "year of death not known, told after 75 years")
        .doesNotContain("THOMAS", "ELLEN");
    ground.withholdings.tellAfter(OptionalInt.empty(), "Ada Penrose");
    assertThat(ground.exported()).contains("THOMAS", "ELLEN");
  }

  @Test
  void aYoungBurialOnAFamilysStoneKeepsTheWholeStoneBack() throws Exception {
    ground.stone("14", "front", "In memory of | THOMAS GARSIDE | died 1850");
    ground.stone("14", "back", "In memory of | ELLEN GARSIDE | died 2001");
    ground.withholdings.tellAfter(OptionalInt.of(30), "Ada Penrose");
    assertThat(ground.exported()).doesNotContain("THOMAS", "ELLEN");
  }

  @Test
  void whatIsDecidedIsReplayedFromTheJournal() {
    ground.withholdPerson("12:front:1");
    ground.withholdings.tellAfter(OptionalInt.of(50), "Ada Penrose");
    List<Withholding> before = ground.withholdings.withholdings();
    ground.archive.journal().rebuild();
    assertThat(ground.withholdings.withholdings()).isEqualTo(before).hasSize(1);
    assertThat(ground.withholdings.toldAfterYears()).hasValue(50);
    assertThat(before.get(0).reason()).isEqualTo("as they asked");
    assertThat(before.get(0).askedBy()).isEqualTo(Optional.of("a daughter"));
    assertThat(before.get(0).on()).isEqualTo(SmallGround.TODAY);
  }

  @Test
  void whatMakesNoSenseIsRefused() {
    Subject hannah = new Subject.OfPerson(ground.mention("12:front:1").id());
    assertThatThrownBy(() -> ground.withhold(hannah, Cause.TAKEN_DOWN))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("said of a marker, a face or a photograph");
    assertThatThrownBy(
            () ->
                ground.withholdings.withhold(
                    hannah, Cause.FAMILY, " ", Optional.empty(), SmallGround.TODAY, "Ada Penrose"))
        .hasMessageContaining("Say in words why");
    assertThatThrownBy(() -> ground.withholdings.tellAfter(OptionalInt.of(0), "Ada Penrose"))
        .hasMessageContaining("1 to 200 years");
  }

  private DecisionId lastDecision() {
    return ground.archive.journal().since(ground.archive.journal().lastCounter() - 1).get(0).id();
  }
}
