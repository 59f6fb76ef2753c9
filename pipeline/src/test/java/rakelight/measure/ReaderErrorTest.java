package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import rakelight.inscription.Leiden;

class ReaderErrorTest {
  @Test
  void wrongMissedAndInventedLettersCount() throws Exception {
    assertThat(ReaderError.of(Leiden.parse("HANNAH WREN"), Leiden.parse("HANNAH WREN")))
        .isEqualTo(new ReaderError(10, 0));
    assertThat(ReaderError.of(Leiden.parse("HANNAH WREN"), Leiden.parse("HANAH WRENS")))
        .isEqualTo(new ReaderError(11, 2));
    assertThat(ReaderError.of(Leiden.parse("1884"), Leiden.parse("18.4".replace(".", "[.]"))))
        .isEqualTo(new ReaderError(4, 1));
  }

  /**
   * R. G. Newcombe, Statistics in Medicine 17 (1998), table I: 81 of 263 by Wilson; from memory.
   */
  @Test
  void theIntervalIsWilsons() {
    ReaderError error = new ReaderError(263, 81);
    assertThat(error.atLeast()).isCloseTo(0.2553, within(0.0001));
    assertThat(error.atMost()).isCloseTo(0.3662, within(0.0001));
    assertThat(ReaderError.NONE.atMost()).isEqualTo(1);
  }
}
