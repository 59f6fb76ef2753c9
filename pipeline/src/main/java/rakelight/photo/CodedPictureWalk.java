package rakelight.photo;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.photo.CodedPicture.Coding;
import rakelight.photo.CodedPicture.Colour;
import rakelight.photo.CodedPicture.Part;
import rakelight.photo.CodedPicture.Tile;

/**
 * Follows the boxes of a HEIC or AVIF file from its main item to the coded tiles: ISO/IEC 14496-12
 * section 8.11 ({@code pitm}, {@code iinf}, {@code iloc}, {@code iref}, {@code idat}) and ISO/IEC
 * 23008-12 sections 6.5 (properties), 6.6.2.3 (grid) and 9.3 ({@code ipma}).
 */
final class CodedPictureWalk {
  /** A telephone's picture has some fifty tiles, each in one part. */
  private static final int MOST_PARTS = 1 << 20;

  private final ByteBuffer bytes;
  private final List<IsoBox> meta;
  private final Map<Integer, String> types = new HashMap<>();
  private final Map<Integer, List<Part>> places = new HashMap<>();
  private final Map<Integer, List<IsoBox>> properties = new HashMap<>();

  /** Where reading goes on. */
  private int at;

  private CodedPictureWalk(ByteBuffer bytes, IsoBox meta) throws UnfitFileException {
    this.bytes = bytes;
    this.meta = IsoBox.in(bytes, meta.from() + 4, meta.to());
  }

  static Optional<CodedPicture> of(ByteBuffer bytes) throws UnfitFileException {
    Optional<IsoBox> meta = IsoBox.first(IsoBox.in(bytes, 0, bytes.limit()), "meta");
    return meta.isPresent() ? new CodedPictureWalk(bytes, meta.get()).picture() : Optional.empty();
  }

  private Optional<CodedPicture> picture() throws UnfitFileException {
    Optional<IsoBox> main = box("pitm");
    if (main.isEmpty() || box("iinf").isEmpty() || box("iloc").isEmpty()) {
      return Optional.empty();
    }
    readTypes();
    readPlaces();
    readProperties();
    int item = identity(begin(main.get()) == 0);
    return types.getOrDefault(item, "").equals("grid") ? grid(item) : single(item);
  }

  private Optional<CodedPicture> single(int item) throws UnfitFileException {
    Optional<Coding> coding = coding(item);
    Optional<IsoBox> size = property(item, "ispe");
    if (coding.isEmpty() || size.isEmpty() || property(item, "clap").isPresent()) {
      return Optional.empty();
    }
    int width = bytes.getInt(size.get().from() + 4);
    int height = bytes.getInt(size.get().from() + 8);
    return picture(item, coding.get(), width, height, 1, List.of(item), item);
  }

  private Optional<CodedPicture> grid(int item) throws UnfitFileException {
    List<Part> parts = places.getOrDefault(item, List.of());
    List<Integer> tiles = madeFrom(item);
    if (parts.size() != 1
        || !isThere(parts.get(0))
        || tiles.isEmpty()
        || property(item, "clap").isPresent()) {
      return Optional.empty();
    }
    at = (int) parts.get(0).offsetBytes() + 1;
    boolean wide = (number(1) & 1) == 1;
    int rows = (int) number(1) + 1;
    int columns = (int) number(1) + 1;
    int width = (int) number(wide ? 4 : 2);
    int height = (int) number(wide ? 4 : 2);
    if (rows * columns != tiles.size()) {
      throw UnfitFileException.damaged(
          "its grid has " + rows * columns + " places and " + tiles.size() + " tiles");
    }
    Optional<Coding> coding = coding(tiles.get(0));
    for (int tile : tiles) {
      if (!coding(tile).equals(coding)) {
        return Optional.empty();
      }
    }
    return coding.isEmpty()
        ? Optional.empty()
        : picture(item, coding.get(), width, height, columns, tiles, tiles.get(0));
  }

  private Optional<CodedPicture> picture(
      int item, Coding coding, int width, int height, int columns, List<Integer> tiles, int first)
      throws UnfitFileException {
    List<Tile> found = new ArrayList<>();
    for (int tile : tiles) {
      Optional<IsoBox> setup = property(tile, coding == Coding.HEVC ? "hvcC" : "av1C");
      List<Part> parts = places.getOrDefault(tile, List.of());
      if (setup.isEmpty() || parts.isEmpty()) {
        throw UnfitFileException.damaged(
            "tile " + found.size() + " of its picture isn't described");
      }
      int from = setup.get().from();
      found.add(
          new Tile(
              new Part(from, setup.get().to() - from),
              parts,
              parts.stream().allMatch(this::isThere)));
    }
    Optional<Colour> colour = colour(item);
    return Optional.of(
        new CodedPicture(
            coding,
            width,
            height,
            orientation(item),
            columns,
            found,
            colour.isPresent() ? colour : colour(first)));
  }

  private boolean isThere(Part part) {
    return part.offsetBytes() >= 0
        && part.lengthBytes() > 0
        && part.offsetBytes() <= bytes.limit() - part.lengthBytes();
  }

  private Optional<Coding> coding(int item) {
    return switch (types.getOrDefault(item, "")) {
      case "hvc1" -> Optional.of(Coding.HEVC);
      case "av01" -> Optional.of(Coding.AV1);
      default -> Optional.empty();
    };
  }

  /** Turns and mirrorings apply in the order in which they are named. */
  private int orientation(int item) {
    int orientation = 1;
    for (IsoBox property : properties.getOrDefault(item, List.of())) {
      if (property.type().equals("irot")) {
        for (int i = bytes.get(property.from()) & 3; i > 0; i--) {
          orientation = turnedLeft(orientation);
        }
      } else if (property.type().equals("imir")) {
        // 0 exchanges top and bottom, 1 left and right: ISO/IEC 23008-12:2022 section 6.5.12.
        orientation = mirrored(orientation);
        if ((bytes.get(property.from()) & 1) == 0) {
          orientation = turnedLeft(turnedLeft(orientation));
        }
      }
    }
    return orientation;
  }

  /** A picture of this Exif orientation, once upright, turned by a quarter to the left. */
  private static int turnedLeft(int orientation) {
    return new int[] {8, 5, 6, 7, 4, 1, 2, 3}[orientation - 1];
  }

  /** A picture of this Exif orientation, once upright, with left and right exchanged. */
  private static int mirrored(int orientation) {
    return new int[] {2, 1, 4, 3, 6, 5, 8, 7}[orientation - 1];
  }

  private Optional<Colour> colour(int item) {
    return properties.getOrDefault(item, List.of()).stream()
        .filter(box -> box.type().equals("colr") && IsoBox.type(bytes, box.from()).equals("nclx"))
        .findFirst()
        .map(
            box ->
                new Colour(
                    bytes.getShort(box.from() + 8) & 0xFFFF, bytes.get(box.from() + 10) < 0));
  }

  private Optional<IsoBox> property(int item, String type) {
    return IsoBox.first(properties.getOrDefault(item, List.of()), type);
  }

  private void readTypes() throws UnfitFileException {
    IsoBox list = box("iinf").orElseThrow();
    int first = list.from() + (begin(list) == 0 ? 6 : 8);
    for (IsoBox entry : IsoBox.in(bytes, first, list.to())) {
      int version = begin(entry);
      if (version >= 2) {
        int item = identity(version == 2);
        types.put(item, IsoBox.type(bytes, at + 2));
      }
    }
  }

  private void readPlaces() throws UnfitFileException {
    IsoBox box = box("iloc").orElseThrow();
    int version = begin(box);
    int sizes = (int) number(2);
    int offsetBytes = sizes >> 12;
    int lengthBytes = sizes >> 8 & 15;
    int baseBytes = sizes >> 4 & 15;
    int indexBytes = version == 0 ? 0 : sizes & 15;
    long items = number(version < 2 ? 2 : 4);
    long all = 0;
    for (long i = 0; i < items; i++) {
      int item = identity(version < 2);
      int method = version == 0 ? 0 : (int) number(2) & 15;
      number(2);
      long base = number(baseBytes);
      long extents = number(2);
      Optional<IsoBox> data = method == 1 ? box("idat") : Optional.empty();
      long start = base + data.map(IsoBox::from).orElse(0);
      List<Part> parts = new ArrayList<>();
      all += extents;
      if (all > MOST_PARTS) {
        throw UnfitFileException.damaged("it claims more than " + MOST_PARTS + " parts");
      }
      for (long j = 0; j < extents; j++) {
        number(indexBytes);
        long from = number(offsetBytes);
        parts.add(new Part(start + from, number(lengthBytes)));
      }
      if (method == 0 || data.isPresent()) {
        places.put(item, parts);
      }
    }
  }

  private void readProperties() throws UnfitFileException {
    Optional<IsoBox> box = box("iprp");
    if (box.isEmpty()) {
      return;
    }
    List<IsoBox> parts = IsoBox.in(bytes, box.get().from(), box.get().to());
    Optional<IsoBox> list = IsoBox.first(parts, "ipco");
    if (list.isEmpty()) {
      return;
    }
    List<IsoBox> all = IsoBox.in(bytes, list.get().from(), list.get().to());
    for (IsoBox ties : parts) {
      if (!ties.type().equals("ipma")) {
        continue;
      }
      int version = begin(ties);
      boolean wide = (bytes.get(ties.from() + 3) & 1) == 1;
      long entries = number(4);
      for (long i = 0; i < entries; i++) {
        int item = identity(version == 0);
        long count = number(1);
        for (long j = 0; j < count; j++) {
          int index = (int) number(wide ? 2 : 1) & (wide ? 0x7FFF : 0x7F);
          if (index >= 1 && index <= all.size()) {
            properties.computeIfAbsent(item, id -> new ArrayList<>()).add(all.get(index - 1));
          }
        }
      }
    }
  }

  /** The tiles of a grid, in their order. */
  private List<Integer> madeFrom(int item) throws UnfitFileException {
    Optional<IsoBox> references = box("iref");
    List<Integer> tiles = new ArrayList<>();
    if (references.isEmpty()) {
      return tiles;
    }
    boolean narrow = begin(references.get()) == 0;
    for (IsoBox reference : IsoBox.in(bytes, at, references.get().to())) {
      at = reference.from();
      if (reference.type().equals("dimg") && identity(narrow) == item) {
        long count = number(2);
        for (long i = 0; i < count; i++) {
          tiles.add(identity(narrow));
        }
      }
    }
    return tiles;
  }

  private Optional<IsoBox> box(String type) {
    return IsoBox.first(meta, type);
  }

  /** Goes behind version and flags; gives the version. */
  private int begin(IsoBox box) {
    at = box.from();
    return (int) (number(4) >> 24);
  }

  private int identity(boolean narrow) {
    return (int) number(narrow ? 2 : 4);
  }

  private long number(int size) {
    long number = 0;
    for (int i = 0; i < size; i++) {
      number = number << 8 | (bytes.get(at++) & 0xFF);
    }
    return number;
  }
}
