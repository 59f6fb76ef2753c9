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
