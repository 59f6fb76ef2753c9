package rakelight.samples;

import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Where every letter of a face stands, as a cutter would set it out: centred, sized by importance,
 * fitted to the stone.
 */
final class Layout {
  /**
   * One sign set out: its index in the line's marked text, its outline and the four corners of its
   * cell, in millimetres.
   *
   * @param capital where the line's capitals have their head and foot at this sign's middle
   */
  record Placed(int index, Shape path, List<Point2D> corners, List<Point2D> capital) {}

  /** A line set out; {@code polygon} hugs the ink, clockwise from the top left. */
  record Line(
      SampleLine line,
      MarkedText text,
      double capMm,
      double strokeMm,
      List<Placed> signs,
      List<Point2D> polygon) {}

  /** Distance from one baseline to the next in cap heights. */
  private static final double LEADING = 1.72;

  private static final double WORD_SPACE = 0.5;

  /** Between two columns, in widths of the stone: the least and the most. */
  private static final double NARROW_GUTTER = 0.05;

  private static final double WIDE_GUTTER = 0.14;

  /** Letters are set no narrower than this part of their width. */
  private static final double NARROWEST = 0.8;

  /** How far round a disc words may run. */
  private static final double RING_RADIANS = Math.toRadians(310);

  private final SampleFace face;
  private final Stone stone;
  private final Shape limits;
  private final SplittableRandom hand;
  private final double unevenness;
  private final LetterHand cutter;

  /** Between two columns, in millimetres. */
  private final double gutter;

  /** Centre and radius of the emblem, if the face has one; radius zero otherwise. */
  final double emblemX;

  final double emblemY;
  final double emblemRadius;
  final List<Line> lines;

  /** What is cut between columns, in millimetres: rules, dots, small ornaments. No letters. */
  final List<Shape> dividers = new ArrayList<>();

  Layout(SampleFace face) {
    this(face, LetterHand.PATTERN);
  }

  Layout(SampleFace face, LetterHand cutter) {
    this.face = face;
    this.cutter = cutter;
    this.stone = face.stone();
    this.hand = new SplittableRandom(face.seed() ^ 0x5EED1A7L);
    double w = stone.widthMm();
    double h = stone.heightMm();
    this.gutter =
        w * new SplittableRandom(face.seed() ^ 0x6077E4L).nextDouble(NARROW_GUTTER, WIDE_GUTTER);
    Area panel = stone.form().panel(w, h);
    this.limits = panel.isEmpty() ? stone.form().outline(w, h) : panel;
    // Town workshops with printed alphabets cut more evenly than village hands of the eighteenth
    // century.
    this.unevenness = stone.made() < 1790 ? 0.035 : stone.made() < 1840 ? 0.015 : 0.005;
    boolean has = stone.emblem() != Emblem.NONE;
    this.emblemX = w / 2;
    this.emblemRadius =
        !has ? 0 : stone.form() == StoneForm.TYMPANUM ? w * 0.2 : Math.min(w * 0.17, h * 0.12);
    this.emblemY =
        stone.form() == StoneForm.TYMPANUM
            ? w * 0.275
            : h * stone.form().topShare() * 0.55
                + emblemRadius * (stone.form() == StoneForm.POINTED ? 1.25 : 1.05);
    this.lines = place();
  }

  private List<Line> place() {
    double h = stone.heightMm();
    double w = stone.widthMm();
    double top = h * stone.form().topShare();
    if (stone.form() == StoneForm.TYMPANUM) {
      top = w * (emblemRadius > 0 ? 0.5 : 0.2);
    }
    if (emblemRadius > 0 && stone.form() != StoneForm.TYMPANUM) {
      top = Math.max(top, emblemY + emblemRadius * 1.2);
    }
    double bottom = h * (1 - stone.form().bottomShare());
    double sum = 0;
    double arch = 0;
    for (SampleLine l : face.lines()) {
      if (!l.has("foot") && !l.has("beside")) {
        sum += l.size() * (LEADING + (l.has("gap") ? 0.8 : 0));
        arch += bow(l);
      }
    }
    double mmPerSize = Math.min((bottom - top - arch) / Math.max(sum, 1), w * 0.021);
    double slack = bottom - top - arch - sum * mmPerSize;
    double spread = Math.min(1.25, 1 + 0.5 * slack / Math.max(1, sum * mmPerSize));
    double y = top + Math.min(slack * 0.15, h * 0.06);
    List<Line> out = new ArrayList<>();
    double baseline = y;
    double tallest = tallestInCells();
    for (SampleLine l : face.lines()) {
      double cap = l.size() * mmPerSize;
      if (l.cells() > 1) {
        cap = Math.min(cap, tallest);
      }
      if (l.has("foot")) {
        out.add(set(l, Math.min(cap, w * 0.022), h * (1 - stone.form().bottomShare() * 0.45)));
        continue;
      }
      if (!l.has("beside")) {
        y += cap * (LEADING + (l.has("gap") ? 0.8 : 0)) * spread;
        baseline = y - cap * (LEADING - 1) * 0.5 * spread;
      }
      out.add(set(l, cap, baseline));
      if (l.has("beside")) {
        divide(l, baseline, cap, cap * LEADING * spread);
      }
      y += bow(l);
    }
    return List.copyOf(out);
  }

  /** How far a line reaches down below the top of its baseline, in millimetres. */
  private double bow(SampleLine line) {
    return line.has("ring") ? 2 * ringRadius() : line.has("arch") ? stone.widthMm() * 0.07 : 0;
  }

  private double ringRadius() {
    return Math.min(stone.widthMm() * 0.26, stone.heightMm() * 0.16);
  }

  /** Left and right limit of the face at a height, by scanning its outline. */
  private double[] chord(double y) {
    double lo = Double.MAX_VALUE;
    double hi = -Double.MAX_VALUE;
    var it = limits.getPathIterator(null, 0.5);
    double[] c = new double[6];
    double px = 0;
    double py = 0;
    while (!it.isDone()) {
      int kind = it.currentSegment(c);
      if (kind == java.awt.geom.PathIterator.SEG_LINETO && (py <= y) != (c[1] <= y)) {
        double x = px + (c[0] - px) * (y - py) / (c[1] - py);
        lo = Math.min(lo, x);
        hi = Math.max(hi, x);
      }
      if (kind != java.awt.geom.PathIterator.SEG_CLOSE) {
        px = c[0];
        py = c[1];
      }
      it.next();
    }
    return lo < hi ? new double[] {lo, hi} : new double[] {0, stone.widthMm()};
  }

  /** The part of a row that a cell has: left and right limit, in millimetres. */
  private double[] cell(SampleLine line, double left, double right) {
    double width = (right - left - gutter * (line.cells() - 1)) / line.cells();
    double from = left + (line.cell() - 1) * (width + gutter);
    return new double[] {from, from + width};
  }

  private double margin() {
    return stone.widthMm() * (stone.has("border") ? 0.105 : 0.075);
  }

  /** The cap height at which the longest text of a cell fits: all cells of a roll have one size. */
  private double tallestInCells() {
    double least = Double.MAX_VALUE;
    for (SampleLine line : face.lines()) {
      if (line.cells() > 1) {
        double[] cell = cell(line, margin(), stone.widthMm() - margin());
        double capitals = 0;
        for (char c : line.asCut().toCharArray()) {
          capitals +=
              c == ' ' ? WORD_SPACE : cutter.glyph(line.typeface(stone.typeface()), c).advance();
        }
        double spaced = capitals + 0.045 * line.asCut().length();
        least = Math.min(least, (cell[1] - cell[0]) / (spaced * NARROWEST));
      }
    }
    return least;
  }

  /** Cuts what parts a cell from the one to its left. */
  private void divide(SampleLine line, double baseline, double cap, double pitch) {
    double[] chord = chord(baseline - cap * 0.9);
    double[] cell = cell(line, chord[0] + margin(), chord[1] - margin());
    double x = cell[0] - gutter / 2;
    double y = baseline - cap / 2;
    if (line.has("ruled")) {
      double wide = Math.max(1, cap * 0.08);
      dividers.add(new Rectangle2D.Double(x - wide / 2, y - pitch / 2, wide, pitch));
    } else if (line.has("dotted")) {
      double size = cap * 0.17;
      for (int i = -1; i <= 1; i++) {
        double middle = y + i * pitch / 3;
        dividers.add(new Ellipse2D.Double(x - size / 2, middle - size / 2, size, size));
      }
    } else if (line.has("flowered")) {
      double r = cap * 0.36;
      Path2D lozenge = new Path2D.Double();
      lozenge.moveTo(x, y - r);
      lozenge.quadTo(x, y, x + r, y);
      lozenge.quadTo(x, y, x, y + r);
      lozenge.quadTo(x, y, x - r, y);
      lozenge.quadTo(x, y, x, y - r);
      dividers.add(lozenge);
    }
  }

  private record Pen(
      Typeface.Glyph glyph, double x, double scale, double raise, int index, double widen) {}

  private Line set(SampleLine line, double wantedCap, double baseline) {
    MarkedText text = line.parsed();
    Typeface type = line.typeface(stone.typeface());
    double[] chord = chord(baseline - wantedCap * (line.has("arch") ? 0.2 : 0.9));
    double margin = margin();
    if (line.cells() > 1) {
      chord = cell(line, chord[0] + margin, chord[1] - margin);
      margin = 0;
    }
    double room =
        line.has("ring")
            ? RING_RADIANS * ringRadius()
            : Math.max(stone.widthMm() * 0.2 / line.cells(), chord[1] - chord[0] - 2 * margin);
    List<Pen> pens = new ArrayList<>();
    double pen = 0;
    double spacing = line.has("wide") ? 0.28 : 0.045;
    for (int i = 0; i < text.signs().size(); i++) {
      MarkedText.Sign s = text.signs().get(i);
      if (s.letter() == ' ') {
        pen += s.blank() ? 0.9 : WORD_SPACE + (line.has("wide") ? 0.35 : 0);
        continue;
      }
      char c = s.letter();
      double scale = s.superior() ? 0.6 : 1;
      double raise = s.superior() ? 0.4 : 0;
      double widen = 1;
      if (line.has("smallcaps") && Character.isLowerCase(c)) {
        c = Character.toUpperCase(c);
        scale *= 0.78;
        widen = 1.06;
      }
      if (line.has("old") && Character.isDigit(c)) {
        // Old-style figures: 0 1 2 as low as small letters, 3 4 5 7 9 hang, 6 8 rise.
        scale *= "012".indexOf(c) >= 0 ? 0.74 : 0.98;
        raise += "34579".indexOf(c) >= 0 ? -0.26 : 0;
      }
      Typeface.Glyph g = cutter.glyph(type, c);
      pens.add(new Pen(g, pen, scale, raise, i, widen));
      pen +=
          (g.advance() * widen + spacing)
              * scale
              * (1 + unevenness * 2 * (hand.nextDouble() - 0.5));
    }
    double cap = wantedCap;
    double condense = 1;
    if (pen * cap > room) {
      condense = Math.max(NARROWEST, room / (pen * cap));
      cap = Math.min(cap, room / (pen * condense));
    }
    double width = pen * cap * condense;
    double centre = (chord[0] + chord[1]) / 2;
    double left =
        line.has("left")
            ? chord[0] + margin
            : line.has("right") || line.has("foot")
                ? chord[1] - margin - width
                : centre - width / 2;
    left += unevenness * cap * 4 * (hand.nextDouble() - 0.5);
    // Fine strokes were cut broader than printed ones.
    double stroke =
        cap
                * switch (type) {
                  case ROMAN, SANS, SLAB -> 0.045;
                  case ITALIC, SERIF_ITALIC, BLACKLETTER -> 0.04;
                  default -> 0.012;
                }
            + cap * cutter.weight();
    List<Placed> placed = new ArrayList<>();
    double ascent = 0;
    double descent = 0;
    double sag = line.has("arch") ? stone.widthMm() * 0.07 * Math.min(1, width / room) : 0;
    double radius =
        line.has("ring") ? ringRadius() : sag > 0 ? (width * width / 4 + sag * sag) / (2 * sag) : 0;
    double drift = unevenness * cap * (hand.nextDouble() - 0.5) * 1.2;
    for (Pen p : pens) {
      Rectangle2D b = p.glyph.path().getBounds2D();
      double size = cap * p.scale;
      double x = left + p.x * cap * condense;
      double dy =
          unevenness * cap * 1.6 * (hand.nextDouble() - 0.5)
              + drift * (p.x / Math.max(pen, 1) - 0.5) * 4;
      double turn = unevenness * 0.9 * (hand.nextDouble() - 0.5);
      AffineTransform t = new AffineTransform();
      if (radius > 0) {
        double mid = x + p.glyph.advance() * size * condense / 2;
        double a = (mid - centre) / radius;
        t.translate(centre + radius * Math.sin(a), baseline + radius - radius * Math.cos(a));
        t.rotate(a);
        t.translate(x - mid, 0);
      } else {
        t.translate(x, baseline);
      }
      double middle = b.getCenterX() * size * condense * p.widen;
      List<Point2D> capital =
          List.of(
              t.transform(new Point2D.Double(middle, -cap), null),
              t.transform(new Point2D.Double(middle, 0), null));
      t.translate(0, dy - p.raise * cap);
      t.rotate(turn);
      t.scale(size * condense * p.widen, size);
      Shape path = t.createTransformedShape(p.glyph.path());
      placed.add(new Placed(p.index, path, corners(t, b), capital));
      ascent = Math.max(ascent, -b.getMinY() * p.scale + p.raise);
      descent = Math.max(descent, b.getMaxY() * p.scale - p.raise);
    }
    return new Line(
        line,
        text,
        cap,
        stroke,
        List.copyOf(placed),
        polygon(placed, left, width, baseline, cap, ascent, descent, radius, centre));
  }

  private static List<Point2D> corners(AffineTransform t, Rectangle2D b) {
    List<Point2D> c = new ArrayList<>();
    c.add(t.transform(new Point2D.Double(b.getMinX(), b.getMinY()), null));
    c.add(t.transform(new Point2D.Double(b.getMaxX(), b.getMinY()), null));
    c.add(t.transform(new Point2D.Double(b.getMaxX(), b.getMaxY()), null));
    c.add(t.transform(new Point2D.Double(b.getMinX(), b.getMaxY()), null));
    return List.copyOf(c);
  }

  private static List<Point2D> polygon(
      List<Placed> placed,
      double left,
      double width,
      double baseline,
      double cap,
      double ascent,
      double descent,
      double radius,
      double centre) {
    double pad = cap * 0.06;
    double up = Math.max(ascent, 0.6) * cap + pad;
    double down = Math.max(descent, 0.0) * cap + pad;
    List<Point2D> points = new ArrayList<>();
    if (radius > 0) {
      int steps = 8 + (int) (width / radius * 8);
      for (int i = 0; i <= steps; i++) {
        double a = (left - pad + (width + 2 * pad) * i / steps - centre) / radius;
        points.add(
            new Point2D.Double(
                centre + (radius + up) * Math.sin(a),
                baseline + radius - (radius + up) * Math.cos(a)));
      }
      for (int i = steps; i >= 0; i--) {
        double a = (left - pad + (width + 2 * pad) * i / steps - centre) / radius;
        points.add(
            new Point2D.Double(
                centre + (radius - down) * Math.sin(a),
                baseline + radius - (radius - down) * Math.cos(a)));
      }
      return List.copyOf(points);
    }
    Path2D all = new Path2D.Double();
    for (Placed p : placed) {
      all.append(p.path(), false);
    }
    Rectangle2D b =
        placed.isEmpty()
            ? new Rectangle2D.Double(left, baseline - up, width, up)
            : all.getBounds2D();
    double x0 = b.getMinX() - pad;
    double x1 = b.getMaxX() + pad;
    double y0 = b.getMinY() - pad;
    double y1 = b.getMaxY() + pad;
    points.add(new Point2D.Double(x0, y0));
    points.add(new Point2D.Double(x1, y0));
    points.add(new Point2D.Double(x1, y1));
    points.add(new Point2D.Double(x0, y1));
    return List.copyOf(points);
  }
}
