package rakelight.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.finding.LineStrip;

class PictureTest {
  @AfterAll
  static void everyHandleIsClosed() {
    assertThat(NativeScope.live()).isZero();
  }

  /** Three wide, two high: 10 20 30 over 40 50 60. */
  private static GrayImage small() {
    return new GrayImage(3, 2, new byte[] {10, 20, 30, 40, 50, 60});
  }

  // What the camera stored as row and column of the picture's top left corner, for each value of
  // Orientation: Exif 2.32 (CIPA DC-008-2019), tag 0x0112, from memory.
  @ParameterizedTest
  @CsvSource({
    "1, 3, 10",
    "2, 3, 30",
    "3, 3, 60",
    "4, 3, 40",
    "5, 2, 10",
    "6, 2, 40",
    "7, 2, 60",
    "8, 2, 30"
  })
  void aPictureIsTurnedAsItsOrientationAsks(int orientation, int width, int topLeft)
      throws Exception {
    GrayImage upright = Picture.upright(Picture.png(small()), orientation);

    assertThat(upright.widthPx()).isEqualTo(width);
    assertThat(upright.at(0, 0)).isEqualTo(topLeft);
  }

  @Test
  void aPathWithSpacesAndAccentsIsNoHindrance(@TempDir Path folder) throws Exception {
    Path file = folder.resolve("Grab st\u00e4tte 1.png");
    Files.write(file, Picture.png(small()));

    assertThat(Picture.upright(Files.readAllBytes(file), 1).at(2, 1)).isEqualTo(60);
  }

  @Test
  void textIsRefusedInPlainWords() {
    assertThatThrownBy(() -> Picture.upright("not a picture".getBytes(StandardCharsets.UTF_8), 1))
        .isInstanceOf(PictureException.class)
        .hasMessageContaining("not a picture that can be decoded");
  }

  @Test
  void aPictureOfTwentyFiveThousandPixelsASideIsRefusedBeforeItIsDecoded() {
    // A PNG that ends after its header: signature, then IHDR with 25,000 x 25,000.
    byte[] header = {
      (byte) 0x89,
      'P',
      'N',
      'G',
      13,
      10,
      26,
      10,
      0,
      0,
      0,
      13,
      'I',
      'H',
      'D',
      'R',
      0,
      0,
      0x61,
      (byte) 0xa8,
      0,
      0,
      0x61,
      (byte) 0xa8,
      8,
      0,
      0,
      0,
      0,
      0,
      0,
      0,
      0
    };
    assertThatThrownBy(() -> Picture.upright(header, 1))
        .isInstanceOf(PictureException.class)
        .hasMessageContaining("25000 x 25000");
  }

  @Test
  void aLineCutFromAPictureKeepsItsBrightness() {
    byte[] pixels = new byte[200 * 100];
    java.util.Arrays.fill(pixels, (byte) 120);
    FoundLine line = new FoundLine(Polygon.rectangle(20, 40, 180, 60), 20, 1);

    List<GrayImage> strips =
        LineStrip.cut(new GrayImage(200, 100, pixels), List.of(LaidLine.own(line)), 48, 1.5);

    assertThat(strips.get(0).heightPx()).isEqualTo(48);
    // (160 long + an end margin of half a height on each side) x 48 / (1.5 x 20).
    assertThat(strips.get(0).widthPx()).isEqualTo(288);
    assertThat(strips.get(0).at(144, 24)).isEqualTo(120);
  }
}
