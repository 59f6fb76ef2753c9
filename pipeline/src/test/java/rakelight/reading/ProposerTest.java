package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.DerivationKey;
import rakelight.archive.Derived;
import rakelight.archive.FaceId;
import rakelight.archive.PhotographId;
import rakelight.photo.Frame;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.Showing;
import rakelight.picture.NativeScope;

class ProposerTest {
  @TempDir Path folder;
  private SmallArchive small;

  @BeforeEach
  void ingest() throws IOException {
    small = new SmallArchive(folder);
  }

  @AfterEach
  void close() {
    small.close();
  }

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void aFaceHasOneProposalFromAllItsLightsAndAPhotographOnNoFaceOneOfItsOwn() {
    Proposer.Report report = small.propose();

    assertThat(report).isEqualTo(new Proposer.Report(3, 0, 2, 0, 0, List.of()));
    List<Proposal> proposals = Proposer.newest(small.archive());
    assertThat(proposals).hasSize(2);
    Proposal ofFace = proposals.get(0);
    assertThat(ofFace.face()).contains(small.face());
    assertThat(ofFace.photographs())
        .containsExactlyInAnyOrder(
            small.photograph(SmallArchive.TWO_LIGHTS_FIRST).id(),
            small.photograph(SmallArchive.TWO_LIGHTS_SECOND).id());
    assertThat(ofFace.lines())
        .extracting(ProposedLine::text)
        .containsExactly("HANNAH WREN", "DIED 1848");
    assertThat(ofFace.models())
        .extracting(ModelUsed::name)
        .containsExactly("two-lines", "says-the-same");
    assertThat(proposals.get(1).face()).isEmpty();
    assertThat(proposals.get(1).photographs())
        .containsExactly(small.photograph(SmallArchive.ALONE).id());
  }

  @Test
  void aSecondRunDoesNothing() {
    small.propose();
    List<Proposal> before = Proposer.newest(small.archive());

    Proposer.Report again = small.propose();

    assertThat(again).isEqualTo(new Proposer.Report(0, 3, 0, 2, 0, List.of()));
    assertThat(small.picturesRead()).isEqualTo(3);
    assertThat(Proposer.newest(small.archive())).isEqualTo(before);
  }

  @Test
  void aRunThatWasStoppedGoesOnWhereItWas() throws Exception {
    // Stopped while it was at the second photograph: one is read, another marked as being read.
    try (MachineReader reader = small.reader()) {
      Proposer stopped = new Proposer(small.archive(), reader);
      stopped.read(small.photograph(SmallArchive.ALONE));
      leaveMark(stopped, SmallArchive.TWO_LIGHTS_FIRST, "1");
    }

    Proposer.Report report = small.propose();

    assertThat(report).isEqualTo(new Proposer.Report(2, 1, 2, 0, 0, List.of()));
    assertThat(small.picturesRead()).isEqualTo(3);
  }

  @Test
  void aPhotographWhoseOriginalIsDamagedIsNamedAndTheOthersAreRead() throws IOException {
    small.spoil(SmallArchive.TWO_LIGHTS_FIRST);

    Proposer.Report report = small.propose();

    assertThat(report.read()).isEqualTo(2);
    assertThat(report.made()).isEqualTo(2);
    assertThat(report.refused())
        .singleElement()
        .satisfies(
            refused -> {
              assertThat(refused.photograph().originalName())
                  .isEqualTo(SmallArchive.TWO_LIGHTS_FIRST);
              assertThat(refused.reason())
                  .contains("is damaged")
                  .contains("ingest the same file again");
            });
    assertThat(new ProposalStore(small.archive()).latest(small.face()).orElseThrow().photographs())
        .containsExactly(small.photograph(SmallArchive.TWO_LIGHTS_SECOND).id());
    assertThat(small.propose().refused()).as("named again, not taken for a death").hasSize(1);
  }

  @Test
  void aFaultWhileOnePhotographIsReadDoesNotStopTheOthers() {
    small.beforeFinding(
        () -> {
          if (small.picturesRead() == 2) {
            throw new IllegalStateException("the network refuses");
          }
        });

    Proposer.Report report = small.propose();

    assertThat(report.read()).isEqualTo(2);
    assertThat(report.refused())
        .singleElement()
        .satisfies(refused -> assertThat(refused.reason()).contains("the network refuses"));
    assertThat(small.propose().read()).as("tried again by the next run").isEqualTo(1);
  }

  @Test
  void aPhotographOverWhichTheProgramDiedIsTriedOnceMore() throws IOException {
    AtomicReference<String> marked = new AtomicReference<>("");
    try (MachineReader reader = small.reader()) {
      Proposer proposer = new Proposer(small.archive(), reader);
      Path mark = leaveMark(proposer, SmallArchive.ALONE, "1");
      small.beforeFinding(
          () -> {
            if (Files.exists(mark)) {
              marked.set(text(mark));
            }
          });

      Proposer.Report report = proposer.run(1, (done, all, photograph) -> {});

      assertThat(report.refused()).isEmpty();
      assertThat(report.read()).isEqualTo(3);
      assertThat(marked.get()).as("what a second death would leave").isEqualTo("2");
      assertThat(mark).doesNotExist();
    }
  }

  @Test
  void aPhotographOverWhichTheProgramDiedTwiceIsSetAsideWithItsNameUntilItsMarkIsDeleted()
      throws IOException {
    try (MachineReader reader = small.reader()) {
      Proposer proposer = new Proposer(small.archive(), reader);
      Path mark = leaveMark(proposer, SmallArchive.ALONE, "2");

      Proposer.Report report = proposer.run(1, (done, all, photograph) -> {});

      assertThat(report.read()).isEqualTo(2);
      assertThat(report.refused())
          .singleElement()
          .satisfies(
              refused -> {
                assertThat(refused.photograph().originalName()).isEqualTo(SmallArchive.ALONE);
                assertThat(refused.reason()).contains("set aside").contains(mark.toString());
              });
      assertThat(mark).exists();

      Files.delete(mark);
      assertThat(proposer.run(1, (done, all, photograph) -> {}).read()).isEqualTo(1);
    }
  }

  @Test
  void aNewLightMakesANewProposalAndTakingItAwayBringsBackTheEarlierOne() {
    small.propose();
    ProposalStore store = new ProposalStore(small.archive());
    Proposal withTwo = store.latest(small.face()).orElseThrow();
    PhotoStore photos = new PhotoStore(small.archive());
    PhotographId third = small.photograph(SmallArchive.ALONE).id();
    photos.assign(third, small.face(), Optional.empty(), "person", "Ada");

    small.propose();

    Proposal withThree = store.latest(small.face()).orElseThrow();
    assertThat(withThree.photographs()).hasSize(3).contains(third);

    photos.assign(third, photos.faceOf("M07", "W", "Ada").id(), Optional.empty(), "person", "Ada");
    small.propose();
    assertThat(store.latest(small.face())).contains(withTwo);
    assertThat(small.picturesRead()).isEqualTo(3);
  }

  @Test
  void whereAPhotographWasMovedAwayNothingIsProposedFromItUntilBothFacesAreReadAnew() {
    small.propose();
    ProposalStore store = new ProposalStore(small.archive());
    PhotoStore photos = new PhotoStore(small.archive());
    PhotographId moved = small.photograph(SmallArchive.TWO_LIGHTS_SECOND).id();
    FaceId other = photos.faceOf("M04b", "W", "Ada").id();
    photos.assign(moved, other, Optional.empty(), "person", "Ada");
    assertThat(store.latest(small.face())).isEmpty();

    assertThat(small.propose().made()).isEqualTo(2);
    assertThat(store.latest(small.face()).orElseThrow().photographs())
        .containsExactly(small.photograph(SmallArchive.TWO_LIGHTS_FIRST).id());
    assertThat(store.latest(other).orElseThrow().photographs()).containsExactly(moved);
  }

  @Test
  void aFaceThatLosesItsLastPhotographHasNoProposalAnyMore() {
    PhotoStore photos = new PhotoStore(small.archive());
    FaceId other = photos.faceOf("M07", "W", "Ada").id();
    PhotographId only = small.photograph(SmallArchive.ALONE).id();
    photos.assign(only, other, Optional.empty(), "person", "Ada");
    small.propose();
    ProposalStore store = new ProposalStore(small.archive());
    assertThat(store.latest(other)).isPresent();

    photos.assign(only, small.face(), Optional.empty(), "person", "Ada");
    small.propose();
    assertThat(store.latest(other)).isEmpty();
    assertThat(Proposer.newest(small.archive())).hasSize(1);
  }

  @Test
  void stonesBesideTheOneAPhotographIsOfAreReadAndWaitForSomebodyToSayWhichTheyAre() {
    small.seeOtherStones();
    Photograph whole = small.photograph(SmallArchive.TWO_LIGHTS_FIRST);

    assertThat(small.propose().beside()).isEqualTo(2 + 2 + 3);

    StonesBeside beside = new StonesBeside(small.archive());
    List<StoneBeside> stones = beside.on(whole);
    assertThat(stones).extracting(StoneBeside::number).containsExactly(1, 2);
    assertThat(stones.get(0).outline().right()).isLessThan(stones.get(1).outline().left());
    assertThat(stones.get(0).lines()).contains(List.of("HANNAH WREN", "DIED 1848"));
    // Of which stone a photograph on no face is, nobody has said either.
    assertThat(beside.on(small.photograph(SmallArchive.ALONE))).hasSize(3);
    assertThat(beside.open()).hasSize(7);
  }

  @Test
  void aStoneBesideAnotherIsAFaceOfItsOwnOnceSomebodySaysWhichItIs() {
    small.seeOtherStones();
    small.propose();
    PhotoStore photos = new PhotoStore(small.archive());
    Photograph whole = small.photograph(SmallArchive.TWO_LIGHTS_FIRST);
    StonesBeside beside = new StonesBeside(small.archive());
    StoneBeside second = beside.on(whole).get(1);
    FaceId other = photos.faceOf("M05", "W", "Ada").id();

    photos.alsoShows(whole, other, second.frame(), "Ada");
    photos.passOver(whole, beside.on(whole).get(0).frame(), "Ada");

    assertThat(beside.on(whole)).noneMatch(StoneBeside::isOpen);
    Proposer.Report report = small.propose();
    assertThat(report.read()).as("the stone was read before anybody said which it is").isZero();
    assertThat(report.made()).isEqualTo(2);
    Proposal proposal = new ProposalStore(small.archive()).latest(other).orElseThrow();
    assertThat(proposal.photographs()).containsExactly(whole.id());
    assertThat(proposal.lines()).extracting(ProposedLine::text).first().isEqualTo("HANNAH WREN");
    assertThat(proposal.lines())
        .allSatisfy(
            line ->
                assertThat(second.frame().contains(line.box().left(), line.box().top()))
                    .as("in pixels of the whole photograph")
                    .isTrue());
    assertThat(proposal.views().get(0).otherStones()).isEmpty();
    assertThat(new ProposalStore(small.archive()).latest(small.face())).isPresent();
    try (MachineReader reader = small.reader()) {
      assertThat(new DerivedCheck(small.archive(), reader).run())
          .as("what is read of stones beside others is needed")
          .noneMatch(finding -> finding.stage().equals(ReadPhotograph.KIND.name()));
    }
  }

  @Test
  void linesOfAStoneThatIsAnotherFaceAreNoLinesOfTheOneThePhotographIsOf() {
    small.propose();
    PhotoStore photos = new PhotoStore(small.archive());
    Photograph alone = small.photograph(SmallArchive.ALONE);
    int middle = alone.uprightHeightPx() / 2;
    FaceId other = photos.faceOf("M08", "W", "Ada").id();
    photos.alsoShows(alone, other, new Frame(0, 0, alone.uprightWidthPx(), middle), "Ada");

    assertThat(small.propose().read()).as("the stone alone, not the whole again").isEqualTo(1);

    assertThat(new ProposalStore(small.archive()).latest(alone.id()).orElseThrow().lines())
        .singleElement()
        .satisfies(line -> assertThat(line.box().top()).isGreaterThan(middle));
  }

  /** The mark that a program leaves that died this many times over a photograph. */
  private Path leaveMark(Proposer proposer, String name, String deaths) throws IOException {
    DerivationKey key = proposer.readingKey(Showing.whole(small.photograph(name), List.of()));
    Derived derived = small.archive().derived();
    return derived.write(
        derived.path(ReadPhotograph.KIND, key, "started"),
        out -> out.write(deaths.getBytes(StandardCharsets.UTF_8)));
  }

  private static String text(Path file) {
    try {
      return Files.readString(file, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
