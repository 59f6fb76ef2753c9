package rakelight.relief;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Puts carvings in order of likeness to one, better than their likeness alone does. Some carvings
 * are a little like all others, those with few lines or much grain: so likeness is counted in
 * deviations from what two that are far apart have. And two that are alike have likes in common: so
 * it counts how many of the nearest of both are the same (Z. Zhong and others, Re-ranking with
 * k-reciprocal encoding, CVPR 2017, from memory).
 *
 * <p>Only the first are put in order anew, since each is compared with all others of them.
 */
public final class CarvingOrder {
  /** Tried: 16 to 40. */
  private static final int FIRST = 24;

  /** Tried: 12 to 40; more brought no more. */
  private static final int UNLIKE = 20;

  /** Tried: 6 and 12. */
  private static final int NEAREST = 6;

  /** How much likes in common count beside likeness. Tried: 0.3 to 3. */
  private static final double IN_COMMON = 0.6;

  private CarvingOrder() {}

  /** How alike one is to some others, by their numbers. */
  @FunctionalInterface
  public interface Likeness {
    double[] of(int one, int[] others);
  }

  /** What likeness is by chance. */
  private record Chance(double mean, double deviation) {
    static Chance of(double... likes) {
      double mean = Arrays.stream(likes).average().orElse(0);
      double squares = Arrays.stream(likes).map(like -> (like - mean) * (like - mean)).sum();
      return new Chance(mean, Math.sqrt(squares / Math.max(1, likes.length)) + 1e-9);
    }

    /** In deviations from what two of such chances have. */
    double beyond(double likeness, Chance other) {
      return (likeness - (mean + other.mean) / 2) / Math.sqrt(deviation * other.deviation);
    }
  }

  /**
   * The numbers of some carvings, the most alike first.
   *
   * @param asked how alike each is to the one that is asked for
   * @param likeness asked once for each of the first of them, with some others
   */
  public static List<Integer> of(double[] asked, Likeness likeness) {
    List<Integer> order =
        IntStream.range(0, asked.length)
            .boxed()
            .sorted(Comparator.comparingDouble(i -> -asked[i]))
            .toList();
    int first = Math.min(FIRST, asked.length / 2);
    int rest = asked.length - first;
    if (rest < UNLIKE) {
      return order;
    }
    int[] unlike =
        IntStream.range(0, UNLIKE).map(i -> order.get(first + i * rest / UNLIKE)).toArray();
    // The one that is asked for stands before the first of the others.
    Chance[] chances = new Chance[first + 1];
    double[][] likes = new double[first + 1][];
    chances[0] = Chance.of(Arrays.stream(unlike).mapToDouble(i -> asked[i]).toArray());
    likes[0] = order.subList(0, first).stream().mapToDouble(i -> asked[i]).toArray();
    for (int i = 1; i <= first; i++) {
      IntStream after = order.subList(i, first).stream().mapToInt(Integer::intValue);
      double[] found =
          likeness.of(order.get(i - 1), IntStream.concat(Arrays.stream(unlike), after).toArray());
      chances[i] = Chance.of(Arrays.copyOf(found, UNLIKE));
      likes[i] = Arrays.copyOfRange(found, UNLIKE, found.length);
    }
    double[][] beyond = new double[first + 1][first + 1];
    for (int i = 0; i <= first; i++) {
      for (int j = i + 1; j <= first; j++) {
        beyond[i][j] = chances[i].beyond(likes[i][j - i - 1], chances[j]);
        beyond[j][i] = beyond[i][j];
      }
    }
    double[][] nearest = nearest(beyond);
    double most = Math.max(1e-6, Arrays.stream(beyond[0], 1, first + 1).max().orElse(0));
    double[] scores = new double[first + 1];
    for (int j = 1; j <= first; j++) {
      scores[j] = beyond[0][j] / most + IN_COMMON * inCommon(nearest[0], nearest[j]);
    }
    List<Integer> anew = new ArrayList<>();
    IntStream.rangeClosed(1, first)
        .boxed()
        .sorted(Comparator.comparingDouble(j -> -scores[j]))
        .forEach(j -> anew.add(order.get(j - 1)));
    anew.addAll(order.subList(first, asked.length));
    return anew;
  }

  /**
   * Of each the weights of those that are among its nearest as it is among theirs; they sum to 1.
   */
  private static double[][] nearest(double[][] beyond) {
    int n = beyond.length;
    int[][] ranks = new int[n][n];
    for (int i = 0; i < n; i++) {
      int one = i;
      List<Integer> order =
          IntStream.range(0, n)
              .filter(j -> j != one)
              .boxed()
              .sorted(Comparator.comparingDouble(j -> -beyond[one][j]))
              .toList();
      ranks[i][i] = n;
      for (int k = 0; k < order.size(); k++) {
        ranks[i][order.get(k)] = k;
      }
    }
    double[][] weights = new double[n][n];
    for (int i = 0; i < n; i++) {
      double sum = 0;
      double own = 1e-6;
      for (int j = 0; j < n; j++) {
        own = j == i ? own : Math.max(own, beyond[i][j]);
        if (ranks[i][j] < NEAREST && ranks[j][i] < NEAREST) {
          weights[i][j] = Math.max(0, beyond[i][j]);
          sum += weights[i][j];
        }
      }
      weights[i][i] = own;
      for (int j = 0; j < n; j++) {
        weights[i][j] /= sum + own;
      }
    }
    return weights;
  }

  /** Jaccard's share of two sets by weight, 0 to 1. */
  private static double inCommon(double[] one, double[] other) {
    double both = 0;
    for (int i = 0; i < one.length; i++) {
      both += Math.min(one[i], other[i]);
    }
    return both / (2 - both);
  }
}
