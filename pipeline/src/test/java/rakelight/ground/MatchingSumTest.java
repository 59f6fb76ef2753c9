package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class MatchingSumTest {
  private static double[][] ones(int rows, int columns) {
    double[][] ones = new double[rows][columns];
    Arrays.stream(ones).forEach(row -> Arrays.fill(row, 1));
    return ones;
  }

  /**
   * Of n and n there are sum over k of k! C(n,k)² matchings: 2, 7, 34, 209, 1546 (I. Kaplansky and
   * J. Riordan, Duke Math. J. 13 (1946), 259-268, rook polynomials; from memory).
   */
  @Test
  void withAllWeightsOneItCountsTheMatchings() {
    double[] counts = {2, 7, 34, 209, 1546};
    for (int n = 1; n <= counts.length; n++) {
      assertThat(MatchingSum.of(ones(n, n)).total()).isEqualTo(counts[n - 1]);
    }
    assertThat(MatchingSum.of(ones(2, 5)).total()).isEqualTo(1 + 10 + 20);
    assertThat(MatchingSum.of(ones(5, 2)).total()).isEqualTo(31);
  }

  @Test
  void sharesAreThoseOfCountingEveryWayAndSampledOnesComeNear() {
    Random random = new Random(5);
    double[][] weights = new double[5][4];
    for (double[] row : weights) {
      for (int c = 0; c < row.length; c++) {
        row[c] = Math.exp(3 * random.nextGaussian());
      }
    }
    double[][] counted = new double[5][4];
    double[] total = {0};
    count(weights, 0, 0, 1, new int[5], counted, total);
    double[][] shares = MatchingSum.of(weights).shares();
    assertThat(MatchingSum.of(weights).total()).isCloseTo(total[0], within(1e-9 * total[0]));
    MatchingSampler.Sampled sampled =
        MatchingSampler.sample(List.<double[][]>of(weights), new double[] {1});
    for (int r = 0; r < 5; r++) {
      for (int c = 0; c < 4; c++) {
        assertThat(shares[r][c]).isCloseTo(counted[r][c] / total[0], within(1e-9));
        assertThat(sampled.shares()[r][c]).isCloseTo(shares[r][c], within(0.03));
      }
    }
    assertThat(sampled.largestError()).isBetween(1e-6, 0.03);
  }

  private static void count(
      double[][] weights,
      int row,
      int taken,
      double product,
      int[] of,
      double[][] counted,
      double[] total) {
    if (row == weights.length) {
      total[0] += product;
      for (int r = 0; r < of.length; r++) {
        if (of[r] > 0) {
          counted[r][of[r] - 1] += product;
        }
      }
      return;
    }
    of[row] = 0;
    count(weights, row + 1, taken, product, of, counted, total);
    for (int c = 0; c < weights[0].length; c++) {
      if ((taken >> c & 1) == 0) {
        of[row] = c + 1;
        count(weights, row + 1, taken | 1 << c, product * weights[row][c], of, counted, total);
      }
    }
    of[row] = 0;
  }
}
