package rakelight.samples;

/**
 * Light on a face model: source with cast shadows, sky with hollows darker, a little light back
 * from the grass.
 */
final class Shading {
  /** Linear colour of low sun, of the sky, and of light thrown back by grass. */
  private static final float[] SUN = {1.0f, 0.92f, 0.79f};

  private static final float[] LAMP = {1.0f, 0.96f, 0.90f};
  private static final float[] SKY = {0.84f, 0.93f, 1.06f};
  private static final float[] GRASS = {0.62f, 0.70f, 0.38f};

  private Shading() {}

  /**
   * Red, green, blue and coverage per pixel, interleaved; linear light with full sun on white paper
   * as 1.
   */
  static float[] shade(FaceModel m, Lamp light) {
    double[] l = light.inFrameOf(m.face);
    float lx = (float) l[0];
    float ly = (float) l[1];
    float lz = (float) l[2];
    boolean lit = light.sun() > 0 && lz > 0;
    float[] sunColour = light.sky() < 0.2 ? LAMP : SUN;
    HeightField shadow = lit ? shadows(m, l) : new HeightField(1, 1);
    HeightField near = m.height.blur(1.2 / m.mmPerPx);
    HeightField far = m.height.blur(6 / m.mmPerPx);
    HeightField leaves = light.dappled() ? leaves(m) : new HeightField(1, 1);
    int w = m.w;
    int h = m.h;
    float[] out = new float[4 * w * h];
    float inv = (float) (1 / (2 * m.mmPerPx));
    float[] hv = m.height.v;
    float sun = (float) light.sun();
    float sky = (float) light.sky();
    // Half-way vector between the source and a viewer straight ahead.
    float hz = (float) Math.sqrt((1 + lz) / 2);
    float hx = lx / (2 * hz);
    float hy = ly / (2 * hz);
    boolean lying = m.face.stone().lying();
    boolean grows = !lying && Scenery.plinth(m.face.stone()) == 0;
    for (int y = 0; y < h; y++) {
      int upRow = Math.max(y - 1, 0) * w;
      int downRow = Math.min(y + 1, h - 1) * w;
      // Grass takes the light from the lowest hand's breadth.
      float fromGround = (float) ((h - y) * m.mmPerPx);
      float footLight = grows ? 0.35f + 0.65f * Noise.step(-10, 95, fromGround) : 1;
      for (int x = 0; x < w; x++) {
        int i = y * w + x;
        float cover = m.cover.v[i];
        if (cover <= 0) {
          continue;
        }
        float gx = 0;
        float gy = 0;
        if (cover > 0.99f && x > 0 && x < w - 1) {
          gx = clamp((hv[i + 1] - hv[i - 1]) * inv);
          gy = clamp((hv[downRow + x] - hv[upRow + x]) * inv);
        }
        float norm = (float) (1 / Math.sqrt(1 + gx * gx + gy * gy));
        float nx = -gx * norm;
        float ny = gy * norm;
        float direct = 0;
        float spark = 0;
        if (lit) {
          float open = shadow.v[i] * (0.3f + 0.7f * footLight);
          if (light.dappled()) {
            open *= leaves.v[i];
          }
          direct = Math.max(0, nx * lx + ny * ly + norm * lz) * sun * open;
          if (m.gloss > 0) {
            float s = Math.max(0, nx * hx + ny * hy + norm * hz);
            s *= s;
            s *= s;
            s *= s;
            s *= s;
            spark = (float) m.gloss * s * s * sun * open * 0.35f;
          }
        }
        float hollow =
            Math.max(0, near.v[i] - hv[i]) * 0.55f + Math.max(0, far.v[i] - hv[i]) * 0.12f;
        float open = 1 / (1 + hollow);
        float above = lying ? norm : 0.62f + 0.38f * ny + 0.12f * norm;
        float air = sky * open * above * footLight;
        float back =
            0.07f * (sky + 0.5f * sun * Math.max(0, lz)) * open * (lying ? 0.2f : 1 - 0.5f * ny);
        int o = 4 * i;
        out[o] =
            m.red.v[i] * (direct * sunColour[0] + air * SKY[0] + back * GRASS[0])
                + spark * sunColour[0];
        out[o + 1] =
            m.green.v[i] * (direct * sunColour[1] + air * SKY[1] + back * GRASS[1])
                + spark * sunColour[1];
        out[o + 2] =
            m.blue.v[i] * (direct * sunColour[2] + air * SKY[2] + back * GRASS[2])
                + spark * sunColour[2];
        out[o + 3] = cover;
      }
    }
    return out;
  }

  private static float clamp(float g) {
    return g > 4 ? 4 : g < -4 ? -4 : g;
  }

  private static HeightField leaves(FaceModel m) {
    HeightField f =
        Noise.octaves(m.w, m.h, m.face.seed() * 17 + 5, 210 / m.mmPerPx, 190 / m.mmPerPx, 4, 0.62);
    for (int i = 0; i < f.v.length; i++) {
      f.v[i] = 0.10f + 0.90f * Noise.step(-0.18f, 0.22f, f.v[i]);
    }
    return f.blur(5 / m.mmPerPx);
  }

  /**
   * Which places the source reaches, 0 to 1. The height of the shadow's edge is carried across the
   * field away from the source, falling by the tangent of its elevation at each step and raised by
   * whatever stands higher; one pass, whatever the length of the shadows.
   */
  static HeightField shadows(FaceModel m, double[] l) {
    int w = m.w;
    int h = m.h;
    HeightField out = new HeightField(w, h);
    double dx = l[0];
    double dy = -l[1];
    double flat = Math.hypot(dx, dy);
    if (flat < 1e-6) {
      java.util.Arrays.fill(out.v, 1);
      return out;
    }
    float tan = (float) (l[2] / flat);
    boolean alongX = Math.abs(dx) >= Math.abs(dy);
    double major = alongX ? dx : dy;
    double minor = alongX ? dy : dx;
    float slope = (float) (minor / Math.abs(major));
    float drop = (float) (m.mmPerPx * Math.sqrt(1 + slope * slope)) * tan;
    int n = alongX ? w : h;
    int cross = alongX ? h : w;
    int stepMajor = alongX ? 1 : w;
    int stepCross = alongX ? w : 1;
    int start = major > 0 ? n - 1 : 0;
    int dir = major > 0 ? -1 : 1;
    float[] before = new float[cross];
    float[] now = new float[cross];
    java.util.Arrays.fill(before, -1e6f);
    // The penumbra of half a degree of sun is narrower than a pixel here; this softens the stair
    // steps.
    float soft = (float) Math.max(0.06, 0.5 * m.mmPerPx * Math.max(tan, 0.15));
    int whole = (int) Math.floor(slope);
    float frac = slope - whole;
    float[] hv = m.height.v;
    for (int k = 0; k < n; k++) {
      int base = (start + dir * k) * stepMajor;
      for (int c = 0; c < cross; c++) {
        int c0 = Math.min(Math.max(c + whole, 0), cross - 1);
        int c1 = Math.min(Math.max(c + whole + 1, 0), cross - 1);
        float edge = before[c0] + (before[c1] - before[c0]) * frac - drop;
        float z = hv[base + c * stepCross];
        out.v[base + c * stepCross] = Noise.step(soft, -0.2f * soft, edge - z);
        now[c] = Math.max(edge, z);
      }
      float[] t = before;
      before = now;
      now = t;
    }
    return out;
  }
}
