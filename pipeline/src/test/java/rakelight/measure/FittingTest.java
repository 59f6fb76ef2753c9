package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rakelight.reading.LineLattice;
import rakelight.reading.Odds;
import rakelight.reading.Slot;

class FittingTest {
  /** A boast: the letter is right as often as its odds at temperature 2 say. */
  private static LineLattice boast(double p) {
    return new LineLattice(List.of(Slot.ofWeights(Map.of("3", p, "8", 1 - p), 0, 0, 1)));
  }

  private static Fitting boasts(long seed) {
    Random random = new Random(seed);
    Fitting fitting = new Fitting();
    for (int i = 0; i < 4000; i++) {
      double p = .55 + .44 * random.nextDouble();
      double honest = Math.sqrt(p) / (Math.sqrt(p) + Math.sqrt(1 - p));
      fitting.add(random.nextDouble() < honest ? "3" : "8", boast(p));
    }
    return fitting;
  }

  @Test
  void whoBoastsIsMadeModestAndOnOthersTheOddsComeTrue() {
    Odds fitted = boasts(1).fitted(Odds.PLAIN, "boasts");
    Fitting others = boasts(2);

    assertThat(fitted.letterTemperature()).isCloseTo(2, within(.2));
    assertThat(error(others, Odds.PLAIN)).isGreaterThan(.06);
    assertThat(error(others, fitted)).isLessThan(.04);
  }

  private static double error(Fitting lines, Odds odds) {
    return lines.calibrations(odds).entrySet().stream()
        .filter(kind -> kind.getKey().equals("letters"))
        .mapToDouble(kind -> kind.getValue().expectedError())
        .sum();
  }
}
