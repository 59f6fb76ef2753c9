package rakelight.samples;

/**
 * Smooth noise fixed to the stone: the lattice is in millimetres, so a finer picture shows the same
 * features.
 */
final class Noise {
  /** Noise much wider than this many pixels is worked out at every so many pixels only. */
  private static final int STEP = 4;

  private Noise() {}

  /**
   * A value in -1..1 for a lattice point. The mixing steps are those of SplitMix64 (Steele, Lea and
   * Flood, 2014).
   */
  static float hash(long seed, int x, int y) {
    long z = seed + x * 0x9E3779B97F4A7C15L + y * 0xC2B2AE3D27D4EB4FL;
    z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return (float) ((z >> 40) * 0x1.0p-23);
  }

  /** Adds value noise of the given cell size to a field. */
  static void add(HeightField f, long seed, double cellXPx, double cellYPx, double amplitude) {
    double cx = Math.max(cellXPx, 1);
    double cy = Math.max(cellYPx, 1);
    int n = (int) (f.w / cx) + 3;
    float[] top = new float[n];
    float[] bottom = new float[n];
    float[] line = new float[n];
    int[] cell = new int[f.w];
    float[] frac = new float[f.w];
    double shiftX = (hash(seed, 17, 3) + 1) * 0.5;
    double shiftY = (hash(seed, 5, 29) + 1) * 0.5;
    for (int x = 0; x < f.w; x++) {
      double u = x / cx + shiftX;
      int i = (int) u;
      cell[x] = Math.min(i, n - 2);
      frac[x] = smooth((float) (u - i));
    }
    int have = -1;
    float a = (float) amplitude;
    for (int y = 0; y < f.h; y++) {
      double t = y / cy + shiftY;
      int j = (int) t;
      if (j != have) {
        for (int i = 0; i < n; i++) {
          top[i] = hash(seed, i, j);
          bottom[i] = hash(seed, i, j + 1);
        }
        have = j;
      }
      float fy = smooth((float) (t - j));
      for (int i = 0; i < n; i++) {
        line[i] = a * (top[i] + (bottom[i] - top[i]) * fy);
      }
      int o = y * f.w;
      for (int x = 0; x < f.w; x++) {
        int i = cell[x];
        float l = line[i];
        f.v[o + x] += l + (line[i + 1] - l) * frac[x];
      }
    }
  }

  /**
   * A field of several octaves, roughly -1..1; each octave has half the cell and {@code gain} times
   * the weight.
   */
  static HeightField octaves(
      int w, int h, long seed, double cellXPx, double cellYPx, int count, double gain) {
    HeightField f = new HeightField(w, h);
    double weight = 1;
    double total = 0;
    for (int i = 0; i < count; i++) {
      total += weight * weight;
      weight *= gain;
    }
    weight = 1;
    HeightField coarse = new HeightField(w / STEP + 2, h / STEP + 2);
    for (int i = 0; i < count; i++) {
      double cx = cellXPx / (1 << i);
      double cy = cellYPx / (1 << i);
      long s = seed + 7919L * (i + 1);
      if (Math.min(cx, cy) >= 3 * STEP) {
        add(coarse, s, cx / STEP, cy / STEP, weight / Math.sqrt(total));
      } else {
        add(f, s, cx, cy, weight / Math.sqrt(total));
      }
      weight *= gain;
    }
    enlarge(coarse, f);
    return f;
  }

  /**
   * Adds a coarse field to a fine one, {@link #STEP} pixels to a sample, straight lines between.
   */
  private static void enlarge(HeightField coarse, HeightField f) {
    float inv = 1f / STEP;
    float[] row = new float[coarse.w];
    for (int y = 0; y < f.h; y++) {
      int j = y / STEP;
      float fy = (y - j * STEP) * inv;
      for (int i = 0; i < coarse.w; i++) {
        float a = coarse.v[j * coarse.w + i];
        row[i] = a + (coarse.v[(j + 1) * coarse.w + i] - a) * fy;
      }
      int o = y * f.w;
      for (int x = 0; x < f.w; x++) {
        int i = x / STEP;
        f.v[o + x] += row[i] + (row[i + 1] - row[i]) * ((x - i * STEP) * inv);
      }
    }
  }

  static float smooth(float t) {
    return t * t * (3 - 2 * t);
  }

  /** 0 below {@code lo}, 1 above {@code hi}, smooth between. */
  static float step(float lo, float hi, float x) {
    float t = (x - lo) / (hi - lo);
    return t <= 0 ? 0 : t >= 1 ? 1 : t * t * (3 - 2 * t);
  }
}
