package rakelight.index;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class ConfusablesTest {
  private static final String HEAD = "legibility\ttruth\tread\tlikeliest\todds";

  @Test
  void whatStoodWhereALetterWasReadSharesByItsOddsOverAllLines() {
    Map<String, Map<String, Double>> shares =
        Confusables.shares(
            List.of(
                HEAD,
                "worn\tG\tC\t1\t1.500",
                "poor\tG\tC\t0\t0.750",
                "worn\tO\tC\t0\t0.750",
                "worn\tC\tC\t40\t38.000",
                "worn\tnothing\tC\t2\t2.000",
                "worn\tspace\tC\t2\t2.000"));

    assertThat(shares).containsOnlyKeys("C");
    Map<String, Double> ofC = shares.getOrDefault("C", Map.of());
    assertThat(ofC).containsOnlyKeys("G", "O");
    assertThat(ofC.getOrDefault("G", 0.0)).isCloseTo(.75, within(1e-9));
    assertThat(ofC.getOrDefault("O", 0.0)).isCloseTo(.25, within(1e-9));
  }

  @Test
  void aLetterThatWasHardlyEverTakenForAnotherTellsNothing() {
    assertThat(Confusables.shares(List.of(HEAD, "worn\tO\tQ\t0\t0.400"))).isEmpty();
  }

  @Test
  void aRowThatIsNoneIsNamed() {
    for (String row : List.of("worn\tG\tC\t1", "worn\tG\tC\t1\tmuch", "")) {
      assertThatThrownBy(() -> Confusables.shares(List.of(HEAD, row)))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("Row 2");
    }
  }

  @Test
  void onWornStoneAnEightMayBeAThreeAndACMayBeAG() {
    assertThat(Confusables.of("8")).containsKey("3");
    assertThat(Confusables.of("C")).containsKey("G");
    assertThat(Confusables.of("8").values().stream().mapToDouble(Double::doubleValue).sum())
        .isCloseTo(1, within(1e-9));
    assertThat(Confusables.of("*")).isEmpty();
  }
}
