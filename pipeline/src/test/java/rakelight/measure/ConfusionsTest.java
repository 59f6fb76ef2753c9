package rakelight.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static rakelight.measure.JudgedTest.line;

import java.util.Map;
import org.junit.jupiter.api.Test;
import rakelight.reading.LineLattice;

class ConfusionsTest {
  private final Confusions confusions = new Confusions();

  private void add(String legibility, String truth, LineLattice read) {
    Judged.of(truth, read).forEach(judged -> confusions.add(legibility, judged));
  }

  /**
   * 3 where 8 stands: .9 and .6 of two places, the likeliest at both. B where R stands: .25 of one,
   * the likeliest nowhere.
   */
  @Test
  void aPlaceCountsForAllThatItsSlotHoldsPossible() {
    add("worn", "8R", line(Map.of("3", .9, "8", .1), Map.of("R", .75, "B", .25)));
    add("worn", "8R", line(Map.of("3", .6, "8", .4), Map.of("R", 1.0)));
    add("poor", "8", line(Map.of("8", 1.0)));

    assertThat(confusions.table())
        .isEqualTo(
            """
            legibility\ttruth\tread\tlikeliest\todds
            poor\t8\t8\t1\t1.000
            worn\t8\t3\t2\t1.500
            worn\t8\t8\t0\t0.500
            worn\tR\tB\t0\t0.250
            worn\tR\tR\t2\t1.750
            """);
  }

  /** The overlooked R is .3 of its slot; the S read after the end is none. */
  @Test
  void nothingIsTakenForALetterAndALetterForNothing() {
    add("worn", "AR", line(Map.of("A", 1.0), Map.of("", .7, "R", .3), Map.of("", .8, "S", .2)));

    assertThat(confusions.table())
        .isEqualTo(
            """
            legibility\ttruth\tread\tlikeliest\todds
            worn\tnothing\tS\t0\t0.200
            worn\tA\tA\t1\t1.000
            worn\tR\tnothing\t1\t0.700
            worn\tR\tR\t0\t0.300
            """);
  }

  @Test
  void aSmallLetterIsCountedApartFromItsCapital() {
    add("worn", "e E", line(Map.of("c", .5, "e", .5), Map.of(" ", 1.0), Map.of("F", .5, "E", .5)));

    assertThat(confusions.table())
        .isEqualTo(
            """
            legibility\ttruth\tread\tlikeliest\todds
            worn\tspace\tspace\t1\t1.000
            worn\tE\tE\t1\t0.500
            worn\tE\tF\t0\t0.500
            worn\tE\tc\t1\t0.500
            worn\tE\te\t0\t0.500
            """);
  }
}
