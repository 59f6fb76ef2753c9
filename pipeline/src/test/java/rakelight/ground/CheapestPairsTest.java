package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class CheapestPairsTest {
  /** H. W. Kuhn, Naval Res. Logist. Q. 2 (1955), 83-97; sums by SciPy's linear_sum_assignment. */
  static Stream<Arguments> published() {
    return Stream.of(
        Arguments.of(new double[][] {{4, 1, 3}, {2, 0, 5}, {3, 2, 2}}, 5, new int[] {1, 0, 2}),
        Arguments.of(
            new double[][] {{82, 83, 69, 92}, {77, 37, 49, 92}, {11, 69, 5, 86}, {8, 9, 98, 23}},
            140,
            new int[] {2, 1, 0, 3}),
        Arguments.of(
            new double[][] {{250, 400, 350}, {400, 600, 350}, {200, 400, 250}},
            950,
            new int[] {1, 2, 0}),
        Arguments.of(
            new double[][] {{400, 150, 400}, {400, 450, 600}, {300, 225, 300}},
            850,
            new int[] {1, 0, 2}),
        Arguments.of(new double[][] {{10, 10, 8}, {9, 8, 1}, {9, 7, 4}}, 18, new int[] {0, 2, 1}));
  }

  @ParameterizedTest
  @MethodSource("published")
  void theCheapestIsThatOfThePublishedCases(double[][] costs, double sum, int[] columns) {
    int[] found = CheapestPairs.cheapest(costs);
    assertThat(sum(costs, found)).isEqualTo(sum);
    assertThat(found).containsExactly(columns);
  }

  @Test
  void noOtherWayIsCheaper() {
    Random random = new Random(3);
    for (int i = 0; i < 200; i++) {
      double[][] costs = new double[4][6];
      for (double[] row : costs) {
        for (int c = 0; c < row.length; c++) {
          row[c] = random.nextDouble() * 10 - 5;
        }
      }
      double least = least(costs, 0, 0);
      assertThat(sum(costs, CheapestPairs.cheapest(costs))).isCloseTo(least, within(1e-9));
    }
  }

  private static double least(double[][] costs, int row, int taken) {
    double least = row == costs.length ? 0 : Double.MAX_VALUE;
    for (int c = 0; row < costs.length && c < costs[0].length; c++) {
      if ((taken >> c & 1) == 0) {
        least = Math.min(least, costs[row][c] + least(costs, row + 1, taken | 1 << c));
      }
    }
    return least;
  }

  private static double sum(double[][] costs, int[] columns) {
    double sum = 0;
    for (int r = 0; r < columns.length; r++) {
      sum += costs[r][columns[r]];
    }
    return sum;
  }

  @Test
  void moreRowsThanColumnsIsRefused() {
    assertThatThrownBy(() -> CheapestPairs.cheapest(new double[2][1]))
        .hasMessageContaining("columns");
  }
}
