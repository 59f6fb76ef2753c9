package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.BadInputException;
import rakelight.archive.PhotographId;
import rakelight.photo.Light;
import rakelight.photo.PhotoStore;

/**
 * What is made anew when something changes: what follows from it, and only that. There is a face
 * with two lights, and a photograph on no face; all pictures of both have been looked at.
 */
class ChangedInputTest {
  private static final Light FROM_THE_LEFT = new Light(330, Optional.of(20.0));
  private static final Light FROM_THE_RIGHT = new Light(210, Optional.of(20.0));

  @TempDir static Path made;
  @TempDir Path folder;
  private SmallArchive small;
  private PhotoStore photos;

  @BeforeAll
  static void readAndLookAtEverything() throws Exception {
    ChangedInputTest first = new ChangedInputTest();
    first.use(new SmallArchive(made));
    first.photos.describeFace(first.small.face(), Optional.of(270.0), "Ada");
    first.light(SmallArchive.TWO_LIGHTS_FIRST, FROM_THE_LEFT);
    first.light(SmallArchive.TWO_LIGHTS_SECOND, FROM_THE_RIGHT);
    first.makeAll();
    first.close();
  }

  @BeforeEach
  void copyWhatWasMade() throws Exception {
    use(SmallArchive.copyOf(made, folder));
  }

  private void use(SmallArchive archive) {
    small = archive;
    photos = new PhotoStore(archive.archive());
  }

  @AfterEach
  void close() {
    small.close();
  }

  @Test
  void nothingIfNothingChanges() throws Exception {
    assertThat(madeAnew()).isEmpty();
  }

  @Test
  void aLightMakesTheReliefOfItsFaceAnewAndItsStrips() throws Exception {
    light(SmallArchive.TWO_LIGHTS_FIRST, new Light(300, Optional.of(20.0)));

    assertThat(madeAnew()).isEqualTo(Map.of("relief", 1, "strips", 1));
  }

  @Test
  void aBearingMakesTheSameAnewWhereLightsAreKnown() throws Exception {
    photos.describeFace(small.face(), Optional.of(260.0), "Ada");

    assertThat(madeAnew()).isEqualTo(Map.of("relief", 1, "strips", 1));
  }

  @Test
  void aBearingChangesNothingWhereNobodyKnowsHowHighTheLightsStood() throws Exception {
    light(SmallArchive.TWO_LIGHTS_FIRST, new Light(330, Optional.empty()));
    light(SmallArchive.TWO_LIGHTS_SECOND, new Light(210, Optional.empty()));
    madeAnew();
    photos.describeFace(small.face(), Optional.of(100.0), "Ada");

    assertThat(madeAnew()).isEmpty();
  }

  @Test
  void anotherPhotographOnTheFaceMakesItsProposalAnewAndReadsNothing() throws Exception {
    int read = small.picturesRead();
    photos.assign(id(SmallArchive.ALONE), small.face(), Optional.empty(), "person", "Ada");

    // It doesn't lie over the others, so the shape of the surface stays.
    assertThat(madeAnew()).containsEntry("proposal", 1).doesNotContainKeys("reading", "smaller");
    assertThat(small.picturesRead()).isEqualTo(read);
  }

  @Test
  void aLightChangesNoProposalThoughThreePhotographsShowTheFace() throws Exception {
    photos.assign(id(SmallArchive.ALONE), small.face(), Optional.empty(), "person", "Ada");
    makeAll();
    int read = small.picturesRead();
    light(SmallArchive.TWO_LIGHTS_FIRST, new Light(300, Optional.of(20.0)));

    assertThat(madeAnew()).isEqualTo(Map.of("relief", 1, "strips", 1));
    assertThat(small.picturesRead()).as("no photograph is read again").isEqualTo(read);
  }

  @Test
  void anOrientationMakesAnewAllThatIsMadeOfThatPhotograph() throws Exception {
    small
        .archive()
        .ledger()
        .write(
            handle ->
                handle.execute(
                    "UPDATE photograph SET orientation = 3 WHERE id = ?",
                    id(SmallArchive.ALONE).toString()));

    assertThat(madeAnew())
        .isEqualTo(
            Map.of(
                "reading",
                1,
                "proposal",
                1,
                "smaller",
                1,
                "lines",
                1,
                "relief",
                1,
                "strips",
                1,
                "light-strips",
                1));
  }

  @Test
  void anotherWeightOfARecogniserMakesAllReadingsAndProposalsAnewButNoPictures() throws Exception {
    Set<String> before = names();
    try (MachineReader reader = small.reader(2)) {
      new Proposer(small.archive(), reader).run(1, (done, all, photograph) -> {});
    }

    // The lines stand where they stood and say what they said.
    assertThat(since(before)).isEqualTo(Map.of("reading", 3, "proposal", 2));
    small.lookAtAll();
    assertThat(since(before)).isEqualTo(Map.of("reading", 3, "proposal", 2));
  }

  @Test
  void whatWasMadeBeforeIsTakenUpAgainOnceTheChangeIsTakenBack() throws Exception {
    light(SmallArchive.TWO_LIGHTS_FIRST, new Light(300, Optional.of(20.0)));
    makeAll();
    light(SmallArchive.TWO_LIGHTS_FIRST, FROM_THE_LEFT);

    assertThat(madeAnew()).isEmpty();
  }

  @Test
  void checkTellsWhatIsMissingOutOfDateAndUnneededAndDropsOnlyTheLast() throws Exception {
    assertThat(check().run()).isEmpty();
    photos.assign(id(SmallArchive.ALONE), small.face(), Optional.empty(), "person", "Ada");

    assertThat(check().run())
        .contains(
            new DerivedCheck.Finding(
                DerivedCheck.State.OUT_OF_DATE, "proposal", "marker M04, face W", 0));
    makeAll();
    DerivedCheck check = check();
    List<DerivedCheck.Finding> after = check.run();

    assertThat(after)
        .allSatisfy(finding -> assertThat(finding.state()).isEqualTo(DerivedCheck.State.UNNEEDED))
        .extracting(DerivedCheck.Finding::stage)
        .contains("proposal", "newest-proposal")
        .doesNotContain("reading", "smaller");
    assertThat(check.drop()).isEqualTo(after.size());
    assertThat(check().run()).isEmpty();
    assertThat(madeAnew()).as("nothing that is needed was dropped").isEmpty();
  }

  @Test
  void whatAKeptProposalIsShownWithIsNeeded() throws Exception {
    ProposalStore store = new ProposalStore(small.archive());
    Proposal used = store.latest(small.face()).orElseThrow();
    store.keep(used, "Ada");
    PhotographId second = id(SmallArchive.TWO_LIGHTS_SECOND);
    photos.assign(second, photos.faceOf("M05", "W", "Ada").id(), Optional.empty(), "p", "Ada");
    makeAll();
    FacePictures pictures = new FacePictures(small.archive());
    Path depth = pictures.reliefs(used).get("cut");

    DerivedCheck check = check();
    check.run();
    check.drop();

    assertThat(depth).exists();
    assertThat(store.kept(used.id())).contains(used);
  }

  @Test
  void aReadingOfAnEarlierModelStandsUntilItsSuccessorIsMade() throws Exception {
    try (MachineReader reader = small.reader(2)) {
      DerivedCheck check = new DerivedCheck(small.archive(), reader);
      List<DerivedCheck.Finding> findings = check.run();

      assertThat(findings)
          .allSatisfy(
              finding -> assertThat(finding.state()).isEqualTo(DerivedCheck.State.OUT_OF_DATE));
      assertThat(findings)
          .extracting(DerivedCheck.Finding::stage)
          .containsOnly("reading", "proposal")
          .hasSize(5);
      assertThat(check.drop()).isZero();
    }
  }

  private DerivedCheck check() {
    try (MachineReader reader = small.reader()) {
      return new DerivedCheck(small.archive(), reader);
    }
  }

  private void light(String name, Light light) {
    photos.assign(id(name), small.face(), Optional.of(light), "person", "Ada");
  }

  private PhotographId id(String name) {
    return small.photograph(name).id();
  }

  /** How many derivations of each stage come about when everything is looked at once more. */
  private Map<String, Integer> madeAnew() throws IOException, BadInputException {
    Set<String> before = names();
    makeAll();
    return since(before);
  }

  private Map<String, Integer> since(Set<String> before) {
    Set<String> made = names();
    made.removeAll(before);
    Map<String, Integer> counts = new TreeMap<>();
    made.forEach(name -> counts.merge(name.substring(0, name.indexOf(' ')), 1, Integer::sum));
    return counts;
  }

  private Set<String> names() {
    Set<String> names = new TreeSet<>();
    small
        .archive()
        .derived()
        .eachLying(
            lying ->
                lying.input().ifPresent(input -> names.add(lying.stage() + " " + lying.name())));
    return names;
  }

  private void makeAll() throws IOException, BadInputException {
    small.propose();
    small.lookAtAll();
  }
}
