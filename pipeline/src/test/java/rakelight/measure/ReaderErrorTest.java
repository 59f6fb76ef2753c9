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

  @Test
  void whereOnlySomeLettersAreKnownTheOthersAreNotJudged() throws Exception {
    // The lines are found whatever stands before them; a missed line misses all its letters.
    assertThat(letters("(1 line) | +++ 1834", "HESTER WREN | DIED 1834")).isEqualTo(error(4, 0));
    assertThat(letters("(1 line) | +++ 1834", "IN MEMORY OF | HESTER | DIED 1884"))
        .isEqualTo(error(4, 1));
    assertThat(letters("HESTER | +++ 1834", "HESTER WREN")).isEqualTo(error(10, 4));
    // A letter the reader leaves open counts as the one he favours; none named is wrong.
    assertThat(letters("18[..]", "18(3 or 8)4")).isEqualTo(error(2, 0));
    assertThat(letters("1834", "18+4")).isEqualTo(error(4, 1));
  }

  private static ReaderError letters(String known, String read) throws Exception {
    return ReaderError.ofLetters(Leiden.parse(known), Leiden.parse(read));
  }

  private static ReaderError error(int letters, int wrong) {
    return new ReaderError(letters, wrong);
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
