package rakelight.samples;

import java.awt.BasicStroke;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Arc2D;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.geom.RoundRectangle2D;
import java.util.ArrayList;
import java.util.List;

/**
 * A carved picture, drawn in a square from -1 to 1, y down: swelling bodies and lines cut into
 * them.
 */
public enum Emblem {
  NONE,
  WILLOW_AND_URN,
  WINGED_FACE,
  CLASPED_HANDS,
  LAMB,
  ANCHOR,
  CROSS,
  DOVE,
  OPEN_BOOK,
  WHEAT,
  ROSE,
  STAR,
  FLEURON;

  /** Shapes of a drawing: what swells, and what is cut in. */
  record Drawing(List<Shape> bodies, List<Shape> cuts) {
    Drawing placed(double cx, double cy, double radius) {
      AffineTransform t = AffineTransform.getTranslateInstance(cx, cy);
      t.scale(radius, radius);
      return new Drawing(
          bodies.stream().map(t::createTransformedShape).toList(),
          cuts.stream().map(t::createTransformedShape).toList());
    }
  }

  static final class Pencil {
    final List<Shape> bodies = new ArrayList<>();
    final List<Shape> cuts = new ArrayList<>();

    void oval(double x, double y, double rx, double ry, double turnDegrees) {
      AffineTransform t = AffineTransform.getTranslateInstance(x, y);
      t.rotate(Math.toRadians(turnDegrees));
      bodies.add(t.createTransformedShape(new Ellipse2D.Double(-rx, -ry, 2 * rx, 2 * ry)));
    }

    void body(double... xy) {
      bodies.add(smooth(true, xy));
    }

    void line(double width, double... xy) {
      bodies.add(
          new BasicStroke((float) width, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND)
              .createStrokedShape(smooth(false, xy)));
    }

    void cut(double width, double... xy) {
      cuts.add(
          new BasicStroke((float) width, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND)
              .createStrokedShape(smooth(false, xy)));
    }

    /** A curve through the points (Catmull-Rom turned into Bezier pieces). */
    static Path2D smooth(boolean closed, double... xy) {
      int n = xy.length / 2;
      Path2D p = new Path2D.Double();
      p.moveTo(xy[0], xy[1]);
      int last = closed ? n : n - 1;
      for (int i = 0; i < last; i++) {
        int a = closed ? (i + n - 1) % n : Math.max(i - 1, 0);
        int c = (i + 1) % n;
        int d = closed ? (i + 2) % n : Math.min(i + 2, n - 1);
        p.curveTo(
            xy[2 * i] + (xy[2 * c] - xy[2 * a]) / 6,
            xy[2 * i + 1] + (xy[2 * c + 1] - xy[2 * a + 1]) / 6,
            xy[2 * c] - (xy[2 * d] - xy[2 * i]) / 6,
            xy[2 * c + 1] - (xy[2 * d + 1] - xy[2 * i + 1]) / 6,
            xy[2 * c],
            xy[2 * c + 1]);
      }
      if (closed) {
        p.closePath();
      }
      return p;
    }
  }

  Drawing drawing() {
    Pencil p = new Pencil();
    switch (this) {
      case NONE -> {}
      case WILLOW_AND_URN -> willowAndUrn(p);
      case WINGED_FACE -> wingedFace(p);
      case CLASPED_HANDS -> claspedHands(p);
      case LAMB -> lamb(p);
      case ANCHOR -> anchor(p);
      case CROSS -> {
        p.bodies.add(new Rectangle2D.Double(-0.13, -0.95, 0.26, 1.9));
        p.bodies.add(new Rectangle2D.Double(-0.6, -0.5, 1.2, 0.26));
      }
      case DOVE -> dove(p);
      case OPEN_BOOK -> openBook(p);
      case WHEAT -> wheat(p);
      case ROSE -> rose(p);
      case STAR -> {
        Path2D s = new Path2D.Double();
        for (int i = 0; i < 10; i++) {
          double r = i % 2 == 0 ? 0.9 : 0.36;
          double a = Math.PI * (i / 5.0 - 0.5);
          if (i == 0) {
            s.moveTo(r * Math.cos(a), r * Math.sin(a));
          } else {
            s.lineTo(r * Math.cos(a), r * Math.sin(a));
          }
        }
        s.closePath();
        p.bodies.add(s);
      }
      case FLEURON -> {
        for (int i = 0; i < 8; i++) {
          double a = i * 45;
          double x = 0.5 * Math.cos(Math.toRadians(a));
          double y = 0.5 * Math.sin(Math.toRadians(a));
          p.oval(x, y, 0.36, 0.13, a);
        }
        p.oval(0, 0, 0.18, 0.18, 0);
      }
    }
    return new Drawing(List.copyOf(p.bodies), List.copyOf(p.cuts));
  }

  private static void willowAndUrn(Pencil p) {
    p.line(0.13, -0.62, 0.95, -0.55, 0.4, -0.5, -0.1, -0.36, -0.55);
    p.line(0.06, -0.52, 0.0, -0.62, -0.4, -0.7, -0.6);
    for (int i = 0; i < 11; i++) {
      double t = i / 10.0;
      double x = -0.95 + 1.75 * t;
      double top = -0.72 - 0.2 * Math.sin(Math.PI * t);
      double end = -0.1 + 0.5 * Math.abs(t - 0.42) + (i % 3) * 0.1;
      p.line(0.045, -0.42, -0.55, (x - 0.42) / 2, top, x, top + 0.22, x + 0.06, end);
      for (double y = top + 0.3; y < end; y += 0.13) {
        p.oval(x + 0.05, y, 0.075, 0.03, 55);
        p.oval(x + 0.02, y + 0.06, 0.075, 0.03, 125);
      }
    }
    p.body(0.05, 0.12, 0.12, 0.42, 0.26, 0.62, 0.38, 0.62, 0.52, 0.42, 0.59, 0.12, 0.32, 0.06);
    p.bodies.add(new RoundRectangle2D.Double(0.0, 0.02, 0.64, 0.1, 0.05, 0.05));
    p.oval(0.32, -0.03, 0.2, 0.08, 0);
    p.oval(0.32, -0.13, 0.06, 0.07, 0);
    p.bodies.add(new Rectangle2D.Double(0.28, 0.6, 0.08, 0.14));
    p.bodies.add(new RoundRectangle2D.Double(0.1, 0.72, 0.44, 0.1, 0.05, 0.05));
    p.bodies.add(new Rectangle2D.Double(-0.0, 0.82, 0.64, 0.16));
    p.cut(0.03, 0.12, 0.24, 0.32, 0.28, 0.52, 0.24);
  }

  private static void wingedFace(Pencil p) {
    p.oval(0, -0.08, 0.3, 0.38, 0);
    p.oval(0, 0.36, 0.14, 0.1, 0);
    for (int side = -1; side <= 1; side += 2) {
      for (int i = 0; i < 7; i++) {
        double a = 12 + i * 13;
        double len = 0.56 - 0.03 * i;
        double cx = side * (0.34 + len * 0.62 * Math.cos(Math.toRadians(a)));
        double cy = -0.26 + len * 0.95 * Math.sin(Math.toRadians(a * 0.8));
        p.oval(cx, cy, 0.34, 0.075, side * (a - 16));
      }
      p.oval(side * 0.22, -0.38, 0.13, 0.1, 0);
      p.cut(0.05, side * 0.06, -0.16, side * 0.12, -0.2, side * 0.18, -0.15);
      p.cuts.add(new Ellipse2D.Double(side * 0.12 - 0.04, -0.14, 0.08, 0.06));
    }
    p.cut(0.04, 0, -0.15, -0.04, 0.03, 0.03, 0.05);
    p.cut(0.04, -0.1, 0.14, 0, 0.17, 0.1, 0.14);
  }

  private static void claspedHands(Pencil p) {
    p.body(-1, -0.32, -0.5, -0.3, -0.45, 0.26, -1, 0.36);
    p.body(1, -0.32, 0.5, -0.3, 0.45, 0.26, 1, 0.36);
    p.body(-0.48, -0.2, -0.1, -0.3, 0.24, -0.2, 0.42, -0.02, 0.3, 0.2, -0.1, 0.22, -0.48, 0.2);
    p.body(0.48, -0.2, 0.2, -0.32, -0.06, -0.26, -0.1, -0.12, 0.16, -0.06, 0.48, 0.16);
    for (int i = 0; i < 4; i++) {
      p.oval(-0.08 + i * 0.02, 0.0 + i * 0.085, 0.26 - 0.02 * i, 0.055, 14);
    }
    p.cut(0.03, -0.5, -0.28, -0.46, 0.0, -0.46, 0.26);
    p.cut(0.03, 0.5, -0.28, 0.46, 0.0, 0.46, 0.26);
    p.cut(0.025, -0.7, -0.3, -0.68, 0.0, -0.7, 0.3);
    for (int i = 0; i < 4; i++) {
      p.cut(0.02, 0.56 + i * 0.1, 0.24, 0.6 + i * 0.1, 0.1);
    }
  }

  private static void lamb(Pencil p) {
    p.body(
        -0.75, 0.3, -0.8, -0.02, -0.5, -0.22, 0.1, -0.24, 0.45, -0.12, 0.6, 0.3, 0.2, 0.48, -0.4,
        0.48);
    p.oval(0.6, -0.26, 0.2, 0.17, 25);
    p.oval(0.78, -0.18, 0.12, 0.09, 25);
    p.oval(0.46, -0.24, 0.07, 0.15, 35);
    p.oval(0.42, 0.42, 0.34, 0.08, 4);
    p.oval(-0.35, 0.46, 0.3, 0.08, -3);
    p.oval(-0.82, 0.16, 0.07, 0.16, 10);
    p.bodies.add(new RoundRectangle2D.Double(-1, 0.52, 2, 0.16, 0.1, 0.1));
    for (int i = 0; i < 12; i++) {
      double x = -0.6 + (i % 4) * 0.3;
      double y = -0.1 + (i / 4) * 0.17;
      p.cut(0.025, x, y, x + 0.08, y + 0.05, x + 0.15, y);
    }
  }

  private static void anchor(Pencil p) {
    p.line(0.13, 0, -0.5, 0, 0.8);
    p.line(0.1, -0.36, -0.42, 0.36, -0.42);
    Area ring = new Area(new Ellipse2D.Double(-0.2, -0.96, 0.4, 0.4));
    ring.subtract(new Area(new Ellipse2D.Double(-0.11, -0.87, 0.22, 0.22)));
    p.bodies.add(ring);
    p.bodies.add(
        new BasicStroke(0.13f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER)
            .createStrokedShape(new Arc2D.Double(-0.66, -0.4, 1.32, 1.2, 205, 130, Arc2D.OPEN)));
    for (int side = -1; side <= 1; side += 2) {
      Path2D fluke = new Path2D.Double();
      fluke.moveTo(side * 0.78, 0.2);
      fluke.lineTo(side * 0.36, 0.42);
      fluke.lineTo(side * 0.76, 0.62);
      fluke.closePath();
      p.bodies.add(fluke);
    }
    p.line(0.05, 0.12, -0.72, 0.4, -0.5, 0.16, 0.0, -0.2, 0.3, 0.1, 0.6, 0.36, 0.86);
  }

  private static void dove(Pencil p) {
    p.body(-0.8, 0.3, -0.3, 0.02, 0.25, -0.1, 0.55, -0.2, 0.62, -0.02, 0.3, 0.26, -0.2, 0.36);
    p.oval(0.6, -0.2, 0.15, 0.13, 0);
    for (int i = 0; i < 5; i++) {
      p.oval(-0.15 + 0.1 * i, -0.4 - 0.06 * (2 - Math.abs(2 - i)), 0.42, 0.075, -112 + 14 * i);
      p.oval(-0.7, 0.26 + 0.06 * i, 0.24, 0.05, -14 + 12 * i);
    }
    p.line(0.03, 0.7, -0.16, 0.9, -0.06, 0.96, 0.1);
    p.oval(0.9, 0.04, 0.1, 0.04, 40);
  }

  private static void openBook(Pencil p) {
    p.body(0, -0.3, -0.4, -0.42, -0.9, -0.32, -0.94, 0.36, -0.4, 0.28, 0, 0.42);
    p.body(0, -0.3, 0.4, -0.42, 0.9, -0.32, 0.94, 0.36, 0.4, 0.28, 0, 0.42);
    p.cut(0.05, 0, -0.28, 0, 0.4);
    for (int i = 0; i < 5; i++) {
      double y = -0.2 + i * 0.11;
      p.cut(0.025, -0.78, y, -0.4, y - 0.06, -0.12, y + 0.02);
      p.cut(0.025, 0.12, y + 0.02, 0.4, y - 0.06, 0.78, y);
    }
  }

  private static void wheat(Pencil p) {
    for (int i = 0; i < 9; i++) {
      double t = (i - 4) / 4.0;
      p.line(0.045, t * 0.42, 0.9, t * 0.1, 0.2, t * 0.55, -0.45);
      for (int k = 0; k < 5; k++) {
        p.oval(t * (0.55 + 0.05 * k) - 0.035, -0.45 - 0.09 * k, 0.075, 0.035, -60);
        p.oval(t * (0.55 + 0.05 * k) + 0.035, -0.45 - 0.09 * k, 0.075, 0.035, 60);
      }
    }
    p.oval(0, 0.24, 0.26, 0.09, 0);
  }

  private static void rose(Pencil p) {
    p.oval(0, -0.35, 0.42, 0.4, 0);
    for (int i = 0; i < 5; i++) {
      double a = Math.toRadians(i * 72 - 90);
      p.oval(0.34 * Math.cos(a), -0.35 + 0.32 * Math.sin(a), 0.22, 0.18, i * 72);
    }
    p.line(0.06, 0, 0.0, 0.06, 0.5, -0.04, 0.95);
    p.oval(0.3, 0.4, 0.24, 0.1, -30);
    p.oval(-0.24, 0.58, 0.22, 0.09, 30);
    p.cut(
        0.035, 0.0, -0.35, 0.12, -0.42, 0.02, -0.52, -0.18, -0.42, -0.14, -0.2, 0.1, -0.14, 0.28,
        -0.32);
    p.cut(0.025, 0.1, 0.46, 0.3, 0.4, 0.48, 0.3);
  }
}
