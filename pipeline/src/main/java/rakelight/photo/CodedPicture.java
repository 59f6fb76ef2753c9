package rakelight.photo;

import java.io.ByteArrayOutputStream;
import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.Optional;

/**
 * The main picture of a HEIC or AVIF file: which coded tiles it is put together from, where they
 * lie in the file, and how it is turned upright. What a tile shows takes a decoder.
 *
 * <p>Not followed are pictures laid over each other and parts of a picture ({@code clap}, {@code
 * iovl}); a file with such a main picture counts as having none.
 *
 * @param coding what decodes the tiles
 * @param widthPx of the whole, before it is turned
 * @param heightPx as {@code widthPx}
 * @param orientation as in Exif, 1 to 8: what the file's own turns and mirrorings come to. It goes
 *     before an Exif tag, which the standard takes for a note only
 * @param columns of the grid; 1 of a picture that is no grid
 * @param tiles row by row from the top left
 * @param colour how its colours are meant; empty where only the tiles say so
 */
public record CodedPicture(
    Coding coding,
    int widthPx,
    int heightPx,
    int orientation,
    int columns,
    List<Tile> tiles,
    Optional<Colour> colour) {
  private static final byte[] START_CODE = {0, 0, 0, 1};

  /** What the tiles are coded as. */
  public enum Coding {
    HEVC,
    AV1
  }

  /**
   * One coded tile.
   *
   * @param setup where in the file the configuration lies that a decoder must see first
   * @param parts where its bytes lie in the file, one after another
   * @param whole whether the file reaches as far
   */
  public record Tile(Part setup, List<Part> parts, boolean whole) {
    public Tile {
      parts = List.copyOf(parts);
    }
  }

  /** A stretch of the file. */
  public record Part(long offsetBytes, long lengthBytes) {}

  /**
   * @param matrix of luminance and colour by ITU-T H.273, such as 1 (BT.709) or 6 (BT.601)
   * @param fullRange whether luminance runs from 0 to 255, and not from 16 to 235
   */
  public record Colour(int matrix, boolean fullRange) {}

  public CodedPicture {
    tiles = List.copyOf(tiles);
  }

  /** Whether a file begins as one that may hold a coded picture. */
  public static boolean maybeIn(byte[] file) {
    return file.length > 12 && IsoBox.type(ByteBuffer.wrap(file), 4).equals("ftyp");
  }

  /**
   * Looks for the main picture.
   *
   * @param bytes big-endian, from 0 to its limit; neither position nor content is changed
   * @return empty where there is none, or one of a kind that isn't followed
   * @throws UnfitFileException if its boxes contradict each other
   */
  public static Optional<CodedPicture> of(ByteBuffer bytes) throws UnfitFileException {
    try {
      return CodedPictureWalk.of(bytes);
    } catch (IndexOutOfBoundsException | BufferUnderflowException e) {
      throw UnfitFileException.damaged("a box in it ends early");
    }
  }

  /** Rows of the grid. */
  public int rows() {
    return tiles.size() / columns;
  }

  /** The share of the tiles that the file holds whole, from 0 to 1. */
  double wholeShare() {
    return (double) tiles.stream().filter(Tile::whole).count() / tiles.size();
  }

  /**
   * A tile as its decoder takes it: HEVC as a byte stream with start codes (ITU-T H.265, Annex B),
   * parameter sets first; AV1 as open bitstream units.
   *
   * @throws UnfitFileException if the tile contradicts itself
   */
  public byte[] stream(byte[] file, Tile tile) throws UnfitFileException {
    try {
      ByteArrayOutputStream data = new ByteArrayOutputStream();
      for (Part part : tile.parts()) {
        data.write(file, (int) part.offsetBytes(), (int) part.lengthBytes());
      }
      ByteBuffer setup =
          ByteBuffer.wrap(file, (int) tile.setup().offsetBytes(), (int) tile.setup().lengthBytes());
      return coding == Coding.HEVC
          ? hevc(setup.slice(), ByteBuffer.wrap(data.toByteArray()))
          : av1(setup.slice(), data.toByteArray());
    } catch (IndexOutOfBoundsException | BufferUnderflowException e) {
      throw UnfitFileException.damaged("a tile of it ends early");
    }
  }

  /** {@code hvcC}: ISO/IEC 14496-15 section 8.3.3.1. */
  private static byte[] hevc(ByteBuffer setup, ByteBuffer data) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    int lengthBytes = (setup.get(21) & 3) + 1;
    int arrays = setup.get(22) & 0xFF;
    setup.position(23);
    for (int i = 0; i < arrays; i++) {
      setup.get(); // The type, which the unit says too.
      int units = setup.getShort() & 0xFFFF;
      for (int j = 0; j < units; j++) {
        unit(setup, setup.getShort() & 0xFFFF, out);
      }
    }
    while (data.hasRemaining()) {
      long length = 0;
      for (int i = 0; i < lengthBytes; i++) {
        length = length << 8 | (data.get() & 0xFF);
      }
      unit(data, length, out);
    }
    return out.toByteArray();
  }

  private static void unit(ByteBuffer from, long length, ByteArrayOutputStream out) {
    if (length > from.remaining()) {
      throw new BufferUnderflowException();
    }
    byte[] unit = new byte[(int) length];
    from.get(unit);
    out.writeBytes(START_CODE);
    out.writeBytes(unit);
  }

  /** {@code av1C}: AV1 Codec ISO Media File Format Binding, section 2.3.3. */
  private static byte[] av1(ByteBuffer setup, byte[] data) {
    ByteBuffer out = ByteBuffer.allocate(setup.remaining() - 4 + data.length);
    return out.put(setup.position(4)).put(data).array();
  }
}
