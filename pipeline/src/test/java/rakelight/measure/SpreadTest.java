package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class SpreadTest {
  private static TruthLine line(String text) {
    return new TruthLine("stone.jpg", 1, text, List.of(), "", "", "", Optional.empty());
  }

  @Test
  void aRateOfManyFacesSpreadsLikeABinomialOne() {
    // Source: the normal approximation of a proportion, p +- 1.645 sqrt(p (1 - p) / n).
    List<Integer> wrong = IntStream.range(0, 400).map(i -> i % 5 == 0 ? 1 : 0).boxed().toList();

    Spread spread =
        Spread.of(wrong, faces -> faces.stream().mapToInt(Integer::intValue).average().orElse(0));

    double half = 1.645 * Math.sqrt(.2 * .8 / 400);
    assertThat(spread.low()).isCloseTo(.2 - half, within(.006));
    assertThat(spread.high()).isCloseTo(.2 + half, within(.006));
  }

  @Test
  void facesThatAreWornTogetherSpreadWiderThanTheirLettersAlone() {
    Tally stones = new Tally();
    Tally letters = new Tally();
    for (int i = 0; i < 200; i++) {
      String read = i % 40 < 10 ? "" : "A";
      stones.add(i / 10, line("A"), read);
      letters.add(i, line("A"), read);
    }

    assertThat(stones.caseBlind()).isEqualTo(letters.caseBlind());
    assertThat(width(stones.caseBlindSpread())).isGreaterThan(2 * width(letters.caseBlindSpread()));
  }

  private static double width(Spread spread) {
    return spread.high() - spread.low();
  }

  @Test
  void aWayThatHalvesTheErrorsOfEveryFaceHalvesThemForCertain() {
    Tally half = new Tally();
    Tally whole = new Tally();
    for (int face = 0; face < 5; face++) {
      whole.add(face, line("MARY".repeat(face + 1)), "MAxx".repeat(face + 1));
      half.add(face, line("MARY".repeat(face + 1)), "MARx".repeat(face + 1));
    }

    assertThat(half.ratioTo(whole)).isEqualTo(.5);
    assertThat(half.ratioSpread(whole)).isEqualTo(new Spread(.5, .5));
  }
}
