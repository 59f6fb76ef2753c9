package rakelight.relief;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import rakelight.picture.Point;

/**
 * Places of a picture that look like no other place near them, each with a code of what is around
 * it. Two pictures of one stone have many codes in common, and at places that lie alike.
 *
 * <p>A code has {@value #CODE_BITS} bits, of which like places share most: of the 128 numbers of a
 * SIFT descriptor the first half says which are above the median, the second which are in the top
 * quarter. What counts is their order, so that the strength of the light doesn't.
 */
public final class Features {
  /** Bits in a code. */
  public static final int CODE_BITS = 256;

  /** Words of 64 bits in a code. */
  public static final int CODE_WORDS = CODE_BITS / Long.SIZE;

  private static final int PLACE_BYTES = 2 * Float.BYTES + CODE_BITS / Byte.SIZE;
  private static final int NUMBERS = CODE_BITS / 2;

  /** Of a picture that nobody can see. */
  public static final Features NONE = new Features(new float[0], new float[0], new long[0]);

  private final float[] x;
  private final float[] y;
  private final long[] codes;

  /**
   * @param x as a share of the picture's longest side, 0 to 1
   * @param codes {@value #CODE_WORDS} words for each place
   */
  private Features(float[] x, float[] y, long[] codes) {
    this.x = x;
    this.y = y;
    this.codes = codes;
  }

  /**
   * @param described the 128 numbers of the SIFT descriptor of each place, row by row
   */
  static Features of(float[] x, float[] y, float[] described) {
    long[] codes = new long[x.length * CODE_WORDS];
    for (int i = 0; i < x.length; i++) {
      float[] numbers = Arrays.copyOfRange(described, i * NUMBERS, (i + 1) * NUMBERS);
      float[] sorted = numbers.clone();
      Arrays.sort(sorted);
      float median = sorted[NUMBERS / 2];
      float high = sorted[NUMBERS * 3 / 4];
      for (int j = 0; j < NUMBERS; j++) {
        int word = i * CODE_WORDS + j / Long.SIZE;
        long bit = 1L << j % Long.SIZE;
        codes[word] |= numbers[j] > median ? bit : 0;
        codes[word + CODE_WORDS / 2] |= numbers[j] > high ? bit : 0;
      }
    }
    return new Features(x, y, codes);
  }

  /** Reads what {@link #bytes} wrote. */
  public static Features read(byte[] bytes) {
    int count = bytes.length / PLACE_BYTES;
    ByteBuffer in = ByteBuffer.wrap(bytes);
    float[] x = new float[count];
    float[] y = new float[count];
    long[] codes = new long[count * CODE_WORDS];
    for (int i = 0; i < count; i++) {
      x[i] = in.getFloat();
      y[i] = in.getFloat();
      for (int w = 0; w < CODE_WORDS; w++) {
        codes[i * CODE_WORDS + w] = in.getLong();
      }
    }
    return new Features(x, y, codes);
  }

  /** Place by place: x, y, code; big-endian. */
  byte[] bytes() {
    ByteBuffer out = ByteBuffer.allocate(count() * PLACE_BYTES);
    for (int i = 0; i < count(); i++) {
      out.putFloat(x[i]).putFloat(y[i]);
      for (int w = 0; w < CODE_WORDS; w++) {
        out.putLong(codes[i * CODE_WORDS + w]);
      }
    }
    return out.array();
  }

  /** How many places. */
  public int count() {
    return x.length;
  }

  /** A place, in shares of the picture's longest side. */
  public Point place(int i) {
    return new Point(x[i], y[i]);
  }

  /** One word of the code of a place. */
  public long code(int i, int word) {
    return codes[i * CODE_WORDS + word];
  }

  /** In how many bits two codes differ, 0 to {@value #CODE_BITS}. */
  public int difference(int i, Features other, int j) {
    int bits = 0;
    for (int w = 0; w < CODE_WORDS; w++) {
      bits += Long.bitCount(codes[i * CODE_WORDS + w] ^ other.codes[j * CODE_WORDS + w]);
    }
    return bits;
  }

  /** Only some of the places. */
  public Features only(IntPredicate wanted) {
    int[] kept = IntStream.range(0, count()).filter(wanted).toArray();
    float[] keptX = new float[kept.length];
    float[] keptY = new float[kept.length];
    long[] keptCodes = new long[kept.length * CODE_WORDS];
    for (int i = 0; i < kept.length; i++) {
      keptX[i] = x[kept[i]];
      keptY[i] = y[kept[i]];
      System.arraycopy(codes, kept[i] * CODE_WORDS, keptCodes, i * CODE_WORDS, CODE_WORDS);
    }
    return new Features(keptX, keptY, keptCodes);
  }
}
