package rakelight.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.samples.Season;

class OffersTest {
  @TempDir Path folder;

  @Test
  void aSmallSeasonIsPlacedByWholePagesAndNothingIsWrongInTheEnd() throws Exception {
    SeasonPlaced.Result result = SeasonPlaced.of(folder, new Season(9, 60, 320));

    assertThat(result.placedByCards()).isEqualTo(8);
    assertThat(result.unseen()).isZero();
    assertThat(result.waiting()).isZero();
    assertThat(result.sureWrong()).isZero();
    // Nine shots of the camera without cards or table, and a copy; each by hand otherwise.
    assertThat(result.byHand()).isBetween(9, 10);
    assertThat(result.acts()).isLessThan(result.byHand());
  }
}
