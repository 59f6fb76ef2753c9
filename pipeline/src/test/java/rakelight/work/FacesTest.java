package rakelight.work;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.inscription.Basis;
import rakelight.inscription.Draft;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Standing;
import rakelight.photo.Face;

/** The rules of working on a face, whoever asks. */
class FacesTest {
  private static final NamedReader ADA = new NamedReader("Ada Fenn", Role.ARCHIVIST);
  private static final NamedReader COL = new NamedReader("Col Reeve", Role.READER);
  private static final NamedReader GIL = new NamedReader("Gil Orme", Role.GUEST);

  @TempDir Path folder;
  private WorkGround ground;
  private Faces faces;
  private Face face;

  @BeforeEach
  void open() {
    ground = new WorkGround(folder.resolve("archive"));
    faces = ground.faces();
    face = ground.face("12", "IN MEMORY OF", "HANNAH W(R60K30)EN", "died 18(350840)4");
  }

  @AfterEach
  void close() {
    ground.close();
  }

  private static void isRefused(ThrowingCallable asked, Refused why) {
    assertThatThrownBy(asked)
        .isInstanceOfSatisfying(
            RefusedException.class, e -> assertThat(e.refused()).isEqualTo(why));
  }

  private Work change(Faces.Change change) {
    return faces.change(face, ADA, faces.look(face, ADA).version(), change);
  }

  private Work put(int line, int at, String letter) {
    return change(
        work -> DraftEditing.put(work.draft(), line, at, at, DraftEditing.letter(letter), ""));
  }

  @Test
  void aDoubtfulLetterIsTakenByItselfOrWithItsWordButNeverWithItsLine() {
    isRefused(
        () -> change(LineRules.take(2)),
        new Refused.LookFirst(List.of(new Refused.Doubtful(2, 8, "R", List.of("K", "nothing")))));
    isRefused(
        () -> change(LineRules.accept(2, OptionalInt.empty(), OptionalInt.empty())),
        new Refused.DecideFirst(2, 1));
    isRefused(
        () -> change(LineRules.stand(2, 1, 10, Standing.CLEAR)), new Refused.DecideFirst(2, 8));
    isRefused(
        () -> change(LineRules.seen(2, OptionalInt.of(1), OptionalInt.of(10))),
        new Refused.DecideFirst(2, 8));
    assertThat(faces.look(face, ADA).stored()).isFalse();
    change(LineRules.seen(2, OptionalInt.of(7), OptionalInt.of(10)));
    Work taken = change(LineRules.take(2));
    assertThat(taken.draft().lines().get(1).isSettled()).isTrue();
    assertThat(taken.draft().lines().get(1).text()).isEqualTo("HANNAH WREN");
  }

  @Test
  void whatNobodyProposedIsTakenAsItStands() throws Exception {
    Face other = ground.face("13");
    new ReadingStore(ground.archive())
        .keepDraft(
            other.id(),
            new Draft(
                List.of(Draft.Line.of("HANNAH WREN", false), Draft.Line.of("died 18\u0323", false)),
                Optional.empty()),
            ADA.name());
    String version = faces.look(other, ADA).version();
    Work taken = faces.change(other, ADA, version, LineRules.take(1));
    assertThat(taken.draft().lines().get(0).isSettled()).isTrue();
    isRefused(
        () -> faces.change(other, ADA, taken.version(), LineRules.take(2)),
        new Refused.LookFirst(List.of(new Refused.Doubtful(2, 6, "8", List.of()))));
  }

  @Test
  void nothingIsWrittenOverThatCameFromAnotherDeskOrTerminal() {
    Faces atTheTerminal = ground.faces();
    Work seen = faces.open(face, ADA);
    Work other = atTheTerminal.open(face, ADA);
    put(1, 1, "J");
    isRefused(
        () ->
            atTheTerminal.change(
                face, ADA, other.version(), work -> DraftEditing.removeLine(work.draft(), 1)),
        new Refused.Changed());
    isRefused(() -> atTheTerminal.undo(face, ADA, seen.version()), new Refused.Changed());
    assertThat(faces.look(face, ADA).draft().lines()).hasSize(3);
  }

  @Test
  void nobodySignsWhileSomebodyElseSigns() {
    decideAll(ADA);
    Work adas = faces.look(face, ADA);
    faces.letGo(face, ADA);
    decideAll(COL);
    Work cols = faces.look(face, COL);
    faces.sign(face, COL, cols.version(), Basis.FROM_PHOTOGRAPHS, Optional.empty());
    isRefused(
        () -> faces.sign(face, ADA, adas.version(), Basis.FROM_PHOTOGRAPHS, Optional.empty()),
        new Refused.Superseded(Optional.of("Col Reeve")));
  }

  private void decideAll(NamedReader by) {
    for (int line = 1; line <= 3; line++) {
      int at = line;
      String text = faces.look(face, by).draft().lines().get(line - 1).text();
      faces.change(
          face,
          by,
          faces.look(face, by).version(),
          work -> DraftEditing.text(work.draft(), at, text));
    }
  }

  @Test
  void nothingIsSignedWhileALetterIsOpenAndItsLineIsNamed() {
    change(LineRules.take(1));
    String version = faces.look(face, ADA).version();
    isRefused(
        () -> faces.sign(face, ADA, version, Basis.FROM_PHOTOGRAPHS, Optional.empty()),
        new Refused.Undecided(2));
  }

  @Test
  void aGuestDecidesNothing() {
    String version = faces.look(face, GIL).version();
    isRefused(() -> faces.change(face, GIL, version, LineRules.take(1)), new Refused.OnlyLooks());
    isRefused(
        () -> faces.leave(face, GIL, LeftFace.Why.OTHER_LIGHT, "moss"), new Refused.OnlyLooks());
  }

  @Test
  void lettersOfADraftAreTakenBackByItsReaderAlone() {
    change(LineRules.take(1));
    Undoing undoing = new Undoing(ground.archive());
    var letters =
        new ReadingStore(ground.archive()).draftDecision(face.id(), ADA.name()).orElseThrow();
    NamedReader archivist = new NamedReader("Eve Marsh", Role.ARCHIVIST);
    isRefused(() -> undoing.undo(letters, archivist), new Refused.AnothersDraft("Ada Fenn"));
    isRefused(() -> undoing.undo(letters, GIL), new Refused.OnlyLooks());
    undoing.undo(letters, ADA);
    assertThat(faces.look(face, ADA).stored()).isFalse();
  }

  @Test
  void whereTwoReadBlindALineIsTakenOnlyIfItIsPlain() {
    new ReaderStore(ground.archive()).require(2, ADA);
    Work taken = change(LineRules.take(1));
    assertThat(taken.draft().lines().get(0).isSettled()).isTrue();
    isRefused(() -> change(LineRules.take(2)), new Refused.NotRead(2, 1));
    isRefused(() -> change(LineRules.seenLine(1)), new Refused.ReadBlind());
  }
}
