package rakelight.ground;

import java.util.Arrays;
import java.util.List;
import java.util.Random;

/**
 * The shares of {@link MatchingSum}, sampled where there are too many to sum over: Gibbs' sampler
 * (S. Geman and D. Geman, IEEE PAMI 6 (1984), 721-741) stone by stone, with exchanges of two
 * stones' persons after N. Metropolis and others, J. Chem. Phys. 21 (1953), 1087-1092; both from
 * memory. Four chains from different beginnings; how far they are apart gives the error. The same
 * seed always gives the same.
 */
final class MatchingSampler {
  private static final int CHAINS = 4;
  private static final int SWEEPS = 6_000;
  private static final int FIRST = 1_000;
  private static final long SEED = 17;

  /**
   * @param shares by stone and person
   * @param rows of each row, how often it was met
   * @param largestError the largest standard error of a share, by how far the chains are apart
   */
  record Sampled(double[][] shares, double[] rows, double largestError) {}

  private final List<double[][]> weights;
  private final double[] known;
  private final int stones;
  private final int persons;
  private final Random random;
  private final int[] personOf;
  private final boolean[] taken;
  private int row;

  private MatchingSampler(List<double[][]> weights, double[] known, long seed) {
    this.weights = weights;
    this.known = known;
    stones = weights.get(0).length;
    persons = weights.get(0)[0].length;
    random = new Random(seed);
    personOf = new int[stones];
    taken = new boolean[persons];
    Arrays.fill(personOf, -1);
  }

  /**
   * @param weights for each row, by stone and person
   * @param known what each row weighs by itself
   */
  static Sampled sample(List<double[][]> weights, double[] known) {
    int stones = weights.get(0).length;
    int persons = weights.get(0)[0].length;
    double[][][] byChain = new double[CHAINS][stones][persons];
    double[] rows = new double[weights.size()];
    for (int c = 0; c < CHAINS; c++) {
      MatchingSampler chain = new MatchingSampler(weights, known, SEED + c);
      for (int sweep = 0; sweep < FIRST + SWEEPS; sweep++) {
        chain.sweep();
        if (sweep >= FIRST) {
          rows[chain.row] += 1.0 / SWEEPS / CHAINS;
          for (int s = 0; s < stones; s++) {
            if (chain.personOf[s] >= 0) {
              byChain[c][s][chain.personOf[s]] += 1.0 / SWEEPS;
            }
          }
        }
      }
    }
    double[][] shares = new double[stones][persons];
    double largest = 0;
    for (int s = 0; s < stones; s++) {
      for (int p = 0; p < persons; p++) {
        double sum = 0;
        double squares = 0;
        for (double[][] chain : byChain) {
          sum += chain[s][p];
          squares += chain[s][p] * chain[s][p];
        }
        shares[s][p] = sum / CHAINS;
        double variance = Math.max(0, squares / CHAINS - shares[s][p] * shares[s][p]);
        largest = Math.max(largest, Math.sqrt(variance / (CHAINS - 1)));
      }
    }
    return new Sampled(shares, rows, largest);
  }

  private void sweep() {
    double[][] own = weights.get(row);
    for (int s = 0; s < stones; s++) {
      moved(s, own);
    }
    for (int k = 0; k < stones; k++) {
      exchanged(random.nextInt(stones), random.nextInt(stones), own);
    }
    if (weights.size() > 1) {
      row = drawnRow();
    }
  }

  private void moved(int s, double[][] own) {
    if (personOf[s] >= 0) {
      taken[personOf[s]] = false;
    }
    double sum = 1;
    for (int p = 0; p < persons; p++) {
      sum += taken[p] ? 0 : own[s][p];
    }
    double drawn = random.nextDouble() * sum - 1;
    personOf[s] = -1;
    for (int p = 0; p < persons && drawn >= 0; p++) {
      if (!taken[p]) {
        drawn -= own[s][p];
        if (drawn < 0) {
          personOf[s] = p;
        }
      }
    }
    if (personOf[s] >= 0) {
      taken[personOf[s]] = true;
    }
  }

  private void exchanged(int one, int other, double[][] own) {
    int a = personOf[one];
    int b = personOf[other];
    double now = weight(own, one, a) * weight(own, other, b);
    double then = weight(own, one, b) * weight(own, other, a);
    if (one != other && random.nextDouble() * now < then) {
      personOf[one] = b;
      personOf[other] = a;
    }
  }

  private static double weight(double[][] own, int s, int p) {
    return p < 0 ? 1 : own[s][p];
  }

  private int drawnRow() {
    double[] logs = new double[weights.size()];
    double most = Double.NEGATIVE_INFINITY;
    for (int r = 0; r < logs.length; r++) {
      logs[r] = Math.log(known[r]);
      for (int s = 0; s < stones; s++) {
        logs[r] += Math.log(Math.max(1e-300, weight(weights.get(r), s, personOf[s])));
      }
      most = Math.max(most, logs[r]);
    }
    double sum = 0;
    for (double log : logs) {
      sum += Math.exp(log - most);
    }
    double drawn = random.nextDouble() * sum;
    for (int r = 0; r < logs.length; r++) {
      drawn -= Math.exp(logs[r] - most);
      if (drawn < 0) {
        return r;
      }
    }
    return row;
  }
}
