package rakelight.measure;

import java.util.ArrayList;
import java.util.List;

/**
 * Which read line answers which line of the truth, whatever the order: the one-to-one pairing with
 * the fewest letter errors in all, where a line without a partner costs all its letters. A pair
 * that is no better than leaving both alone isn't made.
 */
public final class LineMatching {
  private LineMatching() {}

  /**
   * One line of either side, or both.
   *
   * @param truthIndex index of the line of the truth; -1 for a read line that answers none
   * @param readIndex index of the read line; -1 for a line of the truth that nobody read
   */
  public record Pair(int truthIndex, int readIndex) {}

  /** Pairs lines; first those of the truth in their order, then the read lines left over. */
  public static List<Pair> match(List<String> truth, List<String> read) {
    int size = truth.size() + read.size();
    double[][] cost = new double[size][size];
    for (int row = 0; row < size; row++) {
      for (int column = 0; column < size; column++) {
        cost[row][column] = cost(truth, read, row, column);
      }
    }
    int[] columns = Assignment.columns(cost);
    List<Pair> pairs = new ArrayList<>();
    boolean[] used = new boolean[read.size()];
    for (int row = 0; row < truth.size(); row++) {
      int column = columns[row];
      if (column < read.size()) {
        used[column] = true;
        pairs.add(new Pair(row, column));
      } else {
        pairs.add(new Pair(row, -1));
      }
    }
    for (int column = 0; column < read.size(); column++) {
      if (!used[column]) {
        pairs.add(new Pair(-1, column));
      }
    }
    return pairs;
  }

  /** Rows are lines of the truth, then one "nobody cut this" per read line; columns mirror them. */
  private static double cost(List<String> truth, List<String> read, int row, int column) {
    boolean isTruth = row < truth.size();
    boolean isRead = column < read.size();
    if (isTruth && isRead) {
      String reference = truth.get(row);
      String hypothesis = read.get(column);
      int apart = reference.length() + hypothesis.length();
      int together = ErrorRate.ofLetters(reference, hypothesis).errors();
      // A pair that shares no letter saves nothing worth having: it is as dear as leaving both
      // alone.
      return together >= Math.max(reference.length(), hypothesis.length()) ? apart + 1 : together;
    }
    if (isTruth) {
      return truth.get(row).length();
    }
    return isRead ? read.get(column).length() : 0;
  }
}
