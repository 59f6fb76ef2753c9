package rakelight.ground;

import java.util.Arrays;

/**
 * The assignment problem: one column for each row, no column twice, at the least sum of costs (H.
 * W. Kuhn, Naval Research Logistics Quarterly 2 (1955), 83-97; here by shortest augmenting paths
 * with potentials, from memory, in time of rows² x columns).
 */
final class CheapestPairs {
  private CheapestPairs() {}

  /**
   * The column of each row.
   *
   * @param costs by row and column, at least as many columns as rows
   */
  static int[] cheapest(double[][] costs) {
    int n = costs.length;
    int m = n == 0 ? 0 : costs[0].length;
    if (n > m) {
      throw new IllegalArgumentException("as many columns as rows are needed: " + n + " > " + m);
    }
    double[] ofRow = new double[n + 1];
    double[] ofColumn = new double[m + 1];
    int[] rowAt = new int[m + 1];
    for (int row = 1; row <= n; row++) {
      int[] before = new int[m + 1];
      double[] least = new double[m + 1];
      boolean[] done = new boolean[m + 1];
      Arrays.fill(least, Double.POSITIVE_INFINITY);
      rowAt[0] = row;
      int at = 0;
      while (rowAt[at] != 0) {
        done[at] = true;
        int r = rowAt[at];
        int next = 0;
        double step = Double.POSITIVE_INFINITY;
        for (int c = 1; c <= m; c++) {
          if (!done[c]) {
            double reduced = costs[r - 1][c - 1] - ofRow[r] - ofColumn[c];
            if (reduced < least[c]) {
              least[c] = reduced;
              before[c] = at;
            }
            if (least[c] < step) {
              step = least[c];
              next = c;
            }
          }
        }
        for (int c = 0; c <= m; c++) {
          if (done[c]) {
            ofRow[rowAt[c]] += step;
            ofColumn[c] -= step;
          } else {
            least[c] -= step;
          }
        }
        at = next;
      }
      while (at != 0) {
        rowAt[at] = rowAt[before[at]];
        at = before[at];
      }
    }
    int[] columns = new int[n];
    for (int c = 1; c <= m; c++) {
      if (rowAt[c] != 0) {
        columns[rowAt[c] - 1] = c - 1;
      }
    }
    return columns;
  }
}
