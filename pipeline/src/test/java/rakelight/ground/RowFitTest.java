package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.ground.RowFit.Known;

class RowFitTest {
  private static final List<Known> ENDS =
      List.of(new Known(1, new Spot(0, 0), 0.05), new Known(5, new Spot(8, 4), 0.05));

  @Test
  void aPlaceBetweenLiesEvenlyBetween() {
    RowFit.Reckoned third = RowFit.at(3, ENDS).orElseThrow();
    assertThat(third.spot().eastMetres()).isCloseTo(4, within(1e-9));
    assertThat(third.spot().northMetres()).isCloseTo(2, within(1e-9));
  }

  @Test
  void pastTheEndOfWhatIsKnownTheErrorGrows() {
    assertThat(RowFit.at(9, ENDS).orElseThrow().errorMetres())
        .isGreaterThan(1.5 * RowFit.at(3, ENDS).orElseThrow().errorMetres());
  }

  @Test
  void oneKnownPlaceSaysNothingOfTheOthers() {
    assertThat(RowFit.at(3, ENDS.subList(0, 1))).isEmpty();
  }
}
