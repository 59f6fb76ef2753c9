package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class InspectionTest {
  @Test
  void aPictureIsKnownByItsContentAndNotByItsName() throws UnfitFileException {
    assertThat(of(Shots.jpeg(1), "a.png"))
        .isEqualTo(new Inspection(FileFormat.JPEG, 64, 48, PictureKind.ITSELF, Optional.empty()));
    assertThat(of(Shots.png(1), "a.jpg").format()).isEqualTo(FileFormat.PNG);
    assertThat(of(Shots.tiff(1), "a").format()).isEqualTo(FileFormat.TIFF);
    assertThat(of(Shots.tiff(1), "a").widthPx()).isEqualTo(64);
    assertThat(of(Shots.webp(), "a"))
        .isEqualTo(new Inspection(FileFormat.WEBP, 1, 1, PictureKind.ITSELF, Optional.empty()));
  }

  @ParameterizedTest
  @CsvSource({
    "jpeg, 0.02",
    "jpeg, 0.3",
    "png, 0.3",
    "png, 0.6",
    "png, 0.999",
    "tiff, 0.3",
    "tiff, 0.9",
    "webp, 0.9",
    "heic, 0.5",
    "heic, 0.99",
    "dng, 0.3",
    "dng, 0.9"
  })
  void aFileThatIsCutShortIsFoundOut(String kind, double share) {
    byte[] whole =
        switch (kind) {
          case "jpeg" -> Shots.jpeg(1);
          case "png" -> Shots.png(1);
          case "tiff" -> Shots.tiff(1);
          case "webp" -> Shots.webp();
          case "heic" -> Shots.heic();
          default -> Shots.dng(Shots.encoded(Shots.noise(640, 480, 1), "jpeg"));
        };

    assertThatThrownBy(() -> of(Shots.cut(whole, share), "a"))
        .isInstanceOf(UnfitFileException.class)
        .hasMessageContaining("cut short");
  }

  @Test
  void aJpegIsWholeThoughSomethingHangsBehindIt() throws UnfitFileException {
    byte[] trailer = "SEFT and other things telephones add".getBytes(StandardCharsets.US_ASCII);

    assertThat(of(Shots.concat(Shots.jpeg(1), trailer), "a").widthPx()).isEqualTo(64);
  }

  @Test
  void aJpegWhoseScanIsFilledUpWithZerosIsDamaged() throws UnfitFileException {
    byte[] half = Shots.cut(Shots.jpeg(1), 0.9);

    assertThat(of(Shots.concat(half, new byte[4096]), "a").damage().orElseThrow())
        .contains("its end is missing");
  }

  @Test
  void aJpegWithAWholeThumbnailInsideIsNotTakenForWhole() {
    byte[] thumbnail = Shots.withExif(Shots.jpeg(1), Shots.jpeg(2));
    int endOfThumbnail = 12 + Shots.jpeg(2).length;

    assertThatThrownBy(() -> of(java.util.Arrays.copyOf(thumbnail, endOfThumbnail), "a"))
        .hasMessageContaining("cut short");
  }

  @Test
  void aPngWithAFlippedBitIsDamaged() {
    byte[] png = Shots.png(1);
    png[png.length / 2] ^= 4;

    assertThatThrownBy(() -> of(png, "a")).hasMessageContaining("check sum");
  }

  @Test
  void aPictureOf300MegapixelsIsRefusedFromItsHeader() {
    assertThatThrownBy(() -> of(Shots.bomb(), "a"))
        .isInstanceOf(UnfitFileException.class)
        .hasMessageContaining("25000 x 12000");
  }

  @Test
  void emptyFilesAndOtherThingsAreNamedAsWhatTheyAre() {
    assertThatThrownBy(() -> of(new byte[0], "a.jpg")).hasMessageContaining("empty");
    assertThatThrownBy(() -> of("Dear Sir,".getBytes(StandardCharsets.UTF_8), "a.jpg"))
        .hasMessageContaining("not a photograph");
    assertThatThrownBy(() -> of("GIF89a......".getBytes(StandardCharsets.UTF_8), "a.gif"))
        .hasMessageContaining("not kept");
    assertThatThrownBy(() -> of(Shots.hex("00000018 66747970 69736f6d 00000000"), "a.mp4"))
        .hasMessageContaining("film");
    assertThatThrownBy(() -> of(Shots.hex("ffd8ff"), "a.jpg")).hasMessageContaining("damaged");
  }

  @Test
  void aRawFileIsReadFromItsLargestPreview() throws UnfitFileException {
    byte[] preview = Shots.encoded(Shots.noise(640, 480, 3), "jpeg");
    byte[] dng = Shots.dng(preview);

    Inspection found = of(dng, "IMG_1.dng");

    assertThat(found.format()).isEqualTo(FileFormat.DNG);
    assertThat(found.picture()).isEqualTo(PictureKind.EMBEDDED_PREVIEW);
    assertThat(found.widthPx()).isEqualTo(640);
    Preview place = found.preview().orElseThrow();
    assertThat(
            java.util.Arrays.copyOfRange(
                dng, (int) place.offsetBytes(), (int) (place.offsetBytes() + place.lengthBytes())))
        .isEqualTo(preview);
  }

  @Test
  void aRawFileWithOnlyAThumbnailHasNoPictureToRead() throws UnfitFileException {
    Inspection found = of(Shots.dng(new byte[100]), "IMG_1.dng");

    assertThat(found)
        .isEqualTo(new Inspection(FileFormat.DNG, 4000, 3000, PictureKind.NONE, Optional.empty()));
  }

  @Test
  void aRawFileThatKeepsItsPreviewInAMakersPlaceIsSearchedThrough() throws UnfitFileException {
    byte[] preview = Shots.encoded(Shots.noise(640, 480, 3), "jpeg");
    byte[] raw = Shots.dng(new byte[100]);
    raw[2] = 'R';
    raw[3] = 'O';

    Inspection found = of(Shots.concat(raw, new byte[32], preview), "IMG_1.orf");

    assertThat(found.format()).isEqualTo(FileFormat.ORF);
    assertThat(found.picture()).isEqualTo(PictureKind.EMBEDDED_PREVIEW);
    assertThat(found.preview()).map(Preview::offsetBytes).contains((long) raw.length + 32);
  }

  @Test
  void aHeicFileIsKeptAndDescribedWithoutAPicture() throws UnfitFileException {
    assertThat(of(Shots.heic(), "a.heic"))
        .isEqualTo(new Inspection(FileFormat.HEIC, 4032, 3024, PictureKind.NONE, Optional.empty()));
  }

  @Test
  void directoriesThatPointAtEachOtherEndTheWalk() {
    byte[] loop = Shots.hex("4949 2a00 08000000 0100 0001 0400 01000000 40000000 08000000");

    assertThatThrownBy(() -> of(loop, "a.tif")).hasMessageContaining("no picture");
  }

  private static Inspection of(byte[] bytes, String name) throws UnfitFileException {
    return Inspection.of(ByteBuffer.wrap(bytes), name);
  }
}
