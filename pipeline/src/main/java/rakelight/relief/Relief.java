package rakelight.relief;

import java.util.List;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.CLAHE;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Polygon;

/**
 * The named pictures of one squared face. Pure functions of the picture and of the height of its
 * capitals.
 *
 * @param images named as in {@link #NAMES}, in that order, all as large as the face
 * @param lettering how its letters stand out
 */
public record Relief(List<ReliefImage> images, Lettering lettering) {
  /** The names of the pictures made of every face, in the order they are made. */
  public static final List<String> NAMES = List.of("grey", "contrast", "cut");

  /** The background is blurred on a picture this much smaller: the same result in a hundredth. */
  private static final int BACKGROUND_REDUCTION = 8;

  /**
   * The background follows shapes larger than this many letter heights: stains as large as letters
   * are then evened out, too. Tried: 0.6 to 2.8.
   */
  private static final double BACKGROUND_HEIGHTS = 1;

  public Relief {
    images = List.copyOf(images);
  }

  /**
   * Makes them.
   *
   * @param face grey, as squared
   * @param capitalPx the height of its capitals in pixels; what is too small counts as 8
   * @param lines where its lines stand: grass, emblems and the stone's edge have other shading
   */
  public static Relief of(GrayImage face, double capitalPx, List<Polygon> lines) {
    double capital = Math.max(8, capitalPx);
    try (NativeScope scope = new NativeScope()) {
      Mat grey = face.in(scope);
      CutPicture cut = CutPicture.of(grey, capital, lines);
      return new Relief(
          List.of(
              new ReliefImage("grey", face),
              new ReliefImage("contrast", GrayImage.of(contrast(grey, capital, scope))),
              new ReliefImage("cut", cut.image())),
          cut.lettering());
    }
  }

  /**
   * The picture divided by its own background, so that shade and stains become even grey, then its
   * contrast evened out over neighbourhoods (CLAHE: Zuiderveld, Graphics Gems IV, 1994).
   */
  private static Mat contrast(Mat grey, double capitalPx, NativeScope scope) {
    Mat flat = scope.mat();
    Mat background = background(grey, BACKGROUND_HEIGHTS * capitalPx, scope);
    Core.max(background, new Scalar(1), background);
    Core.divide(grey, background, flat, 128, CvType.CV_8U);
    int tiles = (int) Math.max(1, Math.min(16, flat.cols() / (3 * capitalPx)));
    CLAHE clahe = Imgproc.createCLAHE(3, new Size(tiles, tiles));
    Mat contrast = scope.mat();
    clahe.apply(flat, contrast);
    clahe.collectGarbage();
    return contrast;
  }

  /** Brightness in linear light over that of the plane around, less 1. */
  static Mat shade(Mat grey, double capitalPx, NativeScope scope) {
    Mat shade = flattened(linear(grey, scope), BACKGROUND_HEIGHTS * capitalPx, scope);
    Core.subtract(shade, new Scalar(1), shade);
    return shade;
  }

  /** From the tone curve of a file to the light that fell on the sensor (IEC 61966-2-1, sRGB). */
  static Mat linear(Mat grey, NativeScope scope) {
    float[] values = new float[256];
    for (int i = 0; i < 256; i++) {
      double c = i / 255.0;
      values[i] = (float) (c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4));
    }
    Mat curve = scope.own(new Mat(1, 256, CvType.CV_32F));
    curve.put(0, 0, values);
    Mat linear = scope.mat();
    Core.LUT(grey, curve, linear);
    return linear;
  }

  /**
   * Linear light divided by its background, the plane becoming 1.
   *
   * @param backgroundPx the background follows shapes larger than this
   */
  static Mat flattened(Mat linear, double backgroundPx, NativeScope scope) {
    Mat background = background(linear, backgroundPx, scope);
    Core.max(background, new Scalar(1e-4), background);
    Mat flat = scope.mat();
    Core.divide(linear, background, flat);
    return flat;
  }

  private static Mat background(Mat grey, double backgroundPx, NativeScope scope) {
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
    double sigma = Math.max(1, backgroundPx / BACKGROUND_REDUCTION);
    Mat blurred = scope.mat();
    Imgproc.GaussianBlur(small, blurred, new Size(), sigma, sigma, Core.BORDER_REPLICATE);
    Mat background = scope.mat();
    Imgproc.resize(blurred, background, grey.size(), 0, 0, Imgproc.INTER_LINEAR);
    return background;
  }
}
