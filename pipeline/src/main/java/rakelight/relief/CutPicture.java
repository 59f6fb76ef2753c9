package rakelight.relief;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfPoint;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Polygon;

/**
 * The letters of one photograph dark all over, whatever side the light came from and whatever
 * colour they have: what stands out by its tone and what stands out by its shading, added up.
 *
 * <p>Shading shows one flank of a stroke dark and the other bright. Linear shape from shading
 * (Pentland, "Linear shape from shading", IJCV 4, 1990) turns both into depth: in linear light
 * brightness follows the slope towards the light, so each frequency is turned by a quarter along it
 * and divided by its share in that direction. Frequencies that run along the light tell nothing and
 * are held back as Wiener's filter does. Tone is the same band of frequencies unturned: hollows
 * that less sky lights, dirt and paint are dark, gilding and the frosted letters of polished stone
 * bright. Both keep shapes between grain and a capital.
 *
 * <p>How much the shading counts follows the {@link SideLight}: all under raking light; nothing
 * where none rakes, in shade or on polished stone with coloured letters. Such a picture shows tone
 * alone. Dark or bright letters: letters take less room than the stone between them, so their end
 * of the scale is the longer one; see {@link #brightness}.
 *
 * <p>Limits: stains of a stroke's width stay. A wrong guess of dark or bright shows bright letters.
 *
 * @param image dark letters on pale grey, as large as the face
 */
record CutPicture(GrayImage image, Lettering lettering) {
  /** Capitals need no more pixels than these. */
  private static final double CAPITAL_PX = 32;

  /** Shapes longer than this part of a capital's height are damped. Tried: 0.7 to 2.1. */
  private static final double LONGEST_HEIGHTS = 1.25;

  /** Grain finer than this part of it is blurred. Tried: 0.02 to 0.1. */
  private static final double GRAIN_HEIGHTS = 0.05;

  /** Of the square of a frequency's share along the light; below it, shading is noise. */
  private static final double NOISE = 0.3;

  /** How much shading counts beside tone for each part of the light's strength. Tried: 0 to 8. */
  private static final double SHADING_WEIGHT = 5;

  /** The share of pixels at either end of the scale that dark or bright is judged by. */
  private static final double EXTREME_SHARE = 0.02;

  /** Letters count as dark unless the bright end is longer by this many spreads. */
  private static final double DARK_BEFOREHAND = 0.4;

  /** How much a light that would shine from below speaks for raised letters, which are bright. */
  private static final double RAISED_WEIGHT = 2;

  private static final int SAMPLE = 20_000;

  /**
   * The bright end of shading was at most 3.0 times as long as the dark one on rendered stones that
   * are neither gilded nor polished, bronze among them, and from 3.6 times on on polished ones.
   */
  private static final double BRIGHT_COLOUR = 3.2;

  /** The dark end was at most 2.4 times as long, but 2.7 to 3.6 times with whole paint. */
  private static final double DARK_COLOUR = 2.55;

  /** Coloured letters have little side to them; shading under a raking lamp has more. */
  private static final double MOST_SIDED = 0.3;

  /** A colour is at least this much of the plane's brightness away from it. */
  private static final double FAINTEST_COLOUR = 0.5;

  /**
   * Letters are at most so many times as bright over the plane as the brightest share. Tried: 1 to
   * 2.
   */
  private static final double BRIGHTEST = 1.4;

  private static final double BRIGHT_SHARE = 0.04;

  /** The brightness of the plane as drawn: a little of what lies above it stays to be seen. */
  private static final double PLANE = 215;

  /** The strongest share of the picture is drawn black. */
  private static final double BLACK_SHARE = 0.02;

  /** Weaker than this part of the plane's brightness nothing is drawn black: a plane has grain. */
  private static final double WEAKEST_BLACK = 0.05;

  /**
   * @param grey the face
   * @param capitalPx height of its capitals in pixels
   * @param lines where its lines stand; light and lettering are judged by them, and by the whole
   *     picture if there are none
   */
  static CutPicture of(Mat grey, double capitalPx, List<Polygon> lines) {
    try (NativeScope scope = new NativeScope()) {
      double scale = Math.min(1, CAPITAL_PX / capitalPx);
      double capital = scale * capitalPx;
      Mat shade = Relief.shade(reduced(grey, scale, scope), capital, scope);
      int width = shade.cols();
      int height = shade.rows();
      boolean[] onLines = onLines(lines, scale, width, height);
      int[] sample = sample(onLines);
      float[] smooth = smooth(shade, capital);
      SideLight light = SideLight.of(smooth, width, height, onLines);
      boolean coloured = light.strength() < MOST_SIDED && coloured(sorted(smooth, sample));
      Core.min(shade, new Scalar(brightest(sorted(smooth, sample))), shade);
      float[][] parts = toneAndDepth(shade, light, capital);
      double weight =
          coloured || !light.rakes()
              ? 0
              : SHADING_WEIGHT
                  * light.strength()
                  * spread(parts[0], sample)
                  / spread(parts[1], sample);
      float[] dark = sum(parts[0], 1, parts[1], weight);
      float[] bright = sum(parts[0], -1, parts[1], weight);
      float[] darkSorted = sorted(dark, sample);
      float[] brightSorted = sorted(bright, sample);
      boolean darkLetters = brightness(darkSorted, brightSorted, light) < 0;
      double black = at(darkLetters ? darkSorted : brightSorted, BLACK_SHARE);
      Mat drawn = drawn(darkLetters ? dark : bright, black, width, height, scope);
      Mat full = scope.mat();
      Imgproc.resize(drawn, full, grey.size(), 0, 0, Imgproc.INTER_CUBIC);
      return new CutPicture(GrayImage.of(full), new Lettering(light, darkLetters, coloured));
    }
  }

  /** Which pixels of the reduced picture lie on a line; all if none does. */
  private static boolean[] onLines(List<Polygon> lines, double scale, int width, int height) {
    boolean[] onLines = new boolean[width * height];
    boolean any = false;
    try (NativeScope scope = new NativeScope()) {
      Mat drawn = scope.own(Mat.zeros(height, width, CvType.CV_8U));
      for (Polygon line : lines) {
        MatOfPoint corners =
            scope.own(
                new MatOfPoint(
                    line.points().stream()
                        .map(p -> new org.opencv.core.Point(scale * p.x(), scale * p.y()))
                        .toArray(org.opencv.core.Point[]::new)));
        Imgproc.fillPoly(drawn, List.of(corners), new Scalar(1));
      }
      byte[] values = new byte[width * height];
      drawn.get(0, 0, values);
      for (int i = 0; i < values.length; i++) {
        onLines[i] = values[i] != 0;
        any |= onLines[i];
      }
    }
    if (!any) {
      Arrays.fill(onLines, true);
    }
    return onLines;
  }

  /** Some thousands of the marked places: enough for shares of a hundredth. */
  private static int[] sample(boolean[] marked) {
    int[] places = IntStream.range(0, marked.length).filter(i -> marked[i]).toArray();
    int step = Math.max(1, places.length / SAMPLE);
    return IntStream.range(0, places.length / step).map(i -> places[i * step]).toArray();
  }

  /** The shading without its grain. */
  private static float[] smooth(Mat shade, double capitalPx) {
    try (NativeScope scope = new NativeScope()) {
      Mat blurred = scope.mat();
      double sigma = GRAIN_HEIGHTS * capitalPx;
      Imgproc.GaussianBlur(shade, blurred, new Size(), sigma, sigma, Core.BORDER_REPLICATE);
      float[] smooth = new float[shade.rows() * shade.cols()];
      blurred.get(0, 0, smooth);
      return smooth;
    }
  }

  /**
   * Whether letters have a colour of their own. Light and shade reach about as far above the plane
   * as below it; gold and frosting reach up only, paint down only.
   */
  private static boolean coloured(float[] sorted) {
    double middle = at(sorted, 0.5);
    double above = at(sorted, 1 - EXTREME_SHARE) - middle;
    double below = middle - at(sorted, EXTREME_SHARE);
    return Math.max(above, below) > FAINTEST_COLOUR
        && (above > BRIGHT_COLOUR * below || below > DARK_COLOUR * above);
  }

  /** What shines more than letters do, as lichen and birdlime, would throw a dark ring. */
  private static double brightest(float[] sorted) {
    double middle = at(sorted, 0.5);
    return middle + BRIGHTEST * (at(sorted, 1 - BRIGHT_SHARE) - middle);
  }

  private static Mat reduced(Mat grey, double scale, NativeScope scope) {
    if (scale == 1) {
      return grey;
    }
    Mat reduced = scope.mat();
    Size size =
        new Size(
            Math.max(1, Math.round(scale * grey.cols())),
            Math.max(1, Math.round(scale * grey.rows())));
    Imgproc.resize(grey, reduced, size, 0, 0, Imgproc.INTER_AREA);
    return reduced;
  }

  /**
   * The band of letters, and the depth that its shading tells: both row by row, negative for what
   * is dark and for what is cut.
   */
  private static float[][] toneAndDepth(Mat shade, SideLight light, double capitalPx) {
    int width = shade.cols();
    int height = shade.rows();
    int w = Core.getOptimalDFTSize(width + (int) capitalPx);
    int h = Core.getOptimalDFTSize(height + (int) capitalPx);
    float[] f = new float[2 * w * h];
    try (NativeScope scope = new NativeScope()) {
      Mat padded = scope.mat();
      Core.copyMakeBorder(
          shade, padded, 0, h - height, 0, w - width, Core.BORDER_CONSTANT, new Scalar(0));
      Mat planes = scope.mat();
      Core.dft(padded, planes, Core.DFT_COMPLEX_OUTPUT);
      planes.get(0, 0, f);
      double longest = square(2 * Math.PI / (LONGEST_HEIGHTS * capitalPx));
      double grain = square(GRAIN_HEIGHTS * capitalPx) / 2;
      for (int v = 0; v < h; v++) {
        // Upwards is against the rows.
        double fy = -2 * Math.PI * (v <= h / 2 ? v : v - h) / h;
        for (int u = 0; u < w; u++) {
          double fx = 2 * Math.PI * (u <= w / 2 ? u : u - w) / w;
          double squared = fx * fx + fy * fy;
          int i = 2 * (v * w + u);
          double band = squared / (squared + longest) * Math.exp(-squared * grain);
          double along = squared > 0 ? (fx * light.x() + fy * light.y()) / Math.sqrt(squared) : 0;
          // Brightness is less the slope towards the light; a slope is i f times the height.
          double turned = -along / ((along * along + NOISE) * Math.sqrt(squared + longest));
          // Tone and depth are real, so one transform back brings both, as tone + i depth; depth
          // is -i turned times the band.
          double gain = band * (1 + turned);
          f[i] = (float) (f[i] * gain);
          f[i + 1] = (float) (f[i + 1] * gain);
        }
      }
      planes.put(0, 0, f);
      Core.dft(planes, planes, Core.DFT_INVERSE | Core.DFT_SCALE);
      planes.get(0, 0, f);
    }
    float[][] parts = new float[2][width * height];
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        parts[0][y * width + x] = f[2 * (y * w + x)];
        parts[1][y * width + x] = f[2 * (y * w + x) + 1];
      }
    }
    return parts;
  }

  private static double square(double value) {
    return value * value;
  }

  private static float[] sum(float[] tone, int sign, float[] depth, double weight) {
    float[] sum = new float[tone.length];
    for (int i = 0; i < sum.length; i++) {
      sum[i] = (float) (sign * tone[i] + weight * depth[i]);
    }
    return sum;
  }

  /** Standard deviation, of values with a mean of about 0; never 0. */
  private static double spread(float[] values, int[] sample) {
    double squares = 1e-12;
    for (int i : sample) {
      squares += values[i] * values[i];
    }
    return Math.sqrt(squares / sample.length);
  }

  /**
   * Above 0 where letters are brighter than the stone: by how much longer the dark end is when they
   * are drawn as bright than when they are drawn as dark, against what is usual.
   */
  private static double brightness(float[] darkSorted, float[] brightSorted, SideLight light) {
    return darkEnd(brightSorted)
        - darkEnd(darkSorted)
        - DARK_BEFOREHAND
        - RAISED_WEIGHT * light.strength() * light.y();
  }

  /** How much farther the dark end lies from the middle than the bright end, in spreads. */
  private static double darkEnd(float[] sorted) {
    double spread = at(sorted, 0.84) - at(sorted, 0.16);
    double ends = 2 * at(sorted, 0.5) - at(sorted, EXTREME_SHARE) - at(sorted, 1 - EXTREME_SHARE);
    return spread > 0 ? ends / spread : 0;
  }

  private static float[] sorted(float[] values, int[] sample) {
    float[] sorted = new float[sample.length];
    for (int i = 0; i < sorted.length; i++) {
      sorted[i] = values[sample[i]];
    }
    Arrays.sort(sorted);
    return sorted;
  }

  private static double at(float[] sorted, double share) {
    return sorted[(int) (share * (sorted.length - 1))];
  }

  /** What is below the plane, dark on pale grey. */
  private static Mat drawn(float[] values, double black, int width, int height, NativeScope scope) {
    Mat plain = scope.own(new Mat(height, width, CvType.CV_32F));
    plain.put(0, 0, values);
    Mat drawn = scope.mat();
    plain.convertTo(drawn, CvType.CV_8U, PLANE / Math.max(WEAKEST_BLACK, -black), PLANE);
    return drawn;
  }
}
