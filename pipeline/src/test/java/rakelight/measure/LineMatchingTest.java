package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.measure.LineMatching.Pair;

class LineMatchingTest {
  private static final List<String> TRUTH =
      List.of("SACRED TO THE MEMORY OF", "HANNAH WREN", "DIED MAY 6 1889");

  @Test
  void linesAreMatchedInWhateverOrderTheyWereRead() {
    assertThat(
            LineMatching.match(
                TRUTH, List.of("DIED MAY G 1889", "HANNAH WREN", "SACRED TO THE MEMORV OF")))
        .containsExactly(new Pair(0, 2), new Pair(1, 1), new Pair(2, 0));
  }

  @Test
  void aLineNobodyReadAndALineNobodyCutStayAlone() {
    assertThat(LineMatching.match(TRUTH, List.of("HANNAH WREN", "XQ", "SACRED TO THE MEMORY")))
        .containsExactly(new Pair(0, 2), new Pair(1, 0), new Pair(2, -1), new Pair(-1, 1));
  }

  @Test
  void nothingReadMatchesNothing() {
    assertThat(LineMatching.match(TRUTH, List.of()))
        .containsExactly(new Pair(0, -1), new Pair(1, -1), new Pair(2, -1));
  }
}
