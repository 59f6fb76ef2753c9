package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.AlphaChars;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;
import rakelight.reading.LatticeMerger.Voice;

class LatticeMergerTest {
  private static LineLattice merged(List<Voice> voices) {
    return LatticeMerger.merged(voices, Odds.PLAIN.weighing());
  }

  /** A line of evenly spaced letters, all with the same probability. */
  private static LineLattice line(String text, double p) {
    return line(text, p, 0);
  }

  /** The same, right of {@code from}. */
  private static LineLattice line(String text, double p, double from) {
    List<Slot> slots = new ArrayList<>();
    int n = text.length();
    for (int i = 0; i < n; i++) {
      String letter = text.substring(i, i + 1);
      slots.add(
          Slot.ofWeights(
              p == 1 ? Map.of(letter, 1.0) : Map.of(letter, p, "#", 1 - p),
              0,
              from + (1 - from) * i / n,
              from + (1 - from) * (i + 1) / n));
    }
    return new LineLattice(slots);
  }

  private static Slot slot(Map<String, Double> weights, double from, double to) {
    return Slot.ofWeights(weights, 0, from, to);
  }

  @Test
  void aSurerVoiceCountsForMoreInTheAverage() {
    // 8: (.7 x .9 x .9 + .3 x .6 x .6) / (.7 x .9 + .3 x .6) = .675 / .81.
    LineLattice merged =
        merged(
            List.of(
                new Voice(new LineLattice(List.of(slot(Map.of("8", .9, "3", .1), 0, 1))), .7),
                new Voice(new LineLattice(List.of(slot(Map.of("8", .6, "3", .4), 0, 1))), .3)));

    assertThat(merged.slots()).hasSize(1);
    assertThat(merged.slots().get(0).p("8")).isCloseTo(.675 / .81, within(1e-9));
    assertThat(merged.slots().get(0).p("3")).isCloseTo(.135 / .81, within(1e-9));
  }

  @Test
  void aLetterIsSetHighIfMostOfWhatVotesForALetterSaysSo() {
    LineLattice high = new LineLattice(List.of(slot(Map.of("R", 1.0), 0, 1).withSuperior(.9)));
    LineLattice plain = line("R", 1);

    Slot both = merged(List.of(new Voice(high, .7), new Voice(plain, .27))).slots().get(0);

    assertThat(both.superior()).isCloseTo(.9 * .7 / .97, within(1e-9));
  }

  @Test
  void threeReadersOfAYearVoteFigureByFigure() {
    // 1889, 1839, 1889: the majority of each column (Fiscus, IEEE ASRU 1997; example of our own).
    LineLattice merged =
        merged(
            List.of(
                new Voice(line("1889", 1), 1),
                new Voice(line("1839", 1), 1),
                new Voice(line("1889", 1), 1)));

    assertThat(merged.best()).isEqualTo("1889");
    assertThat(merged.slots().get(2).p("3")).isCloseTo(1 / 3.0, within(1e-9));
  }

  @Test
  void aTieKeepsBothReadings() {
    // 1889 against 1839 (Fiscus, IEEE ASRU 1997; example of our own).
    LineLattice merged =
        merged(List.of(new Voice(line("1889", 1), 1), new Voice(line("1839", 1), 1)));

    assertThat(merged.slots()).hasSize(4);
    assertThat(merged.slots().get(2).p("8")).isCloseTo(.5, within(1e-9));
    assertThat(merged.slots().get(2).p("3")).isCloseTo(.5, within(1e-9));
  }

  @Test
  void aLetterThatOneOfThreeLeavesOutIsASlotWithNothingAsADoubt() {
    // Insertions and deletions are slots that may hold nothing (Mangu, Brill and Stolcke, Computer
    // Speech and Language 14, 2000).
    LineLattice merged =
        merged(
            List.of(
                new Voice(line("ANNE", 1), 1),
                new Voice(line("ANE", 1), 1),
                new Voice(line("ANNE", 1), 1)));

    assertThat(merged.best()).isEqualTo("ANNE");
    assertThat(merged.slots()).hasSize(4);
    assertThat(merged.slots().stream().mapToDouble(slot -> slot.p("")).max().orElseThrow())
        .isBetween(.1, .4);
  }

  @Test
  void aSpaceThatOneVoiceDropsStays() {
    LineLattice merged =
        merged(List.of(new Voice(line("AGED 7", .95), .7), new Voice(line("AGED7", .99), .27)));

    assertThat(merged.best()).isEqualTo("AGED 7");
  }

  @Test
  void aLetterOnlyTheWeakerVoiceSeesIsKeptAsADoubt() {
    LineLattice merged =
        merged(List.of(new Voice(line("GED", .99, .25), .7), new Voice(line("AGED", .95), .27)));

    assertThat(merged.best()).isEqualTo("GED");
    assertThat(merged.slots()).hasSize(4);
    assertThat(merged.slots().get(0).p("A")).isBetween(.1, .5);
  }

  @Test
  void nothingMergedWithNothingIsNothing() {
    LineLattice nothing = new LineLattice(List.of());

    assertThat(merged(List.of(new Voice(nothing, 1), new Voice(nothing, 1))).slots()).isEmpty();
  }

  @Property
  void aLineMergedWithItselfSaysTheSame(
      @ForAll @AlphaChars @StringLength(min = 1, max = 30) String text,
      @ForAll @DoubleRange(min = 0.55, max = 1) double p) {
    LineLattice line = line(text, p);

    LineLattice merged = merged(List.of(new Voice(line, .7), new Voice(line, .3)));

    assertThat(merged.best()).isEqualTo(line.best());
    for (int i = 0; i < line.slots().size(); i++) {
      assertThat(merged.slots().get(i).p()).isCloseTo(line.slots().get(i).p(), within(1e-9));
    }
  }

  @Property
  void whateverIsMergedItsSlotsSumToOneAndStandInOrder(
      @ForAll @AlphaChars @StringLength(max = 20) String a,
      @ForAll @AlphaChars @StringLength(max = 20) String b,
      @ForAll @DoubleRange(min = 0.1, max = 1) double p) {
    // Slot's constructor refuses any other sum.
    LineLattice merged =
        merged(
            List.of(
                new Voice(line(a, p), .7),
                new Voice(line(b, 1), .2),
                new Voice(line(a + b, p), .1)));

    assertThat(merged.best().length()).isLessThanOrEqualTo(2 * (a.length() + b.length()));
  }
}
