package rakelight.photo;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Walks the directories of a TIFF file or of a camera raw built like one: the chain from the
 * header, and every sub-directory. TIFF 6.0 sections 2 and 8, TIFF Technical Note 1 (SubIFDs), DNG
 * 1.4; BigTIFF with its 8-byte offsets.
 */
record TiffWalk(List<Directory> directories) {
  static final int NEW_SUBFILE_TYPE = 0x00FE;
  static final int WIDTH = 0x0100;
  static final int HEIGHT = 0x0101;
  static final int COMPRESSION = 0x0103;
  static final int PHOTOMETRIC = 0x0106;
  static final int STRIP_OFFSETS = 0x0111;
  static final int STRIP_LENGTHS = 0x0117;
  static final int SUB_DIRECTORIES = 0x014A;
  static final int TILE_OFFSETS = 0x0144;
  static final int TILE_LENGTHS = 0x0145;
  static final int JPEG_OFFSET = 0x0201;
  static final int JPEG_LENGTH = 0x0202;
  static final int EXIF_DIRECTORY = 0x8769;
  static final int DNG_VERSION = 0xC612;

  /** A JPEG held as the value of a tag: Panasonic's JpgFromRaw. */
  static final int JPEG_AS_VALUE = 0x002E;

  private static final int MOST_DIRECTORIES = 64;
  private static final int MOST_VALUES = 1 << 20;
  private static final int LONG = 4;

  /** Bytes of each field type, by its number; 0 where there is no such type. */
  private static final int[] TYPE_BYTES = {0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4, 0, 0, 8, 8, 8};

  TiffWalk {
    directories = List.copyOf(directories);
  }

  /**
   * One directory: whole-number fields only, as unsigned values.
   *
   * @param valueOffsets where the values of a field lie in the file
   */
  record Directory(Map<Integer, List<Long>> fields, Map<Integer, Long> valueOffsets) {
    Directory {
      fields = Map.copyOf(fields);
      valueOffsets = Map.copyOf(valueOffsets);
    }

    List<Long> all(int tag) {
      return fields.getOrDefault(tag, List.of());
    }

    long first(int tag, long otherwise) {
      List<Long> values = all(tag);
      return values.isEmpty() ? otherwise : values.get(0);
    }

    boolean has(int tag) {
      return fields.containsKey(tag);
    }
  }

  static TiffWalk of(ByteBuffer file) throws UnfitFileException {
    if (file.limit() < 8) {
      throw UnfitFileException.truncated("it has no header");
    }
    ByteBuffer bytes =
        file.duplicate().order(file.get(0) == 'I' ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
    boolean big = bytes.getShort(2) == 43;
    Deque<Long> open = new ArrayDeque<>();
    open.add(big ? offsetAt(bytes, 8, true) : offsetAt(bytes, 4, false));
    Set<Long> seen = new HashSet<>();
    List<Directory> directories = new ArrayList<>();
    while (!open.isEmpty() && directories.size() < MOST_DIRECTORIES) {
      long offset = open.removeFirst();
      if (offset == 0 || !seen.add(offset)) {
        continue;
      }
      directories.add(directory(bytes, offset, big, open));
    }
    if (directories.isEmpty()) {
      throw UnfitFileException.damaged("it has no directory of pictures");
    }
    return new TiffWalk(directories);
  }

  /** Throws if any strip or tile of any picture reaches beyond the end of the file. */
  void requireWhole(long sizeBytes) throws UnfitFileException {
    for (Directory directory : directories) {
      requireInside(directory.all(STRIP_OFFSETS), directory.all(STRIP_LENGTHS), sizeBytes);
      requireInside(directory.all(TILE_OFFSETS), directory.all(TILE_LENGTHS), sizeBytes);
    }
  }

  private static void requireInside(List<Long> offsets, List<Long> lengths, long sizeBytes)
      throws UnfitFileException {
    for (int i = 0; i < Math.min(offsets.size(), lengths.size()); i++) {
      // Some raw files write "to the end" as all ones.
      boolean toTheEnd = lengths.get(i) == 0xFFFF_FFFFL;
      if (offsets.get(i) + (toTheEnd ? 0 : lengths.get(i)) > sizeBytes) {
        throw UnfitFileException.truncated("a strip of its picture is missing");
      }
    }
  }

  private static Directory directory(ByteBuffer bytes, long offset, boolean big, Deque<Long> open)
      throws UnfitFileException {
    int countBytes = big ? 8 : 2;
    int entryBytes = big ? 20 : 12;
    int at = inside(bytes, offset, countBytes);
    long count = big ? bytes.getLong(at) : bytes.getShort(at) & 0xFFFF;
    if (count == 0 || count > 4096) {
      throw UnfitFileException.damaged("a directory with " + count + " entries");
    }
    int entries = inside(bytes, offset + countBytes, count * entryBytes);
    Map<Integer, List<Long>> fields = new HashMap<>();
    Map<Integer, Long> valueOffsets = new HashMap<>();
    for (int i = 0; i < count; i++) {
      field(bytes, entries + i * entryBytes, big, fields, valueOffsets);
    }
    for (int tag : new int[] {SUB_DIRECTORIES, EXIF_DIRECTORY}) {
      open.addAll(fields.getOrDefault(tag, List.of()));
    }
    long next = offset + countBytes + count * entryBytes;
    if (next + (big ? 8 : 4) <= bytes.limit()) {
      open.add(offsetAt(bytes, (int) next, big));
    }
    return new Directory(fields, valueOffsets);
  }

  private static void field(
      ByteBuffer bytes,
      int entry,
      boolean big,
      Map<Integer, List<Long>> fields,
      Map<Integer, Long> valueOffsets)
      throws UnfitFileException {
    int tag = bytes.getShort(entry) & 0xFFFF;
    int type = bytes.getShort(entry + 2) & 0xFFFF;
    long count = big ? bytes.getLong(entry + 4) : bytes.getInt(entry + 4) & 0xFFFF_FFFFL;
    int width = type < TYPE_BYTES.length ? TYPE_BYTES[type] : 0;
    if (width == 0 || count <= 0 || count > bytes.limit()) {
      return;
    }
    int valueAt = entry + (big ? 12 : 8);
    long length = count * width;
    long where = length <= (big ? 8 : 4) ? valueAt : offsetAt(bytes, valueAt, big);
    valueOffsets.put(tag, where);
    boolean wholeNumbers = type == 1 || type == 3 || type == LONG || type == 13 || type >= 16;
    if (!wholeNumbers || count > MOST_VALUES || tag == JPEG_AS_VALUE) {
      fields.put(tag, List.of(count));
      return;
    }
    int from = inside(bytes, where, length);
    List<Long> values = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      int at = from + i * width;
      values.add(
          switch (width) {
            case 1 -> (long) (bytes.get(at) & 0xFF);
            case 2 -> (long) (bytes.getShort(at) & 0xFFFF);
            case 4 -> bytes.getInt(at) & 0xFFFF_FFFFL;
            default -> bytes.getLong(at);
          });
    }
    fields.put(tag, values);
  }

  private static long offsetAt(ByteBuffer bytes, int at, boolean big) throws UnfitFileException {
    int from = inside(bytes, at, big ? 8 : 4);
    return big ? bytes.getLong(from) : bytes.getInt(from) & 0xFFFF_FFFFL;
  }

  private static int inside(ByteBuffer bytes, long offset, long length) throws UnfitFileException {
    if (offset < 0 || length < 0 || offset > bytes.limit() - length) {
      throw UnfitFileException.truncated("a directory reaches beyond its end");
    }
    return (int) offset;
  }
}
