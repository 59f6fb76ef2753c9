package rakelight.relief;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.opencv.calib3d.Calib3d;
import org.opencv.core.Core;
import org.opencv.core.CvException;
import org.opencv.core.CvType;
import org.opencv.core.DMatch;
import org.opencv.core.Mat;
import org.opencv.core.MatOfDMatch;
import org.opencv.core.MatOfKeyPoint;
import org.opencv.core.MatOfPoint2f;
import org.opencv.core.Size;
import org.opencv.core.TermCriteria;
import org.opencv.features2d.BFMatcher;
import org.opencv.features2d.SIFT;
import org.opencv.imgproc.Imgproc;
import org.opencv.video.Video;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativeScope;

/**
 * Lays two photographs of one face over each other, whatever their light.
 *
 * <p>By their edges, which any light shows: first as they lie, for a camera on a stand; where that
 * fails from the places of like features (SIFT: Lowe, IJCV 60, 2004; RANSAC), for one held by hand.
 * Either is made exact by enhanced correlation (ECC: Evangelidis and Psarakis, IEEE PAMI 30, 2008).
 *
 * <p>What comes out is believed only if the edges then agree over most of the picture, tile by
 * tile: eight free numbers can always bring a few strong edges of two stones together, never all of
 * them.
 */
public final class Registration {
  /** Pictures are laid over each other on copies of this width. */
  private static final int WIDTH_PX = 480;

  /** And then once more on copies of this width where more than half a pixel counts. */
  private static final int FINE_WIDTH_PX = 960;

  private static final int STEPS = 60;
  private static final int FINE_STEPS = 15;
  private static final double PRECISION = 1e-5;

  /** Edges are softened by this many pixels of a copy: lit flanks move with the light. */
  private static final double SOFTNESS_PX = 2;

  private static final int TILES = 6;

  /** A tile agrees from this correlation of its edges. */
  private static final double SMALLEST_TILE_CORRELATION = 0.25;

  /** The share of the edges that must lie in tiles that agree, seen from either picture. */
  private static final double SMALLEST_AGREEMENT = 0.58;

  /** The area of one picture on the other may be at most so many times its own, or a part. */
  private static final double LARGEST_ENLARGEMENT = 4;

  /** No corner comes so many times nearer to the camera, or farther, than another. */
  private static final double LARGEST_NEARING = 2;

  /** A match counts if it's this much nearer than the next one (Lowe 2004: 0.8). */
  private static final double RATIO = 0.8;

  private static final int FEWEST_MATCHES = 12;
  private static final int FEATURES = 2000;

  private Registration() {}

  /**
   * Finds where each point of one picture lies on another of the same face.
   *
   * @return from pixels of the first to pixels of the other; empty if they don't fit
   */
  public static Optional<Homography> of(GrayImage first, GrayImage other) {
    try (NativeScope scope = new NativeScope()) {
      return of(first.in(scope), other.in(scope), WIDTH_PX, scope);
    }
  }

  /** The same to a part of a pixel; borrows the pictures. */
  static Optional<Homography> fine(Mat first, Mat other, NativeScope scope) {
    return of(first, other, WIDTH_PX, scope)
        .flatMap(
            coarse -> {
              if (Math.max(first.cols(), other.cols()) <= WIDTH_PX) {
                return Optional.of(coarse);
              }
              Pair pair = Pair.of(first, other, FINE_WIDTH_PX, scope);
              return pair.aligned(pair.small(coarse), FINE_STEPS, scope)
                  .map(pair::large)
                  .or(() -> Optional.of(coarse));
            });
  }

  private static Optional<Homography> of(Mat first, Mat other, int widthPx, NativeScope scope) {
    Pair pair = Pair.of(first, other, widthPx, scope);
    Homography asTheyLie =
        Homography.of(
            (double) pair.b.cols() / pair.a.cols(),
            0,
            0,
            0,
            (double) pair.b.rows() / pair.a.rows(),
            0,
            0,
            0,
            1);
    return pair.aligned(asTheyLie, STEPS, scope)
        .filter(found -> pair.agree(found, scope))
        .or(
            () ->
                features(pair, scope)
                    .flatMap(start -> pair.aligned(start, STEPS, scope))
                    .filter(found -> pair.agree(found, scope)))
        .map(pair::large);
  }

  /** How far the edges of two pictures agree, 0 to 1, where the homography lays them. */
  static double agreement(GrayImage first, GrayImage other, Homography homography) {
    try (NativeScope scope = new NativeScope()) {
      Pair pair = Pair.of(first.in(scope), other.in(scope), WIDTH_PX, scope);
      return pair.agreement(pair.small(homography), scope);
    }
  }

  /**
   * Copies of two pictures and their edges.
   *
   * @param scaleA pixels of the copy per pixel of the picture
   */
  private record Pair(Mat greyA, Mat greyB, Mat a, Mat b, double scaleA, double scaleB) {
    static Pair of(Mat first, Mat other, int widthPx, NativeScope scope) {
      double scaleA = Math.min(1, (double) widthPx / first.cols());
      double scaleB = Math.min(1, (double) widthPx / other.cols());
      Mat greyA = scope.mat();
      Imgproc.resize(first, greyA, new Size(), scaleA, scaleA, Imgproc.INTER_AREA);
      Mat greyB = scope.mat();
      Imgproc.resize(other, greyB, new Size(), scaleB, scaleB, Imgproc.INTER_AREA);
      return new Pair(
          greyA,
          greyB,
          edges(greyA, SOFTNESS_PX, scope),
          edges(greyB, SOFTNESS_PX, scope),
          scaleA,
          scaleB);
    }

    /** From copy to copy, out of picture to picture. */
    Homography small(Homography large) {
      return scaling(1 / scaleA).then(large).then(scaling(scaleB));
    }

    /** From picture to picture, out of copy to copy. */
    Homography large(Homography small) {
      return scaling(scaleA).then(small).then(scaling(1 / scaleB));
    }

    private static Homography scaling(double s) {
      return Homography.of(s, 0, 0, 0, s, 0, 0, 0, 1);
    }

    Optional<Homography> aligned(Homography start, int steps, NativeScope scope) {
      Mat warp = scope.own(new Mat(3, 3, CvType.CV_32F));
      float[] m = new float[9];
      for (int i = 0; i < 9; i++) {
        m[i] = start.rows().get(i).floatValue();
      }
      warp.put(0, 0, m);
      try {
        Video.findTransformECC(
            a,
            b,
            warp,
            Video.MOTION_HOMOGRAPHY,
            new TermCriteria(TermCriteria.COUNT + TermCriteria.EPS, steps, PRECISION),
            scope.mat(),
            5);
      } catch (CvException e) {
        return Optional.empty(); // It says so where it doesn't converge.
      }
      warp.get(0, 0, m);
      double[] found = new double[9];
      for (int i = 0; i < 9; i++) {
        if (!Float.isFinite(m[i])) {
          return Optional.empty();
        }
        found[i] = m[i];
      }
      return Optional.of(Homography.of(found));
    }

    boolean agree(Homography found, NativeScope scope) {
      return plausible(found)
          && agreement(found, scope) >= SMALLEST_AGREEMENT
          && new Pair(greyB, greyA, b, a, scaleB, scaleA).agreement(found.inverse(), scope)
              >= SMALLEST_AGREEMENT;
    }

    /** Whether the corners stay in order and the size stays near. */
    private boolean plausible(Homography found) {
      rakelight.picture.Polygon corners =
          rakelight.picture.Polygon.rectangle(0, 0, a.cols(), a.rows());
      for (rakelight.picture.Point corner : corners.points()) {
        double w =
            found.rows().get(6) * corner.x()
                + found.rows().get(7) * corner.y()
                + found.rows().get(8);
        if (!(w > 1 / LARGEST_NEARING && w < LARGEST_NEARING)) {
          return false;
        }
      }
      double[] x = new double[4];
      double[] y = new double[4];
      for (int i = 0; i < 4; i++) {
        rakelight.picture.Point p = found.map(corners.points().get(i));
        x[i] = p.x();
        y[i] = p.y();
      }
      double area = 0;
      for (int i = 0; i < 4; i++) {
        int j = (i + 1) % 4;
        int k = (i + 2) % 4;
        area += (x[i] * y[j] - x[j] * y[i]) / 2;
        if ((x[j] - x[i]) * (y[k] - y[j]) - (y[j] - y[i]) * (x[k] - x[j]) <= 0) {
          return false;
        }
      }
      double ratio = area / ((double) a.cols() * a.rows());
      return ratio < LARGEST_ENLARGEMENT && ratio > 1 / LARGEST_ENLARGEMENT;
    }

    private double agreement(Homography found, NativeScope outer) {
      try (NativeScope scope = new NativeScope()) {
        Mat laid = scope.mat();
        Imgproc.warpPerspective(
            b,
            laid,
            matrix(found, scope),
            a.size(),
            Imgproc.INTER_LINEAR | Imgproc.WARP_INVERSE_MAP,
            Core.BORDER_CONSTANT);
        Mat seen = scope.mat();
        Mat all =
            scope.own(new Mat(b.rows(), b.cols(), CvType.CV_8U, new org.opencv.core.Scalar(1)));
        Imgproc.warpPerspective(
            all,
            seen,
            matrix(found, scope),
            a.size(),
            Imgproc.INTER_NEAREST | Imgproc.WARP_INVERSE_MAP,
            Core.BORDER_CONSTANT);
        int n = a.rows() * a.cols();
        float[] left = new float[n];
        a.get(0, 0, left);
        float[] right = new float[n];
        laid.get(0, 0, right);
        byte[] both = new byte[n];
        seen.get(0, 0, both);
        return Tiles.agreement(left, right, both, a.cols(), a.rows());
      }
    }
  }

  /** The tile by tile comparison. */
  private static final class Tiles {
    private Tiles() {}

    static double agreement(float[] a, float[] b, byte[] seen, int w, int h) {
      double[] all = new double[2];
      int count = 0;
      for (int i = 0; i < a.length; i++) {
        if (seen[i] != 0) {
          all[0] += a[i];
          all[1] += b[i];
          count++;
        }
      }
      if (count < a.length / 4) {
        return 0;
      }
      double meanA = all[0] / count;
      double meanB = all[1] / count;
      double edges = 0;
      double agreeing = 0;
      for (int row = 0; row < TILES; row++) {
        for (int column = 0; column < TILES; column++) {
          double n = 0;
          double sa = 0;
          double sb = 0;
          double aa = 0;
          double bb = 0;
          double ab = 0;
          for (int y = row * h / TILES; y < (row + 1) * h / TILES; y++) {
            for (int x = column * w / TILES; x < (column + 1) * w / TILES; x++) {
              int i = y * w + x;
              if (seen[i] != 0) {
                n++;
                sa += a[i];
                sb += b[i];
                aa += a[i] * a[i];
                bb += b[i] * b[i];
                ab += a[i] * b[i];
              }
            }
          }
          if (n < 16) {
            continue;
          }
          double varianceA = aa - sa * sa / n;
          double varianceB = bb - sb * sb / n;
          // In units of each picture's own edges, so that a soft light counts as much as a hard
          // one.
          double weight =
              Math.sqrt(Math.max(0, varianceA)) / meanA + Math.sqrt(Math.max(0, varianceB)) / meanB;
          double correlation = (ab - sa * sb / n) / Math.sqrt(varianceA * varianceB);
          edges += weight;
          agreeing += correlation >= SMALLEST_TILE_CORRELATION ? weight : 0;
        }
      }
      return edges > 0 ? agreeing / edges : 0;
    }
  }

  private static Optional<Homography> features(Pair pair, NativeScope scope) {
    SIFT sift = SIFT.create(FEATURES);
    MatOfKeyPoint inA = scope.own(new MatOfKeyPoint());
    MatOfKeyPoint inB = scope.own(new MatOfKeyPoint());
    Mat describedA = scope.mat();
    Mat describedB = scope.mat();
    sift.detectAndCompute(eight(pair.a(), scope), scope.mat(), inA, describedA);
    sift.detectAndCompute(eight(pair.b(), scope), scope.mat(), inB, describedB);
    if (describedA.rows() < FEWEST_MATCHES || describedB.rows() < FEWEST_MATCHES) {
      return Optional.empty();
    }
    List<MatOfDMatch> nearest = new ArrayList<>();
    BFMatcher.create().knnMatch(describedA, describedB, nearest, 2);
    org.opencv.core.KeyPoint[] pointsA = inA.toArray();
    org.opencv.core.KeyPoint[] pointsB = inB.toArray();
    List<org.opencv.core.Point> from = new ArrayList<>();
    List<org.opencv.core.Point> to = new ArrayList<>();
    for (MatOfDMatch match : nearest) {
      DMatch[] two = scope.own(match).toArray();
      if (two.length == 2 && two[0].distance < RATIO * two[1].distance) {
        from.add(pointsA[two[0].queryIdx].pt);
        to.add(pointsB[two[0].trainIdx].pt);
      }
    }
    if (from.size() < FEWEST_MATCHES) {
      return Optional.empty();
    }
    MatOfPoint2f a = scope.own(new MatOfPoint2f(from.toArray(org.opencv.core.Point[]::new)));
    MatOfPoint2f b = scope.own(new MatOfPoint2f(to.toArray(org.opencv.core.Point[]::new)));
    Mat found = scope.own(Calib3d.findHomography(a, b, Calib3d.RANSAC, 4));
    if (found.empty()) {
      return Optional.empty();
    }
    double[] m = new double[9];
    found.get(0, 0, m);
    return Optional.of(Homography.of(m));
  }

  private static Mat eight(Mat edges, NativeScope scope) {
    Mat eight = scope.mat();
    Core.normalize(edges, eight, 0, 255, Core.NORM_MINMAX, CvType.CV_8U);
    return eight;
  }

  /** How strongly brightness changes, whichever way: much the same under any light. */
  static Mat edges(Mat grey, double softnessPx, NativeScope scope) {
    Mat x = scope.mat();
    Mat y = scope.mat();
    Imgproc.Sobel(grey, x, CvType.CV_32F, 1, 0);
    Imgproc.Sobel(grey, y, CvType.CV_32F, 0, 1);
    Mat strength = scope.mat();
    Core.magnitude(x, y, strength);
    Imgproc.GaussianBlur(strength, strength, new Size(), softnessPx);
    return strength;
  }

  static Mat matrix(Homography homography, NativeScope scope) {
    Mat matrix = scope.own(new Mat(3, 3, CvType.CV_64F));
    matrix.put(0, 0, homography.rows().stream().mapToDouble(Double::doubleValue).toArray());
    return matrix;
  }
}
