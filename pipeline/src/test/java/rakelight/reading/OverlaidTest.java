package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.finding.Homography;

class OverlaidTest {
  @Test
  void aLineInPiecesOnTheLeadingLightIsGivenWholeByTheLightThatSawMoreOfIt() {
    ViewBuilder low =
        ViewBuilder.light().line("HANNAH", .6, 100, 400, 100).line("WREN", .6, 450, 700, 102);
    ViewBuilder high = ViewBuilder.light().line("HANNAH WREN", .9, 100, 700, 100);

    List<ProposedLine> lines = ViewBuilder.lines(low, high);

    assertThat(lines).extracting(ProposedLine::text).containsExactly("HANNAH WREN");
    assertThat(lines.get(0).photograph()).isEqualTo(high.photograph());
  }

  @Test
  void theLightThatSawMostGivesAllThePiecesOfItsLine() {
    ViewBuilder low =
        ViewBuilder.light().line("HANNAH", .9, 100, 400, 100).line("WREN", .9, 450, 700, 102);
    ViewBuilder high = ViewBuilder.light().line("HANNAH WRFN", .6, 100, 700, 100);

    List<ProposedLine> lines = ViewBuilder.lines(low, high);

    assertThat(lines).extracting(ProposedLine::text).containsExactly("HANNAH", "WREN");
    assertThat(lines)
        .extracting(ProposedLine::photograph)
        .containsOnly(low.photograph())
        .hasSize(2);
  }

  @Test
  void aWeaklySeenLineCutShortGivesWayToTheWholeOneThoughItsLettersAreLessSure() {
    // 4 x .9 = 3.6 letters seen against 10 x .55 = 5.5.
    ViewBuilder low = ViewBuilder.light().line("WREN", .9, 450, 700, 100);
    ViewBuilder high = ViewBuilder.light().line("HANNAH WREN", .55, 100, 700, 100);

    assertThat(ViewBuilder.lines(low, high))
        .extracting(ProposedLine::text)
        .containsExactly("HANNAH WREN");
  }

  @Test
  void aLineThatOnlyAnotherLightShowsIsPutInAtItsPlaceIfItWasReadSurely() {
    ViewBuilder low =
        ViewBuilder.light().line("HANNAH WREN", .9, 100).line("AGED 63 YEARS", .9, 300);
    ViewBuilder high = ViewBuilder.light().line("DIED 1848", .8, 200);

    assertThat(ViewBuilder.lines(low, high))
        .extracting(ProposedLine::text)
        .containsExactly("HANNAH WREN", "DIED 1848", "AGED 63 YEARS");
  }

  @Test
  void aLineThatOnlyAnotherLightShowsIsLeftOutIfItIsDoubtfulOrNextToNothing() {
    ViewBuilder low =
        ViewBuilder.light().line("HANNAH WREN", .9, 100).line("AGED 63 YEARS", .9, 300);
    ViewBuilder high = ViewBuilder.light().line("DIED 1848", .7, 200).line("II", .95, 400);

    assertThat(ViewBuilder.lines(low, high))
        .extracting(ProposedLine::text)
        .containsExactly("HANNAH WREN", "AGED 63 YEARS");
  }

  @Test
  void aDoubtfulLineOfTheLeadingLightIsKept() {
    ViewBuilder low = ViewBuilder.light().line("HANNAH WREN", .9, 100).line("DIED 1848", .55, 200);
    ViewBuilder high = ViewBuilder.light().line("HANNAH WREN", .8, 100);

    assertThat(ViewBuilder.lines(low, high))
        .extracting(ProposedLine::text)
        .containsExactly("HANNAH WREN", "DIED 1848");
  }

  @Test
  void linesAreComparedWhereTheyLieOnTheLeadingPhotographButKeepTheBoxOfTheirOwn() {
    // The other camera stood so that everything lies 150 px lower and half as large again.
    ViewBuilder low =
        ViewBuilder.light().line("HANNAH WREN", .6, 100).line("AGED 63 YEARS", .9, 300);
    ViewBuilder high =
        ViewBuilder.light()
            .laidBy(Homography.of(1 / 1.5, 0, 0, 0, 1 / 1.5, -100, 0, 0, 1))
            .line("HANNAH WREN", .9, 150, 1050, 300);

    List<ProposedLine> lines = ViewBuilder.lines(low, high);

    assertThat(lines)
        .extracting(ProposedLine::text)
        .containsExactly("HANNAH WREN", "AGED 63 YEARS");
    assertThat(lines.get(0).photograph()).isEqualTo(high.photograph());
    assertThat(lines.get(0).box().left()).isEqualTo(150);
    assertThat(lines.get(0).box().centre().y()).isEqualTo(300);
  }

  @Test
  void twoColumnsAreReadRowByRowEachFromTheLeft() {
    ViewBuilder low =
        ViewBuilder.light()
            .line("HIS WIFE", .9, 450, 700, 196)
            .line("BORN 1790", .9, 100, 350, 300)
            .line("AMOS WREN", .9, 450, 700, 96)
            .line("HANNAH WREN", .9, 100, 350, 104)
            .line("ALSO OF", .9, 100, 350, 200);

    List<ProposedLine> lines = ViewBuilder.lines(low);

    assertThat(lines)
        .extracting(ProposedLine::text)
        .containsExactly("HANNAH WREN", "AMOS WREN", "ALSO OF", "HIS WIFE", "BORN 1790");
    assertThat(lines).extracting(ProposedLine::number).containsExactly(1, 2, 3, 4, 5);
  }
}
