package rakelight.samples;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.geom.Path2D;
import java.awt.geom.PathIterator;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * What stands about the stone: far grass, trees and sky out of focus, the side of the slab, blades
 * at its foot.
 */
final class Scenery {
  private final SampleFace face;
  private final View view;
  private final Camera camera;
  private final long seed;
  private final double groundY;
  private final int w;
  private final int h;

  /** Light on level ground far from the stone. */
  private final float sunlight;

  /** Whether the source is a lamp at dusk, which lights the stone and hardly the ground. */
  private final boolean lamp;

  Scenery(SampleFace face, View view, Camera camera, long seed) {
    this.face = face;
    this.view = view;
    this.camera = camera;
    this.seed = seed;
    this.w = view.widthPx();
    this.h = view.heightPx();
    this.groundY = -face.stone().heightMm() / 2 - plinth(face.stone());
    Lamp l = view.light();
    this.lamp = l.sun() > 0 && l.sky() < 0.2;
    this.sunlight =
        (float) (0.75 * l.sky() + (lamp ? 0 : 0.62 * l.sun() * (l.dappled() ? 0.55 : 1)));
  }

  /** Height of whatever the face stands on. */
  static double plinth(Stone s) {
    return s.has("base")
        ? s.heightMm() * 0.2
        : s.form() == StoneForm.PLATE ? s.heightMm() * 0.35 : 0;
  }

  /**
   * Linear colours of everything behind the stone, interleaved red, green, blue; computed coarsely,
   * since out of focus.
   */
  float[] behind() {
    int step = Math.max(2, w / 400);
    int cw = w / step + 2;
    int ch = h / step + 2;
    float[] coarse = new float[3 * cw * ch];
    HeightField leaf = Noise.octaves(cw, ch, seed + 1, cw / 9.0, cw / 11.0, 5, 0.72);
    HeightField clump = Noise.octaves(cw, ch, seed + 2, cw / 3.0, cw / 4.0, 3, 0.6);
    HeightField spots = Noise.octaves(cw, ch, seed + 3, cw / 34.0, cw / 34.0, 3, 0.7);
    double[] eye = camera.centre();
    boolean lying = face.stone().lying();
    float[] rgb = new float[3];
    SplittableRandom r = new SplittableRandom(seed + 4);
    double treeLine = r.nextDouble(0.10, 0.5);
    float autumn = (float) r.nextDouble(0, 0.5);
    for (int y = 0; y < ch; y++) {
      for (int x = 0; x < cw; x++) {
        int i = y * cw + x;
        double[] d = camera.ray(x * step, y * step);
        double fall = lying ? -d[2] : -d[1];
        double len = Math.sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2]);
        double sine = fall / len;
        double far = fall > 1e-6 ? ((lying ? eye[2] : eye[1] - groundY) / fall) : Double.MAX_VALUE;
        if (far > 0 && far * len < 22_000 && fall > 0) {
          double gx = eye[0] + d[0] * far;
          double gz = lying ? eye[1] + d[1] * far : eye[2] + d[2] * far;
          lawn(rgb, gx, gz, far * len, autumn);
        } else if (sine > -treeLine - 0.05 * clump.v[i]) {
          float t = 0.5f + 0.5f * leaf.v[i] + 0.25f * clump.v[i];
          float lightness =
              Math.max(0.08f, t * t) * sunlight * (0.55f + 0.5f * Noise.step(0.2f, 1f, t));
          rgb[0] = (0.065f + 0.05f * autumn) * lightness;
          rgb[1] = 0.115f * lightness;
          rgb[2] = 0.035f * lightness;
          float gap =
              0.55f
                  * Noise.step(
                      0.75f,
                      1.6f,
                      spots.v[i] + 0.35f * clump.v[i] + (float) (-sine / treeLine) * 0.5f);
          rgb[0] += gap * 0.75f * sunlight;
          rgb[1] += gap * 0.85f * sunlight;
          rgb[2] += gap * sunlight;
        } else {
          boolean overcast = view.light().sky() > 0.6;
          float cloud =
              Noise.step(
                  overcast ? -1.2f : 0f, overcast ? 0.8f : 1.2f, clump.v[i] + 0.4f * leaf.v[i]);
          float s = lamp ? 0.10f : overcast ? 0.75f : 0.62f;
          rgb[0] = s * (0.50f + 0.45f * cloud);
          rgb[1] = s * (0.68f + 0.28f * cloud);
          rgb[2] = s * (1.0f - 0.02f * cloud);
        }
        System.arraycopy(rgb, 0, coarse, 3 * i, 3);
      }
    }
    if (!lying) {
      neighbours(coarse, cw, ch, step, r);
    }
    soften(coarse, cw, ch);
    return enlarge(coarse, cw, ch, step);
  }

  private void lawn(float[] rgb, double gx, double gz, double distance, float autumn) {
    float a = lattice(seed + 11, gx / 900, gz / 900);
    float b = lattice(seed + 12, gx / 210, gz / 210);
    float c = lattice(seed + 13, gx / 46, gz / 46);
    float d = lattice(seed + 14, gx / 17, gz / 17);
    float near = (float) Math.exp(-distance / 7000);
    float t = (0.85f + 0.25f * a + 0.28f * b + (0.35f * c + 0.35f * d) * near) * sunlight;
    t = Math.max(0.12f * sunlight, t);
    float dry = Noise.step(-0.1f, 1.1f, a * 0.6f + b * 0.5f + autumn - 0.2f);
    float haze = 0.05f * (1 - near) * sunlight;
    rgb[0] = (0.085f + 0.10f * dry) * t + haze;
    rgb[1] = (0.135f + 0.035f * dry) * t + haze;
    rgb[2] = (0.032f + 0.02f * dry) * t + haze;
  }

  private static float lattice(long seed, double x, double y) {
    int i = (int) Math.floor(x);
    int j = (int) Math.floor(y);
    float fx = Noise.smooth((float) (x - i));
    float fy = Noise.smooth((float) (y - j));
    float a = Noise.hash(seed, i, j);
    float b = Noise.hash(seed, i + 1, j);
    float c = Noise.hash(seed, i, j + 1);
    float d = Noise.hash(seed, i + 1, j + 1);
    return (a + (b - a) * fx) * (1 - fy) + (c + (d - c) * fx) * fy;
  }

  /** Other stones farther off, plain grey slabs. */
  private void neighbours(float[] coarse, int cw, int ch, int step, SplittableRandom r) {
    int count = r.nextInt(2, 6);
    BufferedImage layer = new BufferedImage(cw, ch, BufferedImage.TYPE_INT_ARGB);
    Graphics2D g = layer.createGraphics();
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    for (int n = 0; n < count; n++) {
      double z = -r.nextDouble(2500, 11_000);
      double x = r.nextDouble(-1, 1) * (900 - z * 0.45);
      double sw = r.nextDouble(350, 800);
      double sh = r.nextDouble(450, 1300);
      Path2D p = new Path2D.Double();
      double round = r.nextDouble() < 0.6 ? sw * 0.35 : 0;
      double[][] points = {
        {x, groundY},
        {x, groundY + sh - round},
        {x + sw * 0.15, groundY + sh - round * 0.3},
        {x + sw * 0.5, groundY + sh},
        {x + sw * 0.85, groundY + sh - round * 0.3},
        {x + sw, groundY + sh - round},
        {x + sw, groundY}
      };
      for (int k = 0; k < points.length; k++) {
        double[] q = camera.project(points[k][0], points[k][1], z);
        if (k == 0) {
          p.moveTo(q[0] / step, q[1] / step);
        } else {
          p.lineTo(q[0] / step, q[1] / step);
        }
      }
      p.closePath();
      int v = (int) (r.nextDouble(70, 165) * Math.min(1.15, 0.1 + sunlight));
      g.setColor(new Color(v, v, (int) (v * 0.94), 235));
      g.fill(p);
    }
    g.dispose();
    int[] argb = ((DataBufferInt) layer.getRaster().getDataBuffer()).getData();
    for (int i = 0; i < argb.length; i++) {
      blend(coarse, i, argb[i], 1);
    }
  }

  private static void blend(float[] rgb, int i, int argb, float strength) {
    int a = argb >>> 24;
    if (a == 0) {
      return;
    }
    float f = a / 255f;
    rgb[3 * i] += (Tone.linear((argb >> 16) & 255) * strength - rgb[3 * i]) * f;
    rgb[3 * i + 1] += (Tone.linear((argb >> 8) & 255) * strength - rgb[3 * i + 1]) * f;
    rgb[3 * i + 2] += (Tone.linear(argb & 255) * strength - rgb[3 * i + 2]) * f;
  }

  private static void soften(float[] coarse, int cw, int ch) {
    for (int c = 0; c < 3; c++) {
      HeightField f = new HeightField(cw, ch);
      for (int i = 0; i < f.v.length; i++) {
        f.v[i] = coarse[3 * i + c];
      }
      HeightField s = f.blur(cw / 330.0);
      for (int i = 0; i < f.v.length; i++) {
        coarse[3 * i + c] = s.v[i];
      }
    }
  }

  private float[] enlarge(float[] coarse, int cw, int ch, int step) {
    float[] out = new float[3 * w * h];
    float inv = 1f / step;
    for (int y = 0; y < h; y++) {
      float v = y * inv;
      int j = Math.min((int) v, ch - 2);
      float fy = v - j;
      for (int x = 0; x < w; x++) {
        float u = x * inv;
        int i = Math.min((int) u, cw - 2);
        float fx = u - i;
        int a = 3 * (j * cw + i);
        int b = a + 3 * cw;
        int o = 3 * (y * w + x);
        for (int c = 0; c < 3; c++) {
          float top = coarse[a + c] + (coarse[a + 3 + c] - coarse[a + c]) * fx;
          float bottom = coarse[b + c] + (coarse[b + 3 + c] - coarse[b + c]) * fx;
          out[o + c] = top + (bottom - top) * fy;
        }
      }
    }
    return out;
  }

  /** Paints the thickness of the slab, the plinth and the grass behind it over the background. */
  void sides(float[] rgb, float[] meanStone) {
    Stone s = face.stone();
    double wm = s.widthMm();
    double hm = s.heightMm();
    double thick =
        s.lying()
            ? 60
            : s.form() == StoneForm.OBELISK_DIE
                ? wm
                : s.form() == StoneForm.PLATE ? 8 : Math.max(45, wm * 0.13);
    BufferedImage layer = new BufferedImage(w, h, BufferedImage.TYPE_INT_ARGB);
    Graphics2D g = graphics(layer);
    double[] l = view.light().inFrameOf(face);
    if (s.lying()) {
      meadow(rgb);
    } else {
      turf(rgb);
      castShadow(g, s.form().outline(wm, hm), wm, hm, l);
      blades(g, -1600, -thick * 0.5, 900, 0.9);
    }
    if (s.has("base") || s.form() == StoneForm.PLATE) {
      double out = s.form() == StoneForm.PLATE ? wm * 0.16 : wm * 0.1;
      double top = s.form() == StoneForm.PLATE ? hm / 2 + hm * 0.2 : -hm / 2;
      block(
          g,
          -wm / 2 - out,
          wm / 2 + out,
          groundY - 20,
          top,
          s.form() == StoneForm.PLATE ? -8 : out * 0.8,
          thick + out,
          meanStone,
          l);
    }
    if (s.form() == StoneForm.OBELISK_DIE) {
      block(
          g, -wm * 0.56, wm * 0.56, hm / 2, hm / 2 + hm * 0.09, wm * 0.06, wm * 1.12, meanStone, l);
      block(
          g,
          -wm * 0.36,
          wm * 0.36,
          hm / 2 + hm * 0.09,
          hm / 2 + hm * 1.2,
          -wm * 0.14,
          wm * 0.72,
          meanStone,
          l);
    }
    slab(g, s.form().outline(wm, hm), wm, hm, thick, meanStone, l);
    g.dispose();
    over(rgb, layer, true);
  }

  /** Gives the near lawn its upright grain; it fades with distance into the blur. */
  private void turf(float[] rgb) {
    double near = camera.scaleAt(0, groundY, 300);
    HeightField fine = new HeightField(w, h);
    Noise.add(fine, seed + 21, Math.max(1.2, near * 4.5), near * 26, 0.30);
    Noise.add(fine, seed + 22, Math.max(1, near * 2.2), near * 11, 0.22);
    double[] eye = camera.centre();
    for (int y = 0; y < h; y++) {
      double[] d = camera.ray(w / 2.0, y);
      if (d[1] >= 0) {
        continue;
      }
      double z = eye[2] + d[2] * (groundY - eye[1]) / d[1];
      float strength = (float) Math.exp(-Math.max(0, 600 - z) / 2200);
      if (strength < 0.03f) {
        continue;
      }
      for (int x = 0; x < w; x++) {
        int o = 3 * (y * w + x);
        float t = Math.max(0.25f, 1 + strength * fine.v[y * w + x]);
        rgb[o] *= t;
        rgb[o + 1] *= t;
        rgb[o + 2] *= t;
      }
    }
  }

  /** The same for grass seen from above. */
  private void meadow(float[] rgb) {
    double near = camera.scaleAt(0, 0, 0);
    HeightField fine = new HeightField(w, h);
    Noise.add(fine, seed + 23, Math.max(1.2, near * 9), Math.max(1.2, near * 9), 0.30);
    Noise.add(fine, seed + 24, Math.max(1, near * 3), Math.max(1, near * 4), 0.30);
    for (int i = 0; i < fine.v.length; i++) {
      float t = Math.max(0.2f, 1 + fine.v[i]);
      rgb[3 * i] *= t;
      rgb[3 * i + 1] *= t;
      rgb[3 * i + 2] *= t;
    }
  }

  /** The shadow of the stone on the grass. */
  private void castShadow(Graphics2D g, Shape outline, double wm, double hm, double[] l) {
    if (lamp || view.light().sun() <= 0 || l[1] < 0.08) {
      return;
    }
    Path2D p = new Path2D.Double();
    PathIterator it = outline.getPathIterator(null, 1.0);
    double[] c = new double[6];
    boolean first = true;
    while (!it.isDone()) {
      if (it.currentSegment(c) != PathIterator.SEG_CLOSE) {
        double above = hm / 2 - c[1] - groundY;
        double[] q =
            camera.project(c[0] - wm / 2 - l[0] / l[1] * above, groundY, -l[2] / l[1] * above);
        if (Double.isNaN(q[0])) {
          return;
        }
        if (first) {
          p.moveTo(q[0], q[1]);
          first = false;
        } else {
          p.lineTo(q[0], q[1]);
        }
      }
      it.next();
    }
    p.closePath();
    g.setColor(new Color(8, 14, 6, view.light().dappled() ? 90 : 150));
    g.fill(p);
  }

  private void slab(
      Graphics2D g, Shape outline, double wm, double hm, double thick, float[] stone, double[] l) {
    List<double[]> points = new ArrayList<>();
    PathIterator it = outline.getPathIterator(null, 1.0);
    double[] c = new double[6];
    while (!it.isDone()) {
      if (it.currentSegment(c) != PathIterator.SEG_CLOSE) {
        points.add(new double[] {c[0] - wm / 2, hm / 2 - c[1]});
      }
      it.next();
    }
    int n = points.size();
    for (int i = 0; i < n; i++) {
      double[] a = points.get(i);
      double[] b = points.get((i + 1) % n);
      double dx = b[0] - a[0];
      double dy = b[1] - a[1];
      double len = Math.hypot(dx, dy);
      if (len < 1e-6) {
        continue;
      }
      // The outline runs clockwise as seen, so the outer normal of an edge is to its left.
      double nx = -dy / len;
      double ny = dx / len;
      double light =
          view.light().sun() * Math.max(0, nx * l[0] + ny * l[1])
              + view.light().sky() * (0.5 + 0.4 * ny)
              + 0.03;
      g.setColor(colour(stone, light * 0.85));
      fill(
          g,
          new double[][] {
            {a[0], a[1], 0}, {b[0], b[1], 0}, {b[0], b[1], -thick}, {a[0], a[1], -thick}
          });
    }
  }

  private void block(
      Graphics2D g,
      double x0,
      double x1,
      double y0,
      double y1,
      double z,
      double depth,
      float[] stone,
      double[] l) {
    double sky = view.light().sky();
    double sun = view.light().sun();
    double[] eye = camera.centre();
    if (eye[1] > y1) {
      g.setColor(colour(stone, sun * Math.max(0, l[1]) + sky));
      fill(g, new double[][] {{x0, y1, z}, {x1, y1, z}, {x1, y1, z - depth}, {x0, y1, z - depth}});
    } else if (eye[1] < y0) {
      g.setColor(colour(stone, sky * 0.25 + 0.05));
      fill(g, new double[][] {{x0, y0, z}, {x1, y0, z}, {x1, y0, z - depth}, {x0, y0, z - depth}});
    }
    if (eye[0] > x1) {
      g.setColor(colour(stone, sun * Math.max(0, l[0]) + sky * 0.5));
      fill(g, new double[][] {{x1, y0, z}, {x1, y1, z}, {x1, y1, z - depth}, {x1, y0, z - depth}});
    } else if (eye[0] < x0) {
      g.setColor(colour(stone, sun * Math.max(0, -l[0]) + sky * 0.5));
      fill(g, new double[][] {{x0, y0, z}, {x0, y1, z}, {x0, y1, z - depth}, {x0, y0, z - depth}});
    }
    g.setColor(colour(stone, (sun * Math.max(0, l[2]) + sky * 0.6) * 0.92));
    fill(g, new double[][] {{x0, y0, z}, {x1, y0, z}, {x1, y1, z}, {x0, y1, z}});
  }

  private void fill(Graphics2D g, double[][] corners) {
    Path2D p = new Path2D.Double();
    for (int i = 0; i < corners.length; i++) {
      double[] q = camera.project(corners[i][0], corners[i][1], corners[i][2]);
      if (Double.isNaN(q[0])) {
        return;
      }
      if (i == 0) {
        p.moveTo(q[0], q[1]);
      } else {
        p.lineTo(q[0], q[1]);
      }
    }
    p.closePath();
    g.fill(p);
  }

  private static Color colour(float[] stone, double light) {
    return new Color(
        Tone.srgb((float) (stone[0] * light)),
        Tone.srgb((float) (stone[1] * light)),
        Tone.srgb((float) (stone[2] * light)));
  }

  /** Paints the grass in front of the stone. */
  void foot(float[] rgb) {
    Stone s = face.stone();
    BufferedImage layer = new BufferedImage(w, h, BufferedImage.TYPE_INT_ARGB);
    Graphics2D g = graphics(layer);
    if (s.lying()) {
      fringe(g);
    } else {
      double out = s.has("base") ? s.widthMm() * 0.1 : 0;
      blades(g, 4 + out, 1500 + out, 4200, 1);
    }
    g.dispose();
    over(rgb, layer, false);
  }

  private Graphics2D graphics(BufferedImage layer) {
    Graphics2D g = layer.createGraphics();
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    return g;
  }

  /** Blades in rows from far to near between two distances from the face. */
  private void blades(Graphics2D g, double zFrom, double zTo, int count, double heightScale) {
    SplittableRandom r = new SplittableRandom(seed + (long) zFrom);
    double lush = 0.6 + 0.8 * new SplittableRandom(seed + 77).nextDouble();
    double wide = face.stone().widthMm() * 0.9 + 500;
    for (int i = 0; i < count; i++) {
      double t = i / (double) count;
      // Thickest at the foot, whichever side of the stone.
      double z =
          zFrom < 0 ? zTo + (zFrom - zTo) * (1 - t) * (1 - t) : zFrom + (zTo - zFrom) * t * t;
      double x = r.nextDouble(-wide, wide);
      double tall = (25 + 75 * Math.pow(r.nextDouble(), 1.6)) * lush * heightScale;
      if (z > zFrom + 120) {
        tall *= 0.7;
      }
      blade(g, r, x, groundY - 6, z, tall);
    }
  }

  private void blade(Graphics2D g, SplittableRandom r, double x, double y, double z, double tall) {
    double lean = tall * r.nextDouble(-0.55, 0.55);
    double[] a = camera.project(x, y, z);
    double[] b = camera.project(x + lean * 0.35, y + tall * 0.62, z);
    double[] c = camera.project(x + lean, y + tall, z + tall * 0.2);
    if (Double.isNaN(a[0]) || a[1] < -200 || a[0] < -200 || a[0] > w + 200 || c[1] > h) {
      return;
    }
    double thick = Math.max(0.7, camera.scaleAt(x, y, z) * r.nextDouble(1.6, 3.4));
    Path2D p = new Path2D.Double();
    p.moveTo(a[0] - thick / 2, a[1]);
    p.quadTo(b[0] - thick * 0.4, b[1], c[0], c[1]);
    p.quadTo(b[0] + thick * 0.5, b[1], a[0] + thick / 2, a[1]);
    p.closePath();
    double shade =
        (lamp ? 0.18 + 0.4 * Math.exp(-Math.abs(z) / 250) : sunlight)
            * r.nextDouble(0.5, 1.5)
            * (0.6 + 0.5 * Math.min(1, z / 300));
    double dry = r.nextDouble() < 0.12 ? 1 : r.nextDouble(0, 0.35);
    g.setColor(
        colour(
            new float[] {
              (float) (0.075 + 0.17 * dry),
              (float) (0.135 + 0.07 * dry),
              (float) (0.028 + 0.05 * dry)
            },
            Math.max(0.03, shade)));
    g.fill(p);
  }

  /** Grass creeping over the edges of a slab on the ground, and standing all about. */
  private void fringe(Graphics2D g) {
    SplittableRandom r = new SplittableRandom(seed + 91);
    double hw = face.stone().widthMm() / 2;
    double hh = face.stone().heightMm() / 2;
    for (int i = 0; i < 5200; i++) {
      double x;
      double y;
      if (i % 2 == 0) {
        x = (r.nextBoolean() ? 1 : -1) * (hw + 8 + 260 * Math.pow(r.nextDouble(), 2.2));
        y = r.nextDouble(-hh * 1.25, hh * 1.25);
      } else {
        x = r.nextDouble(-hw * 1.5, hw * 1.5);
        y = (r.nextBoolean() ? 1 : -1) * (hh + 8 + 220 * Math.pow(r.nextDouble(), 2.2));
      }
      double len = 30 + 50 * r.nextDouble();
      double turn = r.nextDouble(0, 2 * Math.PI);
      double[] a = camera.project(x, y, -20);
      double[] c =
          camera.project(x + Math.cos(turn) * len * 0.7, y + Math.sin(turn) * len * 0.7, 18);
      if (Double.isNaN(a[0]) || Double.isNaN(c[0])) {
        continue;
      }
      double thick = Math.max(0.8, camera.scaleAt(x, y, 0) * r.nextDouble(2, 4));
      double nx = -(c[1] - a[1]);
      double ny = c[0] - a[0];
      double n = Math.max(1e-6, Math.hypot(nx, ny));
      Path2D p = new Path2D.Double();
      p.moveTo(a[0] + nx / n * thick / 2, a[1] + ny / n * thick / 2);
      p.lineTo(c[0], c[1]);
      p.lineTo(a[0] - nx / n * thick / 2, a[1] - ny / n * thick / 2);
      p.closePath();
      double dry = r.nextDouble() < 0.15 ? 1 : r.nextDouble(0, 0.3);
      g.setColor(
          colour(
              new float[] {
                (float) (0.075 + 0.17 * dry),
                (float) (0.135 + 0.07 * dry),
                (float) (0.028 + 0.05 * dry)
              },
              Math.max(0.03, sunlight * r.nextDouble(0.45, 1.5))));
      g.fill(p);
    }
  }

  /**
   * Lays a painted layer over linear colours, with a little texture so that flat paint doesn't
   * show.
   */
  private void over(float[] rgb, BufferedImage layer, boolean textured) {
    int[] argb = ((DataBufferInt) layer.getRaster().getDataBuffer()).getData();
    for (int i = 0; i < argb.length; i++) {
      if (argb[i] != 0) {
        float t =
            textured
                ? 1
                    + 0.16f * Noise.hash(seed + 5, (i % w) >> 1, (i / w) >> 1)
                    + 0.12f * Noise.hash(seed + 6, (i % w) >> 3, (i / w) >> 3)
                : 1;
        blend(rgb, i, argb[i], t);
      }
    }
  }
}
