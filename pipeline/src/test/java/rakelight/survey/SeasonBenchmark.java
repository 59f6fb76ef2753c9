package rakelight.survey;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.samples.Season;

/** What a whole season takes of a person. {@code -Dseason.folder} keeps the photographs. */
class SeasonBenchmark {
  @TempDir Path scratch;

  @Test
  void fromTheFolderToEveryPhotographPlaced() throws IOException {
    System.out.println(
        SeasonPlaced.of(
            Path.of(System.getProperty("season.folder", scratch.toString())),
            new Season(
                Integer.getInteger("season.markers", 90),
                Long.getLong("season.seed", 95_000),
                Integer.getInteger("season.width", 480))));
  }
}
