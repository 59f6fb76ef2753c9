package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class ReaderAgreementTest {
  // K. Krippendorff, Computing Krippendorff's Alpha-Reliability, 2007: 4 observers, 12 units. The
  // figures and the four alphas from memory.
  private static final String[] OBSERVERS = {
    "1 2 3 3 2 1 4 1 2 . . .",
    "1 2 3 3 2 2 4 1 2 5 . 3",
    ". 3 3 3 2 3 4 2 2 5 1 .",
    "1 2 3 3 2 4 4 1 2 5 1 ."
  };

  private static List<List<String>> units(String... observers) {
    List<List<String>> units = new ArrayList<>();
    for (String observer : observers) {
      String[] values = observer.split(" ", -1);
      for (int i = 0; i < values.length; i++) {
        if (units.size() <= i) {
          units.add(new ArrayList<>());
        }
        if (!values[i].equals(".")) {
          units.get(i).add(values[i]);
        }
      }
    }
    return units;
  }

  private static List<List<Double>> figures() {
    return units(OBSERVERS).stream()
        .map(unit -> unit.stream().map(Double::valueOf).toList())
        .toList();
  }

  @Test
  void alphaOfKrippendorffsFourObserversIsWhatHeGivesForEveryKindOfValue() {
    assertThat(ReaderAgreement.alpha(units(OBSERVERS))).isCloseTo(.743, within(5e-4));
    assertThat(ReaderAgreement.alpha(figures(), ReaderAgreement.ordinal(figures())))
        .isCloseTo(.815, within(5e-4));
    assertThat(ReaderAgreement.alpha(figures(), (a, b) -> (a - b) * (a - b)))
        .isCloseTo(.849, within(5e-4));
    assertThat(ReaderAgreement.alpha(figures(), (a, b) -> Math.pow((a - b) / (a + b), 2)))
        .isCloseTo(.797, within(5e-4));
  }

  @Test
  void alphaOfKrippendorffsTwoObserversIsWhatHeGives() {
    // The same paper, from memory: ten binary units, and twelve in five categories.
    assertThat(ReaderAgreement.alpha(units("0 1 0 0 0 0 0 0 1 0", "1 1 1 0 0 1 0 0 0 0")))
        .isCloseTo(.095, within(5e-4));
    assertThat(ReaderAgreement.alpha(units("a a b b d c c c e d d a", "b a b b b c c c e d d d")))
        .isCloseTo(.692, within(5e-4));
  }

  @Test
  void cohensKappaIsAsWorkedByHand() {
    // Formula of Educational and Psychological Measurement 20, 1960, 37-46; values computed.
    assertThat(ReaderAgreement.cohen(new int[][] {{20, 5}, {10, 15}})).isCloseTo(.40, within(1e-9));
    assertThat(ReaderAgreement.cohen(new int[][] {{45, 15}, {25, 15}}))
        .isCloseTo(.1304, within(5e-5));
    assertThat(ReaderAgreement.cohen(new int[][] {{25, 35}, {5, 35}}))
        .isCloseTo(.2593, within(5e-5));
  }

  @Test
  void fleissKappaOfTenSubjectsAndFourteenRatersIsAsReckoned() {
    // Method: J. L. Fleiss, Psychological Bulletin 76, 1971, 378-382. The table from memory, no
    // source; its kappa computed with statsmodels.
    int[][] counts = {
      {0, 0, 0, 0, 14},
      {0, 2, 6, 4, 2},
      {0, 0, 3, 5, 6},
      {0, 3, 9, 2, 0},
      {2, 2, 8, 1, 1},
      {7, 7, 0, 0, 0},
      {3, 2, 6, 3, 0},
      {2, 5, 3, 2, 2},
      {6, 5, 2, 1, 0},
      {0, 2, 2, 3, 7}
    };
    assertThat(ReaderAgreement.fleiss(counts)).isCloseTo(.2099, within(5e-5));
  }

  @Test
  void whoeverSaysTheSameThroughoutAgreesWholly() {
    assertThat(ReaderAgreement.alpha(units("A A A", "A A A"))).isEqualTo(1);
  }
}
