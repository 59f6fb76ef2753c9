package rakelight.photo;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Finds the largest JPEG preview inside a raw or HEIC file. */
final class PreviewSearch {
  /** A thumbnail of 160 x 120 is no picture to read an inscription from (common practice). */
  private static final int SHORTEST_LONG_SIDE_PX = 400;

  private static final int JPEG_OLD = 6;
  private static final int JPEG_NEW = 7;
  private static final int COLOUR_FILTER_ARRAY = 32803;
  private static final int LINEAR_RAW = 34892;

  private PreviewSearch() {}

  /** A preview and its size. */
  record Found(Preview preview, int widthPx, int heightPx) {
    private long pixels() {
      return (long) widthPx * heightPx;
    }
  }

  /** The largest preview that the directories point to. */
  static Optional<Found> inDirectories(ByteBuffer bytes, TiffWalk tiff) {
    List<Preview> candidates = new ArrayList<>();
    for (TiffWalk.Directory directory : tiff.directories()) {
      if (directory.has(TiffWalk.JPEG_OFFSET) && directory.has(TiffWalk.JPEG_LENGTH)) {
        candidates.add(
            new Preview(
                directory.first(TiffWalk.JPEG_OFFSET, 0),
                directory.first(TiffWalk.JPEG_LENGTH, 0)));
      }
      long compression = directory.first(TiffWalk.COMPRESSION, 0);
      long photometric = directory.first(TiffWalk.PHOTOMETRIC, 0);
      if ((compression == JPEG_OLD || compression == JPEG_NEW)
          && photometric != COLOUR_FILTER_ARRAY
          && photometric != LINEAR_RAW
          && directory.all(TiffWalk.STRIP_OFFSETS).size() == 1
          && directory.all(TiffWalk.STRIP_LENGTHS).size() == 1) {
        candidates.add(
            new Preview(
                directory.first(TiffWalk.STRIP_OFFSETS, 0),
                directory.first(TiffWalk.STRIP_LENGTHS, 0)));
      }
      Long asValue = directory.valueOffsets().get(TiffWalk.JPEG_AS_VALUE);
      if (asValue != null) {
        candidates.add(new Preview(asValue, directory.first(TiffWalk.JPEG_AS_VALUE, 0)));
      }
    }
    return largest(bytes, candidates);
  }

  /** The preview of a Fujifilm raw file, whose header holds its place at byte 84. */
  static Optional<Found> inFujifilmHeader(ByteBuffer bytes) {
    return bytes.limit() < 92
        ? Optional.empty()
        : largest(
            bytes,
            List.of(new Preview(bytes.getInt(84) & 0xFFFF_FFFFL, bytes.getInt(88) & 0xFFFF_FFFFL)));
  }

  /** The largest JPEG anywhere in the file: for formats that keep it in makers' own places. */
  static Optional<Found> anywhere(ByteBuffer bytes) {
    List<Preview> candidates = new ArrayList<>();
    int limit = bytes.limit();
    for (int at = 0; at + 3 < limit; at++) {
      if (bytes.get(at) == (byte) 0xFF
          && bytes.get(at + 1) == (byte) 0xD8
          && bytes.get(at + 2) == (byte) 0xFF) {
        candidates.add(new Preview(at, limit - at));
      }
    }
    return largest(bytes, candidates);
  }

  private static Optional<Found> largest(ByteBuffer bytes, List<Preview> candidates) {
    Optional<Found> best = Optional.empty();
    for (Preview candidate : candidates) {
      Optional<Found> found = check(bytes, candidate);
      if (found.isPresent() && (best.isEmpty() || found.get().pixels() > best.get().pixels())) {
        best = found;
      }
    }
    return best;
  }

  private static Optional<Found> check(ByteBuffer bytes, Preview preview) {
    if (preview.offsetBytes() < 0
        || preview.lengthBytes() < 0
        || preview.offsetBytes() > bytes.limit() - preview.lengthBytes()) {
      return Optional.empty();
    }
    try {
      int from = (int) preview.offsetBytes();
      JpegWalk jpeg = JpegWalk.of(bytes, from, (int) (from + preview.lengthBytes()));
      return jpeg.codedForScreens()
              && Math.max(jpeg.widthPx(), jpeg.heightPx()) >= SHORTEST_LONG_SIDE_PX
          ? Optional.of(new Found(preview, jpeg.widthPx(), jpeg.heightPx()))
          : Optional.empty();
    } catch (UnfitFileException e) {
      return Optional.empty();
    }
  }
}
