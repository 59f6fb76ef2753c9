package rakelight.ground;

/**
 * The sum over all ways to pair some of the rows with some of the columns, none twice, each way
 * weighing the product of its pairs' weights; and of each pair the share of the ways that hold it.
 *
 * <p>By dynamic programming over sets of columns, row by row (the idea of R. Bellman, J. ACM 9
 * (1962), 61-63, and M. Held and R. M. Karp, J. SIAM 10 (1962), 196-210, for tours; from memory):
 * time rows x columns x 2^columns, so the fewer of the two are the columns here, whichever way it
 * is asked.
 */
final class MatchingSum {
  /** So many of the fewer are summed over exactly. */
  static final int MOST = 14;

  private final double[][] weights;
  private final boolean turned;
  private final int rows;
  private final int columns;

  private MatchingSum(double[][] weights, boolean turned, int rows, int columns) {
    this.weights = weights;
    this.turned = turned;
    this.rows = rows;
    this.columns = columns;
  }

  /**
   * @param weights by row and column, 0 or more; a row or column without a pair weighs 1
   */
  static MatchingSum of(double[][] weights) {
    int rows = weights.length;
    int columns = rows == 0 ? 0 : weights[0].length;
    if (columns <= rows) {
      return new MatchingSum(weights, false, rows, columns);
    }
    double[][] other = new double[columns][rows];
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < columns; c++) {
        other[c][r] = weights[r][c];
      }
    }
    return new MatchingSum(other, true, columns, rows);
  }

  /** The sum over all ways. */
  double total() {
    int sets = 1 << columns;
    double[] sum = new double[sets];
    sum[0] = 1;
    for (int r = 0; r < rows; r++) {
      double[] own = weights[r];
      // From the fullest set down, so that no row is paired twice.
      for (int set = sets - 1; set > 0; set--) {
        double more = 0;
        for (int left = set; left != 0; left &= left - 1) {
          int bit = left & -left;
          more += sum[set ^ bit] * own[Integer.numberOfTrailingZeros(bit)];
        }
        sum[set] += more;
      }
    }
    double total = 0;
    for (double each : sum) {
      total += each;
    }
    return total;
  }

  /** By row and column as given, the share of the ways that hold the pair. */
  double[][] shares() {
    int sets = 1 << columns;
    double[][] before = new double[rows + 1][];
    before[0] = new double[sets];
    before[0][0] = 1;
    for (int r = 0; r < rows; r++) {
      double[] own = weights[r];
      double[] from = before[r];
      double[] to = from.clone();
      for (int set = 1; set < sets; set++) {
        double more = 0;
        for (int left = set; left != 0; left &= left - 1) {
          int bit = left & -left;
          more += from[set ^ bit] * own[Integer.numberOfTrailingZeros(bit)];
        }
        to[set] += more;
      }
      before[r + 1] = to;
    }
    double total = 0;
    for (double each : before[rows]) {
      total += each;
    }
    // after[set]: the sum over what the rows from here on may do when the set is taken.
    double[] after = new double[sets];
    java.util.Arrays.fill(after, 1);
    double[][] shares = new double[rows][columns];
    for (int r = rows - 1; r >= 0; r--) {
      double[] own = weights[r];
      double[] from = before[r];
      double[] next = after;
      double[] here = next.clone();
      for (int set = 0; set < sets; set++) {
        for (int free = ~set & (sets - 1); free != 0; free &= free - 1) {
          int bit = free & -free;
          int c = Integer.numberOfTrailingZeros(bit);
          double with = own[c] * next[set | bit];
          here[set] += with;
          shares[r][c] += from[set] * with;
        }
      }
      after = here;
    }
    double[][] given = turned ? new double[columns][rows] : shares;
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < columns; c++) {
        shares[r][c] /= total;
        if (turned) {
          given[c][r] = shares[r][c];
        }
      }
    }
    return given;
  }
}
