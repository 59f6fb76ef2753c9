package rakelight.photo;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Writes HEIC files as telephones do: a grid of tiles coded as HEVC, with properties. The tiles are
 * of {@value #TILE_PX} pixels and their samples stand in them as they are (ITU-T H.265, {@code
 * pcm_flag}), so that a test knows every pixel to come. Luminance runs from 0 to 255.
 */
public final class Heic {
  public static final int TILE_PX = 32;

  private static final int VPS = 32;
  private static final int SPS = 33;
  private static final int PPS = 34;
  private static final int IDR = 20;

  private final int width;
  private final int height;
  private final List<byte[]> tiles = new ArrayList<>();
  private final List<byte[]> turns = new ArrayList<>();

  /**
   * @param luminance row by row, 0 to 255
   * @param blueness Cb, the same for all pixels
   * @param redness Cr, the same for all pixels
   */
  public Heic(int width, int height, byte[] luminance, int blueness, int redness) {
    this.width = width;
    this.height = height;
    for (int y = 0; y < height; y += TILE_PX) {
      for (int x = 0; x < width; x += TILE_PX) {
        byte[] samples = new byte[TILE_PX * TILE_PX * 3 / 2];
        for (int v = 0; v < TILE_PX && y + v < height; v++) {
          int count = Math.min(TILE_PX, width - x);
          System.arraycopy(luminance, (y + v) * width + x, samples, v * TILE_PX, count);
        }
        int colour = TILE_PX * TILE_PX;
        int quarter = colour / 4;
        Arrays.fill(samples, colour, colour + quarter, (byte) blueness);
        Arrays.fill(samples, colour + quarter, samples.length, (byte) redness);
        tiles.add(coded(samples));
      }
    }
  }

  /** Has the picture turned to the left by quarters. */
  public Heic turned(int quarters) {
    turns.add(box("irot", new byte[] {(byte) quarters}));
    return this;
  }

  /**
   * Has it mirrored.
   *
   * @param axis 0 exchanges top and bottom, 1 left and right
   */
  public Heic mirrored(int axis) {
    turns.add(box("imir", new byte[] {(byte) axis}));
    return this;
  }

  /** The whole file. Its tiles come last, in their order. */
  public byte[] file() {
    byte[] type = box("ftyp", ascii("heic\0\0\0\0mif1heic"));
    int rows = (height + TILE_PX - 1) / TILE_PX;
    int columns = (width + TILE_PX - 1) / TILE_PX;
    byte[] grid =
        ByteBuffer.allocate(12)
            .put(new byte[] {0, 1, (byte) (rows - 1), (byte) (columns - 1)})
            .putInt(width)
            .putInt(height)
            .array();
    int metaBytes = meta(grid, 0).length;
    byte[] meta = meta(grid, type.length + metaBytes + 8);
    ByteArrayOutputStream data = new ByteArrayOutputStream();
    tiles.forEach(data::writeBytes);
    return Shots.concat(type, meta, box("mdat", data.toByteArray()));
  }

  /** Item 1 is the grid, the tiles follow. */
  private byte[] meta(byte[] grid, int dataAt) {
    ByteArrayOutputStream entries = new ByteArrayOutputStream();
    ByteArrayOutputStream places = new ByteArrayOutputStream();
    ByteArrayOutputStream from = new ByteArrayOutputStream();
    ByteArrayOutputStream ties = new ByteArrayOutputStream();
    entries.writeBytes(entry(1, "grid"));
    places.writeBytes(place(1, 1, 0, grid.length));
    ties.writeBytes(new byte[] {0, 1, (byte) (1 + turns.size()), 1});
    for (int i = 0; i < turns.size(); i++) {
      ties.write(0x80 | (4 + i));
    }
    int at = dataAt;
    for (int i = 0; i < tiles.size(); i++) {
      int id = i + 2;
      entries.writeBytes(entry(id, "hvc1"));
      places.writeBytes(place(id, 0, at, tiles.get(i).length));
      from.writeBytes(ByteBuffer.allocate(2).putShort((short) id).array());
      ties.writeBytes(
          ByteBuffer.allocate(5).putShort((short) id).put(new byte[] {2, 2, (byte) 0x83}).array());
      at += tiles.get(i).length;
    }
    byte[] grids = box("dimg", Shots.concat(shorts(1, tiles.size()), from.toByteArray()));
    byte[] properties =
        box(
            "ipco",
            Shots.concat(
                size(width, height),
                size(TILE_PX, TILE_PX),
                box("hvcC", configuration()),
                Shots.concat(turns.toArray(byte[][]::new))));
    int count = tiles.size() + 1;
    return fullBox(
        "meta",
        0,
        Shots.concat(
            fullBox("hdlr", 0, Shots.concat(new byte[4], ascii("pict"), new byte[13])),
            fullBox("pitm", 0, shorts(1)),
            fullBox("iinf", 0, Shots.concat(shorts(count), entries.toByteArray())),
            fullBox("iloc", 1, Shots.concat(shorts(0x4400, count), places.toByteArray())),
            fullBox("iref", 0, grids),
            box(
                "iprp",
                Shots.concat(
                    properties,
                    fullBox(
                        "ipma",
                        0,
                        Shots.concat(
                            ByteBuffer.allocate(4).putInt(count).array(), ties.toByteArray())))),
            box("idat", grid)));
  }

  private static byte[] entry(int id, String type) {
    return fullBox("infe", 2, Shots.concat(shorts(id, 0), ascii(type), new byte[1]));
  }

  private static byte[] place(int id, int method, int offset, int length) {
    return Shots.concat(
        shorts(id, method, 0, 1), ByteBuffer.allocate(8).putInt(offset).putInt(length).array());
  }

  private static byte[] size(int width, int height) {
    return fullBox("ispe", 0, ByteBuffer.allocate(8).putInt(width).putInt(height).array());
  }

  private static byte[] fullBox(String type, int version, byte[] content) {
    return box(type, Shots.concat(new byte[] {(byte) version, 0, 0, 0}, content));
  }

  private static byte[] box(String type, byte[] content) {
    return Shots.concat(
        ByteBuffer.allocate(4).putInt(8 + content.length).array(), ascii(type), content);
  }

  private static byte[] shorts(int... values) {
    ByteBuffer out = ByteBuffer.allocate(2 * values.length);
    for (int value : values) {
      out.putShort((short) value);
    }
    return out.array();
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  /** {@code hvcC}: ISO/IEC 14496-15 section 8.3.3.1. */
  private static byte[] configuration() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(new byte[] {1, 3, 0x70, 0, 0, 0, (byte) 0x90, 0, 0, 0, 0, 0, 90});
    out.writeBytes(new byte[] {(byte) 0xF0, 0, (byte) 0xFC, (byte) 0xFD, (byte) 0xF8, (byte) 0xF8});
    out.writeBytes(new byte[] {0, 0, 0x0F, 3});
    for (byte[] unit : List.of(videoParameters(), sequenceParameters(), pictureParameters())) {
      out.write(0x80 | unit[0] >> 1);
      out.writeBytes(shorts(1, unit.length));
      out.writeBytes(unit);
    }
    return out.toByteArray();
  }

  /** ITU-T H.265 section 7.3.2.1. */
  private static byte[] videoParameters() {
    Bits bits = new Bits().put(0, 4).put(3, 2).put(0, 6).put(0, 3).put(1, 1).put(0xFFFF, 16);
    profile(bits);
    bits.put(1, 1).code(0).code(0).code(0); // Pictures kept: one.
    return unit(VPS, bits.put(0, 6).code(0).put(0, 2).end());
  }

  /** Main Still Picture, level 3: section 7.3.3. */
  private static void profile(Bits bits) {
    bits.put(3, 8).put(0x7000, 16).put(0, 16).put(0b1001, 4).put(0, 22).put(0, 22).put(90, 8);
  }

  /** Section 7.3.2.2: one coding unit of 32 x 32, 4:2:0, 8 bits, samples as they are. */
  private static byte[] sequenceParameters() {
    Bits bits = new Bits().put(0, 4).put(0, 3).put(1, 1);
    profile(bits);
    bits.code(0).code(1).code(TILE_PX).code(TILE_PX).put(0, 1).code(0).code(0).code(0);
    bits.put(1, 1).code(0).code(0).code(0);
    bits.code(2).code(0); // Coding units of 32 pixels and no others.
    bits.code(0).code(3).code(0).code(0);
    bits.put(0, 3);
    bits.put(1, 1).put(7, 4).put(7, 4).code(2).code(0).put(1, 1); // Samples as they are.
    bits.code(0).put(0, 3);
    bits.put(1, 1); // Usability: full range.
    bits.put(0, 2).put(1, 1).put(5, 3).put(1, 1).put(0, 1).put(0, 7);
    return unit(SPS, bits.put(0, 1).end());
  }

  /** Section 7.3.2.3: nothing special, no filters. */
  private static byte[] pictureParameters() {
    Bits bits = new Bits().code(0).code(0).put(0, 1).put(0, 1).put(0, 3).put(0, 2);
    bits.code(0).code(0).code(0).put(0, 3).code(0).code(0).put(0, 7);
    bits.put(1, 1).put(0, 1).put(1, 1).put(0, 2).code(0).put(0, 2);
    return unit(PPS, bits.end());
  }

  /** Section 7.3.6.1 and on: a slice of one coding unit. */
  private static byte[] coded(byte[] samples) {
    Bits bits = new Bits().put(1, 1).put(0, 1).code(0).code(2).code(0).end();
    Arithmetic undivided = new Arithmetic(bits);
    undivided.likely();
    undivided.last(); // The samples follow as they are.
    bits.align();
    for (byte sample : samples) {
      bits.put(sample & 0xFF, 8);
    }
    new Arithmetic(bits).last(); // Of the slice; its last bit is the stop bit.
    byte[] unit = unit(IDR, bits.align());
    return Shots.concat(ByteBuffer.allocate(4).putInt(unit.length).array(), unit);
  }

  /**
   * Section 7.3.1: two bytes before it, and a three wherever two zeros could begin a start code.
   */
  private static byte[] unit(int type, Bits bits) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(new byte[] {(byte) (type << 1), 1});
    int zeros = 0;
    for (byte value : bits.bytes()) {
      if (zeros == 2 && (value & 0xFF) <= 3) {
        out.write(3);
        zeros = 0;
      }
      out.write(value);
      zeros = value == 0 ? zeros + 1 : 0;
    }
    return out.toByteArray();
  }

  /** Bits, the highest first. */
  private static final class Bits {
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private int pending;
    private int count;

    Bits put(int value, int length) {
      for (int i = length - 1; i >= 0; i--) {
        pending = pending << 1 | (value >> i & 1);
        if (++count == 8) {
          out.write(pending);
          pending = 0;
          count = 0;
        }
      }
      return this;
    }

    /** Exponential Golomb code: section 9.2. */
    Bits code(int value) {
      int length = 32 - Integer.numberOfLeadingZeros(value + 1);
      return put(0, length - 1).put(value + 1, length);
    }

    /** A one, and zeros to the end of the byte. */
    Bits end() {
      return put(1, 1).align();
    }

    Bits align() {
      return count == 0 ? this : put(0, 8 - count);
    }

    byte[] bytes() {
      return out.toByteArray();
    }
  }

  /** The arithmetic encoder of section 9.3.4, begun anew. */
  private static final class Arithmetic {
    private final Bits bits;
    private int low;
    private int range = 510;
    private int outstanding;
    private boolean first = true;

    Arithmetic(Bits bits) {
      this.bits = bits;
    }

    /** The likelier value in a context as it is at the beginning. */
    void likely() {
      range -= 240;
    }

    /** A terminating one, and what is still held back. */
    void last() {
      range -= 2;
      low += range;
      range = 2;
      while (range < 256) {
        if (low < 256) {
          out(0);
        } else if (low >= 512) {
          low -= 512;
          out(1);
        } else {
          low -= 256;
          outstanding++;
        }
        range <<= 1;
        low <<= 1;
      }
      out(low >> 9 & 1);
      bits.put(low >> 7 & 3 | 1, 2);
    }

    private void out(int bit) {
      if (first) {
        first = false;
      } else {
        bits.put(bit, 1);
      }
      for (; outstanding > 0; outstanding--) {
        bits.put(1 - bit, 1);
      }
    }
  }
}
