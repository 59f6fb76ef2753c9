package rakelight.samples;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.util.function.Consumer;

/** Shapes in millimetres drawn into coverage fields, 0 to 1, with smooth edges. */
final class Masks {
  private Masks() {}

  static HeightField draw(int w, int h, double mmPerPx, Consumer<Graphics2D> pencil) {
    BufferedImage image = new BufferedImage(w, h, BufferedImage.TYPE_BYTE_GRAY);
    Graphics2D g = image.createGraphics();
    try {
      g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
      g.setTransform(AffineTransform.getScaleInstance(1 / mmPerPx, 1 / mmPerPx));
      g.setColor(Color.WHITE);
      pencil.accept(g);
    } finally {
      g.dispose();
    }
    byte[] bytes = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
    HeightField f = new HeightField(w, h);
    for (int i = 0; i < bytes.length; i++) {
      f.v[i] = (bytes[i] & 0xff) / 255f;
    }
    return f;
  }

  /** Fills a shape and broadens it by half the stroke on every side. */
  static void fill(Graphics2D g, Shape shape, double strokeMm) {
    g.fill(shape);
    if (strokeMm > 0) {
      g.setStroke(new BasicStroke((float) strokeMm, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER));
      g.draw(shape);
    }
  }
}
