package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class HeardTest {
  private static final Weighing WEIGHING = new Weighing(Map.of("eye", 1.0), 2, 1.5, .5, .3);

  private static Heard.Picture picture(Optional<String> litFrom, String letter) {
    Slot slot = Slot.ofWeights(Map.of(letter, .9, "I", .1), 0, 0, 1);
    return new Heard.Picture(litFrom, Map.of("eye", new LineLattice(List.of(slot))));
  }

  @Test
  void photographsAndTheShapeLitAnewCanBeHeardApart() {
    Heard heard =
        new Heard(
            List.of(
                picture(Optional.empty(), "C"),
                picture(Optional.empty(), "C"),
                picture(Optional.of("the left"), "G"),
                picture(Optional.of("the right"), "G")));

    // Each new light counts for two photographs.
    assertThat(heard.merged(WEIGHING).best()).isEqualTo("G");
    assertThat(heard.of(p -> p.litFrom().isEmpty()).merged(WEIGHING).best()).isEqualTo("C");
    assertThat(heard.of(p -> p.litFrom().isPresent()).photographs()).isZero();
    assertThat(heard.of(p -> false).merged(WEIGHING).slots()).isEmpty();
  }
}
