package rakelight.samples;

import java.util.SplittableRandom;

/** Colours of stones and growth: linear red, green, blue reflectance, matched by eye. */
final class Palette {
  private Palette() {}

  private static final float[][] MARBLES = {
    {.62f, .61f, .58f}, {.58f, .58f, .57f}, {.64f, .61f, .55f}
  };
  private static final float[][] SLATES = {
    {.105f, .115f, .125f}, {.115f, .125f, .115f}, {.120f, .105f, .115f}, {.085f, .090f, .097f}
  };
  private static final float[][] SANDSTONES = {
    {.34f, .25f, .17f}, {.31f, .185f, .13f}, {.42f, .35f, .25f}, {.30f, .27f, .22f}
  };
  private static final float[][] GRANITES = {
    {.36f, .36f, .355f}, {.42f, .31f, .27f}, {.30f, .31f, .32f}
  };
  private static final float[][] LICHENS = {
    {.42f, .44f, .39f},
    {.36f, .40f, .33f},
    {.50f, .50f, .46f},
    {.43f, .29f, .075f},
    {.34f, .36f, .19f},
    {.06f, .06f, .055f}
  };

  static float[] base(Stone stone, SplittableRandom r) {
    float[] c =
        switch (stone.material()) {
          case MARBLE -> pick(MARBLES, r);
          case SLATE -> pick(SLATES, r);
          case SANDSTONE -> pick(SANDSTONES, r);
          case GRANITE ->
              stone.has("polished") ? new float[] {.050f, .050f, .054f} : pick(GRANITES, r);
          case BRONZE -> new float[] {.085f, .060f, .036f};
        };
    float tone = (float) r.nextDouble(0.88, 1.12);
    return new float[] {c[0] * tone, c[1] * tone, c[2] * tone};
  }

  static float[] lichen(SplittableRandom r) {
    return pick(LICHENS, r);
  }

  private static float[] pick(float[][] from, SplittableRandom r) {
    return from[r.nextInt(from.length)];
  }

  /**
   * Feldspar, quartz and mica of granite: the value of the nearest of jittered points on a 3.4 mm
   * grid, -1..1.
   */
  static float crystal(long seed, double xMm, double yMm) {
    double u = xMm / 3.4;
    double v = yMm / 3.4;
    int iu = (int) Math.floor(u);
    int iv = (int) Math.floor(v);
    double best = Double.MAX_VALUE;
    float value = 0;
    for (int j = iv - 1; j <= iv + 1; j++) {
      for (int i = iu - 1; i <= iu + 1; i++) {
        double dx = i + 0.5 + 0.5 * Noise.hash(seed, i, j) - u;
        double dy = j + 0.5 + 0.5 * Noise.hash(seed + 1, i, j) - v;
        double d = dx * dx + dy * dy;
        if (d < best) {
          best = d;
          value = Noise.hash(seed + 2, i, j);
        }
      }
    }
    return value < -0.62f ? -1.6f : value;
  }
}
