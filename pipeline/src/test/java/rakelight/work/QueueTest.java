package rakelight.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.ReadingFile;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Standing;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;

/** The queue keeps what it knows and follows what is decided, at whichever desk or terminal. */
class QueueTest {
  private static final NamedReader ADA = new NamedReader("Ada Fenn", Role.ARCHIVIST);

  @TempDir Path folder;
  private WorkGround ground;
  private Queue queue;
  private Face wren;
  private Face eli;

  @BeforeEach
  void open() {
    ground = new WorkGround(folder.resolve("archive"));
    wren = ground.face("2", "HANNAH W(R60K30)EN");
    eli = ground.face("10", "ELI");
    queue = new Queue(ground.archive(), new Leases(Clock.systemUTC()), ground.faces());
    assertThat(waiting("Col Reeve")).containsExactly(wren, eli);
  }

  @AfterEach
  void close() {
    ground.close();
  }

  private List<Face> waiting(String reader) {
    return queue.waiting(reader, Set.of(), Queue.Order.HARDEST).stream()
        .map(Queue.Item::face)
        .toList();
  }

  private FaceState state(Face face) {
    return queue.all().stream()
        .filter(item -> item.face().equals(face))
        .map(Queue.Item::state)
        .findFirst()
        .orElseThrow();
  }

  private void confirm(String marker, String text, NamedReader by) throws Exception {
    new FileWork(ground.archive())
        .confirm(
            new ReadingFile(
                List.of(
                    new ReadingFile.Entry(marker, "front", Leiden.parse(text), Optional.empty()))),
            Basis.FROM_PHOTOGRAPHS,
            by);
  }

  @Test
  void whatIsDecidedAboutAFaceMovesThatFace() throws Exception {
    Faces elsewhere = ground.faces();
    elsewhere.change(
        wren, ADA, elsewhere.look(wren, ADA).version(), LineRules.stand(1, 1, 6, Standing.CLEAR));
    assertThat(state(wren)).isEqualTo(FaceState.BEGUN);
    confirm("2", "HANNAH WREN", ADA);
    assertThat(state(wren)).isEqualTo(FaceState.SETTLED);
    assertThat(waiting("Col Reeve")).containsExactly(eli);
    new Undoing(ground.archive())
        .undo(new ReadingStore(ground.archive()).current(wren.id()).orElseThrow().decision(), ADA);
    assertThat(waiting("Col Reeve")).containsExactly(wren, eli);
    elsewhere.leave(eli, ADA, LeftFace.Why.OTHER_LIGHT, "moss");
    assertThat(state(eli)).isEqualTo(FaceState.OTHER_LIGHT);
    elsewhere.comeBack(eli, ADA);
    assertThat(state(eli)).isEqualTo(FaceState.OPEN);
  }

  @Test
  void anotherProposalAnotherNumberAndAnotherFaceAreFollowed() {
    ground.propose(eli, "E(L30I30T30)(I40J40)");
    assertThat(waiting("Col Reeve")).containsExactly(eli, wren);
    Face third = ground.face("1", "ELI");
    assertThat(queue.all()).extracting(Queue.Item::face).containsExactly(third, wren, eli);
    new MarkerStore(ground.archive()).renumber(third.marker(), "11", "Ada Fenn");
    assertThat(queue.all()).extracting(Queue.Item::face).containsExactly(wren, eli, third);
  }

  @Test
  void whereTwoAreAskedForTheFirstHasReadAndTheSecondReadsAgain() throws Exception {
    new ReaderStore(ground.archive()).require(2, ADA);
    confirm("2", "HANNAH WREN", ADA);
    assertThat(state(wren)).isEqualTo(FaceState.ONCE_READ);
    assertThat(waiting("Ada Fenn")).containsExactly(eli);
    assertThat(waiting("Col Reeve")).containsExactly(wren, eli);
    new ReaderStore(ground.archive()).require(1, ADA);
    assertThat(state(wren)).isEqualTo(FaceState.SETTLED);
  }

  @Test
  void plotsAreThePartBeforeTheLastHyphenOrTheFirstLetters() {
    assertThat(Queue.plot("C-12")).isEqualTo("C");
    assertThat(Queue.plot("North 2-7")).isEqualTo("North 2");
    assertThat(Queue.plot("M13")).isEqualTo("M");
    assertThat(Queue.plot("13")).isEmpty();
  }
}
