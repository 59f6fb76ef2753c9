package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rakelight.reading.Heard;
import rakelight.reading.LineLattice;
import rakelight.reading.Odds;
import rakelight.reading.Slot;
import rakelight.reading.Weighing;

class FittingTest {
  /** A boast: the letter is right as often as its odds at temperature 2 say. */
  private static LineLattice boast(double p) {
    return new LineLattice(List.of(Slot.ofWeights(Map.of("3", p, "8", 1 - p), 0, 0, 1)));
  }

  private static final Odds EVEN =
      new Odds(
          new Weighing(Map.of("one", 1.0, "other", 1.0), 1, .5, .3), 1, 1, .5, 1, 0, "nothing");

  private static Heard heard(Map<String, LineLattice> byVoice) {
    return new Heard(List.of(byVoice));
  }

  /** Each boast fifty times, right as often as is honest. */
  private static Fitting boasts(double first) {
    Fitting fitting = new Fitting();
    for (double p = first; p < .99; p += .04) {
      long right = Math.round(50 * Math.sqrt(p) / (Math.sqrt(p) + Math.sqrt(1 - p)));
      for (int i = 0; i < 50; i++) {
        fitting.add(i < right ? "3" : "8", heard(Map.of("one", boast(p))));
      }
    }
    return fitting;
  }

  @Test
  void whoBoastsIsMadeModestAndOnOthersTheOddsComeTrue() {
    Odds fitted = boasts(.55).fitted(EVEN, "boasts");
    Fitting others = boasts(.57);

    assertThat(fitted.letterTemperature()).isCloseTo(2, within(.2));
    assertThat(error(others, EVEN)).isGreaterThan(.06);
    assertThat(error(others, fitted)).isLessThan(.04);
  }

  @Test
  void aVoiceThatIsOftenRightIsGivenMoreWeightThanOneThatGuesses() {
    Random random = new Random(3);
    Fitting fitting = new Fitting();
    for (int i = 0; i < 200; i++) {
      LineLattice right = boast(random.nextDouble() < .9 ? .8 : .2);
      LineLattice guess = boast(random.nextBoolean() ? .8 : .2);
      fitting.add("3", heard(Map.of("one", guess, "other", right)));
    }

    Map<String, Double> weights = fitting.fitted(EVEN, "one guesses").weighing().voices();

    assertThat(weights.getOrDefault("other", 0.0))
        .isGreaterThan(3 * weights.getOrDefault("one", 1.0));
  }

  @Test
  void wordsThatFailTogetherAreGivenTheOddsThatComeTrue() {
    // Two letters at .8 each, so .64 by their product; right nine times in ten. At .5 each .25,
    // right
    // once in ten.
    Fitting fitting = new Fitting();
    for (int i = 0; i < 100; i++) {
      fitting.add(i < 90 ? "33" : "88", heard(Map.of("one", twice(.8))));
      fitting.add(i < 10 ? "33" : "88", heard(Map.of("one", twice(.5001))));
    }

    Odds fitted = fitting.withWords(EVEN);

    assertThat(fitted.words(twice(.8)).get(0).p()).isCloseTo(.9, within(.01));
    assertThat(fitted.words(twice(.5001)).get(0).p()).isCloseTo(.1, within(.01));
    assertThat(fitted.weighing()).isEqualTo(EVEN.weighing());
  }

  private static LineLattice twice(double p) {
    Map<String, Double> weights = Map.of("3", p, "8", 1 - p);
    return new LineLattice(
        List.of(Slot.ofWeights(weights, 0, 0, .5), Slot.ofWeights(weights, 0, .5, 1)));
  }

  @Test
  void theTruthIsLaidAgainstTheSlotsWhereItSurprisesLeast() {
    LineLattice read =
        new LineLattice(
            List.of(
                Slot.ofWeights(Map.of("1", .8, "I", .2), 0, 0, .3),
                Slot.ofWeights(Map.of("", .6, "8", .4), 0, .3, .4),
                Slot.ofWeights(Map.of("4", 1.0), 0, .4, .7)));

    assertThat(Fitting.surprise("14", read)).isCloseTo(-Math.log(.8 * .6), within(1e-9));
    assertThat(Fitting.surprise("184", read)).isCloseTo(-Math.log(.8 * .4), within(1e-9));
    assertThat(Fitting.surprise("144", read)).isCloseTo(-Math.log(.8 * 1e-3), within(1e-9));
  }

  private static double error(Fitting lines, Odds odds) {
    return lines.calibrations(odds).entrySet().stream()
        .filter(kind -> kind.getKey().equals("letters"))
        .mapToDouble(kind -> kind.getValue().expectedError())
        .sum();
  }
}
