package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.ground.Sightings.Sighting;

class SightingsTest {
  private static final LocalDate MAY = LocalDate.of(2026, 5, 3);
  private static final LocalDate JUNE = LocalDate.of(2026, 6, 3);

  private static Sighting at(double east, double errorMetres, LocalDate day) {
    return new Sighting(new Spot(east, 0), errorMetres, day);
  }

  @Test
  void theMeanIsWeightedByInverseVariance() {
    Sightings.Mean mean = Sightings.mean(List.of(at(0, 1, MAY), at(3, 2, JUNE)));
    assertThat(mean.spot().eastMetres()).isCloseTo(0.6, within(1e-9));
  }

  @Test
  void moreDaysHelpMoreThanMorePhotographsOfOneDay() {
    double one = Sightings.mean(List.of(at(0, 4, MAY))).errorMetres();
    double twice = Sightings.mean(List.of(at(0, 4, MAY), at(0, 4, MAY))).errorMetres();
    double apart = Sightings.mean(List.of(at(0, 4, MAY), at(0, 4, JUNE))).errorMetres();
    assertThat(twice).isLessThan(one);
    assertThat(apart).isLessThan(twice);
  }

  @Test
  void onePlaceFarFromTheOthersIsLeftOutAndSaid() {
    Sightings.Mean mean =
        Sightings.mean(List.of(at(0, 3, MAY), at(1, 3, MAY), at(-1, 3, JUNE), at(60, 3, JUNE)));
    assertThat(mean.spot().eastMetres()).isCloseTo(0, within(1.5));
    assertThat(mean.words()).contains("3 photographs").contains("one left out");
  }

  @Test
  void twoThatContradictEachOtherHaveALargeErrorAndBothCount() {
    Sightings.Mean mean = Sightings.mean(List.of(at(0, 3, MAY), at(40, 3, JUNE)));
    assertThat(mean.used()).isEqualTo(2);
    assertThat(mean.errorMetres()).isGreaterThan(10);
  }
}
