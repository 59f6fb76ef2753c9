package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class WalkingOrderTest {
  private static final double[][] BURMA = {
    {16.47, 96.10}, {16.47, 94.44}, {20.09, 92.54}, {22.39, 93.37}, {25.23, 97.24},
    {22.00, 96.05}, {20.47, 97.02}, {17.20, 96.29}, {16.30, 97.38}, {14.05, 98.12},
    {16.53, 97.38}, {21.52, 95.59}, {19.41, 97.13}, {20.09, 94.55}
  };
  private static final double[][] ULYSSES = {
    {38.24, 20.42}, {39.57, 26.15}, {40.56, 25.32}, {36.26, 23.12}, {33.48, 10.54},
    {37.56, 12.19}, {38.42, 13.11}, {37.52, 20.44}, {41.23, 9.10}, {41.17, 13.05},
    {36.08, -5.21}, {38.47, 15.13}, {38.15, 15.35}, {37.51, 15.17}, {35.49, 14.32},
    {39.36, 19.56}
  };

  /** The published optima of TSPLIB (G. Reinelt, ORSA J. Comput. 3:376-384, 1991), type GEO. */
  @Test
  void publishedRoundsAreAsShortAsTheyCanBe() {
    double[][] burma = geo(BURMA);
    double[][] ulysses = geo(ULYSSES);
    assertThat(WalkingOrder.length(burma, WalkingOrder.of(burma, true), true)).isEqualTo(3323);
    assertThat(WalkingOrder.length(ulysses, WalkingOrder.of(ulysses, true), true)).isEqualTo(6859);
    assertThat(
            WalkingOrder.length(burma, tour(1, 10, 9, 11, 8, 13, 7, 12, 6, 5, 4, 3, 14, 2), true))
        .isEqualTo(3323);
    assertThat(
            WalkingOrder.length(
                ulysses, tour(1, 14, 13, 12, 7, 6, 15, 5, 11, 9, 10, 16, 3, 2, 4, 8), true))
        .isEqualTo(6859);
  }

  private static int[] tour(int... numbers) {
    return IntStream.of(numbers).map(number -> number - 1).toArray();
  }

  private static double[][] geo(double[][] places) {
    double[][] km = new double[places.length][places.length];
    for (int i = 0; i < places.length; i++) {
      for (int j = 0; j < places.length; j++) {
        if (i != j) {
          double q1 = Math.cos(radians(places[i][1]) - radians(places[j][1]));
          double q2 = Math.cos(radians(places[i][0]) - radians(places[j][0]));
          double q3 = Math.cos(radians(places[i][0]) + radians(places[j][0]));
          km[i][j] = (int) (6378.388 * Math.acos(0.5 * ((1 + q1) * q2 - (1 - q1) * q3)) + 1);
        }
      }
    }
    return km;
  }

  /** Degrees and minutes, as TSPLIB writes them. */
  private static double radians(double written) {
    int degrees = (int) written;
    return 3.141592 * (degrees + 5 * (written - degrees) / 3) / 180;
  }

  @Property(tries = 40)
  void aShortWalkIsTheShortestOfAllOrders(@ForAll long seed, @ForAll boolean back) {
    double[][] metres = places(new Random(seed), 7);
    int[] order = WalkingOrder.of(metres, back);
    assertThat(order[0]).isZero();
    assertThat(IntStream.of(order).sorted().toArray()).isEqualTo(IntStream.range(0, 7).toArray());
    assertThat(WalkingOrder.length(metres, order, back))
        .isCloseTo(shortest(metres, new int[] {0}, back), within(1e-9));
  }

  private static double shortest(double[][] metres, int[] begun, boolean back) {
    if (begun.length == metres.length) {
      return WalkingOrder.length(metres, begun, back);
    }
    return IntStream.range(0, metres.length)
        .filter(place -> IntStream.of(begun).noneMatch(seen -> seen == place))
        .mapToDouble(
            place ->
                shortest(
                    metres,
                    IntStream.concat(IntStream.of(begun), IntStream.of(place)).toArray(),
                    back))
        .min()
        .orElseThrow();
  }

  // Beyond the exact ones.
  @Property(tries = 5)
  void aLongWalkVisitsEachOnceAndIsNoLongerThanGoingToTheNearest(
      @ForAll long seed, @ForAll boolean back, @ForAll @IntRange(min = 17, max = 60) int count) {
    double[][] metres = places(new Random(seed), count);
    int[] order = WalkingOrder.of(metres, back);
    assertThat(order[0]).isZero();
    assertThat(IntStream.of(order).sorted().toArray())
        .isEqualTo(IntStream.range(0, count).toArray());
    assertThat(WalkingOrder.length(metres, order, back))
        .isLessThanOrEqualTo(WalkingOrder.length(metres, nearest(metres), back) + 1e-9);
  }

  private static int[] nearest(double[][] metres) {
    int[] order = new int[metres.length];
    boolean[] seen = new boolean[metres.length];
    seen[0] = true;
    for (int at = 1; at < order.length; at++) {
      int here = order[at - 1];
      order[at] =
          IntStream.range(0, metres.length)
              .filter(place -> !seen[place])
              .boxed()
              .min((a, b) -> Double.compare(metres[here][a], metres[here][b]))
              .orElseThrow();
      seen[order[at]] = true;
    }
    return order;
  }

  private static double[][] places(Random random, int count) {
    double[][] at = new double[count][];
    for (int i = 0; i < count; i++) {
      at[i] = new double[] {100 * random.nextDouble(), 100 * random.nextDouble()};
    }
    double[][] metres = new double[count][count];
    for (int i = 0; i < count; i++) {
      for (int j = 0; j < count; j++) {
        metres[i][j] = Math.hypot(at[i][0] - at[j][0], at[i][1] - at[j][1]);
      }
    }
    return metres;
  }
}
