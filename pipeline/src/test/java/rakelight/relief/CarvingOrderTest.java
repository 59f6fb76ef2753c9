package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class CarvingOrderTest {
  /**
   * Ten kinds of twelve things each. What is alike is likened by .3, all else by chance, but for
   * the twelve last, which are as like to everything.
   */
  private static double[][] likes(long seed) {
    Random random = new Random(seed);
    double[][] likes = new double[120][120];
    for (int i = 0; i < 120; i++) {
      for (int j = 0; j < i; j++) {
        double like = i / 12 == j / 12 ? 0.3 : 0.1;
        like = i >= 108 || j >= 108 ? 0.3 : like;
        likes[i][j] = like + 0.06 * random.nextGaussian();
        likes[j][i] = likes[i][j];
      }
    }
    return likes;
  }

  private static int right(List<Integer> order) {
    // The one asked for is 0; the numbers of the others are by one less.
    return (int) order.subList(0, 11).stream().filter(i -> i + 1 < 12).count();
  }

  @Test
  void whatIsLikeEverythingComesAfterWhatHasLikesInCommon() {
    int plainly = 0;
    int anew = 0;
    for (long seed = 1; seed <= 5; seed++) {
      double[][] likes = likes(seed);
      double[] asked = Arrays.copyOfRange(likes[0], 1, 120);
      List<Integer> plain =
          IntStream.range(0, 119)
              .boxed()
              .sorted((a, b) -> Double.compare(asked[b], asked[a]))
              .toList();
      List<Integer> order =
          CarvingOrder.of(
              asked,
              (one, others) ->
                  Arrays.stream(others).mapToDouble(j -> likes[one + 1][j + 1]).toArray());
      assertThat(order).doesNotHaveDuplicates().hasSize(119);
      plainly += right(plain);
      anew += right(order);
    }
    assertThat(anew).isGreaterThan(plainly + 10);
  }

  @Test
  void fewAreLeftByTheirLikeness() {
    assertThat(
            CarvingOrder.of(
                new double[] {0.1, 0.3, 0.2},
                (one, others) -> {
                  throw new AssertionError("not asked for");
                }))
        .containsExactly(1, 2, 0);
  }
}
