package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import java.util.stream.Collectors;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;
import rakelight.picture.GrayImage;
import rakelight.picture.Picture;

/** A photograph that lacks its end may be the only record of a stone that has fallen since. */
class KeptThoughDamagedTest {
  private static final int WIDTH_PX = 640;
  private static final int HEIGHT_PX = 480;

  @TempDir Path folder;
  private Path archive;

  @BeforeEach
  void aGround() {
    archive = folder.resolve("archive");
    assertThat(
            Ran.command(
                    "init",
                    archive,
                    "--ground",
                    "Thornbeck",
                    "--datum",
                    "54.1,-3.2",
                    "--zone",
                    "UTC")
                .code())
        .isZero();
  }

  private static byte[] jpeg(boolean progressive) throws IOException {
    BufferedImage image = new BufferedImage(WIDTH_PX, HEIGHT_PX, BufferedImage.TYPE_INT_RGB);
    Random random = new Random(7);
    for (int y = 0; y < HEIGHT_PX; y++) {
      for (int x = 0; x < WIDTH_PX; x++) {
        image.setRGB(x, y, 0x010101 * (80 + random.nextInt(100)));
      }
    }
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ImageOutputStream to = ImageIO.createImageOutputStream(out)) {
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setProgressiveMode(
          progressive ? ImageWriteParam.MODE_DEFAULT : ImageWriteParam.MODE_DISABLED);
      writer.setOutput(to);
      writer.write(null, new IIOImage(image, null, null), param);
    } finally {
      writer.dispose();
    }
    return out.toByteArray();
  }

  private Ran ingest(byte[] bytes) throws IOException {
    Path season = folder.resolve("season");
    Files.createDirectories(season.resolve("12"));
    Files.write(season.resolve("12/a.jpg"), bytes);
    return Ran.command("ingest", archive, season, "--reader", "Ada");
  }

  private JsonNode photograph() {
    return Ran.command("photographs", archive, "--json").outLines().stream()
        .map(line -> Json.read(line, JsonNode.class))
        .collect(Collectors.toList())
        .get(0);
  }

  @Test
  void withoutItsLastTwoBytesItIsKeptWholeAndMarked() throws Exception {
    byte[] whole = jpeg(false);
    Ran ran = ingest(Arrays.copyOf(whole, whole.length - 2));
    assertThat(ran.code()).isZero();
    assertThat(ran.err()).contains("kept, though its end is missing (all of the picture is shown)");
    assertThat(photograph().path("damage").asText()).contains("its end is missing");
    assertThat(Ran.command("photographs", archive).out()).contains("damaged: its end is missing");
    assertThat(Ran.command("check", archive).code()).isZero();
  }

  @Test
  void cutInHalfItIsKeptAndShownAsFarAsItGoes() throws Exception {
    byte[] whole = jpeg(false);
    byte[] half = Arrays.copyOf(whole, whole.length / 2);
    assertThat(ingest(half).code()).isZero();
    String damage = photograph().path("damage").asText();
    assertThat(damage)
        .matches("its end is missing \\((4[5-9]|50) per cent of the picture are shown\\)");
    GrayImage shown = Picture.upright(half, 1);
    assertThat(shown.widthPx()).isEqualTo(WIDTH_PX);
    assertThat(Picture.smaller(half, 1, 320)).isNotEmpty();
  }

  @Test
  void aPictureCodedInPassesIsKeptTooThoughItIsCoarse() throws Exception {
    byte[] whole = jpeg(true);
    assertThat(ingest(Arrays.copyOf(whole, whole.length / 2)).code()).isZero();
    assertThat(photograph().path("damage").asText()).contains("its end is missing");
  }

  @Test
  void whatShowsNothingIsRefusedAsEver() throws Exception {
    byte[] whole = jpeg(false);
    for (int length : new int[] {100, 640}) {
      assertThat(ingest(Arrays.copyOf(whole, length)).code()).as("%d bytes", length).isEqualTo(1);
      assertThat(photograph().path("refused").asText()).isEqualTo("truncated");
    }
  }
}
