package rakelight.relief;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.opencv.core.Core;
import org.opencv.core.CvException;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.core.TermCriteria;
import org.opencv.imgproc.Imgproc;
import org.opencv.video.Video;
import rakelight.finding.GrayImage;
import rakelight.finding.Homography;
import rakelight.finding.NativeScope;

/**
 * Combines photographs of one face from one camera position under different light.
 *
 * <p>What changes with the light is shape; what stays is colour and stain. The combined picture
 * shows, per pixel, by how much the flattened lights differ: cut edges dark, stained stone white.
 *
 * <p>Limits: it shows edges rather than depth, and needs lights that differ in direction; true
 * surface slopes (Woodham 1980) need known directions and aren't computed here.
 */
public final class RakingSet {
  /** Pictures are laid over each other on copies of this width. */
  private static final int REGISTRATION_WIDTH_PX = 480;

  private static final int REGISTRATION_STEPS = 60;
  private static final double REGISTRATION_PRECISION = 1e-5;

  /** Below this correlation two pictures haven't been laid over each other. */
  private static final double SMALLEST_CORRELATION = 0.25;

  /** The name of the combined picture. */
  public static final String NAME = "raked";

  private RakingSet() {}

  /**
   * The lights combined into one picture named "raked"; empty where fewer than two of them can be
   * laid over the first.
   *
   * @param squared the same face squared with the same outline from each photograph; the first is
   *     the one that the others are laid over
   * @param capitalPx the height of its capitals in pixels
   */
  public static Optional<ReliefImage> raked(List<GrayImage> squared, double capitalPx) {
    if (squared.size() < 2) {
      return Optional.empty();
    }
    double capital = Math.max(8, capitalPx);
    try (NativeScope scope = new NativeScope()) {
      Mat first = squared.get(0).in(scope);
      Mat most = Relief.flat(first, capital, scope);
      Mat least = scope.mat();
      most.copyTo(least);
      int combined = 1;
      for (GrayImage other : squared.subList(1, squared.size())) {
        try (NativeScope step = new NativeScope()) {
          Mat picture = other.in(step);
          Optional<Homography> onto = register(first, picture, step);
          if (onto.isEmpty()) {
            continue;
          }
          Mat laid = step.mat();
          Imgproc.warpPerspective(
              picture,
              laid,
              matrix(onto.get(), step),
              first.size(),
              Imgproc.INTER_LINEAR | Imgproc.WARP_INVERSE_MAP,
              Core.BORDER_REPLICATE);
          Mat flat = Relief.flat(laid, capital, step);
          Core.max(most, flat, most);
          Core.min(least, flat, least);
          combined++;
        }
      }
      if (combined < 2) {
        return Optional.empty();
      }
      Mat range = scope.mat();
      Core.subtract(most, least, range);
      Imgproc.medianBlur(range, range, 3);
      return Optional.of(new ReliefImage(NAME, GrayImage.of(Relief.darkOnWhite(range, scope))));
    }
  }

  /**
   * Finds where each point of one picture lies on another of the same face (enhanced correlation:
   * Evangelidis and Psarakis, IEEE PAMI 30, 2008), on edges, which any light shows.
   *
   * @return from pixels of the first to pixels of the other; empty if they don't fit
   */
  public static Optional<Homography> register(GrayImage first, GrayImage other) {
    try (NativeScope scope = new NativeScope()) {
      return register(first.in(scope), other.in(scope), scope);
    }
  }

  private static Optional<Homography> register(Mat first, Mat other, NativeScope scope) {
    double scale = Math.min(1, (double) REGISTRATION_WIDTH_PX / first.cols());
    double otherScale = Math.min(1, (double) REGISTRATION_WIDTH_PX / other.cols());
    Mat a = edges(first, scale, scope);
    Mat b = edges(other, otherScale, scope);
    Mat warp = scope.own(Mat.eye(3, 3, CvType.CV_32F));
    warp.put(0, 0, (float) ((double) b.cols() / a.cols()));
    warp.put(1, 1, (float) ((double) b.rows() / a.rows()));
    try {
      double correlation =
          Video.findTransformECC(
              a,
              b,
              warp,
              Video.MOTION_HOMOGRAPHY,
              new TermCriteria(
                  TermCriteria.COUNT + TermCriteria.EPS,
                  REGISTRATION_STEPS,
                  REGISTRATION_PRECISION),
              scope.mat(),
              5);
      if (!(correlation >= SMALLEST_CORRELATION)) {
        return Optional.empty();
      }
    } catch (CvException e) {
      return Optional.empty(); // It says so where it doesn't converge.
    }
    float[] m = new float[9];
    warp.get(0, 0, m);
    double[] small = new double[9];
    for (int i = 0; i < 9; i++) {
      small[i] = m[i];
    }
    return Optional.of(
        Homography.of(scale, 0, 0, 0, scale, 0, 0, 0, 1)
            .then(Homography.of(small))
            .then(Homography.of(1 / otherScale, 0, 0, 0, 1 / otherScale, 0, 0, 0, 1)));
  }

  /** How strongly brightness changes, whichever way: much the same under any light. */
  private static Mat edges(Mat grey, double scale, NativeScope scope) {
    Mat small = scope.mat();
    Imgproc.resize(grey, small, new Size(), scale, scale, Imgproc.INTER_AREA);
    Mat x = scope.mat();
    Mat y = scope.mat();
    Imgproc.Sobel(small, x, CvType.CV_32F, 1, 0);
    Imgproc.Sobel(small, y, CvType.CV_32F, 0, 1);
    Mat strength = scope.mat();
    Core.magnitude(x, y, strength);
    Imgproc.GaussianBlur(strength, strength, new Size(), 2);
    return strength;
  }

  private static Mat matrix(Homography homography, NativeScope scope) {
    Mat matrix = scope.own(new Mat(3, 3, CvType.CV_64F));
    List<Double> rows = new ArrayList<>(homography.rows());
    matrix.put(0, 0, rows.stream().mapToDouble(Double::doubleValue).toArray());
    return matrix;
  }
}
