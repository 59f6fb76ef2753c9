package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rakelight.picture.GrayImage;

class SideLightTest {
  private static final int SIDE_PX = 300;
  private static final double CAPITAL_PX = 32;

  @ParameterizedTest
  @ValueSource(ints = {0, 35, 80, 120, 180, 200, 250, 310})
  void theSideThatALampStandsAtIsFoundOnCutLetters(int aroundDegrees) {
    SideLight light = light(Drawn.rings(1.5), LightDirection.raking(aroundDegrees, 20));

    assertThat(apart(light.aroundDegrees(), aroundDegrees)).isLessThan(6);
    assertThat(light.strength()).isGreaterThan(0.1);
    assertThat(light.rakes()).isTrue();
    assertThat(Math.hypot(light.x(), light.y())).isCloseTo(1, within(1e-9));
  }

  @Test
  void onRaisedLettersItIsFoundAtTheOtherSide() {
    SideLight light = light(Drawn.rings(-1.5), LightDirection.raking(310, 20));

    assertThat(apart(light.aroundDegrees(), 130)).isLessThan(6);
    assertThat(apart(light.opposite().aroundDegrees(), 310)).isLessThan(6);
  }

  @Test
  void lettersThatAreOnlyPaintedHaveNoSide() {
    GrayImage painted =
        Drawn.picture(SIDE_PX, SIDE_PX, (x, y) -> Drawn.rings(1).at(x, y) < -0.3 ? 60 : 150);

    assertThat(Relief.of(painted, CAPITAL_PX, List.of()).lettering().ifCut().rakes()).isFalse();
  }

  @Test
  void aPlaneOfOneBrightnessHasNoSide() {
    boolean[] everywhere = new boolean[40 * 30];
    Arrays.fill(everywhere, true);
    SideLight light = SideLight.of(new float[40 * 30], 40, 30, everywhere);

    assertThat(light.strength()).isZero();
    assertThat(light.rakes()).isFalse();
  }

  private static SideLight light(Drawn.Height letters, LightDirection lamp) {
    return Relief.of(Drawn.lit(SIDE_PX, SIDE_PX, letters, lamp), CAPITAL_PX, List.of())
        .lettering()
        .ifCut();
  }

  private static double apart(double a, double b) {
    double apart = Math.abs(a - b) % 360;
    return Math.min(apart, 360 - apart);
  }
}
