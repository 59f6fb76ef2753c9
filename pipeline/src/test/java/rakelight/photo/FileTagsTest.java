package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
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
  void anEditDateIsNotTheTimeOfThePhotographWhereIptcHoldsIt() throws IOException {
    TiffBuilder exif = new TiffBuilder(ByteOrder.BIG_ENDIAN);
    exif.chained().text(DATE_TIME, "2025:11:02 21:00:00");
    byte[] edited = Shots.withExif(Shots.jpeg(1), exif.build());

    assertThat(read(edited).taken())
        .as("better than nothing, and marked")
        .contains(
            new CaptureTime(
                LocalDateTime.parse("2025-11-02T21:00:00"),
                Optional.empty(),
                "Exif DateTime, perhaps of a later change"));
    assertThat(read(withIptc(edited)).taken())
        .contains(
            new CaptureTime(
                LocalDateTime.parse("2024-05-01T10:20:30"),
                Optional.of(ZoneOffset.ofHours(1)),
                "IPTC Date Created"));
    assertThat(read(withXmp(withIptc(edited))).taken())
        .contains(
            new CaptureTime(
                LocalDateTime.parse("2024-05-01T10:20:31"),
                Optional.empty(),
                "XMP photoshop:DateCreated"));
  }

  @Test
  void whatSomebodyWroteIntoAFileIsOffered() throws IOException {
    assertThat(read(withIptc(Shots.jpeg(1))).offered())
        .isEqualTo(
            new Offered(
                Optional.of("Dora Lisle"),
                Optional.empty(),
                Optional.of("By the yew; keywords: yew, slate")));
    assertThat(read(withXmp(Shots.jpeg(1))).offered())
        .isEqualTo(
            new Offered(
                Optional.of("Bede Marsh"),
                Optional.of("CC-BY-4.0"),
                Optional.of("keywords: wall")));
    TiffBuilder exif = new TiffBuilder(ByteOrder.BIG_ENDIAN);
    exif.chained().text(0x010E, "WREN DIGITAL CAMERA").text(0x013B, "Ada Fenn").text(0x8298, "own");
    assertThat(read(Shots.withExif(Shots.jpeg(1), exif.build())).offered())
        .isEqualTo(new Offered(Optional.of("Ada Fenn"), Optional.of("own"), Optional.empty()));
  }

  /** Photoshop's block of resources with IPTC records in it (IIM 4.2, record 2). */
  private static byte[] withIptc(byte[] jpeg) {
    byte[] records =
        Shots.concat(
            iptc(55, "20240501"),
            iptc(60, "102030+0100"),
            iptc(80, "Dora Lisle"),
            iptc(120, "By the yew"),
            iptc(25, "yew"),
            iptc(25, "slate"));
    byte[] head = "Photoshop 3.0\0".getBytes(StandardCharsets.ISO_8859_1);
    byte[] resource = "8BIM\4\4\0\0".getBytes(StandardCharsets.ISO_8859_1);
    byte[] length = ByteBuffer.allocate(4).putInt(records.length).array();
    byte[] even = new byte[records.length % 2];
    return Shots.withSegment(jpeg, 0xED, Shots.concat(head, resource, length, records, even));
  }

  private static byte[] iptc(int dataset, String text) {
    byte[] bytes = text.getBytes(StandardCharsets.ISO_8859_1);
    return Shots.concat(new byte[] {0x1C, 2, (byte) dataset, 0, (byte) bytes.length}, bytes);
  }

  private static byte[] withXmp(byte[] jpeg) {
    String packet =
        """
        <x:xmpmeta xmlns:x="adobe:ns:meta/">
        <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
        <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"
          xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/"
          photoshop:DateCreated="2024-05-01T10:20:31">
        <dc:creator><rdf:Seq><rdf:li>Bede Marsh</rdf:li></rdf:Seq></dc:creator>
        <dc:rights><rdf:Alt><rdf:li xml:lang="x-default">CC-BY-4.0</rdf:li></rdf:Alt></dc:rights>
        <dc:subject><rdf:Bag><rdf:li>wall</rdf:li></rdf:Bag></dc:subject>
        </rdf:Description></rdf:RDF></x:xmpmeta>
        """;
    byte[] name = "http://ns.adobe.com/xap/1.0/\0".getBytes(StandardCharsets.ISO_8859_1);
    return Shots.withSegment(
        jpeg, 0xE1, Shots.concat(name, packet.getBytes(StandardCharsets.UTF_8)));
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
