package rakelight.photo;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32;

/** Walks the chunks of a PNG and checks their sums. W3C Portable Network Graphics, section 5. */
record PngWalk(int widthPx, int heightPx) {
  private static final int SIGNATURE_BYTES = 8;
  private static final int CHUNK_FRAME_BYTES = 12;

  static PngWalk of(ByteBuffer bytes) throws UnfitFileException {
    PngWalk size = null;
    boolean picture = false;
    int at = SIGNATURE_BYTES;
    while (bytes.limit() - at >= CHUNK_FRAME_BYTES) {
      int length = bytes.getInt(at);
      if (length < 0 || length > bytes.limit() - at - CHUNK_FRAME_BYTES) {
        throw UnfitFileException.truncated("a part of it reaches beyond its end");
      }
      byte[] name = new byte[4];
      bytes.get(at + 4, name);
      String type = new String(name, StandardCharsets.ISO_8859_1);
      CRC32 sum = new CRC32();
      sum.update(bytes.slice(at + 4, 4 + length));
      if ((int) sum.getValue() != bytes.getInt(at + 8 + length)) {
        throw UnfitFileException.damaged("the check sum of a part is wrong at byte " + at);
      }
      switch (type) {
        case "IHDR" -> {
          if (length != 13) {
            throw UnfitFileException.damaged("its header has the wrong length");
          }
          size = new PngWalk(bytes.getInt(at + 8), bytes.getInt(at + 12));
        }
        case "IDAT" -> picture = true;
        case "IEND" -> {
          if (size == null || !picture) {
            throw UnfitFileException.damaged("it has no picture");
          }
          return size;
        }
        default -> {}
      }
      at += CHUNK_FRAME_BYTES + length;
    }
    throw UnfitFileException.truncated("its end is missing");
  }
}
