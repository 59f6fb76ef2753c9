package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.picture.Picture;
import rakelight.publish.paper.FieldCards;

class FieldCardsTest {
  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource({"17, front", "A-12, back", "Gräberfeld 3/9, Süd; unten", "百, ?"})
  void theCodeSaysNumberAndFaceInAnyLetters(String number, String face) {
    CardLabel label = new CardLabel(number, face);

    assertThat(CardText.read(CardText.of(label))).contains(label);
    assertThatCode(() -> FieldCards.write(List.of(label), new ByteArrayOutputStream()))
        .doesNotThrowAnyException();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"https://example.org/17", "rakelight-card/2;17;front", "rakelight-card/1;;"})
  void anotherCodeIsNoCard(String text) {
    assertThat(CardText.read(text)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4})
  void aPrintedCardIsFoundInAPhotographTakenAskewInPoorLight(int seed) throws IOException {
    CardLabel label = new CardLabel("B-" + seed, "back");

    assertThat(CardLook.find(grey(photographed(print(label), seed)))).contains(label);
  }

  @Test
  void aPhotographOfAStoneShowsNoCard() {
    assertThat(CardLook.find(grey(Shots.noise(1600, 1200, 1)))).isEmpty();
  }

  @Test
  void aCardPhotographedFirstTakesTheNextShotsToItsFace() throws IOException {
    Path shots = Files.createDirectories(folder.resolve("shots"));
    BufferedImage card = photographed(print(new CardLabel("17", "front")), 1);
    write(shots.resolve("1.jpg"), card, "10:00:00");
    write(shots.resolve("2.jpg"), Shots.noise(400, 300, 2), "10:00:20");
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    try (Archive archive =
        Archive.init(
            folder.resolve("archive"),
            ground,
            List.of(MarkerStore.projection(), PhotoStore.projection()))) {
      new Ingest(archive, Credits.NONE, "Ada", new NoListener()).run(List.of(shots), Set.of());
      PhotoStore store = new PhotoStore(archive);
      CardSearch search =
          new CardSearch(archive, Picture::reduced, shot -> shot.isShown(Picture::isRead), "Ada");

      assertThat(search.run(search.candidates(), done -> {})).isEqualTo(1);
      assertThat(new Grouping(archive, "Ada", line -> {}).byCards().assigned()).isEqualTo(1);

      assertThat(store.photographs().get(0).card()).contains(new CardLabel("17", "front"));
      Face face = store.face(store.photographs().get(1).face().orElseThrow()).orElseThrow();
      assertThat(new MarkerStore(archive).marker(face.marker())).map(Marker::number).contains("17");
      assertThat(search.candidates()).isEmpty();
    }
  }

  private static SmallPictures.Grey grey(BufferedImage picture) {
    int width = picture.getWidth();
    int height = picture.getHeight();
    byte[] pixels = new byte[width * height];
    for (int i = 0; i < pixels.length; i++) {
      pixels[i] = (byte) picture.getRGB(i % width, i / width);
    }
    return new SmallPictures.Grey(width, height, pixels);
  }

  private static void write(Path file, BufferedImage picture, String time) throws IOException {
    TiffBuilder exif = new TiffBuilder(ByteOrder.BIG_ENDIAN);
    exif.chained().directories(0x8769, exif.loose().text(0x9003, "2024:05:01 " + time));
    Files.write(file, Shots.withExif(Shots.encoded(picture, "jpeg"), exif.build()));
  }

  private static BufferedImage print(CardLabel label) throws IOException {
    ByteArrayOutputStream pdf = new ByteArrayOutputStream();
    FieldCards.write(List.of(label), pdf);
    try (PDDocument document = Loader.loadPDF(pdf.toByteArray())) {
      return new PDFRenderer(document).renderImageWithDPI(0, 100);
    }
  }

  /** The card about a third as wide as the frame, seen askew, half in shade, blurred, noisy. */
  private static BufferedImage photographed(BufferedImage card, long seed) {
    Random random = new Random(seed);
    int width = 1600;
    int height = 1200;
    double left = 450 + random.nextInt(300);
    double top = 100 + random.nextInt(100);
    double[][] corners = {
      {left, top},
      {left + 500 + random.nextInt(75), top + random.nextInt(75)},
      {left + 475 + random.nextInt(75), top + 725 + random.nextInt(75)},
      {left - random.nextInt(75), top + 700 + random.nextInt(75)}
    };
    double[] toCard = inverse(squareTo(corners));
    BufferedImage photograph = new BufferedImage(width, height, BufferedImage.TYPE_3BYTE_BGR);
    double shadeEdge = left + 250;
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        double w = toCard[6] * x + toCard[7] * y + toCard[8];
        double u = (toCard[0] * x + toCard[1] * y + toCard[2]) / w;
        double v = (toCard[3] * x + toCard[4] * y + toCard[5]) / w;
        double value = 0.4;
        if (u >= 0 && u < 1 && v >= 0 && v < 1) {
          value = mean(card, u, v);
        }
        double light = x < shadeEdge ? 0.45 : 0.95;
        int grey =
            (int) Math.max(0, Math.min(255, 255 * value * light + 10 * random.nextGaussian()));
        photograph.setRGB(x, y, grey << 16 | grey << 8 | grey);
      }
    }
    return photograph;
  }

  private static double mean(BufferedImage card, double u, double v) {
    double sum = 0;
    int count = 0;
    for (int dy = -1; dy <= 1; dy++) {
      for (int dx = -1; dx <= 1; dx++) {
        int x = (int) (u * card.getWidth()) + dx;
        int y = (int) (v * card.getHeight()) + dy;
        if (x >= 0 && y >= 0 && x < card.getWidth() && y < card.getHeight()) {
          sum += (card.getRGB(x, y) & 0xFF) / 255.0;
          count++;
        }
      }
    }
    return sum / count;
  }

  /** The homography that takes the unit square to four corners, in closed form (from memory). */
  private static double[] squareTo(double[][] c) {
    double sx = c[0][0] - c[1][0] + c[2][0] - c[3][0];
    double sy = c[0][1] - c[1][1] + c[2][1] - c[3][1];
    double dx1 = c[1][0] - c[2][0];
    double dx2 = c[3][0] - c[2][0];
    double dy1 = c[1][1] - c[2][1];
    double dy2 = c[3][1] - c[2][1];
    double det = dx1 * dy2 - dx2 * dy1;
    double g = (sx * dy2 - dx2 * sy) / det;
    double h = (dx1 * sy - sx * dy1) / det;
    return new double[] {
      c[1][0] - c[0][0] + g * c[1][0],
      c[3][0] - c[0][0] + h * c[3][0],
      c[0][0],
      c[1][1] - c[0][1] + g * c[1][1],
      c[3][1] - c[0][1] + h * c[3][1],
      c[0][1],
      g,
      h,
      1
    };
  }

  private static double[] inverse(double[] m) {
    return new double[] {
      m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
      m[5] * m[6] - m[3] * m[8], m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
      m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3]
    };
  }

  @Test
  void aCardWithoutANumberCannotBeMade() {
    assertThatThrownBy(() -> new CardLabel(" ", "front"))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** An aperture stop is a factor of two. */
  @Test
  void theGreysOfACardAreAStopApart() {
    for (int i = 1; i < FieldCards.REFLECTANCES.size(); i++) {
      assertThat(FieldCards.REFLECTANCES.get(i) / FieldCards.REFLECTANCES.get(i - 1))
          .isCloseTo(2, withinPercentage(3));
    }
    assertThat(FieldCards.REFLECTANCES).hasSize(5).endsWith(0.90);
  }
}
