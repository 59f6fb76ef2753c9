package rakelight.relief;

/**
 * One cut letter, seen at a common height of capitals: how its strokes run, whichever stone they
 * are in and whatever light fell on them. Compared with another of the same letter it is shifted,
 * since a machine says only about where a letter stands; making it larger and smaller as well
 * brought nothing. What two hands do otherwise with one pattern is reckoned where they lie best.
 *
 * <p>For use by one thread at a time.
 */
public final class LetterShape {
  /** The height of capitals. */
  static final int CAPITAL_PX = 28;

  /** The side of the square around a letter's middle: a capital and room above and below. */
  static final int SIDE = 44;

  private static final int HALF = SIDE / 2;

  /** It may stand so far from where it is said to stand, in steps of two pixels. */
  private static final int COARSE_SHIFT = 2;

  /** Beyond its ends a letter's neighbours begin. */
  private static final double FADES_PX = 4;

  /** Of the square, left out where ways to change are reckoned: there a shift has no ink. */
  private static final int MARGIN = 5;

  private static final int WAYS = 9;
  private static final int SAME = 1;
  private static final int SLANT = 5;
  private static final int WAIST = 7;

  /** Keeps ways that look alike on a letter apart; its share of each way's own weight. */
  private static final double RIDGE = 1e-3;

  /** A letter of less strength tells no habits. */
  private static final double FAINTEST = 0.2;

  private final String letter;
  private final float[] ink;
  private final double halfWidthPx;
  private final float[] weights;
  private final float[] coarse;
  private final float[] coarseWeights;
  private float[] change = new float[0];

  /**
   * @param letter which it is
   * @param ink what is cut, row by row of a square; borrowed
   * @param halfWidthPx from its middle to its ends
   */
  LetterShape(String letter, float[] ink, double halfWidthPx) {
    this.letter = letter;
    this.ink = ink;
    this.halfWidthPx = halfWidthPx;
    this.weights = weights(halfWidthPx);
    this.coarseWeights = halved(weights, SIDE);
    this.coarse = halved(ink, SIDE);
  }

  public String letter() {
    return letter;
  }

  float[] ink() {
    return ink;
  }

  private static float[] weights(double halfWidthPx) {
    float[] weights = new float[SIDE * SIDE];
    for (int x = 0; x < SIDE; x++) {
      double beyond = Math.abs(x + 0.5 - SIDE / 2.0) - halfWidthPx;
      float weight = (float) Math.max(0, Math.min(1, 1 - beyond / FADES_PX));
      for (int y = 0; y < SIDE; y++) {
        weights[y * SIDE + x] = weight;
      }
    }
    return weights;
  }

  private static float[] halved(float[] of, int side) {
    int half = side / 2;
    float[] halved = new float[half * half];
    for (int y = 0; y < half; y++) {
      for (int x = 0; x < half; x++) {
        int i = 2 * y * side + 2 * x;
        halved[y * half + x] = (of[i] + of[i + 1] + of[i + side] + of[i + side + 1]) / 4;
      }
    }
    return halved;
  }

  /**
   * Two letters laid over each other where they lie best.
   *
   * @param likeness the correlation of their ink, -1 to 1
   * @param waist how much higher the other has its bars and joints, in heights of capitals
   * @param slant how much more the other leans to the right: its head against its foot, likewise
   */
  public record Laid(double likeness, double waist, double slant) {}

  /** Lays another over this one; each is looked at as far as it reaches itself. */
  public Laid laid(LetterShape other) {
    Place there = place(other);
    Place back = other.place(this);
    double[] its = habits(other, there);
    double[] own = other.habits(this, back);
    return new Laid(
        Math.max(there.likeness(), back.likeness()), (its[0] - own[0]) / 2, (its[1] - own[1]) / 2);
  }

  /** Where another lies best over this one. */
  private record Place(double likeness, int x, int y) {}

  private Place place(LetterShape other) {
    int atX = 0;
    int atY = 0;
    double most = -2;
    for (int dy = -COARSE_SHIFT; dy <= COARSE_SHIFT; dy++) {
      for (int dx = -COARSE_SHIFT; dx <= COARSE_SHIFT; dx++) {
        double like = correlation(coarse, other.coarse, coarseWeights, HALF, dx, dy);
        if (like > most) {
          most = like;
          atX = 2 * dx;
          atY = 2 * dy;
        }
      }
    }
    Place best = new Place(-2, 0, 0);
    for (int dy = atY - 1; dy <= atY + 1; dy++) {
      for (int dx = atX - 1; dx <= atX + 1; dx++) {
        double like = correlation(ink, other.ink, weights, SIDE, dx, dy);
        if (like > best.likeness()) {
          best = new Place(like, dx, dy);
        }
      }
    }
    return best;
  }

  /** How far the other's waist is raised and its head leans, by least squares. */
  private double[] habits(LetterShape other, Place place) {
    if (change.length == 0) {
      change = changes();
    }
    double waist = 0;
    double slant = 0;
    double same = 0;
    for (int y = MARGIN; y < SIDE - MARGIN; y++) {
      for (int x = MARGIN; x < SIDE - MARGIN; x++) {
        int i = y * SIDE + x;
        int j = (y + place.y()) * SIDE + x + place.x();
        float value = j >= 0 && j < other.ink.length ? other.ink[j] : 0;
        same += change[i] * value;
        waist += change[SIDE * SIDE + i] * value;
        slant += change[2 * SIDE * SIDE + i] * value;
      }
    }
    double strength = Math.max(FAINTEST, Math.abs(same));
    return new double[] {waist / strength, slant / strength};
  }

  /**
   * What to multiply another letter with for its strength, waist and slant against this one: it is
   * taken for this one with a little of each way in which a letter changes when it is made
   * stronger, is moved, widened, slanted, heightened, cut broader, or has its waist raised.
   */
  private float[] changes() {
    int n = SIDE * SIDE;
    float[][] ways = new float[WAYS][n];
    for (int y = MARGIN; y < SIDE - MARGIN; y++) {
      for (int x = MARGIN; x < SIDE - MARGIN; x++) {
        int i = y * SIDE + x;
        float gx = (ink[i + 1] - ink[i - 1]) / 2;
        float gy = (ink[i + SIDE] - ink[i - SIDE]) / 2;
        float across = x - (SIDE - 1) / 2f;
        float below = y - (SIDE - 1) / 2f;
        float up = 0.5f - below / CAPITAL_PX;
        ways[0][i] = 1;
        ways[SAME][i] = ink[i];
        ways[2][i] = gx;
        ways[3][i] = gy;
        ways[4][i] = across * gx;
        ways[SLANT][i] = below * gx;
        ways[6][i] = below * gy;
        ways[WAIST][i] = up > 0 && up < 1 ? (float) Math.sin(Math.PI * up) * gy * CAPITAL_PX : 0;
        ways[8][i] = (float) Math.hypot(gx, gy) * CAPITAL_PX;
      }
    }
    double[][] products = new double[WAYS][WAYS];
    for (int a = 0; a < WAYS; a++) {
      for (int b = 0; b <= a; b++) {
        double sum = 0;
        for (int i = 0; i < n; i++) {
          sum += weights[i] * ways[a][i] * ways[b][i];
        }
        products[a][b] = sum * (a == b ? 1 + RIDGE : 1) + (a == b ? 1e-6 : 0);
        products[b][a] = products[a][b];
      }
    }
    float[] changes = new float[3 * n];
    int[] wanted = {SAME, WAIST, SLANT};
    for (int k = 0; k < wanted.length; k++) {
      double[] row = solved(products, wanted[k]);
      for (int way = 0; way < WAYS; way++) {
        for (int i = 0; i < n; i++) {
          changes[k * n + i] += (float) (row[way] * weights[i] * ways[way][i]);
        }
      }
    }
    return changes;
  }

  private static double correlation(
      float[] one, float[] other, float[] weights, int side, int dx, int dy) {
    double n = 0;
    double a = 0;
    double b = 0;
    double aa = 0;
    double bb = 0;
    double ab = 0;
    int top = Math.max(0, -dy);
    int foot = Math.min(side, side - dy);
    int left = Math.max(0, -dx);
    int right = Math.min(side, side - dx);
    for (int y = top; y < foot; y++) {
      for (int x = left; x < right; x++) {
        int i = y * side + x;
        float w = weights[i];
        if (w > 0) {
          float u = one[i];
          float v = other[i + dy * side + dx];
          n += w;
          a += w * u;
          b += w * v;
          aa += w * u * u;
          bb += w * v * v;
          ab += w * u * v;
        }
      }
    }
    if (n < 1) {
      return -1;
    }
    double va = aa - a * a / n;
    double vb = bb - b * b / n;
    return va <= 1e-9 || vb <= 1e-9 ? 0 : (ab - a * b / n) / Math.sqrt(va * vb);
  }

  double halfWidthPx() {
    return halfWidthPx;
  }

  /** The row of the inverse of a symmetric positive matrix, by elimination. */
  private static double[] solved(double[][] matrix, int row) {
    int n = matrix.length;
    double[][] a = new double[n][n + 1];
    for (int i = 0; i < n; i++) {
      System.arraycopy(matrix[i], 0, a[i], 0, n);
      a[i][n] = i == row ? 1 : 0;
    }
    for (int i = 0; i < n; i++) {
      for (int k = i + 1; k < n; k++) {
        double part = a[k][i] / a[i][i];
        for (int j = i; j <= n; j++) {
          a[k][j] -= part * a[i][j];
        }
      }
    }
    double[] solved = new double[n];
    for (int i = n - 1; i >= 0; i--) {
      double left = a[i][n];
      for (int j = i + 1; j < n; j++) {
        left -= a[i][j] * solved[j];
      }
      solved[i] = left / a[i][i];
    }
    return solved;
  }
}
