package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TapeFixTest {
  private static TapeFix.Tape tape(double east, double north, double metres) {
    return new TapeFix.Tape("P" + east + north, new Spot(east, north), 0.01, metres);
  }

  /** Pythagoras: 3, 4, 5 and 5, 12, 13. */
  @Test
  void twoDistancesGiveAPlaceAndItsMirror() {
    List<TapeFix.Tape> tapes = List.of(tape(0, 0, 13), tape(14, 0, 15));
    TapeFix fix = TapeFix.of(tapes);
    assertThat(fix.isUndecided()).isTrue();
    TapeFix.Place left = fix.on(true, tapes).orElseThrow();
    TapeFix.Place right = fix.on(false, tapes).orElseThrow();
    assertThat(left.spot().eastMetres()).isCloseTo(5, within(1e-6));
    assertThat(left.spot().northMetres()).isCloseTo(12, within(1e-6));
    assertThat(right.spot().northMetres()).isCloseTo(-12, within(1e-6));
    assertThat(left.residualsMetres()).allSatisfy(r -> assertThat(r).isCloseTo(0, within(1e-6)));
  }

  @Test
  void aThirdPointOffTheLineDecidesAndABadTapeShowsInItsResidual() {
    List<TapeFix.Tape> tapes =
        List.of(tape(0, 0, 13), tape(14, 0, 15), tape(5, 20, 8), tape(20, 12, 15.6));
    TapeFix fix = TapeFix.of(tapes);
    assertThat(fix.isUndecided()).isFalse();
    assertThat(fix.best().spot().metresTo(new Spot(5, 12))).isLessThan(0.4);
    double worst = fix.best().residualsMetres().get(3);
    assertThat(worst).isBetween(0.15, 0.6);
    assertThat(fix.best().residualsMetres())
        .allSatisfy(r -> assertThat(r).isLessThanOrEqualTo(worst));
    assertThat(fix.best().errorMetres())
        .as("what doesn't fit makes the error larger")
        .isGreaterThan(TapeFix.of(tapes.subList(0, 3)).best().errorMetres());
  }

  @Test
  void distancesThatDontMeetAreFittedAsWellAsTheyCanBe() {
    TapeFix.Place place = TapeFix.of(List.of(tape(0, 0, 4.9), tape(10, 0, 4.9))).best();
    assertThat(place.spot().eastMetres()).isCloseTo(5, within(0.01));
    assertThat(place.residualsMetres()).allSatisfy(r -> assertThat(r).isBetween(-0.15, -0.05));
    assertThat(place.errorMetres()).isGreaterThan(0.05);
  }

  @Test
  void theStatedErrorIsTheOneMet() {
    Random random = new Random(7);
    Spot truth = new Spot(6, 9);
    double off = 0;
    double stated = 0;
    int times = 400;
    for (int i = 0; i < times; i++) {
      List<TapeFix.Tape> tapes = new ArrayList<>();
      for (Spot from : List.of(new Spot(0, 0), new Spot(14, 0), new Spot(2, 20))) {
        TapeFix.Tape exact = new TapeFix.Tape("p", from, 0.01, from.metresTo(truth));
        double measured = exact.metres() + random.nextGaussian() * exact.error();
        tapes.add(new TapeFix.Tape("p", from, 0.01, measured));
      }
      TapeFix.Place place = TapeFix.of(tapes).best();
      off += Math.pow(place.spot().metresTo(truth), 2) / 2;
      stated += Math.pow(place.errorMetres(), 2);
    }
    assertThat(Math.sqrt(off / times))
        .isBetween(0.5 * Math.sqrt(stated / times), 1.2 * Math.sqrt(stated / times));
  }

  @Test
  void oneDistanceOrOnePointIsNotEnough() {
    assertThatThrownBy(() -> TapeFix.of(List.of(tape(0, 0, 5))))
        .hasMessageContaining("two points or more");
    assertThatThrownBy(() -> TapeFix.of(List.of(tape(0, 0, 5), tape(0, 0, 6))))
        .hasMessageContaining("apart");
  }
}
