package rakelight.samples;

import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/**
 * A design of letters, read as outlines from the typefaces that travel in two Maven artifacts. No
 * system font is ever asked for. Signs a file lacks (dashes, long s, raised comma) are built from
 * those it has.
 */
public enum Typeface {
  ROMAN(Source.CM + "latin/jlm_cmr10.ttf"),
  BOLD(Source.CM + "latin/optional/jlm_cmbx10.ttf"),
  ITALIC(Source.CM + "latin/optional/jlm_cmti10.ttf"),
  BOLD_ITALIC(Source.CM + "latin/optional/jlm_cmbxti10.ttf"),
  SANS(Source.CM + "latin/optional/jlm_cmss10.ttf"),
  SANS_BOLD(Source.CM + "latin/optional/jlm_cmssbx10.ttf"),
  SLAB(Source.CM + "latin/optional/jlm_cmtt10.ttf"),
  BLACKLETTER(Source.CM + "euler/jlm_eufb10.ttf"),
  SERIF(Source.DEJAVU + "DejaVuSerif.ttf"),
  SERIF_CONDENSED(Source.DEJAVU + "DejaVuSerifCondensed.ttf"),
  SERIF_ITALIC(Source.DEJAVU + "DejaVuSerif-Italic.ttf"),
  SERIF_BOLD(Source.DEJAVU + "DejaVuSerif-Bold.ttf"),
  GROTESQUE(Source.DEJAVU + "DejaVuSansCondensed.ttf"),
  GROTESQUE_BOLD(Source.DEJAVU + "DejaVuSansCondensed-Bold.ttf");

  private static final class Source {
    static final String CM = "org/scilab/forge/jlatexmath/fonts/";
    static final String DEJAVU = "net/sf/jasperreports/fonts/dejavu/";
  }

  /**
   * An outline scaled so that the capital H is one unit high, baseline at y = 0, y down, and how
   * far the pen moves on.
   */
  record Glyph(Shape path, double advance) {}

  private final String resource;
  private final ConcurrentHashMap<Character, Glyph> glyphs = new ConcurrentHashMap<>();

  Typeface(String resource) {
    this.resource = resource;
  }

  Glyph glyph(char c) {
    Glyph g = glyphs.get(c);
    if (g == null) {
      load();
      g = glyphs.get(c);
    }
    if (g == null) {
      throw new IllegalArgumentException(
          "Typeface " + name() + " has no sign for '" + c + "' (U+" + Integer.toHexString(c) + ")");
    }
    return g;
  }

  private synchronized void load() {
    if (glyphs.containsKey('H')) {
      return;
    }
    try (InputStream in = Typeface.class.getClassLoader().getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("Typeface file " + resource + " is not on the class path");
      }
      try (TrueTypeFont font =
          new TTFParser().parse(new RandomAccessReadBuffer(in.readAllBytes()))) {
        CmapLookup codes = font.getUnicodeCmapLookup(false);
        // Capitals of the blackletter have tails below the line: measure a sign that stands on it.
        double unit = outline(font, codes, this == BLACKLETTER ? 'E' : 'H').getBounds2D().getMaxY();
        for (char c = '!'; c <= '~'; c++) {
          if (codes.getGlyphId(c) != 0) {
            put(c, outline(font, codes, c), font.getAdvanceWidth(codes.getGlyphId(c)), unit);
          }
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException("Typeface file " + resource + " can't be read", e);
    }
    build();
  }

  private static Path2D outline(TrueTypeFont font, CmapLookup codes, char c) throws IOException {
    return font.getGlyph().getGlyph(codes.getGlyphId(c)).getPath();
  }

  private void put(char c, Path2D path, double advance, double unit) {
    AffineTransform t = AffineTransform.getScaleInstance(1 / unit, -1 / unit);
    glyphs.put(c, new Glyph(t.createTransformedShape(path), advance / unit));
  }

  /** Adds the signs every design needs and some files lack. */
  private void build() {
    Glyph n = glyph('n');
    double x = n.path.getBounds2D().getHeight();
    double stroke =
        Math.max(0.06, glyph('l').path.getBounds2D().getWidth() * (this == SLAB ? 0.12 : 0.25));
    glyphs.put('-', bar(0.34, x * 0.52, stroke));
    glyphs.put('–', bar(0.62, x * 0.52, stroke));
    glyphs.put('—', bar(1.05, x * 0.52, stroke));
    glyphs.put('⸺', bar(2.2, x * 0.52, stroke));
    glyphs.put('⸻', bar(3.4, x * 0.52, stroke));
    Rectangle2D comma = glyph(',').path.getBounds2D();
    AffineTransform raise = AffineTransform.getTranslateInstance(0, -0.99 - comma.getMinY());
    glyphs.put('’', new Glyph(raise.createTransformedShape(glyph(',').path), glyph(',').advance));
    glyphs.put('\'', glyph('’'));
    double dot = Math.max(0.11, stroke);
    glyphs.put('·', new Glyph(new Ellipse2D.Double(0.14, -0.5 - dot / 2, dot, dot), dot + 0.28));
    glyphs.put('ſ', longS());
  }

  private static Glyph bar(double length, double height, double stroke) {
    return new Glyph(
        new Rectangle2D.Double(0.08, -height - stroke / 2, length, stroke), length + 0.16);
  }

  /** An f with the right half of its bar taken away. */
  private Glyph longS() {
    Glyph f = glyph('f');
    Rectangle2D b = f.path.getBounds2D();
    double x = glyph('x').path.getBounds2D().getHeight();
    Area a = new Area(f.path);
    double stemRight =
        b.getMinX() + b.getWidth() * (this == ITALIC || this == SERIF_ITALIC ? 0.62 : 0.52);
    a.subtract(new Area(new Rectangle2D.Double(stemRight, -x * 1.06, b.getWidth(), x * 0.3)));
    return new Glyph(a, f.advance);
  }
}
