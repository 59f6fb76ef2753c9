package rakelight.inscription;

import java.util.ArrayList;
import java.util.List;

/**
 * Two sequences laid beside each other by least cost: what goes with what, and what stands alone.
 * Quadratic in time and memory, meant for faces. Among equally cheap ways a pair comes first, then
 * what only the earlier one has.
 */
final class Pairing {
  /** What a pair costs; larger than two of {@link #APART} for what must not be a pair. */
  @FunctionalInterface
  interface Cost {
    int of(int earlier, int later);
  }

  /** What it costs to leave one alone. */
  static final int APART = 3;

  /** For what must not be a pair. */
  static final int NEVER = 1_000_000;

  /**
   * One step.
   *
   * @param earlier index, -1 if only the later one has it
   * @param later index, -1 if only the earlier one has it
   */
  record Pair(int earlier, int later) {}

  private Pairing() {}

  static List<Pair> of(int earlier, int later, Cost cost) {
    int[][] costs = new int[earlier + 1][later + 1];
    for (int i = earlier; i >= 0; i--) {
      for (int j = later; j >= 0; j--) {
        if (i == earlier || j == later) {
          costs[i][j] = APART * (earlier - i + later - j);
        } else {
          costs[i][j] =
              Math.min(
                  costs[i + 1][j + 1] + cost.of(i, j),
                  Math.min(costs[i + 1][j], costs[i][j + 1]) + APART);
        }
      }
    }
    List<Pair> pairs = new ArrayList<>();
    int i = 0;
    int j = 0;
    while (i < earlier || j < later) {
      if (i < earlier && j < later && costs[i][j] == costs[i + 1][j + 1] + cost.of(i, j)) {
        pairs.add(new Pair(i++, j++));
      } else if (i < earlier && costs[i][j] == costs[i + 1][j] + APART) {
        pairs.add(new Pair(i++, -1));
      } else {
        pairs.add(new Pair(-1, j++));
      }
    }
    return pairs;
  }
}
