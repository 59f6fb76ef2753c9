package rakelight.ground;

import java.util.Arrays;
import java.util.BitSet;

/**
 * The order of a walk from a place, past some others, and back or not.
 *
 * <p>Up to {@value #EXACT} places the shortest there is (M. Held and R. M. Karp, J. SIAM 10, 1962);
 * beyond, from the nearest neighbour on, bettered by turning stretches around and moving short ones
 * until neither helps (2-opt and Or-opt), which is not proved to be the shortest.
 */
public final class WalkingOrder {
  /** So many places, the start among them, are ordered exactly. */
  public static final int EXACT = 16;

  private static final double LEAST_GAIN = 1e-9;
  private static final int LONGEST_MOVED = 3;

  private final double[][] metres;
  private final boolean back;

  private WalkingOrder(double[][] metres, boolean back) {
    this.metres = metres;
    this.back = back;
  }

  /**
   * @param metres from each place to each, the same both ways; place 0 is where one begins
   * @param back whether the walk ends where it began
   * @return the places in order, 0 first, each once
   */
  public static int[] of(double[][] metres, boolean back) {
    if (metres.length == 0) {
      throw new IllegalArgumentException("a walk needs a place to begin");
    }
    WalkingOrder order = new WalkingOrder(metres, back);
    return metres.length <= EXACT ? order.exact() : order.bettered(order.nearest());
  }

  /** How long a walk in an order is. */
  public static double length(double[][] metres, int[] order, boolean back) {
    double length = back ? metres[order[order.length - 1]][order[0]] : 0;
    for (int i = 1; i < order.length; i++) {
      length += metres[order[i - 1]][order[i]];
    }
    return length;
  }

  private int[] exact() {
    int others = metres.length - 1;
    if (others == 0) {
      return new int[] {0};
    }
    double[][] best = new double[1 << others][others];
    byte[][] from = new byte[1 << others][others];
    for (double[] row : best) {
      Arrays.fill(row, Double.POSITIVE_INFINITY);
    }
    for (int i = 0; i < others; i++) {
      best[1 << i][i] = metres[0][i + 1];
    }
    for (int seen = 1; seen < best.length; seen++) {
      for (int last = 0; last < others; last++) {
        if (best[seen][last] < Double.POSITIVE_INFINITY) {
          step(best, from, seen, last);
        }
      }
    }
    int all = best.length - 1;
    int end = 0;
    for (int i = 1; i < others; i++) {
      if (total(best[all][i], i) < total(best[all][end], end)) {
        end = i;
      }
    }
    int[] order = new int[metres.length];
    int seen = all;
    for (int at = others; at >= 1; at--) {
      order[at] = end + 1;
      int before = from[seen][end];
      seen &= ~(1 << end);
      end = before;
    }
    return order;
  }

  private void step(double[][] best, byte[][] from, int seen, int last) {
    for (int next = 0; next < best[seen].length; next++) {
      if ((seen & 1 << next) == 0) {
        double length = best[seen][last] + metres[last + 1][next + 1];
        int with = seen | 1 << next;
        if (length < best[with][next]) {
          best[with][next] = length;
          from[with][next] = (byte) last;
        }
      }
    }
  }

  private double total(double length, int end) {
    return length + (back ? metres[end + 1][0] : 0);
  }

  private int[] nearest() {
    int[] order = new int[metres.length];
    BitSet seen = new BitSet();
    seen.set(0);
    for (int at = 1; at < order.length; at++) {
      int here = order[at - 1];
      int next = -1;
      for (int i = seen.nextClearBit(0); i < order.length; i = seen.nextClearBit(i + 1)) {
        if (next < 0 || metres[here][i] < metres[here][next]) {
          next = i;
        }
      }
      order[at] = next;
      seen.set(next);
    }
    return order;
  }

  private int[] bettered(int[] start) {
    int[] order = start;
    while (true) {
      int[] better = turned(order);
      better = better == order ? moved(order) : better;
      if (better == order) {
        return order;
      }
      order = better;
    }
  }

  /** The same array where turning no stretch around makes it shorter. */
  private int[] turned(int[] order) {
    for (int i = 1; i < order.length - 1; i++) {
      for (int j = i + 1; j < order.length; j++) {
        double before = leg(order[i - 1], order, i) + after(order, j, order[j]);
        double then = metres[order[i - 1]][order[j]] + after(order, j, order[i]);
        if (then < before - LEAST_GAIN) {
          int[] better = order.clone();
          for (int k = 0; k <= j - i; k++) {
            better[i + k] = order[j - k];
          }
          return better;
        }
      }
    }
    return order;
  }

  private double leg(int from, int[] order, int to) {
    return metres[from][order[to]];
  }

  /** From what ends a stretch at a place in the order to what comes then. */
  private double after(int[] order, int at, int from) {
    return at + 1 < order.length ? metres[from][order[at + 1]] : back ? metres[from][order[0]] : 0;
  }

  /** The same array where moving no short stretch makes it shorter. */
  private int[] moved(int[] order) {
    double length = length(metres, order, back);
    for (int size = 1; size <= LONGEST_MOVED; size++) {
      for (int i = 1; i + size <= order.length; i++) {
        int[] rest = new int[order.length - size];
        System.arraycopy(order, 0, rest, 0, i);
        System.arraycopy(order, i + size, rest, i, order.length - i - size);
        for (int to = 1; to <= rest.length; to++) {
          int[] other = new int[order.length];
          System.arraycopy(rest, 0, other, 0, to);
          System.arraycopy(order, i, other, to, size);
          System.arraycopy(rest, to, other, to + size, rest.length - to);
          if (length(metres, other, back) < length - LEAST_GAIN) {
            return other;
          }
        }
      }
    }
    return order;
  }
}
