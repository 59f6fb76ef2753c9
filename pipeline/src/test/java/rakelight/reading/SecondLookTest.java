package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import rakelight.finding.FoundLine;
import rakelight.picture.Polygon;

class SecondLookTest {
  @Test
  void aLineThatWasReadSurelyAndWholeIsNotReadAgain() {
    ReadPicture first = picture(ViewBuilder.light().line("HANNAH WREN", .98, 100));

    assertThat(SecondLook.worthReading(first, found(ViewBuilder.light().line("?", .5, 102))))
        .isEmpty();
  }

  @Test
  void aLineThatWasReadInPartOrNotAtAllIsReadAgain() {
    ReadPicture first = picture(ViewBuilder.light().line("AGED 63", .98, 100, 400, 200));
    List<FoundLine> second = found(ViewBuilder.light().line("?", .5, 200).line("?", .5, 300));

    assertThat(SecondLook.worthReading(first, second)).isEqualTo(second);
  }

  @Test
  void anUnsureLineIsReadAgainAtAnotherPlaceAndAtTheSameOnlyIfItIsHardlyReadAtAll() {
    ReadPicture first =
        picture(ViewBuilder.light().line("HANNAH WREN", .8, 100).line("DIED 1848", .6, 200));
    List<FoundLine> same = found(ViewBuilder.light().line("?", .5, 100).line("?", .5, 200));
    List<FoundLine> shorter = found(ViewBuilder.light().line("?", .5, 100, 600, 100));

    assertThat(SecondLook.worthReading(first, same)).isEqualTo(same.subList(1, 2));
    assertThat(SecondLook.worthReading(first, shorter)).isEqualTo(shorter);
  }

  @Test
  void aLineOnAnotherStoneIsNotRead() {
    ReadPicture alone = picture(ViewBuilder.light().line("HANNAH WREN", .98, 100, 300, 100));
    ReadPicture first =
        new ReadPicture(
            alone.face(),
            alone.proportion(),
            alone.lines(),
            List.of(),
            List.of(Polygon.rectangle(500, 0, 800, 600)));

    assertThat(
            SecondLook.worthReading(first, found(ViewBuilder.light().line("?", .5, 550, 750, 300))))
        .isEmpty();
  }

  @Test
  void whatOnlyTheSecondLookSeesIsPutInAtItsPlaceIfItIsReadSurely() {
    ReadPicture first =
        picture(ViewBuilder.light().line("WREN", .9, 100).line("AGED 63 YEARS", .9, 300));
    ReadPicture second =
        picture(ViewBuilder.light().line("DIED 1848", .8, 200).line("EIL", .6, 400));

    assertThat(texts(SecondLook.pooled(first, List.of(second.lines()))))
        .isEqualTo("WREN / DIED 1848 / AGED 63 YEARS");
  }

  @Test
  void ofOneLineTheReadingIsKeptWithMoreLettersRightThanWrongAndGuessesAddNothing() {
    // Surplus: 4 x .9 = 3.6 against 10 x .1 = 1, though 5.5 letters are seen against 3.8.
    ReadPicture first = picture(ViewBuilder.light().line("WREN", .95, 300, 500, 100));
    ReadPicture guessed = picture(ViewBuilder.light().line("HAIMAHWREN", .55, 100));
    ReadPicture whole = picture(ViewBuilder.light().line("HANNAH WREN", .8, 100));

    assertThat(texts(SecondLook.pooled(first, List.of(guessed.lines())))).isEqualTo("WREN");
    assertThat(texts(SecondLook.pooled(first, List.of(guessed.lines(), whole.lines()))))
        .isEqualTo("HANNAH WREN");
  }

  private static ReadPicture picture(ViewBuilder lines) {
    return lines.view().picture();
  }

  private static List<FoundLine> found(ViewBuilder lines) {
    return picture(lines).lines().stream().map(ReadLine::line).toList();
  }

  private static String texts(ReadPicture picture) {
    return picture.lines().stream()
        .map(line -> line.lattice().best())
        .collect(Collectors.joining(" / "));
  }
}
