package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.inscription.Basis;
import rakelight.inscription.Draft;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.photo.Face;
import rakelight.work.Faces;
import rakelight.work.NamedReader;
import rakelight.work.Role;
import rakelight.work.WorkGround;

class ReadingDialogTest {
  private static final NamedReader ADA = new NamedReader("Ada Fenn", Role.ARCHIVIST);

  @TempDir Path folder;
  private final StringWriter out = new StringWriter();
  private WorkGround ground;
  private Face face;

  @BeforeEach
  void open() {
    ground = new WorkGround(folder.resolve("archive"));
    face = ground.face("12", "HANNAH", "W(R61K22)EN", "d(e55i41)ed 1883");
  }

  @AfterEach
  void close() {
    ground.close();
  }

  private Optional<Reading> answering(String... answers) throws IOException {
    Faces faces = ground.faces();
    return new ReadingDialog(
            new BufferedReader(new StringReader(String.join("\n", answers))),
            new PrintWriter(out, true),
            faces,
            faces.open(face, ADA),
            ADA,
            Basis.FROM_PHOTOGRAPHS)
        .run();
  }

  private static String leiden(Optional<Reading> signed) {
    return Leiden.print(signed.orElseThrow().inscription());
  }

  @Test
  void linesAreAcceptedChangedAndSigned() throws IOException {
    assertThat(leiden(answering("", "accept", "unclear 2", "accept", "change died 1883", "sign")))
        .isEqualTo("HANNAH | WṚEN | died 1883");
    assertThat(out.toString())
        .contains("Line 2 of 3:  WṚEN")
        .contains("2: R 61%  K 22%")
        .contains("Letter 2, R, is doubtful: it may be K or nothing.")
        .contains("Here: 2=R if you see that; 2=R/K to leave it open.");
  }

  @Test
  void lettersAreSettledOneByOne() throws IOException {
    assertThat(
            leiden(
                answering(
                    "lost 2-3",
                    "illegible 4",
                    "",
                    "clear 2",
                    "unclear 4",
                    "",
                    "2=i",
                    "8=3/8",
                    "",
                    "sign")))
        .isEqualTo("H[..]+AH | WREṆ | died 188(3 or 8)");
  }

  @Test
  void aMissedLineIsPutInAndAFalseOneDropped() throws IOException {
    assertThat(
            leiden(
                answering(
                    "before IN MEM", "", "change |ORY", "drop", "after [- - - - - -]", "sign")))
        .isEqualTo("IN MEM | HANNAH|ORY | [- - - - - -]");
  }

  @Test
  void theBasisIsAskedForInWords() throws IOException {
    Optional<Reading> signed =
        answering(
            "",
            "2=R",
            "",
            "2=i",
            "",
            "basis earlier",
            "basis earlier old list",
            "basis stone 2025-04-30 sun from the left",
            "sign");
    assertThat(signed.orElseThrow().basis())
        .isEqualTo(
            new Basis(
                Basis.Kind.STONE,
                Optional.of(LocalDate.of(2025, 4, 30)),
                Optional.of("sun from the left"),
                Optional.empty()));
    assertThat(out.toString()).contains("names it: a list").contains("Basis: earlier, old list.");
  }

  @Test
  void quittingOrAClosedLidLosesNothing() throws IOException {
    assertThat(answering("", "change WREN")).isEmpty();
    Draft draft = ground.faces().look(face, ADA).draft();
    assertThat(draft.lines())
        .extracting(Draft.Line::text)
        .containsExactly("HANNAH", "WREN", "dẹed 1883");
    assertThat(draft.lines()).extracting(Draft.Line::isSettled).containsExactly(true, true, false);
    assertThat(leiden(answering("2=i", "", "sign"))).isEqualTo("HANNAH | WREN | died 1883");
  }

  @Test
  void nothingIsSignedWhileALineIsOpenAndEveryMistakeIsExplained() throws IOException {
    assertThat(
            answering(
                "", "sign", "frobnicate", "change HANN?H", "lost 9", "line 8", "2=xyz", "quit"))
        .isEmpty();
    assertThat(out.toString())
        .contains("Some letters of line 2 aren't decided yet")
        .contains("“frobnicate” isn't an answer")
        .contains("olumn 5: found “?”")
        .contains("he line has letters 1 to 4")
        .contains("line needs a number from 1 to 3")
        .contains("one letter, or two");
  }
}
