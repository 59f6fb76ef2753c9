package rakelight.photo;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A box of an ISO base media file: ISO/IEC 14496-12 section 4.2.
 *
 * @param from where its content begins
 * @param to where the next box begins; never beyond the end of the file
 * @param size of its content as it states; larger than {@code to - from} where the file is cut
 */
record IsoBox(String type, int from, int to, long size) {
  /** The boxes between two places; the last may be cut short. */
  static List<IsoBox> in(ByteBuffer bytes, int from, int to) throws UnfitFileException {
    List<IsoBox> boxes = new ArrayList<>();
    long at = from;
    while (to - at >= 8) {
      int start = (int) at;
      long size = bytes.getInt(start) & 0xFFFF_FFFFL;
      int head = 8;
      if (size == 1 && to - at >= 16) {
        size = bytes.getLong(start + 8);
        head = 16;
      } else if (size == 0) {
        size = to - at;
      }
      if (size < head) {
        throw UnfitFileException.damaged("a box without a size at byte " + at);
      }
      int end = (int) Math.min(to, start + Math.min(size, Integer.MAX_VALUE));
      boxes.add(new IsoBox(type(bytes, start + 4), start + head, end, size - head));
      at = end;
    }
    return boxes;
  }

  /** The first box of a type. */
  static Optional<IsoBox> first(List<IsoBox> boxes, String type) {
    return boxes.stream().filter(box -> box.type.equals(type)).findFirst();
  }

  static String type(ByteBuffer bytes, int at) {
    byte[] name = new byte[4];
    bytes.get(at, name);
    return new String(name, StandardCharsets.ISO_8859_1);
  }
}
