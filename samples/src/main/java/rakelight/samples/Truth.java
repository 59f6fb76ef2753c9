package rakelight.samples;

import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/** Writes down what a careful reader could make of a face on one photograph. */
final class Truth {
  private static final char DOT_BELOW = '\u0323';

  private Truth() {}

  static List<RenderedPhotograph.Line> lines(
      FaceModel m, float[] shaded, View view, double[] toImage) {
    List<RenderedPhotograph.Line> out = new ArrayList<>();
    for (int n = 0; n < m.layout.lines.size(); n++) {
      Layout.Line line = m.layout.lines.get(n);
      List<RenderedPhotograph.Letter> letters = new ArrayList<>();
      for (int k = 0; k < line.signs().size(); k++) {
        Layout.Placed p = line.signs().get(k);
        letters.add(
            new RenderedPhotograph.Letter(
                line.text().signs().get(p.index()).letter(),
                m.standings.get(n).get(k),
                toPixels(p.corners(), toImage)));
      }
      out.add(
          new RenderedPhotograph.Line(
              line.line().number(),
              line.text().asCut(),
              leiden(line, m.standings.get(n)),
              legibility(m, n, shaded, toImage),
              toPixels(line.polygon(), toImage),
              letters));
    }
    return out;
  }

  private static List<Point2D> toPixels(List<Point2D> mm, double[] toImage) {
    return mm.stream().map(p -> Renderer.apply(toImage, p.getX(), p.getY())).toList();
  }

  static String leiden(Layout.Line line, List<Standing> standings) {
    List<MarkedText.Sign> signs = line.text().signs();
    Standing[] at = new Standing[signs.size()];
    for (int k = 0; k < line.signs().size(); k++) {
      at[line.signs().get(k).index()] = standings.get(k);
    }
    StringBuilder b = new StringBuilder();
    int i = 0;
    while (i < signs.size()) {
      MarkedText.Sign s = signs.get(i);
      if (s.blank()) {
        int from = i;
        while (i < signs.size() && signs.get(i).blank()) {
          i++;
        }
        b.append("(vac. ").append(i - from).append(')');
        continue;
      }
      if (at[i] == Standing.LOST) {
        // A reader can't see a space between lost letters: it counts as one more sign.
        int end = i;
        for (int j = i;
            j < signs.size() && (at[j] == Standing.LOST || isSpace(signs.get(j)));
            j++) {
          if (at[j] == Standing.LOST) {
            end = j;
          }
        }
        b.append('[').append(".".repeat(end - i + 1)).append(']');
        i = end + 1;
        continue;
      }
      if (at[i] == Standing.ILLEGIBLE) {
        b.append('+');
      } else {
        b.append(s.letter());
        if (at[i] == Standing.UNCLEAR) {
          b.append(DOT_BELOW);
        }
      }
      i++;
    }
    return b.toString().strip();
  }

  private static boolean isSpace(MarkedText.Sign s) {
    return s.letter() == ' ' && !s.blank();
  }

  /**
   * From the contrast of the letters against the restlessness of the surface on the shaded face,
   * and from their height in the picture: under about 9 pixels of cap height nobody reads.
   */
  private static RenderedPhotograph.Legibility legibility(
      FaceModel m, int n, float[] shaded, double[] toImage) {
    Layout.Line line = m.layout.lines.get(n);
    double contrast = contrast(m, line, shaded);
    long lost =
        m.standings.get(n).stream()
            .filter(s -> s == Standing.LOST || s == Standing.ILLEGIBLE)
            .count();
    double lostShare = line.signs().isEmpty() ? 0 : lost / (double) line.signs().size();
    Rectangle2D b = new Rectangle2D.Double();
    List<Point2D> p = line.polygon();
    Point2D a = Renderer.apply(toImage, p.get(0).getX(), p.get(0).getY());
    Point2D c = Renderer.apply(toImage, p.get(0).getX(), p.get(0).getY() + line.capMm());
    double capPx = a.distance(c);
    b.setRect(a.getX(), a.getY(), 0, 0);
    if (contrast < 0.55 || lostShare > 0.4 || capPx < 9) {
      return RenderedPhotograph.Legibility.POOR;
    }
    if (contrast < 1.1 || lostShare > 0.12 || capPx < 15) {
      return RenderedPhotograph.Legibility.WORN;
    }
    return RenderedPhotograph.Legibility.LEGIBLE;
  }

  /**
   * Root mean square of brightness differences between letter and its rim over that of the bare
   * ground nearby.
   */
  private static double contrast(FaceModel m, Layout.Line line, float[] shaded) {
    Rectangle2D box =
        new Rectangle2D.Double(line.polygon().get(0).getX(), line.polygon().get(0).getY(), 0, 0);
    for (Point2D q : line.polygon()) {
      box.add(q);
    }
    int x0 = (int) Math.max(1, box.getMinX() / m.mmPerPx);
    int x1 = (int) Math.min(m.w - 2.0, box.getMaxX() / m.mmPerPx);
    int y0 = (int) Math.max(1, box.getMinY() / m.mmPerPx);
    int y1 = (int) Math.min(m.h - 2.0, box.getMaxY() / m.mmPerPx);
    if (x1 - x0 < 4 || y1 - y0 < 4) {
      return 0;
    }
    Field lum = new Field(x1 - x0 + 1, y1 - y0 + 1);
    Field ink = new Field(lum.w, lum.h);
    for (int y = y0; y <= y1; y++) {
      for (int x = x0; x <= x1; x++) {
        int i = y * m.w + x;
        lum.v[(y - y0) * lum.w + x - x0] =
            0.2126f * shaded[4 * i] + 0.7152f * shaded[4 * i + 1] + 0.0722f * shaded[4 * i + 2];
        ink.v[(y - y0) * lum.w + x - x0] = m.letterMask.v[i];
      }
    }
    double strokePx = Math.max(1, line.capMm() * 0.05 / m.mmPerPx);
    Field fine = lum.blur(strokePx * 0.5);
    Field coarse = lum.blur(Math.max(3, line.capMm() * 0.35 / m.mmPerPx));
    Field reach = ink.blur(strokePx);
    double on = 0;
    double onN = 0;
    double off = 0;
    double offN = 0;
    for (int i = 0; i < lum.v.length; i++) {
      double d = (fine.v[i] - coarse.v[i]) / Math.max(1e-4, coarse.v[i]);
      if (reach.v[i] > 0.25f) {
        on += d * d;
        onN++;
      } else if (reach.v[i] < 0.04f) {
        off += d * d;
        offN++;
      }
    }
    if (onN < 5 || offN < 5) {
      return 1;
    }
    double ground = Math.sqrt(off / offN) + 0.02;
    return Math.sqrt(on / onN) / ground - 1;
  }
}
