package rakelight.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Optional;
import java.util.Random;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rakelight.photo.CodedPicture;
import rakelight.photo.Heic;
import rakelight.photo.SmallPictures;
import rakelight.photo.UnfitFileException;

class CodedPicturesTest {
  private static final int WIDTH = 90;
  private static final int HEIGHT = 60;

  @AfterAll
  static void everyHandleIsClosed() {
    assertThat(NativeScope.live()).isZero();
  }

  /** A value for each place, so that no two tiles are alike and none is so when turned. */
  private static byte[] luminance() {
    byte[] luminance = new byte[WIDTH * HEIGHT];
    for (int i = 0; i < luminance.length; i++) {
      luminance[i] = (byte) (i % WIDTH * 2 + i / WIDTH);
    }
    return luminance;
  }

  private static Heic heic() {
    return new Heic(WIDTH, HEIGHT, luminance(), 128, 128);
  }

  private static int tileAt(byte[] file, int tile) throws Exception {
    CodedPicture picture = CodedPicture.of(ByteBuffer.wrap(file)).orElseThrow();
    return (int) picture.tiles().get(tile).parts().get(0).offsetBytes();
  }

  private static GrayImage upright(byte[] file) throws Exception {
    CodedPicture picture = CodedPicture.of(ByteBuffer.wrap(file)).orElseThrow();
    return Picture.upright(file, picture.orientation());
  }

  @Test
  void theTilesOfATelephonesHeicAreLaidSideBySide() throws Exception {
    GrayImage picture = upright(heic().file());

    assertThat(picture.widthPx()).isEqualTo(WIDTH);
    assertThat(picture.pixels()).isEqualTo(luminance());
  }

  // Turns are quarters to the left; mirroring 0 exchanges top and bottom, 1 left and right (ISO/IEC
  // 23008-12:2022 sections 6.5.10 and 6.5.12); they apply in their order. Three quarters to the
  // left
  // is what a telephone held upright says, with Exif orientation 6.
  @ParameterizedTest
  @CsvSource({
    "0, -1, 1",
    "1, -1, 8",
    "2, -1, 3",
    "3, -1, 6",
    "0, 0, 4",
    "0, 1, 2",
    "1, 0, 5",
    "1, 1, 7",
    "2, 0, 2",
    "2, 1, 4",
    "3, 0, 7",
    "3, 1, 5"
  })
  void itIsTurnedAndMirroredAsItsOwnFormatAsks(int quarters, int axis, int orientation)
      throws Exception {
    Heic heic = heic().turned(quarters);
    GrayImage expected = new GrayImage(WIDTH, HEIGHT, luminance());
    for (int i = 0; i < quarters; i++) {
      expected = turnedLeft(expected);
    }
    if (axis >= 0) {
      heic.mirrored(axis);
      expected = mirrored(expected, axis == 1);
    }

    byte[] file = heic.file();

    assertThat(CodedPicture.of(ByteBuffer.wrap(file)).orElseThrow().orientation())
        .isEqualTo(orientation);
    assertThat(upright(file).pixels()).isEqualTo(expected.pixels());
  }

  private static GrayImage turnedLeft(GrayImage image) {
    byte[] pixels = new byte[image.widthPx() * image.heightPx()];
    for (int y = 0; y < image.widthPx(); y++) {
      for (int x = 0; x < image.heightPx(); x++) {
        pixels[y * image.heightPx() + x] = (byte) image.at(image.widthPx() - 1 - y, x);
      }
    }
    return new GrayImage(image.heightPx(), image.widthPx(), pixels);
  }

  private static GrayImage mirrored(GrayImage image, boolean leftAndRight) {
    int width = image.widthPx();
    int height = image.heightPx();
    byte[] pixels = new byte[width * height];
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        pixels[y * width + x] =
            (byte) (leftAndRight ? image.at(width - 1 - x, y) : image.at(x, height - 1 - y));
      }
    }
    return new GrayImage(width, height, pixels);
  }

  // ITU-T H.273, matrix 6 (BT.601), full range: Y 100, Cb 98, Cr 178 are R 170, G 75, B 47.
  @Test
  void itsColoursAreThoseThatItsSamplesMean() throws Exception {
    byte[] grey = new byte[64 * 64];
    Arrays.fill(grey, (byte) 100);

    byte[] jpeg = Picture.smaller(new Heic(64, 64, grey, 98, 178).file(), 1, 32);

    int rgb = ImageIO.read(new ByteArrayInputStream(jpeg)).getRGB(16, 16);
    assertThat(rgb >> 16 & 255).isCloseTo(170, within(3));
    assertThat(rgb >> 8 & 255).isCloseTo(75, within(3));
    assertThat(rgb & 255).isCloseTo(47, within(3));
  }

  @Test
  void aSmallerCopyIsOfTheWholePicture() throws Exception {
    SmallPictures.Grey small = Picture.reduced(heic().file(), 40);

    assertThat(small.widthPx()).isEqualTo(45);
    assertThat(small.pixels()[0] & 0xFF).isCloseTo(2, within(1)); // Of 0, 2, 1 and 3.
  }

  @Test
  void ofAFileCutShortTheTilesThatAreThereAreShown() throws Exception {
    byte[] whole = heic().file();
    GrayImage picture = upright(Arrays.copyOf(whole, whole.length - 100));

    assertThat(picture.at(0, 0)).isZero();
    assertThat(picture.at(63, 40)).isEqualTo(63 * 2 + 40);
    assertThat(picture.at(70, 40)).isEqualTo(128); // The last tile is grey.
  }

  @Test
  void aTileThatIsRottenTakesNoOtherWithIt() throws Exception {
    byte[] rotten = heic().file();
    int last = tileAt(rotten, 5);
    Arrays.fill(rotten, last, last + 40, (byte) 0);

    assertThat(upright(rotten).at(63, 40)).isEqualTo(63 * 2 + 40);
  }

  @Test
  void aPictureOfWhichNothingCanBeDecodedIsRefused() throws Exception {
    byte[] rotten = heic().file();
    Arrays.fill(rotten, tileAt(rotten, 0), rotten.length, (byte) 0);

    assertThatThrownBy(() -> upright(rotten))
        .isInstanceOf(PictureException.class)
        .hasMessageContaining("tiles can be decoded");
  }

  /** Whatever is changed in the boxes, there is a picture or a plain refusal. */
  @Test
  void noByteOfItsDescriptionMakesItFailOtherwise() throws Exception {
    byte[] whole = heic().turned(3).file();
    int data = tileAt(whole, 0);
    Random random = new Random(7);
    for (int i = 0; i < 3000; i++) {
      byte[] changed = whole.clone();
      for (int j = 0; j < 3; j++) {
        changed[random.nextInt(data)] = (byte) random.nextInt(256);
      }
      try {
        Optional<CodedPicture> picture = CodedPicture.of(ByteBuffer.wrap(changed));
        if (picture.isPresent() && i % 20 == 0) {
          Picture.upright(changed, 1);
        }
      } catch (UnfitFileException | PictureException e) {
        assertThat(e).hasMessageNotContaining("null");
      }
    }
  }
}
