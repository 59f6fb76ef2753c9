package rakelight.samples;

import java.awt.BasicStroke;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Arc2D;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;

/**
 * What is carved, 40 of them, each drawn once in a square from -1 to 1, y down; a {@link
 * CarverHand} cuts it its own way.
 */
public enum Motif {
  WILLOW_AND_URN(Emblem.WILLOW_AND_URN),
  WINGED_FACE(Emblem.WINGED_FACE),
  CLASPED_HANDS(Emblem.CLASPED_HANDS),
  LAMB(Emblem.LAMB),
  ANCHOR(Emblem.ANCHOR),
  CROSS(Emblem.CROSS),
  DOVE(Emblem.DOVE),
  OPEN_BOOK(Emblem.OPEN_BOOK),
  WHEAT(Emblem.WHEAT),
  ROSE(Emblem.ROSE),
  STAR(Emblem.STAR),
  FLEURON(Emblem.FLEURON),
  SKULL_AND_BONES(Motif::skullAndBones),
  URN(Motif::urn),
  WILLOW(Motif::willow),
  POINTING_HAND(Motif::pointingHand),
  BROKEN_COLUMN(Motif::brokenColumn),
  WREATH(Motif::wreath),
  CROWN(Motif::crown),
  RINGED_CROSS(Motif::ringedCross),
  FLARED_CROSS(Motif::flaredCross),
  THISTLE(Motif::thistle),
  SHELL(Motif::shell),
  HOURGLASS(Motif::hourglass),
  HEART(
      p ->
          p.body(
              0, 0.9, -0.85, -0.1, -0.6, -0.75, -0.1, -0.62, 0.1, -0.62, 0.6, -0.75, 0.85, -0.1)),
  TORCH(Motif::torch),
  LYRE(Motif::lyre),
  OAK_LEAVES(Motif::oakLeaves),
  LILY(Motif::lily),
  IVY(Motif::ivy),
  PALM(Motif::palm),
  CHALICE(Motif::chalice),
  KEYS(Motif::keys),
  SHIP(Motif::ship),
  RISING_SUN(Motif::risingSun),
  SQUARE_AND_COMPASSES(Motif::squareAndCompasses),
  SERPENT_RING(Motif::serpentRing),
  CROSSED_SWORDS(Motif::crossedSwords),
  LAMP(Motif::lamp),
  BUTTERFLY(Motif::butterfly);

  private final Emblem.Drawing drawing;

  Motif(Emblem emblem) {
    this.drawing = emblem.drawing();
  }

  Motif(Consumer<Emblem.Pencil> artist) {
    Emblem.Pencil pencil = new Emblem.Pencil();
    artist.accept(pencil);
    this.drawing = new Emblem.Drawing(List.copyOf(pencil.bodies), List.copyOf(pencil.cuts));
  }

  /** In small letters with hyphens. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  Emblem.Drawing drawing() {
    return drawing;
  }

  private static void box(Emblem.Pencil p, double x, double y, double w, double h) {
    p.bodies.add(new Rectangle2D.Double(x, y, w, h));
  }

  private static Path2D straight(double... xy) {
    Path2D path = new Path2D.Double();
    path.moveTo(xy[0], xy[1]);
    for (int i = 2; i < xy.length; i += 2) {
      path.lineTo(xy[i], xy[i + 1]);
    }
    path.closePath();
    return path;
  }

  private static Shape turned(Shape shape, double degrees, double x, double y) {
    return AffineTransform.getRotateInstance(Math.toRadians(degrees), x, y)
        .createTransformedShape(shape);
  }

  private static Area ring(double x, double y, double outer, double inner) {
    Area ring = new Area(new Ellipse2D.Double(x - outer, y - outer, 2 * outer, 2 * outer));
    ring.subtract(new Area(new Ellipse2D.Double(x - inner, y - inner, 2 * inner, 2 * inner)));
    return ring;
  }

  private static void hole(Emblem.Pencil p, double x, double y, double rx, double ry) {
    p.cuts.add(new Ellipse2D.Double(x - rx, y - ry, 2 * rx, 2 * ry));
  }

  private static void skullAndBones(Emblem.Pencil p) {
    for (int side = -1; side <= 1; side += 2) {
      p.line(0.12, side * -0.8, 0.35, side * 0.8, 0.85);
      for (int end = -1; end <= 1; end += 2) {
        p.oval(end * 0.84, 0.6 + side * end * 0.2, 0.1, 0.1, 0);
        p.oval(end * 0.82, 0.6 + side * end * 0.33, 0.1, 0.1, 0);
      }
    }
    p.body(-0.5, -0.35, -0.4, -0.8, 0, -0.95, 0.4, -0.8, 0.5, -0.35, 0.3, 0.02, -0.3, 0.02);
    box(p, -0.24, -0.02, 0.48, 0.26);
    hole(p, -0.2, -0.32, 0.14, 0.13);
    hole(p, 0.2, -0.32, 0.14, 0.13);
    p.cut(0.07, 0, -0.16, -0.05, -0.04);
    for (int i = -1; i <= 1; i++) {
      p.cut(0.03, i * 0.12, 0.04, i * 0.12, 0.22);
    }
  }

  private static void urn(Emblem.Pencil p) {
    p.body(-0.5, -0.35, -0.46, 0.05, -0.14, 0.42, 0.14, 0.42, 0.46, 0.05, 0.5, -0.35);
    box(p, -0.58, -0.46, 1.16, 0.13);
    p.oval(0, -0.56, 0.4, 0.13, 0);
    p.oval(0, -0.76, 0.1, 0.14, 0);
    box(p, -0.09, 0.4, 0.18, 0.2);
    box(p, -0.3, 0.58, 0.6, 0.12);
    box(p, -0.44, 0.7, 0.88, 0.22);
    p.line(0.09, -0.5, -0.26, -0.82, -0.2, -0.66, 0.12, -0.42, 0.1);
    p.line(0.09, 0.5, -0.26, 0.82, -0.2, 0.66, 0.12, 0.42, 0.1);
    p.cut(0.04, -0.44, -0.1, 0, -0.02, 0.44, -0.1);
    for (int i = -2; i <= 2; i++) {
      p.cut(0.03, i * 0.13, 0.06, i * 0.06, 0.36);
    }
  }

  private static void willow(Emblem.Pencil p) {
    p.line(0.16, 0, 0.92, 0.02, 0.3, -0.05, -0.5);
    for (int i = -5; i <= 5; i++) {
      double x = i * 0.17;
      double top = -0.88 + 0.018 * i * i;
      p.line(
          0.05,
          0,
          -0.55,
          x * 0.6,
          top,
          x,
          top + 0.35,
          x * 1.06,
          0.5 - 0.04 * i * i + (i & 1) * 0.2);
    }
    p.body(-0.7, 0.95, -0.3, 0.84, 0.3, 0.84, 0.7, 0.95);
  }

  private static void pointingHand(Emblem.Pencil p) {
    p.oval(-0.14, -0.5, 0.11, 0.48, 0);
    p.body(-0.3, -0.1, 0.3, -0.14, 0.36, 0.3, 0.24, 0.5, -0.26, 0.5, -0.36, 0.2);
    for (int i = 0; i < 3; i++) {
      p.oval(0.06 + 0.15 * i, -0.06 + 0.05 * i, 0.09, 0.19, 4);
    }
    p.oval(-0.3, 0.12, 0.09, 0.26, -24);
    p.bodies.add(straight(-0.36, 0.5, 0.34, 0.5, 0.44, 0.95, -0.46, 0.95));
    p.cut(0.03, -0.36, 0.58, 0, 0.62, 0.34, 0.58);
    p.cut(0.03, -0.4, 0.68, 0, 0.72, 0.38, 0.68);
    p.cut(0.025, -0.2, -0.84, -0.14, -0.88, -0.08, -0.84);
  }

  private static void brokenColumn(Emblem.Pencil p) {
    p.bodies.add(
        straight(
            -0.28, 0.6, -0.26, -0.66, -0.1, -0.52, 0.04, -0.82, 0.14, -0.6, 0.26, -0.7, 0.28, 0.6));
    box(p, -0.38, 0.58, 0.76, 0.12);
    box(p, -0.5, 0.7, 1.0, 0.24);
    for (int i = -2; i <= 2; i++) {
      p.cut(0.03, i * 0.1, -0.45, i * 0.1, 0.54);
    }
    p.line(0.04, -0.3, 0.4, 0.2, 0.1, -0.2, -0.2, 0.26, -0.44);
    for (int i = 0; i < 5; i++) {
      p.oval((i & 1) == 0 ? 0.12 : -0.1, 0.36 - 0.18 * i, 0.12, 0.07, i * 40);
    }
  }

  private static void wreath(Emblem.Pencil p) {
    for (int i = 0; i < 22; i++) {
      double a = Math.PI * 2 * i / 22;
      for (int side = -1; side <= 1; side += 2) {
        double r = 0.68 + side * 0.1;
        p.oval(
            r * Math.sin(a),
            -r * Math.cos(a),
            0.17,
            0.065,
            i * 360.0 / 22 + (i < 11 ? 1 : -1) * side * 28 + (i < 11 ? 0 : 180));
      }
    }
    p.line(0.09, -0.3, 0.95, 0, 0.7, 0.3, 0.95);
    p.oval(0, 0.7, 0.1, 0.09, 0);
  }

  private static void crown(Emblem.Pencil p) {
    p.bodies.add(
        straight(
            -0.7, 0.5, -0.85, -0.4, -0.45, 0.05, -0.28, -0.55, 0, 0, 0.28, -0.55, 0.45, 0.05, 0.85,
            -0.4, 0.7, 0.5));
    box(p, -0.72, 0.54, 1.44, 0.22);
    for (double[] ball :
        new double[][] {{-0.86, -0.5}, {-0.28, -0.66}, {0.28, -0.66}, {0.86, -0.5}}) {
      p.oval(ball[0], ball[1], 0.11, 0.11, 0);
    }
    for (int i = -2; i <= 2; i++) {
      hole(p, i * 0.28, 0.65, 0.08, 0.06);
    }
    p.cut(0.03, -0.66, 0.38, 0, 0.44, 0.66, 0.38);
  }

  private static void ringedCross(Emblem.Pencil p) {
    p.bodies.add(ring(0, -0.36, 0.5, 0.36));
    p.bodies.add(straight(-0.12, 0.95, -0.1, -0.98, 0.1, -0.98, 0.12, 0.95));
    box(p, -0.66, -0.46, 1.32, 0.2);
    p.oval(0, -0.36, 0.13, 0.13, 0);
    box(p, -0.3, 0.84, 0.6, 0.13);
    for (int i = 0; i < 4; i++) {
      p.cut(0.025, -0.06, 0.04 + i * 0.2, 0.06, 0.14 + i * 0.2);
      p.cut(0.025, 0.06, 0.04 + i * 0.2, -0.06, 0.14 + i * 0.2);
    }
  }

  private static void flaredCross(Emblem.Pencil p) {
    for (int i = 0; i < 4; i++) {
      p.bodies.add(turned(straight(-0.08, 0, -0.36, -0.9, 0.36, -0.9, 0.08, 0), i * 90, 0, 0));
      p.cuts.add(turned(straight(-0.12, -0.56, 0.12, -0.56, 0.1, -0.5, -0.1, -0.5), i * 90, 0, 0));
    }
    p.oval(0, 0, 0.2, 0.2, 0);
  }

  private static void thistle(Emblem.Pencil p) {
    p.oval(0, -0.2, 0.3, 0.28, 0);
    for (int i = -3; i <= 3; i++) {
      p.bodies.add(turned(straight(-0.07, -0.4, 0, -0.95, 0.07, -0.4), i * 11, 0, -0.1));
    }
    p.line(0.09, 0, 0.05, 0.03, 0.5, -0.03, 0.95);
    for (int side = -1; side <= 1; side += 2) {
      p.bodies.add(
          straight(
              0,
              0.75,
              side * 0.25,
              0.3,
              side * 0.35,
              0.42,
              side * 0.6,
              0.05,
              side * 0.62,
              0.3,
              side * 0.85,
              0.18,
              side * 0.66,
              0.55,
              side * 0.4,
              0.58));
    }
    for (int i = -2; i <= 2; i++) {
      p.cut(0.025, -0.26, -0.2 + i * 0.09, 0.26, -0.3 + i * 0.09);
      p.cut(0.025, 0.26, -0.2 + i * 0.09, -0.26, -0.3 + i * 0.09);
    }
  }

  private static void shell(Emblem.Pencil p) {
    for (int i = -4; i <= 4; i++) {
      double a = i * 19;
      p.bodies.add(
          turned(Emblem.Pencil.smooth(true, 0, 0.6, -0.14, -0.5, 0, -0.86, 0.14, -0.5), a, 0, 0.6));
    }
    p.bodies.add(straight(-0.34, 0.86, -0.2, 0.5, 0.2, 0.5, 0.34, 0.86));
    p.oval(0, 0.6, 0.16, 0.1, 0);
  }

  private static void hourglass(Emblem.Pencil p) {
    p.body(
        -0.4, -0.7, 0.4, -0.7, 0.3, -0.25, 0.05, 0, 0.3, 0.25, 0.4, 0.7, -0.4, 0.7, -0.3, 0.25,
        -0.05, 0, -0.3, -0.25);
    box(p, -0.6, -0.88, 1.2, 0.17);
    box(p, -0.6, 0.71, 1.2, 0.17);
    p.line(0.07, -0.53, -0.75, -0.53, 0.75);
    p.line(0.07, 0.53, -0.75, 0.53, 0.75);
    p.cut(0.05, -0.26, 0.5, 0, 0.34, 0.26, 0.5);
    p.cut(0.03, 0, -0.05, 0, 0.34);
  }

  private static void torch(Emblem.Pencil p) {
    p.bodies.add(straight(-0.1, -0.95, 0.1, -0.95, 0.2, 0.2, -0.2, 0.2));
    box(p, -0.3, 0.16, 0.6, 0.14);
    p.body(-0.28, 0.32, 0.28, 0.32, 0.34, 0.6, 0.12, 0.68, 0.06, 0.96, -0.1, 0.74, -0.34, 0.66);
    p.cut(0.03, -0.12, 0.36, -0.16, 0.6);
    p.cut(0.03, 0.1, 0.36, 0.14, 0.58);
    for (int i = 0; i < 5; i++) {
      p.cut(0.035, -0.15, -0.7 + i * 0.2, 0.15, -0.6 + i * 0.2);
    }
  }

  private static void lyre(Emblem.Pencil p) {
    for (int side = -1; side <= 1; side += 2) {
      p.line(
          0.13, 0, 0.62, side * 0.5, 0.4, side * 0.55, -0.1, side * 0.36, -0.5, side * 0.7, -0.8);
      p.oval(side * 0.74, -0.74, 0.13, 0.12, 0);
    }
    box(p, -0.52, -0.5, 1.04, 0.11);
    for (int i = -2; i <= 2; i++) {
      p.line(0.03, i * 0.13, -0.4, i * 0.1, 0.46);
    }
    box(p, -0.4, 0.72, 0.8, 0.18);
    p.oval(0, 0.58, 0.22, 0.14, 0);
  }

  private static void oakLeaves(Emblem.Pencil p) {
    for (int side = -1; side <= 1; side += 2) {
      Shape leaf =
          Emblem.Pencil.smooth(
              true, 0, 0.75, -0.1, 0.4, -0.3, 0.42, -0.2, 0.18, -0.38, 0.06, -0.22, -0.14, -0.3,
              -0.4, -0.08, -0.4, 0, -0.62, 0.08, -0.4, 0.3, -0.4, 0.22, -0.14, 0.38, 0.06, 0.2,
              0.18, 0.3, 0.42, 0.1, 0.4);
      p.bodies.add(turned(leaf, side * 42, 0, 0.8));
      p.cuts.add(turned(new Rectangle2D.Double(-0.015, -0.4, 0.03, 1.1), side * 42, 0, 0.8));
    }
    p.oval(0, 0.28, 0.15, 0.24, 0);
    p.oval(0, 0.5, 0.2, 0.11, 0);
    p.line(0.07, 0, 0.6, 0, 0.96);
  }

  private static void lily(Emblem.Pencil p) {
    p.line(0.07, -0.1, 0.95, 0.04, 0.3, 0.1, -0.2);
    for (int i = -2; i <= 2; i++) {
      p.bodies.add(
          turned(
              Emblem.Pencil.smooth(true, 0.1, -0.1, -0.08, -0.5, 0.1, -0.95, 0.26, -0.5),
              i * 30,
              0.1,
              -0.1));
    }
    p.bodies.add(
        turned(Emblem.Pencil.smooth(true, 0, 0.9, -0.14, 0.4, -0.1, 0, 0.08, 0.4), -34, 0, 0.9));
    p.bodies.add(
        turned(Emblem.Pencil.smooth(true, 0, 0.9, -0.1, 0.5, 0.1, 0.1, 0.12, 0.5), 40, 0, 0.9));
    p.oval(-0.45, 0.1, 0.09, 0.22, -20);
    p.line(0.045, 0.0, 0.55, -0.3, 0.45, -0.42, 0.24);
  }

  private static void ivy(Emblem.Pencil p) {
    p.line(0.06, -0.8, 0.8, -0.3, 0.45, 0.1, 0.3, 0.2, -0.2, 0.7, -0.7);
    double[][] at = {
      {-0.5, 0.3, -50},
      {-0.15, 0.75, 130},
      {0.4, 0.35, 80},
      {-0.1, -0.15, -70},
      {0.6, -0.3, 70},
      {0.3, -0.7, -20}
    };
    for (double[] a : at) {
      AffineTransform t = AffineTransform.getTranslateInstance(a[0], a[1]);
      t.rotate(Math.toRadians(a[2]));
      p.bodies.add(
          t.createTransformedShape(
              straight(
                  0, 0.14, -0.28, 0.2, -0.2, -0.02, -0.24, -0.18, -0.06, -0.14, 0, -0.32, 0.06,
                  -0.14, 0.24, -0.18, 0.2, -0.02, 0.28, 0.2)));
      p.cuts.add(t.createTransformedShape(new Rectangle2D.Double(-0.012, -0.22, 0.024, 0.34)));
    }
  }

  private static void palm(Emblem.Pencil p) {
    p.line(0.06, -0.5, 0.95, -0.2, 0.2, 0.4, -0.7);
    for (int i = 0; i < 9; i++) {
      double t = i / 8.0;
      double x = -0.36 + 0.76 * t;
      double y = 0.6 - 1.3 * t;
      p.oval(x - 0.2, y - 0.13, 0.28, 0.05, 20 + 30 * t);
      p.oval(x + 0.2, y - 0.05, 0.28, 0.05, -70 + 20 * t);
    }
  }

  private static void chalice(Emblem.Pencil p) {
    p.body(-0.48, -0.7, 0.48, -0.7, 0.42, -0.2, 0.1, 0.06, -0.1, 0.06, -0.42, -0.2);
    box(p, -0.07, 0.02, 0.14, 0.62);
    p.oval(0, 0.28, 0.2, 0.1, 0);
    p.body(-0.5, 0.9, -0.36, 0.72, 0, 0.62, 0.36, 0.72, 0.5, 0.9);
    p.oval(0, -0.86, 0.2, 0.13, 0);
    p.cut(0.03, -0.42, -0.5, 0, -0.42, 0.42, -0.5);
    p.cut(0.035, 0, -0.36, 0, -0.08);
    p.cut(0.035, -0.1, -0.26, 0.1, -0.26);
  }

  private static void keys(Emblem.Pencil p) {
    for (int side = -1; side <= 1; side += 2) {
      double turn = side * 38;
      p.bodies.add(turned(new Rectangle2D.Double(-0.06, -0.5, 0.12, 1.3), turn, 0, 0.1));
      p.bodies.add(turned(ring(0, -0.66, 0.23, 0.12), turn, 0, 0.1));
      p.bodies.add(
          turned(
              straight(
                  0,
                  0.5,
                  side * 0.3,
                  0.5,
                  side * 0.3,
                  0.62,
                  side * 0.16,
                  0.62,
                  side * 0.16,
                  0.68,
                  side * 0.3,
                  0.68,
                  side * 0.3,
                  0.8,
                  0,
                  0.8),
              turn,
              0,
              0.1));
    }
  }

  private static void ship(Emblem.Pencil p) {
    p.body(-0.9, 0.3, 0.95, 0.26, 0.7, 0.66, -0.66, 0.68);
    for (int i = -1; i <= 1; i++) {
      double x = i * 0.5;
      p.line(0.045, x, 0.3, x, -0.92 + 0.14 * Math.abs(i));
      for (int s = 0; s < 2; s++) {
        double y = -0.7 + 0.44 * s + 0.1 * Math.abs(i);
        p.bodies.add(straight(x - 0.18, y, x + 0.18, y, x + 0.24, y + 0.36, x - 0.2, y + 0.36));
      }
    }
    p.line(0.04, 0.85, 0.3, 1.0, 0.05);
    p.cut(0.03, -0.8, 0.44, 0, 0.48, 0.84, 0.42);
    p.line(0.05, -0.95, 0.86, -0.6, 0.78, -0.3, 0.86, 0, 0.78, 0.3, 0.86, 0.6, 0.78, 0.95, 0.86);
  }

  private static void risingSun(Emblem.Pencil p) {
    p.bodies.add(new Arc2D.Double(-0.4, -0.0, 0.8, 0.8, 0, 180, Arc2D.CHORD));
    for (int i = 0; i < 13; i++) {
      double length = i % 2 == 0 ? 1.2 : 0.95;
      p.bodies.add(turned(straight(0.44, 0.36, length, 0.38, 0.44, 0.44), -i * 15, 0, 0.4));
    }
    box(p, -0.95, 0.44, 1.9, 0.1);
    p.line(0.05, -0.8, 0.72, -0.4, 0.64, 0, 0.72, 0.4, 0.64, 0.8, 0.72);
    hole(p, -0.13, 0.22, 0.05, 0.04);
    hole(p, 0.13, 0.22, 0.05, 0.04);
  }

  private static void squareAndCompasses(Emblem.Pencil p) {
    for (int side = -1; side <= 1; side += 2) {
      p.bodies.add(
          straight(side * 0.02, -0.85, side * 0.16, -0.8, side * 0.72, 0.75, side * 0.56, 0.55));
      p.bodies.add(straight(0, 0.92, 0, 0.7, side * 0.86, -0.02, side * 0.94, 0.14));
    }
    p.oval(0, -0.82, 0.16, 0.14, 0);
    p.line(0.06, -0.32, 0.0, 0, -0.1, 0.32, 0.0);
  }

  private static void serpentRing(Emblem.Pencil p) {
    BasicStroke body = new BasicStroke(0.17f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);
    p.bodies.add(
        body.createStrokedShape(new Arc2D.Double(-0.75, -0.75, 1.5, 1.5, 75, 290, Arc2D.OPEN)));
    p.oval(0.14, -0.76, 0.22, 0.14, 8);
    hole(p, 0.2, -0.8, 0.035, 0.03);
    for (int i = 0; i < 18; i++) {
      double a = Math.toRadians(110 + i * 15);
      p.cut(
          0.025,
          0.68 * Math.cos(a),
          -0.68 * Math.sin(a),
          0.82 * Math.cos(a + 0.08),
          -0.82 * Math.sin(a + 0.08));
    }
  }

  private static void crossedSwords(Emblem.Pencil p) {
    for (int side = -1; side <= 1; side += 2) {
      double turn = side * 42;
      p.bodies.add(
          turned(
              straight(-0.07, 0.55, -0.06, -0.95, 0, -1.12, 0.06, -0.95, 0.07, 0.55), turn, 0, 0));
      p.bodies.add(turned(new Rectangle2D.Double(-0.26, 0.52, 0.52, 0.1), turn, 0, 0));
      p.bodies.add(turned(new Rectangle2D.Double(-0.05, 0.62, 0.1, 0.28), turn, 0, 0));
      p.bodies.add(turned(new Ellipse2D.Double(-0.1, 0.88, 0.2, 0.18), turn, 0, 0));
    }
  }

  private static void lamp(Emblem.Pencil p) {
    p.body(-0.85, 0.0, -0.3, -0.16, 0.4, -0.12, 0.55, 0.12, 0.2, 0.42, -0.3, 0.4, -0.62, 0.2);
    p.line(0.09, 0.46, -0.02, 0.85, -0.2, 0.88, 0.2, 0.4, 0.24);
    p.body(-0.9, -0.1, -0.8, -0.36, -0.9, -0.7, -0.68, -0.4, -0.72, -0.12);
    p.oval(0, -0.22, 0.2, 0.09, 0);
    p.oval(0, -0.36, 0.06, 0.07, 0);
    p.bodies.add(straight(-0.12, 0.4, 0.12, 0.4, 0.34, 0.72, -0.34, 0.72));
    p.cut(0.03, -0.55, 0.1, 0, 0.2, 0.45, 0.1);
  }

  private static void butterfly(Emblem.Pencil p) {
    for (int side = -1; side <= 1; side += 2) {
      p.body(
          side * 0.08,
          -0.1,
          side * 0.4,
          -0.7,
          side * 0.9,
          -0.75,
          side * 0.8,
          -0.2,
          side * 0.4,
          0.06);
      p.body(
          side * 0.08,
          0.04,
          side * 0.5,
          0.1,
          side * 0.72,
          0.45,
          side * 0.45,
          0.75,
          side * 0.16,
          0.4);
      p.line(0.03, side * 0.03, -0.4, side * 0.12, -0.7, side * 0.26, -0.85);
      hole(p, side * 0.62, -0.5, 0.09, 0.08);
      hole(p, side * 0.44, 0.42, 0.08, 0.09);
    }
    p.oval(0, 0.05, 0.08, 0.5, 0);
  }
}
