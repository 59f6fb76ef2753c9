package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteOrder;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Tag numbers: CIPA DC-008 (Exif), by the tables of Exiv2. */
class FileTagsTest {
  private static final int MAKE = 0x010F;
  private static final int MODEL = 0x0110;
  private static final int ORIENTATION = 0x0112;
  private static final int DATE_TIME = 0x0132;
  private static final int EXIF = 0x8769;
  private static final int GPS = 0x8825;
  private static final int DATE_TIME_ORIGINAL = 0x9003;
  private static final int OFFSET_TIME_ORIGINAL = 0x9011;
  private static final int SUBSECOND_ORIGINAL = 0x9291;
  private static final int FOCAL_LENGTH = 0x920A;
  private static final int FOCAL_LENGTH_35MM = 0xA405;
  private static final int LENS_MODEL = 0xA434;

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void everythingATelephoneWritesIsRead(boolean littleEndian) throws IOException {
    TiffBuilder exif =
        new TiffBuilder(littleEndian ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
    exif.chained()
        .text(MAKE, "Wren")
        .text(MODEL, "Wren Seven")
        .shorts(ORIENTATION, 6)
        .text(DATE_TIME, "2024:05:02 00:00:00")
        .directories(
            EXIF,
            exif.loose()
                .text(DATE_TIME_ORIGINAL, "2024:05:01 10:20:30")
                .text(OFFSET_TIME_ORIGINAL, "+01:00")
                .text(SUBSECOND_ORIGINAL, "125")
                .rationals(FOCAL_LENGTH, 425, 100)
                .shorts(FOCAL_LENGTH_35MM, 26)
                .text(LENS_MODEL, "Wren 4.25 mm f/1.8"))
        .directories(
            GPS,
            exif.loose()
                .text(0x0001, "S")
                .rationals(0x0002, 54, 1, 30, 1, 36, 1)
                .text(0x0003, "W")
                .rationals(0x0004, 3, 1, 15, 1, 0, 1)
                .bytes(0x0005, 1)
                .rationals(0x0006, 25, 10)
                .text(0x0010, "M")
                .rationals(0x0011, 2705, 10)
                .rationals(0x001F, 47, 10));

    FileTags tags = read(Shots.withExif(Shots.jpeg(1), exif.build()));

    assertThat(tags.errors()).isEmpty();
    assertThat(tags.orientation()).isEqualTo(6);
    assertThat(tags.taken())
        .contains(
            new CaptureTime(
                LocalDateTime.parse("2024-05-01T10:20:30.125"),
                Optional.of(ZoneOffset.ofHours(1)),
                "Exif DateTimeOriginal"));
    assertThat(tags.position())
        .contains(new Position(-54.51, -3.25, Optional.of(4.7), Optional.of(-2.5)));
    assertThat(tags.direction()).contains(new Direction(270.5, Optional.of("magnetic")));
    assertThat(tags.camera()).contains("Wren Seven");
    assertThat(tags.lens()).contains("Wren 4.25 mm f/1.8");
    assertThat(tags.focalLengthMm()).contains(4.25);
    assertThat(tags.focalLength35mm()).contains(26.0);
    assertThat(tags.all().get("Exif IFD0")).containsEntry("Make", "Wren");
    assertThat(tags.all().get("GPS")).containsEntry("GPS Img Direction", "541/2");
  }

  @Test
  void aFileWithoutTagsSaysNothing() throws IOException {
    FileTags tags = read(Shots.jpeg(1));

    assertThat(tags.orientation()).isEqualTo(1);
    assertThat(tags.taken()).isEmpty();
    assertThat(tags.position()).isEmpty();
    assertThat(tags.camera()).isEmpty();
  }

  @Test
  void aClockThatWasNeverSetIsNoTime() throws IOException {
    TiffBuilder exif = new TiffBuilder(ByteOrder.BIG_ENDIAN);
    exif.chained()
        .text(DATE_TIME, "    :  :     :  :  ")
        .directories(EXIF, exif.loose().text(DATE_TIME_ORIGINAL, "0000:00:00 00:00:00"));

    assertThat(read(Shots.withExif(Shots.jpeg(1), exif.build())).taken()).isEmpty();
  }

  @Test
  void aTelephoneThatDoesNotKnowWhereItIsIsNotOffTheCoastOfAfrica() throws IOException {
    TiffBuilder exif = new TiffBuilder(ByteOrder.BIG_ENDIAN);
    exif.chained()
        .directories(
            GPS,
            exif.loose()
                .text(0x0001, "N")
                .rationals(0x0002, 0, 1, 0, 1, 0, 1)
                .text(0x0003, "E")
                .rationals(0x0004, 0, 1, 0, 1, 0, 1)
                .rationals(0x0011, 0, 0));

    FileTags tags = read(Shots.withExif(Shots.jpeg(1), exif.build()));

    assertThat(tags.position()).isEmpty();
    assertThat(tags.direction()).isEmpty();
  }

  @Test
  void theSatellitesTimeStandsInWhereThereIsNoOther() throws IOException {
    TiffBuilder exif = new TiffBuilder(ByteOrder.BIG_ENDIAN);
    exif.chained()
        .directories(
            GPS, exif.loose().text(0x001D, "2024:05:01").rationals(0x0007, 9, 1, 20, 1, 305, 10));

    assertThat(read(Shots.withExif(Shots.jpeg(1), exif.build())).taken())
        .contains(
            new CaptureTime(
                LocalDateTime.parse("2024-05-01T09:20:30.500"),
                Optional.of(ZoneOffset.UTC),
                "Exif GPS time"));
  }

  @Test
  void aBrokenBlockIsAnEntryAndNoReasonToRefuse() throws IOException {
    byte[] broken = Shots.withExif(Shots.jpeg(1), Shots.hex("4949 2a00 ff000000"));

    FileTags tags = read(broken);

    assertThat(tags.errors()).isNotEqualTo(List.of());
    assertThat(tags.all()).containsKey("JPEG");
  }

  private static FileTags read(byte[] file) throws IOException {
    return FileTags.read(new ByteArrayInputStream(file), file.length);
  }
}
