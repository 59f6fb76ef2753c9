package rakelight.samples;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Writes the EXIF block of a photograph: a TIFF header and three directories, little-endian, inside
 * a JPEG APP1 segment. Tag numbers and types are those of the Exif 2.32 standard (CIPA
 * DC-008-2019).
 */
final class Exif {
  private static final int ASCII = 2;
  private static final int SHORT = 3;
  private static final int LONG = 4;
  private static final int RATIONAL = 5;
  private static final int UNDEFINED = 7;
  private static final int EXIF_POINTER = 0x8769;
  private static final int GPS_POINTER = 0x8825;
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyy:MM:dd HH:mm:ss", Locale.ROOT);

  private record Entry(int type, int count, byte[] data) {}

  private final Map<Integer, Entry> entries = new TreeMap<>();

  private Exif() {}

  /** Puts the block for a view right after the start-of-image marker of a JPEG. */
  static byte[] insert(
      byte[] jpeg, View view, int storedWidth, int storedHeight, double exposureSeconds, int iso) {
    byte[] tiff = tiff(view, storedWidth, storedHeight, exposureSeconds, iso);
    int length = tiff.length + 8;
    ByteArrayOutputStream out = new ByteArrayOutputStream(jpeg.length + length + 2);
    out.write(jpeg, 0, 2);
    out.write(0xff);
    out.write(0xe1);
    out.write(length >> 8);
    out.write(length & 0xff);
    out.writeBytes(new byte[] {'E', 'x', 'i', 'f', 0, 0});
    out.writeBytes(tiff);
    out.write(jpeg, 2, jpeg.length - 2);
    return out.toByteArray();
  }

  private static byte[] tiff(
      View view, int storedWidth, int storedHeight, double exposureSeconds, int iso) {
    OffsetDateTime t = view.taken();
    View.Equipment e = view.equipment();
    Exif first = new Exif();
    first.text(0x010f, e.make());
    first.text(0x0110, e.model());
    first.shorts(0x0112, view.orientation());
    first.rationals(0x011a, 72);
    first.rationals(0x011b, 72);
    first.shorts(0x0128, 2);
    first.text(0x0132, STAMP.format(t));
    Exif exif = new Exif();
    exif.rationals(0x829a, exposureSeconds);
    exif.rationals(0x829d, e.fNumber());
    exif.shorts(0x8827, iso);
    exif.undefined(0x9000, "0232");
    exif.text(0x9003, STAMP.format(t));
    exif.text(0x9004, STAMP.format(t));
    exif.text(0x9010, t.getOffset().getId().equals("Z") ? "+00:00" : t.getOffset().getId());
    exif.text(0x9011, t.getOffset().getId().equals("Z") ? "+00:00" : t.getOffset().getId());
    exif.text(0x9291, String.format(Locale.ROOT, "%03d", t.getNano() / 1_000_000));
    exif.rationals(0x920a, e.focalMm());
    exif.longs(0xa002, storedWidth);
    exif.longs(0xa003, storedHeight);
    exif.shorts(0xa405, (int) Math.round(e.focal35Mm()));
    if (!e.serial().isEmpty()) {
      exif.text(0xa431, e.serial());
    }
    exif.text(0xa433, e.make());
    exif.text(0xa434, e.lens());
    Exif gps = new Exif();
    View.Position p = view.position();
    OffsetDateTime utc = t.withOffsetSameInstant(ZoneOffset.UTC);
    gps.entries.put(0x0000, new Entry(1, 4, new byte[] {2, 3, 0, 0}));
    gps.text(0x0001, p.latitude() >= 0 ? "N" : "S");
    gps.degrees(0x0002, p.latitude());
    gps.text(0x0003, p.longitude() >= 0 ? "E" : "W");
    gps.degrees(0x0004, p.longitude());
    gps.entries.put(0x0005, new Entry(1, 1, new byte[] {(byte) (p.altitudeM() < 0 ? 1 : 0)}));
    gps.rationals(0x0006, Math.abs(p.altitudeM()));
    gps.rationals(0x0007, utc.getHour(), utc.getMinute(), utc.getSecond());
    gps.text(0x0010, "T");
    gps.rationals(0x0011, p.directionDegrees());
    gps.text(0x001d, DateTimeFormatter.ofPattern("yyyy:MM:dd", Locale.ROOT).format(utc));
    gps.rationals(0x001f, p.accuracyM());

    int firstAt = 8;
    first.longs(EXIF_POINTER, 0);
    first.longs(GPS_POINTER, 0);
    int exifAt = firstAt + first.size();
    int gpsAt = exifAt + exif.size();
    first.longs(EXIF_POINTER, exifAt);
    first.longs(GPS_POINTER, gpsAt);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(new byte[] {'I', 'I', 42, 0});
    number(out, firstAt, 4);
    first.write(out, firstAt);
    exif.write(out, exifAt);
    gps.write(out, gpsAt);
    return out.toByteArray();
  }

  private static void number(ByteArrayOutputStream out, long n, int bytes) {
    for (int i = 0; i < bytes; i++) {
      out.write((int) (n >> (8 * i)) & 0xff);
    }
  }

  private void text(int tag, String s) {
    byte[] b = (s + "\0").getBytes(StandardCharsets.US_ASCII);
    entries.put(tag, new Entry(ASCII, b.length, b));
  }

  private void undefined(int tag, String s) {
    byte[] b = s.getBytes(StandardCharsets.US_ASCII);
    entries.put(tag, new Entry(UNDEFINED, b.length, b));
  }

  private void shorts(int tag, int n) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    number(out, n, 2);
    entries.put(tag, new Entry(SHORT, 1, out.toByteArray()));
  }

  private void longs(int tag, int n) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    number(out, n, 4);
    entries.put(tag, new Entry(LONG, 1, out.toByteArray()));
  }

  private void rationals(int tag, double... values) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (double v : values) {
      // Short exposures as one over a whole number, everything else in ten-thousandths.
      boolean fraction = v > 0 && v < 0.5;
      number(out, fraction ? 1 : Math.round(v * 10_000), 4);
      number(out, fraction ? Math.round(1 / v) : 10_000, 4);
    }
    entries.put(tag, new Entry(RATIONAL, values.length, out.toByteArray()));
  }

  private void degrees(int tag, double value) {
    double d = Math.abs(value);
    int whole = (int) d;
    int minutes = (int) ((d - whole) * 60);
    double seconds = ((d - whole) * 60 - minutes) * 60;
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    number(out, whole, 4);
    number(out, 1, 4);
    number(out, minutes, 4);
    number(out, 1, 4);
    number(out, Math.round(seconds * 10_000), 4);
    number(out, 10_000, 4);
    entries.put(tag, new Entry(RATIONAL, 3, out.toByteArray()));
  }

  private int size() {
    int n = 2 + 12 * entries.size() + 4;
    for (Entry e : entries.values()) {
      n += e.data.length > 4 ? e.data.length + (e.data.length & 1) : 0;
    }
    return n;
  }

  private void write(ByteArrayOutputStream out, int start) {
    number(out, entries.size(), 2);
    int data = start + 2 + 12 * entries.size() + 4;
    ByteArrayOutputStream tail = new ByteArrayOutputStream();
    for (Map.Entry<Integer, Entry> tagged : entries.entrySet()) {
      Entry e = tagged.getValue();
      number(out, tagged.getKey(), 2);
      number(out, e.type, 2);
      number(out, e.count, 4);
      if (e.data.length <= 4) {
        out.writeBytes(e.data);
        number(out, 0, 4 - e.data.length);
      } else {
        number(out, data + tail.size(), 4);
        tail.writeBytes(e.data);
        number(tail, 0, e.data.length & 1);
      }
    }
    number(out, 0, 4);
    out.writeBytes(tail.toByteArray());
  }
}
