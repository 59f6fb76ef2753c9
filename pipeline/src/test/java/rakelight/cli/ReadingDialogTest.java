package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import rakelight.inscription.Basis;
import rakelight.inscription.Draft;
import rakelight.inscription.Leiden;
import rakelight.inscription.Suggestion;

class ReadingDialogTest {
  private final StringWriter out = new StringWriter();
  private final List<Draft> kept = new ArrayList<>();
  private static final List<Suggestion> PROPOSED =
      List.of(
          suggestion("HANNAH", List.of()),
          suggestion("WṚEN", List.of("2: R 61%  K 22%")),
          suggestion("dẹed 1883", List.of("2: e 55%  i 41%")));

  private static Suggestion suggestion(String text, List<String> doubts) {
    return new Suggestion(Draft.Line.of(text, false), doubts);
  }

  private Optional<ReadingDialog.Signed> answering(Optional<Draft> draft, String... answers)
      throws IOException {
    ReadingDialog dialog =
        new ReadingDialog(
            new BufferedReader(new StringReader(String.join("\n", answers))),
            new PrintWriter(out, true),
            PROPOSED,
            draft,
            Optional.empty(),
            Basis.FROM_PHOTOGRAPHS,
            kept::add);
    return dialog.run();
  }

  private static String leiden(Optional<ReadingDialog.Signed> signed) {
    return Leiden.print(signed.orElseThrow().inscription());
  }

  @Test
  void linesAreAcceptedChangedAndSigned() throws IOException {
    assertThat(leiden(answering(Optional.empty(), "", "accept", "change died 1883", "sign")))
        .isEqualTo("HANNAH | WṚEN | died 1883");
    assertThat(out.toString()).contains("Line 2 of 3:  WṚEN").contains("2: R 61%  K 22%");
  }

  @Test
  void lettersAreSettledOneByOne() throws IOException {
    assertThat(
            leiden(
                answering(
                    Optional.empty(),
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
                    Optional.empty(),
                    "before IN MEM",
                    "",
                    "change |ORY",
                    "drop",
                    "after [- - - - - -]",
                    "sign")))
        .isEqualTo("IN MEM | HANNAH|ORY | [- - - - - -]");
  }

  @Test
  void theBasisIsAskedForInWords() throws IOException {
    Optional<ReadingDialog.Signed> signed =
        answering(Optional.empty(), "", "", "", "basis stone 2025-04-30 sun from the left", "sign");
    assertThat(signed.orElseThrow().basis())
        .isEqualTo(
            new Basis(
                Basis.Kind.STONE,
                Optional.of(LocalDate.of(2025, 4, 30)),
                Optional.of("sun from the left"),
                Optional.empty()));
    assertThat(
            answering(
                    Optional.empty(), "", "", "", "basis earlier", "basis earlier old list", "sign")
                .orElseThrow()
                .basis()
                .witness())
        .contains("old list");
    assertThat(out.toString()).contains("names it: a list");
  }

  @Test
  void quittingOrAClosedLidLosesNothing() throws IOException {
    assertThat(answering(Optional.empty(), "", "change WREN")).isEmpty();
    Draft draft = kept.get(kept.size() - 1);
    assertThat(draft.lines())
        .containsExactly(
            Draft.Line.of("HANNAH", true),
            Draft.Line.of("WREN", true),
            Draft.Line.of("dẹed 1883", false));
    assertThat(leiden(answering(Optional.of(draft), "2=i", "", "sign")))
        .isEqualTo("HANNAH | WREN | died 1883");
  }

  @Test
  void nothingIsSignedWhileALineIsOpenAndEveryMistakeIsExplained() throws IOException {
    assertThat(
            answering(
                Optional.empty(),
                "",
                "sign",
                "frobnicate",
                "change HANN?H",
                "lost 9",
                "line 8",
                "2=xyz",
                "quit"))
        .isEmpty();
    assertThat(out.toString())
        .contains("line 2 isn't settled yet")
        .contains("“frobnicate” isn't an answer")
        .contains("column 5: found “?”")
        .contains("the line has letters 1 to 4")
        .contains("line needs a number from 1 to 3")
        .contains("one letter, or two");
  }
}
