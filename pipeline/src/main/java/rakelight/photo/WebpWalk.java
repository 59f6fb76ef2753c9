package rakelight.photo;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** Walks the chunks of a WebP: RFC 9649. */
record WebpWalk(int widthPx, int heightPx) {
  private static final int HEADER_BYTES = 12;

  static WebpWalk of(ByteBuffer file) throws UnfitFileException {
    ByteBuffer bytes = file.duplicate().order(ByteOrder.LITTLE_ENDIAN);
    long end = 8 + (bytes.getInt(4) & 0xFFFF_FFFFL);
    if (end > bytes.limit()) {
      throw UnfitFileException.truncated("it has " + bytes.limit() + " of " + end + " bytes");
    }
    WebpWalk canvas = null;
    WebpWalk picture = null;
    long at = HEADER_BYTES;
    while (at + 8 <= end) {
      int chunk = (int) at;
      long length = bytes.getInt(chunk + 4) & 0xFFFF_FFFFL;
      if (at + 8 + length > end) {
        throw UnfitFileException.truncated("a part of it reaches beyond its end");
      }
      byte[] name = new byte[4];
      bytes.get(chunk, name);
      int data = chunk + 8;
      switch (new String(name, StandardCharsets.ISO_8859_1)) {
        case "VP8X" -> {
          if (length < 10) {
            throw UnfitFileException.damaged("its header is too short");
          }
          canvas = new WebpWalk(1 + threeBytes(bytes, data + 4), 1 + threeBytes(bytes, data + 7));
        }
        case "VP8 " -> {
          if (length < 10) {
            throw UnfitFileException.damaged("its picture is too short");
          }
          picture =
              new WebpWalk(bytes.getShort(data + 6) & 0x3FFF, bytes.getShort(data + 8) & 0x3FFF);
        }
        case "VP8L" -> {
          if (length < 5) {
            throw UnfitFileException.damaged("its picture is too short");
          }
          int bits = bytes.getInt(data + 1);
          picture = new WebpWalk(1 + (bits & 0x3FFF), 1 + ((bits >>> 14) & 0x3FFF));
        }
        case "ANIM", "ANMF" ->
            throw new UnfitFileException(
                "kind-not-kept",
                "moving pictures, not a photograph.",
                "Keep it elsewhere; a single frame can be saved as PNG.");
        default -> {}
      }
      at += 8 + length + (length & 1);
    }
    if (picture == null) {
      throw UnfitFileException.damaged("it has no still picture");
    }
    return canvas == null ? picture : canvas;
  }

  private static int threeBytes(ByteBuffer bytes, int at) {
    return (bytes.getShort(at) & 0xFFFF) | (bytes.get(at + 2) & 0xFF) << 16;
  }
}
