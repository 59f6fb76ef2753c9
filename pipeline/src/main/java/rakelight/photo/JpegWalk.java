package rakelight.photo;

import java.nio.ByteBuffer;

/**
 * Walks the segments of a JPEG: its size in pixels, and whether it is there to the end. Decoders
 * show a full-size picture even for a file cut after a thousand bytes, so completeness is checked
 * here. Marker codes: ITU-T T.81, table B.1.
 *
 * <p>A file cut within its picture still has a size and a beginning that can be shown.
 *
 * @param codedForScreens whether a usual decoder reads it: baseline, extended or progressive with 8
 *     bits, not lossless
 * @param whole whether its picture is there to the end
 */
record JpegWalk(int widthPx, int heightPx, boolean codedForScreens, boolean whole) {
  private static final int SOI = 0xD8;
  private static final int EOI = 0xD9;
  private static final int SOS = 0xDA;

  /**
   * Walks the JPEG between two offsets.
   *
   * @throws UnfitFileException if it has no picture, is damaged, or ends early
   */
  static JpegWalk of(ByteBuffer bytes, int from, int to) throws UnfitFileException {
    JpegWalk walk = evenCut(bytes, from, to);
    if (!walk.whole()) {
      throw UnfitFileException.truncated("the end of its picture is missing");
    }
    return walk;
  }

  /** As {@link #of}, but one that ends within its picture isn't refused. */
  static JpegWalk evenCut(ByteBuffer bytes, int from, int to) throws UnfitFileException {
    if (to - from < 4 || unsigned(bytes, from) != 0xFF || unsigned(bytes, from + 1) != SOI) {
      throw UnfitFileException.damaged("it doesn't start as a JPEG does");
    }
    JpegWalk frame = null;
    int at = from + 2;
    while (true) {
      at = nextMarker(bytes, at, to);
      int marker = unsigned(bytes, at - 1);
      if (marker == EOI) {
        throw UnfitFileException.damaged("it ends before its picture");
      }
      if (marker == 0x01 || (marker >= 0xD0 && marker <= 0xD7)) {
        continue;
      }
      int end = endOfSegment(bytes, at, to);
      if (isFrame(marker)) {
        if (end - at < 8) {
          throw UnfitFileException.damaged("its frame header is too short");
        }
        int bits = unsigned(bytes, at + 2);
        frame =
            new JpegWalk(
                bytes.getShort(at + 5) & 0xFFFF,
                bytes.getShort(at + 3) & 0xFFFF,
                marker <= 0xC2 && bits == 8,
                true);
      }
      at = end;
      if (marker == SOS) {
        if (frame == null) {
          throw UnfitFileException.damaged("its picture has no size");
        }
        return hasEnd(bytes, at, to)
            ? frame
            : new JpegWalk(frame.widthPx, frame.heightPx, frame.codedForScreens, false);
      }
    }
  }

  /**
   * The entropy-coded data can't hold an end marker, so a file that ends with one is whole. One
   * that doesn't may carry something behind its picture and is walked through.
   */
  private static boolean hasEnd(ByteBuffer bytes, int from, int to) throws UnfitFileException {
    if (to - from >= 2 && unsigned(bytes, to - 2) == 0xFF && unsigned(bytes, to - 1) == EOI) {
      return true;
    }
    int at = from;
    while (at < to) {
      at = nextMarkerInScan(bytes, at, to);
      if (at <= to && unsigned(bytes, at - 1) == EOI) {
        return true;
      }
      if (at + 2 > to || at + (bytes.getShort(at) & 0xFFFF) > to) {
        return false;
      }
      at = endOfSegment(bytes, at, to);
    }
    return false;
  }

  /** The offset behind the next marker, which must start here; fill bytes are skipped. */
  private static int nextMarker(ByteBuffer bytes, int from, int to) throws UnfitFileException {
    int at = from;
    if (at < to && unsigned(bytes, at) != 0xFF) {
      throw UnfitFileException.damaged("a segment is missing at byte " + at);
    }
    while (at < to && unsigned(bytes, at) == 0xFF) {
      at++;
    }
    if (at >= to) {
      throw UnfitFileException.truncated("it ends before its picture");
    }
    return at + 1;
  }

  /** The offset behind the next marker; behind the end where there is none. */
  private static int nextMarkerInScan(ByteBuffer bytes, int from, int to) {
    for (int at = from; at < to - 1; at++) {
      if (bytes.get(at) == (byte) 0xFF) {
        int next = unsigned(bytes, at + 1);
        if (next != 0 && next != 0xFF && !(next >= 0xD0 && next <= 0xD7)) {
          return at + 2;
        }
      }
    }
    return to + 1;
  }

  private static int endOfSegment(ByteBuffer bytes, int at, int to) throws UnfitFileException {
    if (at + 2 > to) {
      throw UnfitFileException.truncated("it ends before its picture");
    }
    int length = bytes.getShort(at) & 0xFFFF;
    if (length < 2) {
      throw UnfitFileException.damaged("a segment has no length at byte " + at);
    }
    if (at + length > to) {
      throw UnfitFileException.truncated("it ends before its picture");
    }
    return at + length;
  }

  private static boolean isFrame(int marker) {
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
  }

  private static int unsigned(ByteBuffer bytes, int at) {
    return bytes.get(at) & 0xFF;
  }
}
