package rakelight.samples;

import java.awt.Shape;
import java.awt.geom.Area;
import java.awt.geom.Path2D;
import java.awt.geom.PathIterator;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.ConcurrentHashMap;

/**
 * How one cutter shapes the letters of a pattern that others cut, too. Lengths are in heights of
 * capitals.
 *
 * @param seed of what the numbers don't say: the width and the waist of each single letter
 * @param width of all letters against the pattern's
 * @param slant how far the head of a letter leans to the right
 * @param weight how much broader every stroke is
 * @param serif how far the feet and heads of stems reach out beyond the pattern's
 * @param spacing what is added between letters
 * @param own how far the proportions of single letters are his own: the width in parts of it, the
 *     waist twice that much up or down
 */
public record LetterHand(
    long seed,
    double width,
    double slant,
    double weight,
    double serif,
    double spacing,
    double own,
    Map<Drawn, Typeface.Glyph> drawn) {
  /** Letters as the pattern has them. */
  static final LetterHand PATTERN = new LetterHand(0, 1, 0, 0, 0, 0, 0);

  /** Above the foot and below the head of a stem its serif begins. */
  private static final double SERIF_HEIGHT = 0.1;

  /** What is broader is no stem. */
  private static final double STEM = 0.34;

  record Drawn(Typeface typeface, char letter) {}

  private LetterHand(
      long seed,
      double width,
      double slant,
      double weight,
      double serif,
      double spacing,
      double own) {
    this(seed, width, slant, weight, serif, spacing, own, new ConcurrentHashMap<>());
  }

  /**
   * Somebody's habits, by chance. The ranges are our choice; common practice, no source.
   *
   * @param strength 1 for habits that an eye sees when letters lie side by side, less for cutters
   *     who keep closer to the pattern
   */
  static LetterHand invented(long seed, double strength) {
    SplittableRandom r = new SplittableRandom(seed * 0x9E3779B97F4A7C15L + 77);
    return new LetterHand(
        seed,
        1 + strength * r.nextDouble(-0.13, 0.17),
        strength * r.nextDouble(-0.06, 0.11),
        strength * r.nextDouble(0, 0.04),
        r.nextInt(3) == 0 ? 0 : strength * r.nextDouble(0.03, 0.1),
        strength * r.nextDouble(0, 0.08),
        strength * 0.12);
  }

  /** A letter as this cutter has it. */
  Typeface.Glyph glyph(Typeface typeface, char letter) {
    Typeface.Glyph pattern = typeface.glyph(letter);
    return this == PATTERN
        ? pattern
        : drawn.computeIfAbsent(new Drawn(typeface, letter), one -> shaped(pattern, letter));
  }

  private Typeface.Glyph shaped(Typeface.Glyph pattern, char letter) {
    SplittableRandom r = new SplittableRandom(seed * 31 + letter * 0x9E3779B97F4A7C15L);
    double wide = width * (1 + own * (2 * r.nextDouble() - 1));
    double waist = 2 * own * (2 * r.nextDouble() - 1);
    Area serifs = new Area(pattern.path());
    if (serif > 0 && Character.isLetter(letter)) {
      Rectangle2D box = pattern.path().getBounds2D();
      spurs(pattern.path(), 0, 1).forEach(spur -> serifs.add(new Area(spur)));
      spurs(pattern.path(), box.getMinY(), -1).forEach(spur -> serifs.add(new Area(spur)));
    }
    Path2D path = new Path2D.Double();
    double[] at = new double[6];
    for (PathIterator it = serifs.getPathIterator(null); !it.isDone(); it.next()) {
      int kind = it.currentSegment(at);
      for (int i = 0; i < 6; i += 2) {
        double up = Math.max(0, Math.min(1, -at[i + 1]));
        double x = at[i] * wide - at[i + 1] * slant;
        at[i + 1] -= waist * Math.sin(Math.PI * up) * 0.5;
        at[i] = x;
      }
      switch (kind) {
        case PathIterator.SEG_MOVETO -> path.moveTo(at[0], at[1]);
        case PathIterator.SEG_LINETO -> path.lineTo(at[0], at[1]);
        case PathIterator.SEG_QUADTO -> path.quadTo(at[0], at[1], at[2], at[3]);
        case PathIterator.SEG_CUBICTO -> path.curveTo(at[0], at[1], at[2], at[3], at[4], at[5]);
        default -> path.closePath();
      }
    }
    return new Typeface.Glyph(path, pattern.advance() * wide + spacing);
  }

  /**
   * Wedges at the ends of stems.
   *
   * @param end where the stems end
   * @param down 1 at their feet, -1 at their heads
   */
  private List<Shape> spurs(Shape path, double end, int down) {
    List<Shape> spurs = new ArrayList<>();
    for (double[] stem : chords(path, end - down * SERIF_HEIGHT)) {
      double middle = (stem[0] + stem[1]) / 2;
      boolean reaches =
          chords(path, end - down * 0.02).stream()
              .anyMatch(foot -> foot[0] < middle && middle < foot[1]);
      if (reaches && stem[1] - stem[0] < STEM) {
        Path2D spur = new Path2D.Double();
        spur.moveTo(stem[0], end - down * SERIF_HEIGHT);
        spur.lineTo(stem[1], end - down * SERIF_HEIGHT);
        spur.lineTo(stem[1] + serif, end - down * 0.025);
        spur.lineTo(stem[1] + serif, end);
        spur.lineTo(stem[0] - serif, end);
        spur.lineTo(stem[0] - serif, end - down * 0.025);
        spur.closePath();
        spurs.add(spur);
      }
    }
    return spurs;
  }

  /** Where a level line runs within a letter, from left to right. */
  private static List<double[]> chords(Shape path, double y) {
    List<Double> crossings = new ArrayList<>();
    double[] at = new double[6];
    double x0 = 0;
    double y0 = 0;
    double startX = 0;
    double startY = 0;
    for (PathIterator it = path.getPathIterator(null, 0.005); !it.isDone(); it.next()) {
      int kind = it.currentSegment(at);
      boolean moves = kind == PathIterator.SEG_MOVETO;
      double x1 = kind == PathIterator.SEG_CLOSE ? startX : at[0];
      double y1 = kind == PathIterator.SEG_CLOSE ? startY : at[1];
      if (moves) {
        startX = x1;
        startY = y1;
      } else if ((y0 <= y) != (y1 <= y)) {
        crossings.add(x0 + (x1 - x0) * (y - y0) / (y1 - y0));
      }
      x0 = x1;
      y0 = y1;
    }
    crossings.sort(null);
    List<double[]> chords = new ArrayList<>();
    for (int i = 0; i + 1 < crossings.size(); i += 2) {
      chords.add(new double[] {crossings.get(i), crossings.get(i + 1)});
    }
    return chords;
  }
}
