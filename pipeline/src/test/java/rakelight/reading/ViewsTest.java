package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.picture.QuarterTurn;

class ViewsTest {
  @Test
  void thePhotographOnWhichMostLettersWereSeenLeads() {
    // 4 x .9 = 3.6, 10 x .6 = 6, 10 x .55 = 5.5.
    ViewBuilder few = ViewBuilder.light().line("WREN", .9, 100);
    ViewBuilder most = ViewBuilder.light().line("HANNAH WREN", .6, 100);
    ViewBuilder faint = ViewBuilder.light().line("HANNAH WREN", .55, 100);

    assertThat(Views.surestFirst(List.of(few.view(), most.view(), faint.view())))
        .extracting(Views.View::original)
        .containsExactly(most.original(), faint.original(), few.original());
  }

  @Test
  void aPhotographThatCannotBeLaidOverTheLeadingOneIsAlignedByWhatItSays() {
    // The other photograph was taken close up and lacks the first line.
    ViewBuilder leading =
        ViewBuilder.light()
            .line("HANNAH WREN", .8, 100)
            .line("DIED 1848", .6, 200)
            .line("AGED 63 YEARS", .8, 300);
    ViewBuilder closeUp =
        ViewBuilder.light()
            .notLaidOver()
            .line("DIED 1843", .9, 80, 1200, 250)
            .line("AGED 68 YEARS", .55, 80, 1200, 700);

    List<MergedFace.Line> lines = ViewBuilder.lines(leading, closeUp);

    assertThat(lines)
        .extracting(MergedFace.Line::text)
        .containsExactly("HANNAH WREN", "DIED 1843", "AGED 63 YEARS");
    assertThat(lines)
        .extracting(MergedFace.Line::original)
        .containsExactly(leading.original(), closeUp.original(), leading.original());
  }

  @Test
  void linesThatReadDifferentlyAreOneIfTheyStandAtTheSamePlaceOfTheText() {
    ViewBuilder leading =
        ViewBuilder.light()
            .line("HANNAH WREN", .9, 100)
            .line("XJXQ", .55, 200)
            .line("AGED 63 YEARS", .9, 300);
    ViewBuilder other =
        ViewBuilder.light()
            .notLaidOver()
            .line("HANNAH WREN", .55, 500)
            .line("DIED 1848", .9, 600)
            .line("AGED 63 YEARS", .55, 700);

    assertThat(ViewBuilder.lines(leading, other))
        .extracting(MergedFace.Line::text)
        .containsExactly("HANNAH WREN", "DIED 1848", "AGED 63 YEARS");
  }

  @Test
  void aLineTheLeadingOneLacksIsPutBetweenItsNeighboursIfItWasReadSurely() {
    ViewBuilder leading =
        ViewBuilder.light().line("HANNAH WREN", .9, 100).line("AGED 63 YEARS", .9, 300);
    ViewBuilder other =
        ViewBuilder.light()
            .notLaidOver()
            .line("HANNAH WREN", .55, 500)
            .line("DIED 1848", .8, 600)
            .line("REQUIESCAT", .7, 650)
            .line("AGED 63 YEARS", .55, 700);

    List<MergedFace.Line> lines = ViewBuilder.lines(leading, other);

    assertThat(lines)
        .extracting(MergedFace.Line::text)
        .containsExactly("HANNAH WREN", "DIED 1848", "AGED 63 YEARS");
  }

  @Test
  void aFaceOnWhichNothingWasReadHasNoLines() {
    assertThat(ViewBuilder.lines(ViewBuilder.light(), ViewBuilder.light().notLaidOver())).isEmpty();
    assertThat(ViewBuilder.lines()).isEmpty();
  }

  @Test
  void anotherLightMayShowWhatTheLeadingOneDoesNotEvenIfThatShowsNothing() {
    assertThat(
            ViewBuilder.lines(
                ViewBuilder.light(), ViewBuilder.light().notLaidOver().line("WREN", .9, 100)))
        .extracting(MergedFace.Line::text)
        .containsExactly("WREN");
  }

  @Test
  void aStoneLyingOnItsSideOrHeadIsReadInItsOwnOrder() {
    for (int quarters = 0; quarters < 4; quarters++) {
      ViewBuilder light =
          ViewBuilder.light()
              .line("HANNAH WREN", .9, 100, 350, 104)
              .line("AMOS WREN", .9, 450, 700, 96)
              .line("BORN 1790", .9, 100, 350, 300)
              .turnedBack(new QuarterTurn(quarters, 800, 600));

      assertThat(ViewBuilder.lines(light))
          .as("turned by %s", quarters)
          .extracting(MergedFace.Line::text)
          .containsExactly("HANNAH WREN", "AMOS WREN", "BORN 1790");
    }
  }

  @Test
  void onlyPicturesWithoutUprightLevelLinesAreTurnedToTry() {
    QuarterTurn quarter = new QuarterTurn(1, 800, 600);
    ViewBuilder level = ViewBuilder.light().line("HANNAH WREN", .92, 100);
    // Turned back by a quarter counter-clockwise, its lines run upwards.
    ViewBuilder upwards = ViewBuilder.light().line("HANNAH WREN", .9, 100).turnedBack(quarter);
    ViewBuilder unsure = ViewBuilder.light().line("HANNAH WREN", .85, 100);

    assertThat(turnsToTry(level, true)).isEmpty();
    assertThat(turnsToTry(unsure, false)).isEmpty();
    assertThat(turnsToTry(unsure, true)).containsExactly(2);
    assertThat(turnsToTry(ViewBuilder.light(), false)).containsExactly(1, 3, 2);
    assertThat(turnsToTry(upwards, false)).containsExactly(1, 3);
  }

  private static List<Integer> turnsToTry(ViewBuilder picture, boolean onTheirHeads) {
    return picture.view().picture().turnsToTry(lines -> onTheirHeads);
  }
}
