package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import rakelight.photo.Light;

class LightDirectionTest {
  /**
   * The grazing angle over a vertical face: sin g = cos(altitude) cos(azimuth - face) (Duffie and
   * Beckman, Solar Engineering of Thermal Processes); the suns were computed with NREL's SPA for 44
   * N 8.5 E, 20 June 2024, 12:00 and 19:00.
   */
  @Test
  void theSunGrazesAFaceAsItStandsInTheSky() {
    assertThat(light(131.696, 62.7014, 180).orElseThrow().grazingDegrees())
        .isCloseTo(17.76, within(0.02));
    assertThat(light(131.696, 62.7014, 90).orElseThrow().grazingDegrees())
        .isCloseTo(20.03, within(0.02));
    assertThat(light(282.933, 20.8972, 0).orElseThrow().grazingDegrees())
        .isCloseTo(12.07, within(0.02));
  }

  @Test
  void aFaceInShadeHasNoDirectLight() {
    assertThat(light(131.696, 62.7014, 0)).isEmpty();
    assertThat(LightDirection.of(new Light(180, Optional.empty()), 180)).isEmpty();
  }

  @Test
  void theMorningSunStandsAtTheRightHandOfWhoeverLooksAtASouthFace() {
    // They look north, so east is to their right.
    LightDirection morning = light(100, 20, 180).orElseThrow();

    assertThat(morning.x()).isGreaterThan(0.8);
    assertThat(morning.y()).isCloseTo(Math.sin(Math.toRadians(20)), within(1e-9));
    assertThat(morning.aroundDegrees()).isBetween(45.0, 90.0);
  }

  @Test
  void aroundAndGrazingComeBack() {
    for (double around = 0; around < 360; around += 30) {
      LightDirection light = LightDirection.raking(around, 15);

      assertThat(light.aroundDegrees()).isCloseTo(around, within(1e-6));
      assertThat(light.grazingDegrees()).isCloseTo(15, within(1e-6));
    }
  }

  @Test
  void aLightBehindTheFaceIsRefused() {
    assertThatThrownBy(() -> new LightDirection(0, 1, -0.1))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new LightDirection(0, 0, 0))
        .isInstanceOf(IllegalArgumentException.class);
  }

  private static Optional<LightDirection> light(double azimuth, double elevation, double bearing) {
    return LightDirection.of(new Light(azimuth, Optional.of(elevation)), bearing);
  }
}
