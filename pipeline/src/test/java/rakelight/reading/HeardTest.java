package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class HeardTest {
  private static final Weighing WEIGHING =
      new Weighing(Map.of("eye", 1.0, "other", .5), 1.5, .5, .3);

  private static LineLattice letter(String letter) {
    return new LineLattice(List.of(Slot.ofWeights(Map.of(letter, .9, "I", .1), 0, 0, 1)));
  }

  @Test
  void whoIsOutvotedOnOnePhotographMayBeRightOnThree() {
    Map<String, LineLattice> against = Map.of("eye", letter("C"), "other", letter("G"));
    Map<String, LineLattice> both = Map.of("eye", letter("G"), "other", letter("G"));

    assertThat(new Heard(List.of(against)).merged(WEIGHING).best()).isEqualTo("C");
    Heard three = new Heard(List.of(against, both, both));
    assertThat(three.merged(WEIGHING).best()).isEqualTo("G");
    assertThat(three.photographs()).isEqualTo(3);
  }
}
