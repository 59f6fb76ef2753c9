package rakelight.samples;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.nio.charset.StandardCharsets;

/**
 * A photograph of a field card that names a marker, held straight before the lens: a sheet with the
 * number and a QR code (ISO/IEC 18004, version 2, level L, mask 0), on grass.
 */
final class CardPicture {
  private static final int MODULES = 25;
  private static final int DATA_BYTES = 34;
  private static final int CHECK_BYTES = 10;

  /** Of the two bytes a code is filled up with. */
  private static final int[] FILLING = {0xEC, 0x11};

  private static final int FORMAT_L_MASK_0 = 0b01_000;
  private static final int FORMAT_CHECK = 0x537;
  private static final int FORMAT_MASK = 0x5412;

  /** x^8 + x^4 + x^3 + x^2 + 1, the field that check bytes are reckoned in. */
  private static final int FIELD = 0x11D;

  private final boolean[][] dark = new boolean[MODULES][MODULES];
  private final boolean[][] fixed = new boolean[MODULES][MODULES];

  private CardPicture() {}

  /**
   * @param text at most 32 bytes of UTF-8
   */
  static BufferedImage of(String number, String text, int widthPx) {
    CardPicture code = new CardPicture();
    code.patterns();
    code.fill(withCheck(bytes(text)));
    int heightPx = widthPx * 21 / 16;
    BufferedImage picture = new BufferedImage(widthPx, heightPx, BufferedImage.TYPE_3BYTE_BGR);
    Graphics2D g = picture.createGraphics();
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setColor(new Color(70, 92, 48));
    g.fillRect(0, 0, widthPx, heightPx);
    g.setColor(new Color(232, 230, 222));
    g.fillRect(widthPx / 10, heightPx / 12, widthPx * 8 / 10, heightPx * 10 / 12);
    g.setColor(new Color(24, 24, 26));
    int module = widthPx * 6 / 10 / MODULES;
    int left = (widthPx - MODULES * module) / 2;
    int top = heightPx * 2 / 5;
    for (int y = 0; y < MODULES; y++) {
      for (int x = 0; x < MODULES; x++) {
        if (code.dark[y][x]) {
          g.fillRect(left + x * module, top + y * module, module, module);
        }
      }
    }
    double size = widthPx * 0.09;
    double pen = widthPx * 0.2;
    for (char sign : number.toCharArray()) {
      Typeface.Glyph glyph = Typeface.GROTESQUE_BOLD.glyph(sign);
      AffineTransform at = AffineTransform.getTranslateInstance(pen, heightPx * 0.28);
      at.scale(size, size);
      g.fill(at.createTransformedShape(glyph.path()));
      pen += glyph.advance() * size;
    }
    g.dispose();
    return picture;
  }

  /** Bytes with their mode and length before them, filled up. */
  private static int[] bytes(String text) {
    byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
    if (utf8.length > DATA_BYTES - 2) {
      throw new IllegalArgumentException("too long for the code of a card: " + text);
    }
    int[] nibbles = new int[2 * DATA_BYTES];
    nibbles[0] = 0b0100;
    nibbles[1] = utf8.length >> 4;
    nibbles[2] = utf8.length & 15;
    int at = 3;
    for (byte one : utf8) {
      nibbles[at++] = (one & 0xFF) >> 4;
      nibbles[at++] = one & 15;
    }
    at++; // The end: four bits of nothing.
    for (int i = 0; at < nibbles.length; i++) {
      nibbles[at++] = FILLING[i % 2] >> 4;
      nibbles[at++] = FILLING[i % 2] & 15;
    }
    int[] bytes = new int[DATA_BYTES];
    for (int i = 0; i < DATA_BYTES; i++) {
      bytes[i] = nibbles[2 * i] << 4 | nibbles[2 * i + 1];
    }
    return bytes;
  }

  /** The remainder by the generator polynomial behind the data (Reed and Solomon). */
  private static int[] withCheck(int[] data) {
    int[] generator = new int[CHECK_BYTES];
    generator[CHECK_BYTES - 1] = 1;
    int root = 1;
    for (int i = 0; i < CHECK_BYTES; i++) {
      for (int j = 0; j < CHECK_BYTES; j++) {
        generator[j] = times(generator[j], root);
        if (j + 1 < CHECK_BYTES) {
          generator[j] ^= generator[j + 1];
        }
      }
      root = times(root, 2);
    }
    int[] rest = new int[CHECK_BYTES];
    for (int value : data) {
      int factor = value ^ rest[0];
      System.arraycopy(rest, 1, rest, 0, CHECK_BYTES - 1);
      rest[CHECK_BYTES - 1] = 0;
      for (int j = 0; j < CHECK_BYTES; j++) {
        rest[j] ^= times(generator[j], factor);
      }
    }
    int[] all = java.util.Arrays.copyOf(data, data.length + CHECK_BYTES);
    System.arraycopy(rest, 0, all, data.length, CHECK_BYTES);
    return all;
  }

  private static int times(int a, int b) {
    int product = 0;
    for (int i = 7; i >= 0; i--) {
      product = product << 1 ^ (product >> 7) * FIELD;
      product ^= (b >> i & 1) * a;
    }
    return product;
  }

  private void set(int x, int y, boolean isDark) {
    if (x >= 0 && y >= 0 && x < MODULES && y < MODULES) {
      dark[y][x] = isDark;
      fixed[y][x] = true;
    }
  }

  private void patterns() {
    for (int i = 0; i < MODULES; i++) {
      set(6, i, i % 2 == 0);
      set(i, 6, i % 2 == 0);
    }
    square(3, 3, 4);
    square(MODULES - 4, 3, 4);
    square(3, MODULES - 4, 4);
    square(MODULES - 7, MODULES - 7, 2);
    int check = FORMAT_L_MASK_0;
    for (int i = 0; i < 10; i++) {
      check = check << 1 ^ (check >> 9) * FORMAT_CHECK;
    }
    int format = (FORMAT_L_MASK_0 << 10 | check) ^ FORMAT_MASK;
    for (int i = 0; i < 15; i++) {
      boolean bit = (format >> i & 1) != 0;
      if (i < 8) {
        set(8, i < 6 ? i : i + 1, bit);
        set(MODULES - 1 - i, 8, bit);
      } else {
        set(i == 8 ? 7 : 14 - i, 8, bit);
        set(8, MODULES - 15 + i, bit);
      }
    }
    set(8, MODULES - 8, true);
  }

  /** Squares within each other: a finder (4 with its margin) or the small one (2). */
  private void square(int middleX, int middleY, int reach) {
    for (int dy = -reach; dy <= reach; dy++) {
      for (int dx = -reach; dx <= reach; dx++) {
        int ring = Math.max(Math.abs(dx), Math.abs(dy));
        set(middleX + dx, middleY + dy, reach == 4 ? ring != 2 && ring != 4 : ring != 1);
      }
    }
  }

  /** Lays the bits from the right, two columns at a time, up and down. */
  private void fill(int[] bytes) {
    int bit = 0;
    for (int right = MODULES - 1; right >= 1; right -= 2) {
      int pair = right <= 6 ? right - 1 : right;
      for (int step = 0; step < MODULES; step++) {
        boolean upward = (pair + 1 & 2) == 0;
        int y = upward ? MODULES - 1 - step : step;
        for (int x = pair; x > pair - 2; x--) {
          if (!fixed[y][x]) {
            boolean isDark = bit < 8 * bytes.length && (bytes[bit / 8] >> 7 - bit % 8 & 1) != 0;
            dark[y][x] = isDark ^ (x + y) % 2 == 0;
            bit++;
          }
        }
      }
    }
  }
}
