package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.finding.GrayImage;
import rakelight.finding.Picture;
import rakelight.samples.Samples;

/** A face on which nothing can be read, by the commands. */
class UnreadableFaceTest {
  private static final String STONE = "M21-E.jpg";

  @TempDir Path folder;

  @Test
  void aFaceWithNothingReadableSaysSoAndIsFirstOfThoseToVisit() throws Exception {
    GrayImage stone = Picture.upright(Samples.bytes(STONE), 1);
    photograph("1", stone);
    photograph("2", grain(700, 900));
    photograph("3", blurred(stone, 24));
    Path archive = folder.resolve("archive");
    Ran.command("init", archive, "--ground", "T", "--datum", "54,-3", "--zone", "UTC");
    Ran.command("ingest", archive, folder.resolve("photographs"));
    assertThat(Ran.command("propose", archive, "--workers", 1).code()).isZero();

    List<String> visits = Ran.command("proposals", archive, "--visits").outLines();
    List<String> shown = Ran.command("proposals", archive).outLines();

    assertThat(visits.subList(0, 2))
        .containsExactlyInAnyOrder(
            "marker 2, face front: nothing readable", "marker 3, face front: nothing readable");
    assertThat(visits)
        .noneMatch(visit -> visit.startsWith("marker 1") && visit.endsWith("readable"));
    for (int marker : new int[] {2, 3}) {
      int at = shown.indexOf("marker " + marker + ", face front");
      assertThat(shown.subList(at + 1, at + 3))
          .containsExactly("    nothing readable; it needs a visit in other light", "");
    }
  }

  private void photograph(String marker, GrayImage picture) throws Exception {
    Path file = folder.resolve("photographs").resolve(marker).resolve("stone.jpg");
    Files.createDirectories(file.getParent());
    Files.write(file, Picture.jpeg(picture, 90));
  }

  /** Bare stone. */
  private static GrayImage grain(int width, int height) {
    Random random = new Random(1);
    byte[] pixels = new byte[width * height];
    for (int i = 0; i < pixels.length; i++) {
      pixels[i] = (byte) Math.max(0, Math.min(255, 130 + 12 * random.nextGaussian()));
    }
    return new GrayImage(width, height, pixels);
  }

  /** Each pixel the mean of its block: letters have lines still, and no shape. */
  private static GrayImage blurred(GrayImage picture, int block) {
    int width = picture.widthPx();
    int height = picture.heightPx();
    byte[] pixels = new byte[width * height];
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        int sum = 0;
        for (int dy = 0; dy < block; dy += 3) {
          for (int dx = 0; dx < block; dx += 3) {
            sum +=
                picture.at(
                    Math.min(width - 1, x / block * block + dx),
                    Math.min(height - 1, y / block * block + dy));
          }
        }
        pixels[y * width + x] = (byte) (sum / 64);
      }
    }
    return new GrayImage(width, height, pixels);
  }
}
