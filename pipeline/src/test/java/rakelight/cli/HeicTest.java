package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;
import rakelight.photo.CardLabel;
import rakelight.photo.Heic;
import rakelight.picture.GrayImage;
import rakelight.picture.Picture;
import rakelight.publish.paper.FieldCards;
import rakelight.samples.Samples;

/** What most telephones take, by the commands. */
class HeicTest {
  @TempDir Path folder;
  private Path archive;
  private Path season;

  @BeforeEach
  void aGround() throws IOException {
    archive = folder.resolve("archive");
    season = Files.createDirectories(folder.resolve("season"));
    assertThat(
            Ran.command("init", archive, "--ground", "T", "--datum", "54,-3", "--zone", "UTC")
                .code())
        .isZero();
  }

  /** A field card, photographed by a telephone held upright. */
  private static byte[] card() throws IOException {
    ByteArrayOutputStream pdf = new ByteArrayOutputStream();
    FieldCards.write(List.of(new CardLabel("17", "front")), pdf);
    try (PDDocument document = Loader.loadPDF(pdf.toByteArray())) {
      BufferedImage page = new PDFRenderer(document).renderImageWithDPI(0, 100, ImageType.GRAY);
      int width = page.getWidth();
      byte[] grey = new byte[width * page.getHeight()];
      for (int i = 0; i < grey.length; i++) {
        grey[i] = (byte) page.getRGB(i % width, i / width);
      }
      return new Heic(width, page.getHeight(), grey, 128, 128).turned(3).file();
    }
  }

  private List<JsonNode> photographs() {
    return Ran.command("photographs", archive, "--json").outLines().stream()
        .map(line -> Json.read(line, JsonNode.class))
        .collect(Collectors.toList());
  }

  @Test
  void withoutTheDecoderItIsKeptAndOneLineSaysWhatToDoAndWithItItIsReadAfterAll() throws Exception {
    Path file = Files.write(season.resolve("card.heic"), card());

    String said = ingestWithoutDecoder();

    assertThat(said).contains("1 photograph taken, 1 of them without a picture to read");
    assertThat(said.lines().filter(line -> line.startsWith(file.toString())))
        .singleElement()
        .asString()
        .contains("kept, but can't be read here", "ffmpeg-", "beside rakelight.jar");
    assertThat(photographs().get(0).path("picture").asText()).isEqualTo("itself");
    assertThat(photographs().get(0).path("orientation").asInt()).isEqualTo(6);

    Ran again = Ran.command("ingest", archive, season);

    assertThat(again.out()).contains("1 there already", "1 field card found");
    assertThat(photographs().get(0).path("card").path("markerNumber").asText()).isEqualTo("17");
  }

  private String ingestWithoutDecoder() throws IOException, InterruptedException {
    String classPath =
        Arrays.stream(System.getProperty("java.class.path").split(File.pathSeparator))
            .filter(path -> !Path.of(path).getFileName().toString().startsWith("ffmpeg-"))
            .collect(Collectors.joining(File.pathSeparator));
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                classPath,
                Rakelight.class.getName(),
                "ingest",
                archive.toString(),
                season.toString())
            .redirectErrorStream(true)
            .start();
    String said = new String(process.getInputStream().readAllBytes(), "UTF-8");
    assertThat(process.waitFor()).as(said).isZero();
    return said;
  }

  @Test
  void whatItsStoneSaysIsReadAsFromTheSamePictureWithoutLoss() throws Exception {
    GrayImage stone = Picture.upright(Samples.bytes("M21-E.jpg"), 1);
    byte[] heic = new Heic(stone.widthPx(), stone.heightPx(), stone.pixels(), 128, 128).file();
    Files.write(Files.createDirectories(season.resolve("1")).resolve("a.heic"), heic);
    Files.write(Files.createDirectories(season.resolve("2")).resolve("b.png"), Picture.png(stone));
    assertThat(Ran.command("ingest", archive, season).code()).isZero();
    assertThat(Ran.command("propose", archive, "--workers", 1).code()).isZero();

    List<List<String>> texts =
        Ran.command("proposals", archive, "--json").outLines().stream()
            .map(line -> Json.read(line, JsonNode.class).path("lines").findValuesAsText("text"))
            .toList();

    assertThat(Ran.command("proposals", archive, "--marker", "2", "--json").outLines())
        .singleElement()
        .satisfies(line -> assertThat(line).contains("b.png").doesNotContain("a.heic"));
    assertThat(Ran.command("proposals", archive, "--marker", "3").err())
        .contains("There is no marker 3 here");
    assertThat(texts).hasSize(2);
    assertThat(texts.get(0)).hasSize(4).isEqualTo(texts.get(1));
  }

  @Test
  void cutShortItIsKeptWithTheTilesThatItHas() throws Exception {
    byte[] grey = new byte[96 * 64];
    Arrays.fill(grey, (byte) 100);
    byte[] whole = new Heic(96, 64, grey, 128, 128).file();
    Files.write(season.resolve("a.heic"), Arrays.copyOf(whole, whole.length - 1600));
    Files.write(season.resolve("b.heic"), Arrays.copyOf(whole, 900));

    Ran ran = Ran.command("ingest", archive, season);

    assertThat(ran.code()).isEqualTo(1);
    assertThat(photographs().get(0).path("damage").asText())
        .isEqualTo("its end is missing (67 per cent of the picture are shown)");
    assertThat(photographs().get(1).path("refused").asText()).isEqualTo("truncated");
  }
}
