package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import rakelight.archive.Sha256;
import rakelight.finding.LaidLine;
import rakelight.picture.Homography;

class OverlaidTest {
  @Test
  void aLineInPiecesOnTheLeadingLightIsGivenWholeByTheLightThatSawMoreOfIt() {
    ViewBuilder low =
        ViewBuilder.light().line("HANNAH", .6, 100, 400, 100).line("WREN", .6, 450, 700, 102);
    ViewBuilder high = ViewBuilder.light().line("HANNAH WREN", .9, 100, 700, 100);

    List<MergedFace.Line> lines = ViewBuilder.lines(low, high);

    assertThat(lines).extracting(MergedFace.Line::text).containsExactly("HANNAH WREN");
    assertThat(lines.get(0).original()).isEqualTo(high.original());
  }

  @Test
  void theLightThatSawMostGivesAllThePiecesOfItsLine() {
    ViewBuilder low =
        ViewBuilder.light().line("HANNAH", .9, 100, 400, 100).line("WREN", .9, 450, 700, 102);
    ViewBuilder high = ViewBuilder.light().line("HANNAH WRFN", .6, 100, 700, 100);

    List<MergedFace.Line> lines = ViewBuilder.lines(low, high);

    assertThat(lines).extracting(MergedFace.Line::text).containsExactly("HANNAH", "WREN");
    assertThat(lines).extracting(MergedFace.Line::original).containsOnly(low.original()).hasSize(2);
  }

  @Test
  void aWeaklySeenLineCutShortGivesWayToTheWholeOneThoughItsLettersAreLessSure() {
    // 4 x .9 = 3.6 letters seen against 10 x .55 = 5.5.
    ViewBuilder low = ViewBuilder.light().line("WREN", .9, 450, 700, 100);
    ViewBuilder high = ViewBuilder.light().line("HANNAH WREN", .55, 100, 700, 100);

    assertThat(ViewBuilder.lines(low, high))
        .extracting(MergedFace.Line::text)
        .containsExactly("HANNAH WREN");
  }

  @Test
  void aLineThatOnlyAnotherLightShowsIsPutInAtItsPlaceIfItWasReadSurely() {
    ViewBuilder low =
        ViewBuilder.light().line("HANNAH WREN", .9, 100).line("AGED 63 YEARS", .9, 300);
    ViewBuilder high = ViewBuilder.light().line("DIED 1848", .8, 200);

    assertThat(ViewBuilder.lines(low, high))
        .extracting(MergedFace.Line::text)
        .containsExactly("HANNAH WREN", "DIED 1848", "AGED 63 YEARS");
  }

  @Test
  void aLineThatOnlyAnotherLightShowsIsLeftOutIfItIsDoubtfulOrNextToNothing() {
    ViewBuilder low =
        ViewBuilder.light().line("HANNAH WREN", .9, 100).line("AGED 63 YEARS", .9, 300);
    ViewBuilder high = ViewBuilder.light().line("DIED 1848", .7, 200).line("II", .95, 400);

    assertThat(ViewBuilder.lines(low, high))
        .extracting(MergedFace.Line::text)
        .containsExactly("HANNAH WREN", "AGED 63 YEARS");
  }

  @Test
  void aDoubtfulLineOfTheLeadingLightIsKept() {
    ViewBuilder low = ViewBuilder.light().line("HANNAH WREN", .9, 100).line("DIED 1848", .55, 200);
    ViewBuilder high = ViewBuilder.light().line("HANNAH WREN", .8, 100);

    assertThat(ViewBuilder.lines(low, high))
        .extracting(MergedFace.Line::text)
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

    List<MergedFace.Line> lines = ViewBuilder.lines(low, high);

    assertThat(lines)
        .extracting(MergedFace.Line::text)
        .containsExactly("HANNAH WREN", "AGED 63 YEARS");
    assertThat(lines.get(0).original()).isEqualTo(high.original());
    assertThat(lines.get(0).line().ribbon().left()).isEqualTo(150);
    assertThat(lines.get(0).line().ribbon().centre().y()).isEqualTo(300);
  }

  @Test
  void everyLightVotesOnEveryLetterOfTheStretchThatTheSurestOneShows() {
    // The surest light takes the 8 for a 3; the other two are shown its ribbon and see an 8.
    ViewBuilder surest = ViewBuilder.light().line("DIED 1343", .7, 100);
    ViewBuilder low = ViewBuilder.light().line("DIED", .6, 100, 400, 100);
    ViewBuilder high = ViewBuilder.light().laidBy(Homography.of(1, 0, 0, 0, 1, -50, 0, 0, 1));
    Map<Sha256, List<LaidLine>> asked = new HashMap<>();

    List<MergedFace.Line> lines =
        ViewBuilder.lines(
            (original, places) -> {
              asked.put(original, places);
              return original.equals(surest.original())
                  ? ViewBuilder.seen(places, "DIED 1343", .7)
                  : ViewBuilder.seen(places, "DIED 1843", .69);
            },
            surest,
            low,
            high);

    assertThat(lines).extracting(MergedFace.Line::text).containsExactly("DIED 1843");
    assertThat(lines.get(0).original()).isEqualTo(surest.original());
    assertThat(asked).containsOnlyKeys(surest.original(), low.original(), high.original());
    assertThat(asked.getOrDefault(low.original(), List.of()).get(0).ribbon().centre().y())
        .isEqualTo(100);
    assertThat(asked.getOrDefault(high.original(), List.of()).get(0).ribbon().centre().y())
        .isEqualTo(150);
  }

  @Test
  void whatOneRecogniserSeesInOneLightIsNotOutvotedWithinThatLightFirst() {
    // The 8 is seen by one of two recognisers in each light; the other reads 3 and X by turns.
    ViewBuilder low = ViewBuilder.light().line("DIED 1343", .7, 100);
    ViewBuilder high = ViewBuilder.light();

    List<MergedFace.Line> lines =
        ViewBuilder.lines(
            (original, places) -> {
              String other = original.equals(low.original()) ? "DIED 1343" : "DIED 1X43";
              Weighing.View one = new Weighing.View(ViewBuilder.lattice("DIED 1843", .7), .4);
              Weighing.View two = new Weighing.View(ViewBuilder.lattice(other, .8), .4);
              return places.stream().map(place -> List.of(one, two)).toList();
            },
            low,
            high);

    assertThat(lines).extracting(MergedFace.Line::text).containsExactly("DIED 1843");
  }

  @Test
  void aLightThatShowsNothingOfALineHasNoVote() {
    ViewBuilder clear = ViewBuilder.light().line("DIED 1843", .8, 100);
    ViewBuilder dark = ViewBuilder.light();

    List<MergedFace.Line> lines =
        ViewBuilder.lines(
            (original, places) ->
                original.equals(clear.original())
                    ? ViewBuilder.seen(places, "DIED 1843", .8)
                    : List.of(List.of(new Weighing.View(new LineLattice(List.of()), 1))),
            clear,
            dark);

    assertThat(lines).extracting(MergedFace.Line::text).containsExactly("DIED 1843");
    assertThat(lines.get(0).lattice().slots().get(0).p("D")).isCloseTo(.8, within(1e-9));
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

    List<MergedFace.Line> lines = ViewBuilder.lines(low);

    assertThat(lines)
        .extracting(MergedFace.Line::text)
        .containsExactly("HANNAH WREN", "AMOS WREN", "ALSO OF", "HIS WIFE", "BORN 1790");
  }
}
