package rakelight.photo;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Random;
import javax.imageio.ImageIO;

/** Small files of every kind for tests: whole ones, and broken ones. */
final class Shots {
  private Shots() {}

  /** Grey noise, so that pictures of different seeds differ in their bytes. */
  static BufferedImage noise(int widthPx, int heightPx, long seed) {
    BufferedImage image = new BufferedImage(widthPx, heightPx, BufferedImage.TYPE_3BYTE_BGR);
    Random random = new Random(seed);
    for (int y = 0; y < heightPx; y += 4) {
      for (int x = 0; x < widthPx; x += 4) {
        int grey = random.nextInt(256);
        for (int dy = 0; dy < 4 && y + dy < heightPx; dy++) {
          for (int dx = 0; dx < 4 && x + dx < widthPx; dx++) {
            image.setRGB(x + dx, y + dy, grey << 16 | grey << 8 | grey);
          }
        }
      }
    }
    return image;
  }

  static byte[] encoded(BufferedImage image, String format) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      if (!ImageIO.write(image, format, out)) {
        throw new IllegalStateException("no writer for " + format);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  static byte[] jpeg(long seed) {
    return encoded(noise(64, 48, seed), "jpeg");
  }

  static byte[] png(long seed) {
    return encoded(noise(64, 48, seed), "png");
  }

  static byte[] tiff(long seed) {
    return encoded(noise(64, 48, seed), "tiff");
  }

  /** A lossless WebP of one pixel, with canvas chunk left out. */
  static byte[] webp() {
    return Base64.getDecoder().decode("UklGRhoAAABXRUJQVlA4TA0AAAAvAAAAEAcQERGIiP4HAA==");
  }

  /** The head of a WebP file of moving pictures. */
  static byte[] movingWebp() {
    byte[] chunks = new byte[18 + 14];
    System.arraycopy("VP8X\n\0\0\0".getBytes(StandardCharsets.ISO_8859_1), 0, chunks, 0, 8);
    System.arraycopy("ANIM\6\0\0\0".getBytes(StandardCharsets.ISO_8859_1), 0, chunks, 18, 8);
    byte[] head = "RIFF\0\0\0\0WEBP".getBytes(StandardCharsets.ISO_8859_1);
    head[4] = (byte) (4 + chunks.length);
    return concat(head, chunks);
  }

  /** The JPEG with one more segment behind its first two bytes. */
  static byte[] withSegment(byte[] jpeg, int marker, byte[] content) {
    ByteBuffer out = ByteBuffer.allocate(jpeg.length + 4 + content.length);
    out.put(jpeg, 0, 2)
        .put((byte) 0xFF)
        .put((byte) marker)
        .putShort((short) (content.length + 2))
        .put(content)
        .put(jpeg, 2, jpeg.length - 2);
    return out.array();
  }

  static byte[] withExif(byte[] jpeg, byte[] tiff) {
    byte[] head = "Exif\0\0".getBytes(StandardCharsets.US_ASCII);
    byte[] content = Arrays.copyOf(head, head.length + tiff.length);
    System.arraycopy(tiff, 0, content, head.length, tiff.length);
    return withSegment(jpeg, 0xE1, content);
  }

  /**
   * A JPEG of a camera that says when it was taken.
   *
   * @param time as Exif writes it
   * @param serial may be empty
   */
  static byte[] taken(String time, String serial, long seed) {
    TiffBuilder exif = new TiffBuilder(ByteOrder.BIG_ENDIAN);
    TiffBuilder.Directory ofShot = exif.loose().text(0x9003, time);
    if (!serial.isEmpty()) {
      ofShot.text(0xA431, serial);
    }
    exif.chained().text(0x010F, "Wren").directories(0x8769, ofShot);
    return withExif(jpeg(seed), exif.build());
  }

  /** A picture of its own without a picture of its own: the same shot with another comment. */
  static byte[] withComment(byte[] jpeg, String comment) {
    return withSegment(jpeg, 0xFE, comment.getBytes(StandardCharsets.UTF_8));
  }

  /** A minimal DNG: a thumbnail, the sensor's data, and a JPEG preview in a sub-directory. */
  static byte[] dng(byte[] preview) {
    TiffBuilder builder = new TiffBuilder(ByteOrder.LITTLE_ENDIAN);
    TiffBuilder.Directory raw =
        builder
            .loose()
            .longs(TiffWalk.NEW_SUBFILE_TYPE, 0)
            .longs(TiffWalk.WIDTH, 4000)
            .longs(TiffWalk.HEIGHT, 3000)
            .shorts(TiffWalk.COMPRESSION, 1)
            .shorts(TiffWalk.PHOTOMETRIC, 32803)
            .blobAt(TiffWalk.STRIP_OFFSETS, new byte[256])
            .longs(TiffWalk.STRIP_LENGTHS, 256);
    TiffBuilder.Directory small =
        builder
            .loose()
            .longs(TiffWalk.NEW_SUBFILE_TYPE, 1)
            .longs(TiffWalk.WIDTH, 640)
            .longs(TiffWalk.HEIGHT, 480)
            .shorts(TiffWalk.COMPRESSION, 7)
            .shorts(TiffWalk.PHOTOMETRIC, 6)
            .blobAt(TiffWalk.STRIP_OFFSETS, preview)
            .longs(TiffWalk.STRIP_LENGTHS, preview.length);
    byte[] thumbnail = encoded(noise(160, 120, 7), "jpeg");
    builder
        .chained()
        .longs(TiffWalk.NEW_SUBFILE_TYPE, 1)
        .longs(TiffWalk.WIDTH, 160)
        .longs(TiffWalk.HEIGHT, 120)
        .text(0x010F, "Wren")
        .text(0x0110, "Seven")
        .shorts(0x0112, 6)
        .blobAt(TiffWalk.JPEG_OFFSET, thumbnail)
        .longs(TiffWalk.JPEG_LENGTH, thumbnail.length)
        .directories(TiffWalk.SUB_DIRECTORIES, raw, small)
        .bytes(TiffWalk.DNG_VERSION, 1, 4, 0, 0);
    return builder.build();
  }

  /** The boxes of a HEIC file of 4032 x 3024 pixels, without a picture that could be decoded. */
  static byte[] heic() {
    byte[] type = box("ftyp", "heic\0\0\0\0mif1heic".getBytes(StandardCharsets.US_ASCII));
    byte[] size = box("ispe", ByteBuffer.allocate(12).putInt(0).putInt(4032).putInt(3024).array());
    byte[] properties = box("iprp", box("ipco", size));
    byte[] meta = box("meta", concat(new byte[4], properties));
    return concat(type, meta, box("mdat", new byte[500]));
  }

  /** A PNG whose header claims 25,000 x 12,000 pixels: 300 million. */
  static byte[] bomb() {
    byte[] png = png(1);
    ByteBuffer.wrap(png).putInt(16, 25_000).putInt(20, 12_000);
    java.util.zip.CRC32 sum = new java.util.zip.CRC32();
    sum.update(png, 12, 17);
    ByteBuffer.wrap(png).putInt(29, (int) sum.getValue());
    return png;
  }

  static byte[] cut(byte[] whole, double share) {
    return Arrays.copyOf(whole, (int) (whole.length * share));
  }

  static byte[] concat(byte[]... parts) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (byte[] part : parts) {
      out.writeBytes(part);
    }
    return out.toByteArray();
  }

  private static byte[] box(String type, byte[] content) {
    return concat(
        ByteBuffer.allocate(4).putInt(8 + content.length).array(),
        type.getBytes(StandardCharsets.US_ASCII),
        content);
  }

  static byte[] hex(String digits) {
    return HexFormat.of().parseHex(digits.replace(" ", ""));
  }
}
