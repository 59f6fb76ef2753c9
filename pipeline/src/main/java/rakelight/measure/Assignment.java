package rakelight.measure;

import java.util.Arrays;

/**
 * The cheapest one-to-one assignment of rows to columns (H. W. Kuhn, "The Hungarian method for the
 * assignment problem", 1955, doi:10.1002/nav.3800020109), by shortest augmenting paths with
 * potentials. Cubic in the number of rows.
 */
final class Assignment {
  private Assignment() {}

  /**
   * Assigns every row a column of its own.
   *
   * @param cost finite costs, rows by columns, with at least as many columns as rows
   * @return the column of each row
   * @throws IllegalArgumentException if there are more rows than columns
   */
  static int[] columns(double[][] cost) {
    int rows = cost.length;
    if (rows == 0) {
      return new int[0];
    }
    int columns = cost[0].length;
    if (rows > columns) {
      throw new IllegalArgumentException("more rows (" + rows + ") than columns (" + columns + ")");
    }
    double[] rowPotential = new double[rows + 1];
    double[] columnPotential = new double[columns + 1];
    int[] rowOf =
        new int[columns + 1]; // 1-based; 0 means free, column 0 holds the row being placed
    for (int row = 1; row <= rows; row++) {
      rowOf[0] = row;
      double[] slack = new double[columns + 1];
      Arrays.fill(slack, Double.POSITIVE_INFINITY);
      int[] cameFrom = new int[columns + 1];
      boolean[] visited = new boolean[columns + 1];
      int column = 0;
      do {
        visited[column] = true;
        int here = rowOf[column];
        double smallest = Double.POSITIVE_INFINITY;
        int next = 0;
        for (int j = 1; j <= columns; j++) {
          if (visited[j]) {
            continue;
          }
          double reduced = cost[here - 1][j - 1] - rowPotential[here] - columnPotential[j];
          if (reduced < slack[j]) {
            slack[j] = reduced;
            cameFrom[j] = column;
          }
          if (slack[j] < smallest) {
            smallest = slack[j];
            next = j;
          }
        }
        for (int j = 0; j <= columns; j++) {
          if (visited[j]) {
            rowPotential[rowOf[j]] += smallest;
            columnPotential[j] -= smallest;
          } else {
            slack[j] -= smallest;
          }
        }
        column = next;
      } while (rowOf[column] != 0);
      while (column != 0) {
        rowOf[column] = rowOf[cameFrom[column]];
        column = cameFrom[column];
      }
    }
    int[] columnOf = new int[rows];
    for (int j = 1; j <= columns; j++) {
      if (rowOf[j] > 0) {
        columnOf[rowOf[j] - 1] = j - 1;
      }
    }
    return columnOf;
  }
}
