package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class AssignmentTest {

  // Totals and columns as SciPy 1.10.1 linear_sum_assignment gives them.
  @Test
  void knownTablesAreAssignedAsTheReferenceLibraryDoes() {
    assertThat(Assignment.columns(new double[][] {{4, 1, 3}, {2, 0, 5}, {3, 2, 2}}))
        .containsExactly(1, 0, 2);
    assertThat(
            Assignment.columns(
                new double[][] {
                  {82, 83, 69, 92}, {77, 37, 49, 92}, {11, 69, 5, 86}, {8, 9, 98, 23}
                }))
        .containsExactly(2, 1, 0, 3);
    assertThat(
            Assignment.columns(new double[][] {{250, 400, 350}, {400, 600, 350}, {200, 400, 250}}))
        .containsExactly(1, 2, 0);
    assertThat(Assignment.columns(new double[][] {{10, 10, 8}, {9, 8, 1}, {9, 7, 4}}))
        .containsExactly(0, 2, 1);
  }

  @Property(tries = 300)
  void noOrderIsCheaper(@ForAll @Size(16) int @IntRange(max = 99) [] values) {
    double[][] cost = new double[4][4];
    for (int i = 0; i < 16; i++) {
      cost[i / 4][i % 4] = values[i];
    }
    int[] columns = Assignment.columns(cost);
    assertThat(Arrays.stream(columns).sorted()).containsExactly(0, 1, 2, 3);
    double total = 0;
    for (int row = 0; row < 4; row++) {
      total += cost[row][columns[row]];
    }
    assertThat(total).isEqualTo(cheapest(cost, 0, 0));
  }

  @Test
  void moreRowsThanColumnsAreRefused() {
    assertThatThrownBy(() -> Assignment.columns(new double[][] {{1}, {2}}))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("more rows (2) than columns (1)");
  }

  private static double cheapest(double[][] cost, int row, int taken) {
    if (row == cost.length) {
      return 0;
    }
    double best = Double.POSITIVE_INFINITY;
    for (int column = 0; column < cost.length; column++) {
      if ((taken & (1 << column)) == 0) {
        best = Math.min(best, cost[row][column] + cheapest(cost, row + 1, taken | (1 << column)));
      }
    }
    return best;
  }
}
