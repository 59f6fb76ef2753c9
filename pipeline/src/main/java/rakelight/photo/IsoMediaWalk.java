package rakelight.photo;

import java.nio.ByteBuffer;

/**
 * Walks the boxes of an ISO base media file (HEIC, AVIF, CR3): ISO/IEC 14496-12 section 4.2, image
 * sizes ISO/IEC 23008-12 section 6.5.3. The main picture is {@link CodedPicture}'s.
 *
 * @param widthPx of the largest image, 0 if the file doesn't say
 * @param heightPx as {@code widthPx}
 */
record IsoMediaWalk(int widthPx, int heightPx) {
  static IsoMediaWalk of(ByteBuffer bytes) throws UnfitFileException {
    IsoMediaWalk largest = new IsoMediaWalk(0, 0);
    boolean data = false;
    long at = 0;
    while (at < bytes.limit()) {
      int box = (int) at;
      if (bytes.limit() - at < 8) {
        throw UnfitFileException.truncated("its last box is missing");
      }
      long size = bytes.getInt(box) & 0xFFFF_FFFFL;
      if (size == 1) {
        if (bytes.limit() - at < 16) {
          throw UnfitFileException.truncated("its last box is missing");
        }
        size = bytes.getLong(box + 8);
      } else if (size == 0) {
        size = bytes.limit() - at;
      }
      if (size < 8) {
        throw UnfitFileException.damaged("a box without a size at byte " + at);
      }
      if (size > bytes.limit() - at) {
        throw UnfitFileException.truncated("a box of it reaches beyond its end");
      }
      String type = IsoBox.type(bytes, box + 4);
      if (type.equals("meta")) {
        largest = largestImage(bytes, box, (int) (at + size));
      }
      data |= type.equals("mdat") || type.equals("idat");
      at += size;
    }
    if (!data) {
      throw UnfitFileException.truncated("it has no picture");
    }
    return largest;
  }

  /** Sizes stand in {@code ispe} boxes some levels down; they are found by name. */
  private static IsoMediaWalk largestImage(ByteBuffer bytes, int from, int to) {
    IsoMediaWalk largest = new IsoMediaWalk(0, 0);
    for (int at = from; at + 16 <= to; at++) {
      if (bytes.get(at) == 'i'
          && IsoBox.type(bytes, at).equals("ispe")
          && bytes.getInt(at - 4) == 20) {
        int width = bytes.getInt(at + 8);
        int height = bytes.getInt(at + 12);
        if ((long) width * height > (long) largest.widthPx * largest.heightPx) {
          largest = new IsoMediaWalk(width, height);
        }
      }
    }
    return largest;
  }
}
