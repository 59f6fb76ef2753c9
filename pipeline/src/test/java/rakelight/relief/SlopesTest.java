package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class SlopesTest {
  @Test
  void heightsComeBackFromTheirSlopesUpToAConstant() {
    for (int[] size : new int[][] {{64, 48}, {63, 47}, {33, 64}}) {
      int w = size[0];
      int h = size[1];
      float[] p = new float[w * h];
      float[] q = new float[w * h];
      for (int y = 0; y < h; y++) {
        for (int x = 0; x < w; x++) {
          // Of 0.01 x x + 0.3 y - 0.02 x y, y being down: q is upwards. Neither edge is like the
          // other.
          p[y * w + x] = (float) (0.02 * x - 0.02 * y);
          q[y * w + x] = (float) -(0.3 - 0.02 * x);
        }
      }

      float[] heights = new Slopes(w, h, p, q).heights();

      for (int y = 0; y < h; y += 7) {
        for (int x = 0; x < w; x += 7) {
          double expected = 0.01 * x * x + 0.3 * y - 0.02 * x * y;
          assertThat((double) heights[y * w + x] - heights[0])
              .as("at %d, %d of %d x %d", x, y, w, h)
              .isCloseTo(expected, within(w % 2 + h % 2 == 0 ? 1e-2 : 0.1));
        }
      }
    }
  }

  @Test
  void noiseInTheSlopesDoesNotRunAwayWithTheHeights() {
    int w = 128;
    float[] p = new float[w * w];
    float[] q = new float[w * w];
    Random random = new Random(3);
    for (int i = 0; i < p.length; i++) {
      p[i] = (float) (0.1 * random.nextGaussian());
      q[i] = (float) (0.1 * random.nextGaussian());
    }

    double squares = 0;
    for (float height : new Slopes(w, w, p, q).heights()) {
      squares += height * height;
    }

    // Added up along one row alone it would be 0.1 x sqrt(64) = 0.8 in the middle.
    assertThat(Math.sqrt(squares / (w * w))).isLessThan(0.2);
  }
}
