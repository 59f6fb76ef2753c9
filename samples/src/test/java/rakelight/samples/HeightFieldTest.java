package rakelight.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class HeightFieldTest {
  @Property(tries = 60)
  void blurringAFlatFieldLeavesItFlat(
      @ForAll @IntRange(min = 1, max = 40) int w,
      @ForAll @IntRange(min = 1, max = 40) int h,
      @ForAll @IntRange(min = 1, max = 80) int tenths) {
    HeightField f = new HeightField(w, h);
    Arrays.fill(f.v, 3.5f);
    for (float v : f.blur(tenths / 10.0).v) {
      assertThat(v).isCloseTo(3.5f, within(1e-4f));
    }
  }

  @Test
  void aBlurredPointHasTheVarianceAskedForAndStaysInPlace() {
    for (double sigma : new double[] {0.8, 2, 4, 9}) {
      HeightField f = new HeightField(121, 121);
      f.v[60 * 121 + 60] = 1;
      HeightField b = f.blur(sigma);
      double sum = 0;
      double mean = 0;
      double square = 0;
      for (int y = 0; y < 121; y++) {
        for (int x = 0; x < 121; x++) {
          double v = b.v[y * 121 + x];
          sum += v;
          mean += v * x;
          square += v * (x - 60.0) * (x - 60.0);
        }
      }
      assertThat(sum).isCloseTo(1, within(1e-3));
      assertThat(mean / sum).isCloseTo(60, within(1e-2));
      assertThat(Math.sqrt(square / sum)).isCloseTo(sigma, within(0.08 * sigma + 0.05));
    }
  }

  @Property(tries = 40)
  void theFastDistanceIsTheSlowOne(@ForAll long seed) {
    int w = 23;
    int h = 17;
    HeightField mask = new HeightField(w, h);
    for (int i = 0; i < mask.v.length; i++) {
      mask.v[i] = Noise.hash(seed, i % w, i / w) > -0.75f ? 1 : 0;
    }
    double limit = 6;
    HeightField fast = mask.distanceInside(limit);
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        double best = limit;
        for (int v = 0; v < h; v++) {
          for (int u = 0; u < w; u++) {
            if (mask.v[v * w + u] == 0) {
              best = Math.min(best, Math.hypot(x - u, y - v));
            }
          }
        }
        assertThat((double) fast.v[y * w + x]).isCloseTo(best, within(1e-4));
      }
    }
  }
}
