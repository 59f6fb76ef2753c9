package rakelight.measure;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToDoubleBiFunction;

/**
 * How far those who read the same letters agree beyond chance: 1 wholly, 0 as if they guessed.
 * Krippendorff's alpha takes any number of readers who may have left some out; Cohen's kappa takes
 * two who read everything, Fleiss' kappa equally many for each letter.
 */
public final class ReaderAgreement {
  private ReaderAgreement() {}

  /**
   * Krippendorff's alpha (Computing Krippendorff's alpha-reliability, 2007) for names: values
   * either agree or don't.
   *
   * @param units what each reader said of one unit; units with fewer than two values drop out
   * @return 1 where all values are one
   */
  public static <T> double alpha(List<List<T>> units) {
    return alpha(units, (a, b) -> a.equals(b) ? 0 : 1);
  }

  /**
   * Krippendorff's alpha with any distance.
   *
   * @param distance of two values; 0 for equal ones, for intervals their squared difference
   */
  public static <T> double alpha(List<List<T>> units, ToDoubleBiFunction<T, T> distance) {
    Map<T, Double> marginals = new HashMap<>();
    double observed = 0;
    double n = 0;
    for (List<T> unit : units) {
      int m = unit.size();
      if (m < 2) {
        continue;
      }
      n += m;
      for (int i = 0; i < m; i++) {
        marginals.merge(unit.get(i), 1.0, Double::sum);
        for (int j = 0; j < m; j++) {
          observed += i == j ? 0 : distance.applyAsDouble(unit.get(i), unit.get(j)) / (m - 1);
        }
      }
    }
    double expected = 0;
    for (Map.Entry<T, Double> a : marginals.entrySet()) {
      for (Map.Entry<T, Double> b : marginals.entrySet()) {
        expected +=
            a.getValue() * b.getValue() * distance.applyAsDouble(a.getKey(), b.getKey()) / (n - 1);
      }
    }
    return expected == 0 ? 1 : 1 - observed / expected;
  }

  /**
   * The distance of ordered values for {@link #alpha}: squared, by how many values lie between
   * them.
   */
  public static ToDoubleBiFunction<Double, Double> ordinal(List<List<Double>> units) {
    TreeMap<Double, Double> counts = new TreeMap<>();
    units.stream()
        .filter(unit -> unit.size() > 1)
        .forEach(unit -> unit.forEach(value -> counts.merge(value, 1.0, Double::sum)));
    return (a, b) -> {
      double low = Math.min(a, b);
      double high = Math.max(a, b);
      double between =
          counts.subMap(low, true, high, true).values().stream().mapToDouble(c -> c).sum();
      double ends = counts.getOrDefault(low, 0.0) + counts.getOrDefault(high, 0.0);
      return low == high ? 0 : Math.pow(between - ends / 2, 2);
    };
  }

  /**
   * Cohen's kappa (Educational and Psychological Measurement 20, 1960).
   *
   * @param counts square: how often the first reader said i and the second j
   */
  public static double cohen(int[][] counts) {
    double n = 0;
    double same = 0;
    double[] rows = new double[counts.length];
    double[] columns = new double[counts.length];
    for (int i = 0; i < counts.length; i++) {
      for (int j = 0; j < counts.length; j++) {
        n += counts[i][j];
        rows[i] += counts[i][j];
        columns[j] += counts[i][j];
        same += i == j ? counts[i][j] : 0;
      }
    }
    double chance = 0;
    for (int i = 0; i < rows.length; i++) {
      chance += rows[i] * columns[i] / (n * n);
    }
    return (same / n - chance) / (1 - chance);
  }

  /**
   * Fleiss' kappa (Psychological Bulletin 76, 1971).
   *
   * @param counts per subject how many readers chose each category; every row has one sum, 2 or
   *     more
   */
  public static double fleiss(int[][] counts) {
    double[] shares = new double[counts[0].length];
    double observed = 0;
    for (int[] row : counts) {
      double readers = 0;
      double pairs = 0;
      for (int j = 0; j < row.length; j++) {
        readers += row[j];
        pairs += (double) row[j] * row[j];
      }
      observed += (pairs - readers) / (readers * (readers - 1)) / counts.length;
      for (int j = 0; j < row.length; j++) {
        shares[j] += row[j] / readers / counts.length;
      }
    }
    double chance = 0;
    for (double share : shares) {
      chance += share * share;
    }
    return (observed - chance) / (1 - chance);
  }
}
