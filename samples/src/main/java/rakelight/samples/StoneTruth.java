package rakelight.samples;

import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/** Writes down what a careful reader could make of a face on one photograph. */
final class StoneTruth {
  private static final char DOT_BELOW = '\u0323';

  private StoneTruth() {}

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
              legibility(m, n, shaded, view.light(), toImage),
              toPixels(line.polygon(), toImage),
              letters));
    }
    return out;
  }

  private static List<Point2D> toPixels(List<Point2D> mm, double[] toImage) {
    return mm.stream().map(p -> Renderer.apply(toImage, p.getX(), p.getY())).toList();
  }

  static String leiden(Layout.Line line, List<StoneStanding> standings) {
    List<MarkedText.Sign> signs = line.text().signs();
    StoneStanding[] at = new StoneStanding[signs.size()];
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
      if (at[i] == StoneStanding.LOST) {
        // A reader can't see a space between lost letters: it counts as one more sign.
        int end = i;
        for (int j = i;
            j < signs.size() && (at[j] == StoneStanding.LOST || isSpace(signs.get(j)));
            j++) {
          if (at[j] == StoneStanding.LOST) {
            end = j;
          }
        }
        b.append('[').append(".".repeat(end - i + 1)).append(']');
        i = end + 1;
        continue;
      }
      if (at[i] == StoneStanding.ILLEGIBLE) {
        b.append('+');
      } else {
        b.append(s.letter());
        if (at[i] == StoneStanding.UNCLEAR) {
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
   * From how much of what is to be seen the letters explain, from how many are left, and from their
   * height in the picture: under about 9 pixels of cap height nobody reads. The bounds were set by
   * looking at a hundred lines in order.
   */
  private static RenderedPhotograph.Legibility legibility(
      FaceModel m, int n, float[] shaded, Lamp light, double[] toImage) {
    Layout.Line line = m.layout.lines.get(n);
    // The shadows that raised letters throw belong to them too, yet neither pattern holds them.
    boolean raised = m.face.stone().cut() == Cut.RAISED;
    double clear = explained(m, line, shaded, light) / (raised ? 0.7 : 1);
    long lost =
        m.standings.get(n).stream()
            .filter(s -> s == StoneStanding.LOST || s == StoneStanding.ILLEGIBLE)
            .count();
    double lostShare = line.signs().isEmpty() ? 0 : lost / (double) line.signs().size();
    List<Point2D> p = line.polygon();
    Point2D a = Renderer.apply(toImage, p.get(0).getX(), p.get(0).getY());
    Point2D c = Renderer.apply(toImage, p.get(0).getX(), p.get(0).getY() + line.capMm());
    double capPx = a.distance(c);

    if (clear < 0.30 || lostShare > 0.4 || capPx < 9) {
      return RenderedPhotograph.Legibility.POOR;
    }
    if (clear < 0.60 || lostShare > 0.12 || capPx < 15) {
      return RenderedPhotograph.Legibility.WORN;
    }
    return RenderedPhotograph.Legibility.LEGIBLE;
  }

  /**
   * How much of the restlessness of a line, 0 to 1, its own letters explain: the share of the
   * variance of the brightness (between stroke and cap height in scale) that a least-squares
   * mixture of two patterns accounts for, the slope of the remaining relief along the light and the
   * area of the letters.
   */
  static double explained(FaceModel m, Layout.Line line, float[] shaded, Lamp light) {
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
    double[] l = light.sun() > 0 ? light.inFrameOf(m.face) : new double[] {0, 1, 0};
    HeightField seen = new HeightField(x1 - x0 + 1, y1 - y0 + 1);
    HeightField slope = new HeightField(seen.w, seen.h);
    HeightField ink = new HeightField(seen.w, seen.h);
    float[] relief = m.letterRelief.v;
    for (int y = y0; y <= y1; y++) {
      for (int x = x0; x <= x1; x++) {
        int i = y * m.w + x;
        int o = (y - y0) * seen.w + x - x0;
        double brightness =
            0.2126 * shaded[4 * i] + 0.7152 * shaded[4 * i + 1] + 0.0722 * shaded[4 * i + 2];
        seen.v[o] = (float) Math.log(0.004 + brightness);
        slope.v[o] =
            (float)
                (-l[0] * (relief[i + 1] - relief[i - 1])
                    + l[1] * (relief[i + m.w] - relief[i - m.w]));
        ink.v[o] = m.letterMask.v[i] * (1 - m.lost.v[i]);
      }
    }
    double fine = Math.max(0.8, line.capMm() * 0.035 / m.mmPerPx);
    double coarse = Math.max(4, line.capMm() * 0.5 / m.mmPerPx);
    float[] a = band(slope, fine, coarse);
    float[] b = band(ink, fine, coarse);
    float[] y = band(seen, fine, coarse);
    double aa = 1e-9;
    double ab = 0;
    double bb = 1e-9;
    double ay = 0;
    double by = 0;
    double yy = 1e-9;
    for (int i = 0; i < y.length; i++) {
      aa += a[i] * a[i];
      ab += a[i] * b[i];
      bb += b[i] * b[i];
      ay += a[i] * y[i];
      by += b[i] * y[i];
      yy += y[i] * y[i];
    }
    double det = aa * bb - ab * ab;
    if (det < 1e-6 * aa * bb) {
      return by * by / (bb * yy);
    }
    double p = (ay * bb - by * ab) / det;
    double q = (by * aa - ay * ab) / det;
    return Math.max(0, Math.min(1, (p * ay + q * by) / yy));
  }

  private static float[] band(HeightField f, double fine, double coarse) {
    HeightField low = f.blur(coarse);
    HeightField out = f.blur(fine);
    for (int i = 0; i < out.v.length; i++) {
      out.v[i] -= low.v[i];
    }
    return out.v;
  }
}
