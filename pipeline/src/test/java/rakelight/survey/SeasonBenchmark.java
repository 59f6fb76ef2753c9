package rakelight.survey;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.samples.Season;

/** What a whole season takes of a person; see docs/measurements.md. */
class SeasonBenchmark {
  @TempDir Path folder;

  @Test
  void fromTheFolderToEveryPhotographPlaced() throws IOException {
    System.out.println(
        SeasonPlaced.of(
            folder,
            new Season(
                Integer.getInteger("season.markers", 90),
                Long.getLong("season.seed", 95_000),
                Integer.getInteger("season.width", 480))));
  }
}
