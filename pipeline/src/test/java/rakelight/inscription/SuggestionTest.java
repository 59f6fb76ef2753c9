package rakelight.inscription;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.archive.PhotographId;
import rakelight.finding.GrayImage;
import rakelight.finding.Polygon;
import rakelight.reading.Alternative;
import rakelight.reading.LineLattice;
import rakelight.reading.ProposedLine;
import rakelight.reading.Slot;

class SuggestionTest {
  private static Slot sure(String text, double from, double to) {
    return new Slot(List.of(new Alternative(text, 1)), from, to);
  }

  private static final LineLattice LINE =
      new LineLattice(
          List.of(
              sure("(", 0, 0.1),
              new Slot(
                  List.of(
                      new Alternative("R", 0.6),
                      new Alternative("K", 0.35),
                      new Alternative("", 0.05)),
                  0.1,
                  0.3),
              sure(" ", 0.3, 0.4),
              sure(" ", 0.4, 0.5),
              sure("A", 0.5, 0.9),
              sure(" ", 0.9, 1)));

  @Test
  void doubtfulLettersAreDottedAndTheirAlternativesNamed() {
    Suggestion suggestion = Suggestion.of(LINE);
    assertThat(suggestion.text()).isEqualTo("\\(Ṛ A");
    assertThat(suggestion.doubts()).containsExactly("2: R 60%  K 35%  nothing 5%");
  }

  @Test
  void aLineWithoutLettersSuggestsNothing() {
    assertThat(Suggestion.of(new LineLattice(List.of(sure(" ", 0, 1)))).text()).isEmpty();
  }

  @Test
  void linesAndLettersAreDrawnOnThePhotograph() {
    byte[] pixels = new byte[400 * 200];
    Arrays.fill(pixels, (byte) 128);
    BufferedImage drawn =
        FacePicture.draw(
            new GrayImage(400, 200, pixels),
            List.of(
                new ProposedLine(
                    7, PhotographId.next(), Polygon.rectangle(100, 50, 300, 100), 40, 1, LINE)));
    assertThat(drawn.getWidth()).isEqualTo(400);
    assertThat(drawn.getRGB(5, 5) & 0xffffff).isEqualTo(0x808080);
    // the line's lower edge is blue
    assertThat(drawn.getRGB(200, 100) & 0xff).isGreaterThan(0xa0);
    assertThat(drawn.getRGB(200, 100) >> 16 & 0xff).isLessThan(0x60);
  }
}
