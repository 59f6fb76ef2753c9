package rakelight.relief;

import java.util.ArrayList;
import java.util.List;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.CLAHE;
import org.opencv.imgproc.Imgproc;
import rakelight.finding.GrayImage;
import rakelight.finding.NativeScope;

/**
 * Makes the named pictures of one squared face. All are pure functions of the picture and of the
 * height of its capitals.
 */
public final class Relief {
  /** The background is blurred on a picture this much smaller: the same result in a hundredth. */
  private static final int BACKGROUND_REDUCTION = 8;

  /** The background follows shapes larger than this many letter heights. */
  private static final double BACKGROUND_HEIGHTS = 2;

  /** A stroke of a cut capital is about a sixth of its height wide; a hat must be wider. */
  private static final double HAT_HEIGHTS = 0.4;

  /** Grain finer than this part of a letter's height is smoothed away. */
  private static final double GRAIN_HEIGHTS = 0.06;

  /** Differences in brightness (0 to 1) below this are grain, above it edges; set by eye. */
  private static final double GRAIN_CONTRAST = 0.05;

  /**
   * Weaker than this (of 255, as {@link #GRAIN_CONTRAST}) nothing is drawn black, or the rounding
   * of a plane without letters, steps of 1 or 2, would be. Carried sample photographs: 24 to 82.
   */
  private static final int WEAKEST_BLACK = 12;

  /** The names of the pictures made of every face, in the order they are made. */
  public static final List<String> NAMES =
      List.of("grey", "flat", "contrast", "smooth", "cut-dark", "cut-light");

  private Relief() {}

  /**
   * The face and its reliefs, named as in {@link #NAMES}.
   *
   * @param face grey, as squared
   * @param capitalPx the height of its capitals in pixels; what is too small counts as 8
   */
  public static List<ReliefImage> of(GrayImage face, double capitalPx) {
    double capital = Math.max(8, capitalPx);
    List<ReliefImage> images = new ArrayList<>();
    images.add(new ReliefImage("grey", face));
    try (NativeScope scope = new NativeScope()) {
      Mat flat = flat(face.in(scope), capital, scope);
      images.add(new ReliefImage("flat", GrayImage.of(flat)));
      images.add(new ReliefImage("contrast", GrayImage.of(contrast(flat, capital, scope))));
      Mat smooth = smooth(flat, capital, scope);
      images.add(new ReliefImage("smooth", GrayImage.of(smooth)));
      images.add(
          new ReliefImage(
              "cut-dark", GrayImage.of(hat(smooth, capital, Imgproc.MORPH_BLACKHAT, scope))));
      images.add(
          new ReliefImage(
              "cut-light", GrayImage.of(hat(smooth, capital, Imgproc.MORPH_TOPHAT, scope))));
    }
    return images;
  }

  /** The picture divided by its own background, so that shade and stains become even grey. */
  static Mat flat(Mat grey, double capitalPx, NativeScope scope) {
    Mat flat = scope.mat();
    Mat background = background(grey, capitalPx, scope);
    Core.max(background, new Scalar(1), background);
    Core.divide(grey, background, flat, 128, CvType.CV_8U);
    return flat;
  }

  /** The same of linear light, the plane becoming 1. */
  static Mat flattened(Mat linear, double capitalPx, NativeScope scope) {
    Mat background = background(linear, capitalPx, scope);
    Core.max(background, new Scalar(1e-4), background);
    Mat flat = scope.mat();
    Core.divide(linear, background, flat);
    return flat;
  }

  private static Mat background(Mat grey, double capitalPx, NativeScope scope) {
    Mat small = scope.mat();
    Imgproc.resize(
        grey,
        small,
        new Size(
            Math.max(1, grey.cols() / BACKGROUND_REDUCTION),
            Math.max(1, grey.rows() / BACKGROUND_REDUCTION)),
        0,
        0,
        Imgproc.INTER_AREA);
    double sigma = Math.max(1, BACKGROUND_HEIGHTS * capitalPx / BACKGROUND_REDUCTION);
    Mat blurred = scope.mat();
    Imgproc.GaussianBlur(small, blurred, new Size(), sigma, sigma, Core.BORDER_REPLICATE);
    Mat background = scope.mat();
    Imgproc.resize(blurred, background, grey.size(), 0, 0, Imgproc.INTER_LINEAR);
    return background;
  }

  /** Contrast evened out over neighbourhoods (CLAHE: Zuiderveld, Graphics Gems IV, 1994). */
  private static Mat contrast(Mat flat, double capitalPx, NativeScope scope) {
    int tiles = (int) Math.max(1, Math.min(16, flat.cols() / (3 * capitalPx)));
    CLAHE clahe = Imgproc.createCLAHE(3, new Size(tiles, tiles));
    Mat contrast = scope.mat();
    clahe.apply(flat, contrast);
    clahe.collectGarbage();
    return contrast;
  }

  /**
   * Grain smoothed, edges kept: the picture as its own guide (guided filter: He, Sun and Tang, ECCV
   * 2010), by two passes of a box filter.
   */
  private static Mat smooth(Mat flat, double capitalPx, NativeScope scope) {
    int side = 2 * (int) Math.max(1, Math.round(GRAIN_HEIGHTS * capitalPx)) + 1;
    Size box = new Size(side, side);
    Mat picture = scope.mat();
    flat.convertTo(picture, CvType.CV_32F, 1 / 255.0);
    Mat mean = scope.mat();
    Imgproc.blur(picture, mean, box);
    Mat squares = scope.mat();
    Core.multiply(picture, picture, squares);
    Mat variance = scope.mat();
    Imgproc.blur(squares, variance, box);
    Mat meanSquared = scope.mat();
    Core.multiply(mean, mean, meanSquared);
    Core.subtract(variance, meanSquared, variance);
    // a = variance / (variance + eps), b = mean (1 - a); the result is blur(a) picture + blur(b).
    Mat damped = scope.mat();
    Core.add(variance, new Scalar(GRAIN_CONTRAST * GRAIN_CONTRAST), damped);
    Mat a = scope.mat();
    Core.divide(variance, damped, a);
    Mat b = scope.mat();
    Core.multiply(a, mean, b);
    Core.subtract(mean, b, b);
    Imgproc.blur(a, a, box);
    Imgproc.blur(b, b, box);
    Core.multiply(a, picture, a);
    Core.add(a, b, a);
    Mat smooth = scope.mat();
    a.convertTo(smooth, CvType.CV_8U, 255);
    return smooth;
  }

  /**
   * What is narrower than a stroke and darker (black hat) or lighter (top hat) than the stone
   * beside it, drawn dark on white.
   */
  private static Mat hat(Mat smooth, double capitalPx, int operation, NativeScope scope) {
    int side = 2 * (int) Math.max(1, Math.round(HAT_HEIGHTS * capitalPx / 2)) + 1;
    Mat kernel =
        scope.own(Imgproc.getStructuringElement(Imgproc.MORPH_ELLIPSE, new Size(side, side)));
    Mat hat = scope.mat();
    Imgproc.morphologyEx(smooth, hat, operation, kernel);
    return darkOnWhite(hat, scope);
  }

  /**
   * Strength 0 to 255 as dark on white; the strongest hundredth of the picture is black, unless it
   * is weaker than {@link #WEAKEST_BLACK}.
   */
  static Mat darkOnWhite(Mat strength, NativeScope scope) {
    byte[] values = new byte[strength.rows() * strength.cols()];
    strength.get(0, 0, values);
    int[] counts = new int[256];
    for (byte value : values) {
      counts[value & 0xff]++;
    }
    int strongest = 255;
    for (long above = 0; strongest > WEAKEST_BLACK; strongest--) {
      above += counts[strongest];
      if (above * 100 > values.length) {
        break;
      }
    }
    Mat drawn = scope.mat();
    strength.convertTo(drawn, CvType.CV_8U, -255.0 / strongest, 255);
    return drawn;
  }
}
