package rakelight.samples;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.PathIterator;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A carved picture on a face without letters.
 *
 * @param pattern what is carved, in a square from -1 to 1, y down
 * @param name of the pattern; with the hand it decides how the hand bends it
 * @param radiusMm half the width of the pattern
 * @param seed of this one carving: no carver cuts twice quite alike
 */
record Carving(Emblem.Drawing pattern, String name, CarverHand hand, double radiusMm, long seed) {
  /** How far one carving by a hand differs from the next, in half widths. */
  private static final double UNEVEN = 0.012;

  /** Each way the field of bending has so many waves at most. */
  private static final int WAVES = 3;

  /** The pattern as this hand cuts it here, about 0. */
  Emblem.Drawing drawing() {
    SplittableRandom own = new SplittableRandom(hand.seed() * 1_000_003L + name.hashCode());
    SplittableRandom here = new SplittableRandom(seed);
    double[] habit = waves(own, hand.bend());
    double[] slip = waves(here, UNEVEN);
    List<Shape> bodies = new ArrayList<>();
    for (Shape body : pattern.bodies()) {
      bodies.add(cut(body, own, here, habit, slip));
    }
    List<Shape> lines = new ArrayList<>();
    for (Shape line : pattern.cuts()) {
      boolean is = own.nextDouble() < hand.detail();
      Shape placed = cut(line, own, here, habit, slip);
      if (is) {
        lines.add(placed);
      }
    }
    return new Emblem.Drawing(bodies, lines);
  }

  private Shape cut(
      Shape shape, SplittableRandom own, SplittableRandom here, double[] habit, double[] slip) {
    Rectangle2D box = shape.getBounds2D();
    AffineTransform t = new AffineTransform();
    t.scale(hand.mirrored() ? -1 : 1, hand.aspect());
    for (int i = 0; i < 2; i++) {
      SplittableRandom r = i == 0 ? here : own;
      double by = i == 0 ? UNEVEN : hand.parts();
      t.translate(
          box.getCenterX() + by * r.nextDouble(-1, 1), box.getCenterY() + by * r.nextDouble(-1, 1));
      t.rotate(2 * by * r.nextDouble(-1, 1));
      double grown = 1 + 2 * by * r.nextDouble(-1, 1);
      t.scale(grown, grown);
      t.translate(-box.getCenterX(), -box.getCenterY());
    }
    return bent(bent(t.createTransformedShape(shape), habit), slip);
  }

  /** Amplitude, two frequencies and a phase for each of some waves, for x and then for y. */
  private static double[] waves(SplittableRandom r, double amplitude) {
    double[] waves = new double[2 * WAVES * 4];
    for (int i = 0; i < waves.length; i += 4) {
      waves[i] = amplitude * r.nextDouble(-1, 1);
      waves[i + 1] = r.nextDouble(-3, 3);
      waves[i + 2] = r.nextDouble(-3, 3);
      waves[i + 3] = r.nextDouble(0, 2 * Math.PI);
    }
    return waves;
  }

  private static double shift(double[] waves, int axis, double x, double y) {
    double sum = 0;
    for (int i = axis * WAVES * 4; i < (axis + 1) * WAVES * 4; i += 4) {
      sum += waves[i] * Math.sin(waves[i + 1] * x + waves[i + 2] * y + waves[i + 3]);
    }
    return sum;
  }

  private static Shape bent(Shape shape, double[] waves) {
    Path2D bent = new Path2D.Double(Path2D.WIND_NON_ZERO);
    double[] c = new double[6];
    PathIterator path = shape.getPathIterator(new AffineTransform());
    bent.setWindingRule(path.getWindingRule());
    for (; !path.isDone(); path.next()) {
      int kind = path.currentSegment(c);
      for (int i = 0; i < 6; i += 2) {
        double x = c[i];
        double y = c[i + 1];
        c[i] = x + shift(waves, 0, x, y);
        c[i + 1] = y + shift(waves, 1, x, y);
      }
      switch (kind) {
        case PathIterator.SEG_MOVETO -> bent.moveTo(c[0], c[1]);
        case PathIterator.SEG_LINETO -> bent.lineTo(c[0], c[1]);
        case PathIterator.SEG_QUADTO -> bent.quadTo(c[0], c[1], c[2], c[3]);
        case PathIterator.SEG_CUBICTO -> bent.curveTo(c[0], c[1], c[2], c[3], c[4], c[5]);
        default -> bent.closePath();
      }
    }
    return bent;
  }

  /** Where the carving is, about 0, in half widths. */
  Rectangle2D extent() {
    Emblem.Drawing drawing = drawing();
    Rectangle2D all = drawing.bodies().get(0).getBounds2D();
    drawing.bodies().forEach(body -> all.add(body.getBounds2D()));
    return all;
  }

  /**
   * The relief in millimetres, above the face positive, as the weather has left it; its middle in
   * the middle of the field.
   */
  HeightField relief(int w, int h, double mmPerPx, Material material, Weathering wear) {
    double r = radiusMm;
    Emblem.Drawing d = drawing().placed(w * mmPerPx / 2, h * mmPerPx / 2, r);
    double gap = r * 0.035;
    HeightField bodies =
        Masks.draw(
            w,
            h,
            mmPerPx,
            g -> {
              for (Shape s : d.bodies()) {
                g.setColor(Color.BLACK);
                g.setStroke(new BasicStroke((float) gap));
                g.draw(s);
                g.setColor(Color.WHITE);
                g.fill(s);
              }
              g.setColor(Color.BLACK);
              d.cuts().forEach(g::fill);
            });
    double rise = hand.depth() * Math.min(6, r * 0.05);
    double edge = hand.profile() == CarverHand.Profile.ROUND ? r * 0.11 : r * 0.02;
    HeightField relief =
        hand.profile() == CarverHand.Profile.INCISED
            ? grooves(d, w, h, mmPerPx, rise)
            : raised(bodies, mmPerPx, rise, edge);
    HeightField ground = ground(w, h, mmPerPx);
    for (int i = 0; i < relief.v.length; i++) {
      relief.v[i] -= (float) (0.6 * rise * ground.v[i]);
    }
    int level = wear.ordinal();
    double[] round =
        switch (material) {
          case MARBLE -> new double[] {0.3, 1.2, 3, 5};
          case SANDSTONE -> new double[] {0.4, 1.2, 2.6, 4.5};
          case SLATE -> new double[] {0.3, 0.6, 1.2, 2.4};
          case GRANITE, BRONZE -> new double[] {0.3, 0.4, 0.6, 0.8};
        };
    double[] left =
        switch (material) {
          case MARBLE -> new double[] {1, 0.8, 0.46, 0.24};
          case SANDSTONE -> new double[] {1, 0.85, 0.5, 0.3};
          case SLATE -> new double[] {1, 0.95, 0.85, 0.65};
          case GRANITE, BRONZE -> new double[] {1, 1, 0.95, 0.9};
        };
    HeightField worn = relief.blur(Math.max(0.5, round[level] / mmPerPx));
    for (int i = 0; i < worn.v.length; i++) {
      worn.v[i] *= (float) left[level];
    }
    return worn;
  }

  private static HeightField raised(
      HeightField bodies, double mmPerPx, double rise, double edgeMm) {
    HeightField relief = bodies.distanceInside(edgeMm / mmPerPx + 1);
    for (int i = 0; i < relief.v.length; i++) {
      double t = Math.min(1, relief.v[i] * mmPerPx / edgeMm);
      relief.v[i] =
          bodies.v[i] > 0.5f
              ? (float) (rise * (0.25 + 0.75 * Math.sqrt(1 - (1 - t) * (1 - t))))
              : 0;
    }
    return relief;
  }

  private HeightField grooves(Emblem.Drawing d, int w, int h, double mmPerPx, double rise) {
    double stroke = radiusMm * 0.045;
    HeightField mask =
        Masks.draw(
            w,
            h,
            mmPerPx,
            g -> {
              g.setStroke(
                  new BasicStroke((float) stroke, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
              for (Shape s : d.bodies()) {
                g.setColor(Color.BLACK);
                g.fill(s);
                g.setColor(Color.WHITE);
                g.draw(s);
              }
              d.cuts().forEach(g::fill);
            });
    HeightField grooves = mask.distanceInside(stroke / mmPerPx + 1);
    for (int i = 0; i < grooves.v.length; i++) {
      double t = Math.min(1, 2 * grooves.v[i] * mmPerPx / stroke);
      grooves.v[i] = (float) (-0.7 * rise * t) * (mask.v[i] > 0.2f ? 1 : 0);
    }
    return grooves;
  }

  private HeightField ground(int w, int h, double mmPerPx) {
    double cx = w * mmPerPx / 2;
    double cy = h * mmPerPx / 2;
    double rx = radiusMm * 1.2;
    double ry = radiusMm * 1.2 * Math.max(1, hand.aspect());
    return Masks.draw(
        w,
        h,
        mmPerPx,
        g -> {
          switch (hand.surround()) {
            case OVAL -> g.fill(new Ellipse2D.Double(cx - rx, cy - ry, 2 * rx, 2 * ry));
            case PANEL -> g.fill(new Rectangle2D.Double(cx - rx, cy - ry, 2 * rx, 2 * ry));
            case NONE -> {}
          }
        });
  }
}
