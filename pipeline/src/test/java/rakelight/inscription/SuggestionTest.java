package rakelight.inscription;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.reading.Alternative;
import rakelight.reading.LineLattice;
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
  void aLetterCutSmallAndHighIsSuggestedAsSuperior() {
    Slot high = new Slot(List.of(new Alternative("r", 1)), 0.5, 1, 0.8);
    assertThat(Suggestion.of(new LineLattice(List.of(sure("M", 0, 0.5), high))).text())
        .isEqualTo("M^r");
  }

  @Test
  void aLineWithoutLettersSuggestsNothing() {
    assertThat(Suggestion.of(new LineLattice(List.of(sure(" ", 0, 1)))).text()).isEmpty();
  }
}
