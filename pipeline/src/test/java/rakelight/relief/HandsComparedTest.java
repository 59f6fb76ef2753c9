package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Letters of two stems and a bar, the bar higher or lower, the stems leaning. */
class HandsComparedTest {
  private static final String LETTERS = "ABEFHKPR";

  /**
   * @param bar height of the bar over the foot, in heights of capitals
   * @param lean of the head to the right, likewise
   */
  private static LetterShape letter(String name, double bar, double lean, double grain) {
    int side = LetterShape.SIDE;
    float[] ink = new float[side * side];
    for (int i = 0; i < ink.length; i++) {
      double up = 0.5 - (i / side - (side - 1) / 2.0) / LetterShape.CAPITAL_PX;
      double x = (i % side - (side - 1) / 2.0) / LetterShape.CAPITAL_PX - lean * (up - 0.5);
      double stem = Math.exp(-square((Math.abs(x) - 0.3) / 0.07));
      double across = Math.exp(-square((up - bar) / 0.07)) * (Math.abs(x) < 0.3 ? 1 : 0);
      double noise = Math.sin(12.9898 * i + 78.233 * name.hashCode() * (1 + bar)) * grain;
      ink[i] = (float) (up > 0 && up < 1 ? 200 * Math.max(stem, across) + noise : noise);
    }
    return new LetterShape(name, ink, 0.45 * LetterShape.CAPITAL_PX);
  }

  private static double square(double value) {
    return value * value;
  }

  /** Everything a cutter letters: of each letter his own height of the bar. */
  private static Map<String, List<LetterShape>> face(long cutter, double lean, double grain) {
    Map<String, List<LetterShape>> face = new LinkedHashMap<>();
    SplittableRandom habits = new SplittableRandom(cutter);
    for (int i = 0; i < LETTERS.length(); i++) {
      double own = habits.nextDouble(-0.07, 0.07);
      String name = LETTERS.substring(i, i + 1);
      face.put(name, List.of(letter(name, 0.5 + own, lean, grain)));
    }
    return face;
  }

  @Test
  void howMuchHigherABarIsAndHowFarALetterLeansIsReckoned() {
    LetterShape plain = letter("H", 0.5, 0, 0);
    LetterShape.Laid raised = plain.laid(letter("H", 0.54, 0, 0));
    assertThat(raised.waist()).isCloseTo(0.04, within(0.015));
    assertThat(raised.slant()).isCloseTo(0, within(0.01));
    LetterShape.Laid leaning = plain.laid(letter("H", 0.5, 0.06, 0));
    assertThat(leaning.slant()).isCloseTo(0.06, within(0.02));
    assertThat(leaning.waist()).isCloseTo(0, within(0.01));
    assertThat(plain.laid(plain))
        .isEqualTo(new LetterShape.Laid(plain.laid(plain).likeness(), 0, 0));
    assertThat(plain.laid(plain).likeness()).isCloseTo(1, within(1e-6));
  }

  @Test
  void facesByTheSameCutterComeBeforeOthersOfTheSamePattern() {
    List<Map<String, List<LetterShape>>> others = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      others.add(face(1 + i % 4, 0.02 * (i % 3), 20 + i));
    }
    List<Optional<HandsCompared.Compared>> compared = HandsCompared.of(face(1, 0.02, 10), others);
    double least = Double.MAX_VALUE;
    double most = -Double.MAX_VALUE;
    for (int i = 0; i < others.size(); i++) {
      double likeness = compared.get(i).orElseThrow().likeness();
      if (i % 4 == 0) {
        least = Math.min(least, likeness);
      } else {
        most = Math.max(most, likeness);
      }
    }
    assertThat(least).isGreaterThan(most);
  }

  @Test
  void withFewLettersInCommonNothingIsOffered() {
    Map<String, List<LetterShape>> few = new LinkedHashMap<>(face(1, 0, 0));
    few.keySet().removeIf(letter -> "ABEF".contains(letter));
    assertThat(HandsCompared.of(face(1, 0, 0), List.of(few))).containsExactly(Optional.empty());
    assertThat(HandsCompared.of(face(1, 0, 0), List.of(face(2, 0, 0))).get(0)).isPresent();
  }

  @Test
  void whatIsKeptOfLettersIsReadBack() {
    LetteringLook look = new LetteringLook(List.of(letter("ſ", 0.5, 0, 9), letter("H", 0.4, 0, 0)));
    LetteringLook again = LetteringLook.read(look.bytes());
    assertThat(again.byLetter().keySet()).containsExactly("ſ", "H");
    assertThat(again.letters().get(1).laid(look.letters().get(1)).likeness())
        .isCloseTo(1, within(1e-3));
  }
}
