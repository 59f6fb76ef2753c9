package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class OddsTest {
  private static Odds odds(double letter, double ink, double word) {
    return new Odds(Odds.PLAIN.weighing(), letter, ink, 1, word, 0, "this test");
  }

  private static LineLattice line(Slot... slots) {
    return new LineLattice(List.of(slots));
  }

  // softmax(z / T) for z = 2.0, 1.0, 0.1 (Guo, Pleiss, Sun and Weinberger, ICML 2017); the values
  // computed by plain arithmetic.
  @Test
  void temperatureMakesLettersModestOrBoldAsTheFormulaSays() {
    Slot raw = Slot.ofWeights(Map.of("8", .6590, "3", .2424, "5", .0986), 0, 0, 1);

    Slot modest = odds(2, 1, 1).corrected(line(raw), 1).slots().get(0);
    Slot bold = odds(.5, 1, 1).corrected(line(raw), 1).slots().get(0);

    assertThat(modest.p("8")).isCloseTo(.5017, within(2e-4));
    assertThat(modest.p("3")).isCloseTo(.3043, within(2e-4));
    assertThat(modest.p("5")).isCloseTo(.1940, within(2e-4));
    assertThat(bold.p("8")).isCloseTo(.8638, within(2e-4));
    assertThat(bold.p("3")).isCloseTo(.1169, within(2e-4));
    assertThat(bold.p("5")).isCloseTo(.0193, within(2e-4));
  }

  @Test
  void whetherALetterStandsThereIsCorrectedApartFromWhichItIs() {
    // Odds 4 to 1 for a letter; at temperature 2 they are 2 to 1.
    Slot raw = Slot.ofWeights(Map.of("8", .6, "3", .2, "", .2), 0, 0, 1);

    Slot corrected = odds(1, 2, 1).corrected(line(raw), 1).slots().get(0);

    assertThat(corrected.p("")).isCloseTo(1 / 3.0, within(1e-9));
    assertThat(corrected.p("8")).isCloseTo(.5, within(1e-9));
    assertThat(corrected.p("3")).isCloseTo(1 / 6.0, within(1e-9));
  }

  @Test
  void whatSeveralPhotographsShowIsSurerThanTheirAverage() {
    // Odds 4 to 1; the exponent being 1, two photographs make them 16 to 1.
    Slot raw = Slot.ofWeights(Map.of("8", .8, "", .2), 0, 0, 1);

    Slot corrected = odds(1, 1, 1).corrected(line(raw), 2).slots().get(0);

    assertThat(corrected.p("8")).isCloseTo(16 / 17.0, within(1e-9));
  }

  @Test
  void aWordIsAsSureAsAllItsLettersAndTheSpacesAtItsEnds() {
    LineLattice line =
        line(
            Slot.ofWeights(Map.of("A", .9, "R", .1), 0, 0, .2),
            Slot.ofWeights(Map.of("E", 1.0), 0, .2, .4),
            Slot.ofWeights(Map.of(" ", .8, "", .2), 0, .4, .6),
            Slot.ofWeights(Map.of("7", .5, "1", .5), 0, .6, .8));

    assertThat(odds(1, 1, 1).words(line))
        .extracting(Odds.Word::text)
        .containsExactly("AE", line.slots().get(3).best());
    assertThat(odds(1, 1, 1).words(line).get(0).p()).isCloseTo(.72, within(1e-9));
    assertThat(odds(1, 1, 1).words(line).get(1).p()).isCloseTo(.4, within(1e-9));
    // Log odds of .4, twice and one more: odds 4/9 times e.
    double odds = 4 / 9.0 * Math.E;
    assertThat(odds(1, 1, 1).withWords(2, 1).words(line).get(1).p())
        .isCloseTo(odds / (1 + odds), within(1e-9));
  }

  @Property
  void theLikeliestLetterStaysTheLikeliest(
      @ForAll @DoubleRange(min = .34, max = 1) double first,
      @ForAll @DoubleRange(min = .2, max = 5) double letter,
      @ForAll @DoubleRange(min = .2, max = 5) double ink) {
    double rest = (1 - first) / 2;
    Slot raw = Slot.ofWeights(Map.of("8", first, "3", rest, "5", rest * .9), 0, 0, 1);

    assertThat(odds(letter, ink, 1).corrected(line(raw), 1).best()).isEqualTo("8");
  }

  @Test
  void theOddsInTheJarGiveEveryRecogniserAWeight() {
    assertThat(Odds.fitted().weighing().voices()).isNotEmpty();
    assertThat(Odds.fitted().fittedOn()).isNotEmpty();
    try (MachineReader reader = MachineReader.standard()) {
      assertThat(reader.voices()).allMatch(voice -> voice.weight() > 0);
    }
  }
}
