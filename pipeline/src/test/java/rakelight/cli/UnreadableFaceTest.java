package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
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
    photograph("3", outOfFocus(stone, 16));
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

  private static GrayImage outOfFocus(GrayImage picture, double deviationPx) {
    try (NativeScope scope = new NativeScope()) {
      Mat soft = scope.mat();
      Imgproc.GaussianBlur(picture.in(scope), soft, new Size(0, 0), deviationPx);
      return GrayImage.of(soft);
    }
  }
}
