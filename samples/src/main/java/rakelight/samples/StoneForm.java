package rakelight.samples;

import java.awt.Shape;
import java.awt.geom.Area;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;

/** The outline of a face, with the share of its height that lettering may use. */
public enum StoneForm {
  /** Upright slab with a segmental top. */
  ROUND_TOP(0.13, 0.06),
  /** Old upright slab: a half-round between two small shoulders. */
  TYMPANUM(0.30, 0.07),
  /** Pointed arch. */
  POINTED(0.20, 0.06),
  /** Concave shoulders up to a flat centre. */
  OGEE(0.14, 0.06),
  /** Straight top. */
  FLAT_TOP(0.06, 0.06),
  /** Slab lying flat on the ground, photographed from above. */
  LEDGER(0.06, 0.05),
  /** Face of the die of an obelisk, between base and cap. */
  OBELISK_DIE(0.07, 0.07),
  /** Low stone at the foot of a grave. */
  FOOTSTONE(0.2, 0.12),
  /** Government-furnished slab, slightly curved top, sunken shield. */
  SHIELD(0.16, 0.38),
  /** Government-furnished slab with a pointed top and no shield. */
  POINTED_SLAB(0.15, 0.3),
  /** Metal plate fixed to a block. */
  PLATE(0.08, 0.08);

  private final double topShare;
  private final double bottomShare;

  StoneForm(double topShare, double bottomShare) {
    this.topShare = topShare;
    this.bottomShare = bottomShare;
  }

  /** Where lettering begins, as a share of the height from the top, on a face without an emblem. */
  double topShare() {
    return topShare;
  }

  /** The share of the height left free below the lettering. */
  double bottomShare() {
    return bottomShare;
  }

  /** Outline in millimetres for a face of the given size. */
  Shape outline(double w, double h) {
    Path2D p = new Path2D.Double();
    switch (this) {
      case ROUND_TOP, FOOTSTONE -> {
        double rise = this == ROUND_TOP ? w * 0.2 : w * 0.28;
        p.moveTo(0, h);
        p.lineTo(0, rise);
        p.curveTo(w * 0.05, rise * 0.42, w * 0.27, 0, w / 2, 0);
        p.curveTo(w * 0.73, 0, w * 0.95, rise * 0.42, w, rise);
        p.lineTo(w, h);
      }
      case TYMPANUM -> {
        double s = w * 0.17;
        double r = w / 2 - s;
        double base = r + s * 0.35;
        p.moveTo(0, h);
        p.lineTo(0, base + s * 0.2);
        p.curveTo(0, base - s * 0.75, s, base - s * 0.75, s, base + s * 0.05);
        p.curveTo(s, base - r * 0.56, w / 2 - r * 0.56, 0, w / 2, 0);
        p.curveTo(w / 2 + r * 0.56, 0, w - s, base - r * 0.56, w - s, base + s * 0.05);
        p.curveTo(w - s, base - s * 0.75, w, base - s * 0.75, w, base + s * 0.2);
        p.lineTo(w, h);
      }
      case POINTED -> {
        double rise = w * 0.45;
        p.moveTo(0, h);
        p.lineTo(0, rise);
        p.curveTo(w * 0.04, rise * 0.5, w * 0.3, rise * 0.12, w / 2, 0);
        p.curveTo(w * 0.7, rise * 0.12, w * 0.96, rise * 0.5, w, rise);
        p.lineTo(w, h);
      }
      case OGEE -> {
        double rise = w * 0.16;
        p.moveTo(0, h);
        p.lineTo(0, rise);
        p.curveTo(w * 0.16, rise, w * 0.14, 0, w * 0.32, 0);
        p.lineTo(w * 0.68, 0);
        p.curveTo(w * 0.86, 0, w * 0.84, rise, w, rise);
        p.lineTo(w, h);
      }
      case SHIELD -> {
        double rise = w * 0.07;
        p.moveTo(0, h);
        p.lineTo(0, rise);
        p.quadTo(w / 2, -rise, w, rise);
        p.lineTo(w, h);
      }
      case POINTED_SLAB -> {
        double rise = w * 0.16;
        p.moveTo(0, h);
        p.lineTo(0, rise);
        p.lineTo(w / 2, 0);
        p.lineTo(w, rise);
        p.lineTo(w, h);
      }
      case FLAT_TOP, LEDGER, OBELISK_DIE, PLATE ->
          p.append(new Rectangle2D.Double(0, 0, w, h), false);
    }
    p.closePath();
    return p;
  }

  /** The sunken panel: the shield of a government slab, empty for other forms. */
  Area panel(double w, double h) {
    if (this != SHIELD) {
      return new Area();
    }
    double l = w * 0.1;
    double r = w * 0.9;
    double t = h * 0.1;
    double b = h * 0.66;
    double shoulder = w * 0.09;
    Path2D p = new Path2D.Double();
    p.moveTo(l, t + shoulder);
    p.quadTo(l + shoulder, t + shoulder * 0.9, l + shoulder * 1.2, t);
    p.quadTo(w / 2, t + shoulder * 0.6, r - shoulder * 1.2, t);
    p.quadTo(r - shoulder, t + shoulder * 0.9, r, t + shoulder);
    p.lineTo(r, b - w * 0.28);
    p.curveTo(r, b - w * 0.1, w * 0.62, b - w * 0.03, w / 2, b);
    p.curveTo(w * 0.38, b - w * 0.03, l, b - w * 0.1, l, b - w * 0.28);
    p.closePath();
    return new Area(p);
  }
}
