package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class CalibrationTest {
  // Ten worked predictions; expected error by the formula of Guo et al. 2017, eq. 3.
  private static final double[] STATED = {.95, .92, .88, .85, .83, .75, .72, .65, .62, .55};
  private static final int[] RIGHT = {1, 1, 1, 0, 1, 1, 0, 1, 0, 0};

  @Test
  void expectedCalibrationErrorIsAsWorkedByHand() {
    assertThat(tally(10).expectedError()).isCloseTo(.198, within(5e-4));
    assertThat(tally(5).expectedError()).isCloseTo(.172, within(5e-4));
    assertThat(tally(10).largestError()).isCloseTo(.55, within(1e-9));
  }

  @Test
  void brierScoreIsAsWorkedByHand() {
    // Brier, Monthly Weather Review 78, 1950; ten forecasts, value computed by plain arithmetic.
    double[] stated = {.9, .8, .8, .7, .6, .55, .3, .2, .1, .05};
    int[] came = {1, 1, 0, 1, 1, 0, 0, 1, 0, 0};
    Calibration calibration = new Calibration(10);
    for (int i = 0; i < stated.length; i++) {
      calibration.add(stated[i], came[i] == 1);
    }
    assertThat(calibration.brier()).isCloseTo(.1985, within(1e-4));
  }

  @Test
  void aProbabilityOutsideZeroToOneIsRefused() {
    Calibration calibration = new Calibration(10);
    assertThatThrownBy(() -> calibration.add(1.2, true)).hasMessageContaining("1.2");
    assertThatThrownBy(() -> calibration.add(Double.NaN, true)).hasMessageContaining("NaN");
  }

  private static Calibration tally(int bins) {
    Calibration calibration = new Calibration(bins);
    for (int i = 0; i < STATED.length; i++) {
      calibration.add(STATED[i], RIGHT[i] == 1);
    }
    return calibration;
  }
}
