package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import rakelight.reading.LineLattice;
import rakelight.reading.Odds;
import rakelight.reading.Slot;

class JudgedTest {
  /** One slot for each map, evenly spaced. */
  @SafeVarargs
  static LineLattice line(Map<String, Double>... slots) {
    List<Slot> line = new ArrayList<>();
    for (Map<String, Double> weights : slots) {
      line.add(Slot.ofWeights(weights, 0, line.size(), line.size() + 1));
    }
    return new LineLattice(line);
  }

  @Test
  void everySlotStandsBesideWhatIsTrulyThere() {
    LineLattice read =
        line(Map.of("W", 1.0), Map.of("B", .6, "R", .4), Map.of("e", 1.0), Map.of("N", 1.0));

    List<Judged> judged = Judged.of("Wren", read);

    assertThat(judged).extracting(Judged::truth).containsExactly("W", "R", "E", "N");
    assertThat(judged).extracting(Judged::right).containsExactly(true, false, true, true);
    assertThat(judged.get(1).amongFirst(2)).isTrue();
    assertThat(judged.get(1).amongFirst(1)).isFalse();
  }

  @Test
  void aLetterPassedOverStandsInTheSlotThatMostProbablyHoldsNothing() {
    LineLattice read =
        line(
            Map.of("A", 1.0),
            Map.of("N", 1.0),
            Map.of("", .7, "D", .3),
            Map.of("", .8, "I", .2),
            Map.of("E", 1.0));

    assertThat(Judged.of("ANDE", read))
        .extracting(Judged::truth)
        .containsExactly("A", "N", "D", "", "E");
    assertThat(Judged.of("ANE", read))
        .extracting(Judged::ink)
        .containsExactly(true, true, false, false, true);
  }

  @Test
  void aWordIsRightOnlyIfAllItsLettersAreAndItsSpaces() {
    LineLattice read =
        line(Map.of("A", .9, "R", .1), Map.of("E", 1.0), Map.of(" ", 1.0), Map.of("8", 1.0));

    assertThat(Judged.words("AE 8", read, Odds.PLAIN))
        .extracting(Judged.JudgedWord::right)
        .containsExactly(true, true);
    assertThat(Judged.words("AE8", read, Odds.PLAIN))
        .extracting(Judged.JudgedWord::right)
        .containsExactly(false, false);
  }

  @Test
  void theDiagramIsAPictureOfEveryKind() throws Exception {
    Reliability reliability = new Reliability(Odds.PLAIN);
    reliability.add("AE 8", line(Map.of("A", .9, "R", .1), Map.of("E", 1.0), Map.of(" ", 1.0)));

    java.awt.image.BufferedImage image =
        javax.imageio.ImageIO.read(
            new java.io.ByteArrayInputStream(ReliabilityDiagram.png(reliability.byKind())));

    assertThat(image.getWidth()).isGreaterThan(3 * 300);
    assertThat(reliability.byKind()).containsOnlyKeys("letters", "words", "a letter at all");
  }
}
