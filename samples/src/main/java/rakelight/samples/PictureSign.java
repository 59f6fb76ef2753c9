package rakelight.samples;

import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/**
 * Forty picture signs of a typeface (DejaVu Sans, carried by a Maven artifact): patterns from
 * another drawing hand than {@link Motif}, so that likeness isn't measured on our own alone.
 */
enum PictureSign {
  SHAMROCK('\u2618'),
  FLORAL_HEART('\u2766'),
  FINGER_UP('\u261D'),
  HAND_RIGHT('\u261B'),
  SKULL('\u2620'),
  CADUCEUS('\u2624'),
  LOOPED_CROSS('\u2625'),
  SLANTED_CROSS('\u2626'),
  CHI_RHO('\u2627'),
  TWO_BARRED_CROSS('\u2628'),
  JERUSALEM_CROSS('\u2629'),
  STAR_AND_CRESCENT('\u262A'),
  WHEEL('\u2638'),
  MOON('\u263D'),
  KING('\u265A'),
  QUEEN('\u265B'),
  ROOK('\u265C'),
  BISHOP('\u265D'),
  KNIGHT('\u265E'),
  SPADE('\u2660'),
  HEART('\u2665'),
  CLUB('\u2663'),
  BUDDED_CROSS('\u2670'),
  FLAG('\u2691'),
  HAMMERS('\u2692'),
  ANCHOR('\u2693'),
  SWORDS('\u2694'),
  STAFF('\u2695'),
  SCALES('\u2696'),
  FLOWER('\u2698'),
  FLEUR_DE_LIS('\u269C'),
  COFFIN('\u26B0'),
  URN('\u26B1'),
  SCISSORS('\u2702'),
  WRITING_HAND('\u270D'),
  NIB('\u2712'),
  EIGHT_POINTED_CROSS('\u2720'),
  SIX_POINTED_STAR('\u2721'),
  FLORETTE('\u273F'),
  UMBRELLA('\u2602');

  private static final String TYPEFACE = "net/sf/jasperreports/fonts/dejavu/DejaVuSans.ttf";

  private final char sign;

  PictureSign(char sign) {
    this.sign = sign;
  }

  String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Its outline in a square from -1 to 1, y down. */
  Emblem.Drawing drawing() {
    Path2D path = Outlines.path(sign);
    Rectangle2D box = path.getBounds2D();
    double scale = 1.9 / Math.max(box.getWidth(), box.getHeight());
    AffineTransform t = AffineTransform.getScaleInstance(scale, -scale);
    t.translate(-box.getCenterX(), -box.getCenterY());
    return new Emblem.Drawing(List.of(t.createTransformedShape(path)), List.of());
  }

  /** Read once. */
  private static final class Outlines {
    private static final TrueTypeFont FONT = read();

    private static TrueTypeFont read() {
      try (InputStream in = PictureSign.class.getClassLoader().getResourceAsStream(TYPEFACE)) {
        if (in == null) {
          throw new IllegalStateException(
              "Typeface file " + TYPEFACE + " is not on the class path");
        }
        return new TTFParser().parse(new RandomAccessReadBuffer(in.readAllBytes()));
      } catch (IOException e) {
        throw new UncheckedIOException("Typeface file " + TYPEFACE + " can't be read", e);
      }
    }

    static synchronized Path2D path(char sign) {
      try {
        return FONT.getGlyph().getGlyph(FONT.getUnicodeCmapLookup().getGlyphId(sign)).getPath();
      } catch (IOException e) {
        throw new UncheckedIOException("Typeface file " + TYPEFACE + " has no " + sign, e);
      }
    }
  }
}
