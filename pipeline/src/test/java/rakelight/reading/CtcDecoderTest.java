package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

/** Score tables small enough to check by hand: columns are blank, then the letters. */
class CtcDecoderTest {
  private static LineLattice decode(String letters, float[]... steps) {
    return new CtcDecoder(letters.codePoints().mapToObj(Character::toString).toList())
        .decode(steps);
  }

  @Test
  void aLetterSpeltByThreeWaysBeatsTheSingleBestWayThatSaysNothing() {
    // Nothing: .6 x .6 = .36. A: AA .16 + A- .24 + -A .24 = .64.
    LineLattice line = decode("A", new float[] {.6f, .4f}, new float[] {.6f, .4f});

    assertThat(line.best()).isEqualTo("A");
    assertThat(line.slots().get(0).p("A")).isCloseTo(.64, within(1e-6));
    assertThat(line.slots().get(0).p("")).isCloseTo(.36, within(1e-6));
  }

  @Test
  void aDoubledLetterNeedsABlankBetween() {
    // AA only by A-A: .9 x .7 x .9 = .567; A by all others: 1 - .567 - .1 x .7 x .1 = .426.
    LineLattice line =
        decode("A", new float[] {.1f, .9f}, new float[] {.7f, .3f}, new float[] {.1f, .9f});

    assertThat(line.best()).isEqualTo("AA");
    assertThat(line.slots().get(0).p("A")).isCloseTo(.567 / (.567 + .426), within(1e-6));
  }

  @Test
  void aLetterSetHighIsTheSameLetterAndSaysSo() {
    // R: .3 on the line and .5 high, so .8; of these five eighths high.
    CtcDecoder decoder = new CtcDecoder(List.of("M", "R"), List.of("R"));
    LineLattice line =
        decoder.decode(new float[][] {{.1f, .9f, 0, 0}, {.98f, 0, .01f, .01f}, {.2f, 0, .3f, .5f}});

    assertThat(line.best()).isEqualTo("MR");
    assertThat(line.slots().get(0).superior()).isZero();
    assertThat(line.slots().get(1).superior()).isCloseTo(.625, within(.01));
    assertThat(line.slots().get(1).cutHigh()).isTrue();
  }

  @Test
  void anEightThatMayBeAThreeKeepsBothWithTheirOdds() {
    LineLattice line = decode("83", new float[] {.1f, .5f, .4f});

    assertThat(line.best()).isEqualTo("8");
    assertThat(line.slots().get(0).alternatives())
        .extracting(Alternative::text)
        .containsExactly("8", "3", "");
    assertThat(line.slots().get(0).p("3")).isCloseTo(.4, within(1e-6));
  }

  @Test
  void aDoubtfulYearKeepsItsClearFiguresClear() {
    // 1 8 (3 or 8) 4, a blank after each.
    float[] blank = {1, 0, 0, 0, 0};
    LineLattice line =
        decode(
            "1834",
            new float[] {0, 1, 0, 0, 0},
            blank,
            new float[] {0, 0, 1, 0, 0},
            blank,
            new float[] {0, 0, .3f, .7f, 0},
            blank,
            new float[] {0, 0, 0, 0, 1},
            blank);

    assertThat(line.best()).isEqualTo("1834");
    assertThat(line.slots()).extracting(Slot::p).first().isEqualTo(1.0);
    assertThat(line.slots().get(2).p("3")).isCloseTo(.7, within(1e-6));
    assertThat(line.slots().get(2).p("8")).isCloseTo(.3, within(1e-6));
  }

  @Test
  void anOverlookedLetterShowsAsADoubtfulPlace() {
    // Between T and E an H with .4: nothing there is likelier, but not by much.
    LineLattice line =
        decode(
            "THE",
            new float[] {0, 1, 0, 0},
            new float[] {.6f, 0, .4f, 0},
            new float[] {0, 0, 0, 1});

    assertThat(line.best()).isEqualTo("TE");
    assertThat(line.slots()).hasSize(3);
    assertThat(line.slots().get(1).p("H")).isCloseTo(.4, within(1e-6));
  }

  @Test
  void blankStepsAreReadAsNothing() {
    assertThat(decode("A", new float[] {1, 0}, new float[] {1, 0}).slots()).isEmpty();
  }

  @Test
  void aLongLineDoesNotSinkToZero() {
    float[][] steps = new float[600][];
    for (int t = 0; t < steps.length; t++) {
      steps[t] = t % 3 == 0 ? new float[] {.2f, .5f, .3f} : new float[] {.8f, .1f, .1f};
    }
    LineLattice line = new CtcDecoder(List.of("A", "B")).decode(steps);

    assertThat(line.slots()).isNotEmpty();
    assertThat(line.slots())
        .allSatisfy(
            slot ->
                assertThat(slot.alternatives().stream().mapToDouble(Alternative::p).sum())
                    .isCloseTo(1, within(1e-6)));
  }

  @Test
  void whatIsLikeliestInTheEndIsNotGivenUpOnTheWay() {
    // With ten prefixes a step its reading had seven eighths of the likeliest one's probability.
    theOddsOfALetterAreThoseOfAllWaysSpeltOut(5, 37455);
  }

  /** The slow way as judge: spell out every way through the steps and add them up. */
  @Property(tries = 150)
  void theOddsOfALetterAreThoseOfAllWaysSpeltOut(
      @ForAll @IntRange(min = 1, max = 5) int length, @ForAll @IntRange(max = 100_000) int seed) {
    java.util.Random random = new java.util.Random(seed);
    float[][] steps = new float[length][3];
    for (float[] step : steps) {
      float sum = 0;
      for (int c = 0; c < 3; c++) {
        step[c] = 0.02f + random.nextFloat();
        sum += step[c];
      }
      for (int c = 0; c < 3; c++) {
        step[c] /= sum;
      }
    }
    Map<String, Double> all = new HashMap<>();
    int ways = (int) Math.pow(3, length);
    for (int way = 0; way < ways; way++) {
      StringBuilder spelt = new StringBuilder();
      double p = 1;
      int last = 0;
      int rest = way;
      for (float[] step : steps) {
        int c = rest % 3;
        rest /= 3;
        p *= step[c];
        if (c != 0 && c != last) {
          spelt.append(c == 1 ? 'A' : 'B');
        }
        last = c;
      }
      all.merge(spelt.toString(), p, Double::sum);
    }

    CtcDecoder decoder = new CtcDecoder(List.of("A", "B"));
    StringBuilder found = new StringBuilder();
    for (int c : decoder.bestReading(steps)) {
      found.append(c == 1 ? 'A' : 'B');
    }
    double most = all.values().stream().mapToDouble(Double::doubleValue).max().orElseThrow();
    assertThat(all.get(found.toString())).isCloseTo(most, within(1e-9));

    LineLattice lattice = decoder.decode(steps);
    if (lattice.slots().size() == found.length()) {
      for (int i = 0; i < found.length(); i++) {
        double whole = 0;
        Map<String, Double> exchanged = new HashMap<>();
        for (String c : List.of("", "A", "B")) {
          String text = found.substring(0, i) + c + found.substring(i + 1);
          double p = all.getOrDefault(text, 0.0);
          exchanged.put(c, p);
          whole += p;
        }
        for (String c : List.of("", "A", "B")) {
          assertThat(lattice.slots().get(i).p(c))
              .isCloseTo(exchanged.getOrDefault(c, 0.0) / whole, within(0.01));
        }
      }
    }
  }
}
