package rakelight.samples;

import java.util.Arrays;

/** A grid of numbers over a face. Mutable and not safe for threads: one rendering owns it. */
final class HeightField {
  final int w;
  final int h;
  final float[] v;

  HeightField(int w, int h) {
    this.w = w;
    this.h = h;
    this.v = new float[Math.multiplyExact(w, h)];
  }

  HeightField copy() {
    HeightField f = new HeightField(w, h);
    System.arraycopy(v, 0, f.v, 0, v.length);
    return f;
  }

  float at(int x, int y) {
    int cx = Math.min(Math.max(x, 0), w - 1);
    int cy = Math.min(Math.max(y, 0), h - 1);
    return v[cy * w + cx];
  }

  /** Gaussian blur: an exact kernel for small radii, three box passes beyond, edges repeated. */
  HeightField blur(double sigmaPx) {
    if (sigmaPx < 0.2) {
      return copy();
    }
    if (sigmaPx < 2.5) {
      return kernel(sigmaPx);
    }
    HeightField a = copy();
    HeightField b = new HeightField(w, h);
    // A box of radius r has variance r (r + 1) / 3: some passes take the radius below the ideal
    // one, the rest the one above.
    double wanted = sigmaPx * sigmaPx;
    int small = (int) ((Math.sqrt(4 * wanted + 1) - 1) / 2);
    double each = small * (small + 1.0) / 3;
    double gain = (small + 1) * (small + 2.0) / 3 - each;
    long wide = Math.round((wanted - 3 * each) / gain);
    for (int pass = 0; pass < 3; pass++) {
      int radius = pass < wide ? small + 1 : small;
      boxRows(a, b, radius);
      boxColumns(b, a, radius);
    }
    return a;
  }

  private HeightField kernel(double sigma) {
    int r = (int) Math.ceil(sigma * 2.6);
    float[] k = new float[r + 1];
    float sum = 0;
    for (int i = 0; i <= r; i++) {
      k[i] = (float) Math.exp(-i * i / (2 * sigma * sigma));
      sum += i == 0 ? k[i] : 2 * k[i];
    }
    for (int i = 0; i <= r; i++) {
      k[i] /= sum;
    }
    HeightField rows = new HeightField(w, h);
    for (int y = 0; y < h; y++) {
      int o = y * w;
      for (int x = 0; x < w; x++) {
        float s = k[0] * v[o + x];
        if (x >= r && x < w - r) {
          for (int i = 1; i <= r; i++) {
            s += k[i] * (v[o + x - i] + v[o + x + i]);
          }
        } else {
          for (int i = 1; i <= r; i++) {
            s += k[i] * (v[o + Math.max(x - i, 0)] + v[o + Math.min(x + i, w - 1)]);
          }
        }
        rows.v[o + x] = s;
      }
    }
    HeightField out = new HeightField(w, h);
    for (int y = 0; y < h; y++) {
      int o = y * w;
      for (int x = 0; x < w; x++) {
        out.v[o + x] = k[0] * rows.v[o + x];
      }
      for (int i = 1; i <= r; i++) {
        int up = Math.max(y - i, 0) * w;
        int down = Math.min(y + i, h - 1) * w;
        float ki = k[i];
        for (int x = 0; x < w; x++) {
          out.v[o + x] += ki * (rows.v[up + x] + rows.v[down + x]);
        }
      }
    }
    return out;
  }

  private static void boxRows(HeightField in, HeightField out, int r) {
    int w = in.w;
    float scale = 1f / (2 * r + 1);
    for (int y = 0; y < in.h; y++) {
      int o = y * w;
      double sum = in.v[o] * (r + 1.0);
      for (int i = 0; i < r; i++) {
        sum += in.v[o + Math.min(i, w - 1)];
      }
      for (int x = 0; x < w; x++) {
        sum += in.v[o + Math.min(x + r, w - 1)] - in.v[o + Math.max(x - r - 1, 0)];
        out.v[o + x] = (float) sum * scale;
      }
    }
  }

  private static void boxColumns(HeightField in, HeightField out, int r) {
    int w = in.w;
    int h = in.h;
    float scale = 1f / (2 * r + 1);
    double[] sum = new double[w];
    for (int x = 0; x < w; x++) {
      sum[x] = in.v[x] * (r + 1.0);
    }
    for (int i = 0; i < r; i++) {
      int o = Math.min(i, h - 1) * w;
      for (int x = 0; x < w; x++) {
        sum[x] += in.v[o + x];
      }
    }
    for (int y = 0; y < h; y++) {
      int add = Math.min(y + r, h - 1) * w;
      int drop = Math.max(y - r - 1, 0) * w;
      int o = y * w;
      for (int x = 0; x < w; x++) {
        sum[x] += in.v[add + x] - in.v[drop + x];
        out.v[o + x] = (float) sum[x] * scale;
      }
    }
  }

  /**
   * Distance in pixels from each pixel inside the mask (value above a half) to the nearest pixel
   * outside, at most {@code limitPx}; zero outside. Columns first, then a parabola envelope cut off
   * at the limit (Felzenszwalb and Huttenlocher, "Distance Transforms of Sampled Functions", 2012).
   */
  HeightField distanceInside(double limitPx) {
    int limit = (int) Math.ceil(limitPx);
    HeightField d = new HeightField(w, h);
    int[] up = new int[w];
    Arrays.fill(up, limit);
    for (int y = 0; y < h; y++) {
      int o = y * w;
      for (int x = 0; x < w; x++) {
        up[x] = v[o + x] > 0.5f ? Math.min(up[x] + 1, limit) : 0;
        d.v[o + x] = up[x];
      }
    }
    Arrays.fill(up, limit);
    for (int y = h - 1; y >= 0; y--) {
      int o = y * w;
      for (int x = 0; x < w; x++) {
        up[x] = v[o + x] > 0.5f ? Math.min(up[x] + 1, limit) : 0;
        d.v[o + x] = Math.min(d.v[o + x], up[x]);
      }
    }
    float[] row = new float[w];
    // Only columns that are nearer than the limit can bring a pixel nearer: how far off is the next
    // of them?
    int[] next = new int[w];
    for (int y = 0; y < h; y++) {
      int o = y * w;
      System.arraycopy(d.v, o, row, 0, w);
      int away = limit;
      for (int x = 0; x < w; x++) {
        away = row[x] < limit ? 0 : away + 1;
        next[x] = away;
      }
      away = limit;
      for (int x = w - 1; x >= 0; x--) {
        away = row[x] < limit ? 0 : away + 1;
        next[x] = Math.min(next[x], away);
      }
      for (int x = 0; x < w; x++) {
        float best = row[x];
        if (best <= 0) {
          continue;
        }
        best *= best;
        for (int i = Math.max(1, next[x]); i * i < best; i++) {
          if (x >= i) {
            best = Math.min(best, i * i + row[x - i] * row[x - i]);
          }
          if (x + i < w) {
            best = Math.min(best, i * i + row[x + i] * row[x + i]);
          }
        }
        d.v[o + x] = (float) Math.sqrt(best);
      }
    }
    return d;
  }
}
