package rakelight.names;

/** How alike two spellings are. */
public final class Likeness {
  private static final double PREFIX_SCALE = 0.1;
  private static final int LONGEST_PREFIX = 4;

  private Likeness() {}

  /**
   * Jaro's measure, 0 to 1: M. A. Jaro, JASA 84 (1989), 414-420. Letters match within half the
   * longer length, less one.
   */
  public static double jaro(String one, String two) {
    int[] a = one.codePoints().toArray();
    int[] b = two.codePoints().toArray();
    if (a.length == 0 || b.length == 0) {
      return a.length == b.length ? 1 : 0;
    }
    int window = Math.max(0, Math.max(a.length, b.length) / 2 - 1);
    boolean[] taken = new boolean[b.length];
    int[] matchesOfA = new int[Math.min(a.length, b.length)];
    int matches = 0;
    for (int i = 0; i < a.length; i++) {
      for (int j = Math.max(0, i - window); j < Math.min(b.length, i + window + 1); j++) {
        if (!taken[j] && a[i] == b[j]) {
          taken[j] = true;
          matchesOfA[matches++] = a[i];
          break;
        }
      }
    }
    if (matches == 0) {
      return 0;
    }
    int outOfOrder = 0;
    int k = 0;
    for (int j = 0; j < b.length; j++) {
      if (taken[j] && b[j] != matchesOfA[k++]) {
        outOfOrder++;
      }
    }
    double m = matches;
    return (m / a.length + m / b.length + (m - outOfOrder / 2) / m) / 3;
  }

  /**
   * Jaro-Winkler with scale 0.1 and a prefix of up to 4: W. E. Winkler, US Census RR94-5 (1994).
   * Low values aren't set to nought as that report's table does.
   */
  public static double jaroWinkler(String one, String two) {
    double jaro = jaro(one, two);
    int prefix = 0;
    int limit = Math.min(LONGEST_PREFIX, Math.min(one.length(), two.length()));
    while (prefix < limit && one.charAt(prefix) == two.charAt(prefix)) {
      prefix++;
    }
    return jaro + prefix * PREFIX_SCALE * (1 - jaro);
  }

  /**
   * Edits that turn one spelling into the other: letters put in, left out, changed or two
   * neighbours swapped, each place edited once (optimal string alignment).
   */
  public static int edits(String one, String two) {
    int[] a = one.codePoints().toArray();
    int[] b = two.codePoints().toArray();
    int[][] cost = new int[a.length + 1][b.length + 1];
    for (int i = 0; i <= a.length; i++) {
      for (int j = 0; j <= b.length; j++) {
        if (i == 0 || j == 0) {
          cost[i][j] = i + j;
          continue;
        }
        int changed = cost[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
        cost[i][j] = Math.min(changed, Math.min(cost[i - 1][j], cost[i][j - 1]) + 1);
        if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
          cost[i][j] = Math.min(cost[i][j], cost[i - 2][j - 2] + 1);
        }
      }
    }
    return cost[a.length][b.length];
  }
}
