package rakelight.finding;

import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfPoint;
import org.opencv.core.MatOfPoint2f;
import org.opencv.core.Rect;
import org.opencv.core.RotatedRect;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.picture.ScaledPicture;

/**
 * Finds lines with the general text detector of PP-OCR v4, trained on print and street signs.
 *
 * <p>The network marks the shrunken core of each run of text; cores are outlined, kept if they are
 * marked strongly enough, and grown back (differentiable binarisation: Liao, Wan, Yao, Chen and
 * Bai, AAAI 2020, whose thresholds these are). A core that bends is followed by a bent ribbon.
 *
 * <p>Limits: cuts off the first and last letters of some lines, overlooks small lines under large
 * ones, and can't tell an emblem's motto from the inscription.
 */
public final class PpOcrLineFinder implements LineFinder {
  /** Length of the picture's long side as the network sees it. 960 loses small lines. */
  private static final int LONG_SIDE_PX = 1536;

  private static final double CORE_THRESHOLD = 0.3;

  /** Mean mark of a core that counts as text; the paper's range is 0.5 to 0.7. */
  private static final double BOX_THRESHOLD = 0.5;

  /** How far a core is grown: area x ratio / perimeter. The paper's range is 1.5 to 2. */
  private static final double UNCLIP_RATIO = 1.6;

  private static final double SMALLEST_CORE_PX = 3;

  /** Height of capitals as a part of a grown box; set by judgement. */
  private static final double CAPITAL_OF_BOX = 0.66;

  /** A core bends if its middle leaves the straight line by this many core heights. */
  private static final double BEND_HEIGHTS = 0.35;

  private static final int BENT_POINTS = 9;

  /**
   * A face smaller than this part of the picture is looked at a second time by itself: small and
   * worn lines show then. On faces that fill the picture a second look changes nothing.
   */
  private static final double CLOSER_BELOW = 0.4;

  private final Network network = Network.ofResource("models/ch_PP-OCRv4_det_infer.onnx");

  @Override
  public String name() {
    return "ppocr-v4";
  }

  @Override
  public String digest() {
    return network.digest();
  }

  @Override
  public Found find(GrayImage upright) {
    Found found = look(upright);
    double part = found.face().area() / ((double) upright.widthPx() * upright.heightPx());
    if (found.lines().isEmpty() || part > CLOSER_BELOW) {
      return found;
    }
    Found closer = lookCloser(upright, found.face());
    return seen(closer) >= seen(found) ? closer : found;
  }

  /** How many letters' widths of line were found. */
  private static double seen(Found found) {
    return found.lines().stream().mapToDouble(l -> l.score() * l.lengthPx() / l.heightPx()).sum();
  }

  /** Looks at the face alone, so that its letters are larger in the network's eyes. */
  private Found lookCloser(GrayImage upright, Polygon face) {
    int left = (int) Math.max(0, face.left());
    int top = (int) Math.max(0, face.top());
    int width = (int) Math.min(upright.widthPx(), Math.ceil(face.right())) - left;
    int height = (int) Math.min(upright.heightPx(), Math.ceil(face.bottom())) - top;
    byte[] pixels = new byte[width * height];
    for (int y = 0; y < height; y++) {
      System.arraycopy(
          upright.pixels(), (top + y) * upright.widthPx() + left, pixels, y * width, width);
    }
    Found found = look(new GrayImage(width, height, pixels));
    UnaryOperator<Point> back = p -> new Point(p.x() + left, p.y() + top);
    return new Found(
        found.face().map(back),
        found.proportion(),
        found.lines().stream().map(line -> line.map(back)).toList());
  }

  private Found look(GrayImage upright) {
    try (NativeScope scope = new NativeScope()) {
      ScaledPicture picture = ScaledPicture.of(upright, LONG_SIDE_PX);
      List<FoundLine> pieces = pieces(marks(picture, scope), picture.toFullX(), picture.toFullY());
      List<FoundLine> lines = LineOrder.inReadingOrder(LineOrder.joined(pieces));
      int width = upright.widthPx();
      int height = upright.heightPx();
      FacePlane plane = FacePlane.of(width, height, lines);
      Polygon face = FaceOutline.of(width, height, plane, lines, List.of());
      return new Found(face, plane.proportion(face.points()), lines);
    }
  }

  /** The network's mark of text per pixel, 0 to 1. */
  private Mat marks(ScaledPicture picture, NativeScope scope) {
    float[] grey = picture.grey();
    // Blue, green, red as the network was trained: ImageNet's mean and deviation of each.
    float[] mean = {0.485f, 0.456f, 0.406f};
    float[] deviation = {0.229f, 0.224f, 0.225f};
    float[] input = new float[3 * grey.length];
    for (int c = 0; c < 3; c++) {
      for (int i = 0; i < grey.length; i++) {
        input[c * grey.length + i] = (grey[i] - mean[c]) / deviation[c];
      }
    }
    return network.run(
        input,
        new long[] {1, 3, picture.heightPx(), picture.widthPx()},
        (values, shape) -> {
          float[] marks = new float[(int) (shape[2] * shape[3])];
          values.get(marks);
          Mat mat = scope.own(new Mat((int) shape[2], (int) shape[3], CvType.CV_32FC1));
          mat.put(0, 0, marks);
          return mat;
        });
  }

  private static List<FoundLine> pieces(Mat marks, double toFullX, double toFullY) {
    List<FoundLine> pieces = new ArrayList<>();
    try (NativeScope scope = new NativeScope()) {
      Mat core = scope.mat();
      Core.compare(marks, new Scalar(CORE_THRESHOLD), core, Core.CMP_GT);
      List<MatOfPoint> contours = new ArrayList<>();
      Imgproc.findContours(
          core, contours, scope.mat(), Imgproc.RETR_LIST, Imgproc.CHAIN_APPROX_NONE);
      contours.forEach(scope::own);
      for (MatOfPoint contour : contours) {
        RotatedRect box = Imgproc.minAreaRect(scope.own(new MatOfPoint2f(contour.toArray())));
        if (Math.min(box.size.width, box.size.height) < SMALLEST_CORE_PX) {
          continue;
        }
        double score = mean(marks, contour);
        if (score < BOX_THRESHOLD) {
          continue;
        }
        pieces.add(line(contour.toArray(), level(box), score, toFullX, toFullY));
      }
    }
    return pieces;
  }

  private static double mean(Mat marks, MatOfPoint contour) {
    try (NativeScope scope = new NativeScope()) {
      Rect bounds = Imgproc.boundingRect(contour);
      Mat mask = scope.own(Mat.zeros(bounds.height, bounds.width, CvType.CV_8UC1));
      Imgproc.drawContours(
          mask,
          List.of(contour),
          0,
          new Scalar(255),
          Imgproc.FILLED,
          Imgproc.LINE_8,
          scope.mat(),
          0,
          new org.opencv.core.Point(-bounds.x, -bounds.y));
      return Core.mean(scope.own(marks.submat(bounds)), mask).val[0];
    }
  }

  /** The same box with its width along the text: angle between -45 and 45 degrees. */
  private static RotatedRect level(RotatedRect box) {
    double angle = box.angle;
    Size size = box.size;
    while (angle > 45) {
      angle -= 90;
      size = new Size(size.height, size.width);
    }
    while (angle < -45) {
      angle += 90;
      size = new Size(size.height, size.width);
    }
    return new RotatedRect(box.center, size, angle);
  }

  private static FoundLine line(
      org.opencv.core.Point[] contour,
      RotatedRect box,
      double score,
      double toFullX,
      double toFullY) {
    double cos = Math.cos(Math.toRadians(box.angle));
    double sin = Math.sin(Math.toRadians(box.angle));
    // Along and across the box, from its centre.
    int n = BENT_POINTS;
    double[] upper = new double[n];
    double[] lower = new double[n];
    java.util.Arrays.fill(upper, Double.MAX_VALUE);
    java.util.Arrays.fill(lower, -Double.MAX_VALUE);
    double halfLength = Math.max(0.5, box.size.width / 2);
    for (org.opencv.core.Point p : contour) {
      double along = (p.x - box.center.x) * cos + (p.y - box.center.y) * sin;
      double across = -(p.x - box.center.x) * sin + (p.y - box.center.y) * cos;
      int slice = (int) Math.min(n - 1, Math.max(0, Math.floor((along / halfLength + 1) / 2 * n)));
      upper[slice] = Math.min(upper[slice], across);
      lower[slice] = Math.max(lower[slice], across);
    }
    double[] middle = new double[n];
    double[] thickness = new double[n];
    boolean whole = true;
    for (int i = 0; i < n; i++) {
      whole &= upper[i] <= lower[i];
      middle[i] = (upper[i] + lower[i]) / 2;
      thickness[i] = lower[i] - upper[i] + 1;
    }
    java.util.Arrays.sort(thickness);
    double coreHeight = box.size.height + 1;
    double[] bend = {0, 0, 0};
    boolean bent = false;
    if (whole && box.size.width > 4 * thickness[n / 2]) {
      bend = parabola(middle);
      bent = Math.abs(bend[2]) > BEND_HEIGHTS * thickness[n / 2];
      if (bent) {
        coreHeight = thickness[n / 2];
      }
    }
    double growth =
        coreHeight * (2 * halfLength) * UNCLIP_RATIO / (2 * (coreHeight + 2 * halfLength));
    double height = (coreHeight + 2 * growth) * CAPITAL_OF_BOX;
    List<Point> top = new ArrayList<>();
    List<Point> foot = new ArrayList<>();
    int points = bent ? n : 2;
    for (int i = 0; i < points; i++) {
      double t = points == 2 ? 2.0 * i - 1 : 2.0 * i / (points - 1) - 1;
      double along = t * (halfLength + growth * 0.6);
      double across = bent ? bend[0] + bend[1] * t + bend[2] * t * t : 0;
      double slope = bent ? (bend[1] + 2 * bend[2] * t) / halfLength : 0;
      double norm = Math.hypot(1, slope);
      double downAlong = -slope / norm * height / 2;
      double downAcross = height / 2 / norm;
      top.add(full(box, cos, sin, along - downAlong, across - downAcross, toFullX, toFullY));
      foot.add(0, full(box, cos, sin, along + downAlong, across + downAcross, toFullX, toFullY));
    }
    List<Point> ribbon = new ArrayList<>(top);
    ribbon.addAll(foot);
    return new FoundLine(new Polygon(ribbon), height * toFullY, score);
  }

  private static Point full(
      RotatedRect box,
      double cos,
      double sin,
      double along,
      double across,
      double toFullX,
      double toFullY) {
    return new Point(
        (box.center.x + along * cos - across * sin + 0.5) * toFullX,
        (box.center.y + along * sin + across * cos + 0.5) * toFullY);
  }

  /** Least squares of a + b t + c t² through values at n even steps of t from -1 to 1. */
  private static double[] parabola(double[] values) {
    int n = values.length;
    double s0 = n;
    double s2 = 0;
    double s4 = 0;
    double y0 = 0;
    double y1 = 0;
    double y2 = 0;
    for (int i = 0; i < n; i++) {
      double t = (2.0 * i + 1) / n - 1;
      s2 += t * t;
      s4 += t * t * t * t;
      y0 += values[i];
      y1 += values[i] * t;
      y2 += values[i] * t * t;
    }
    double determinant = s0 * s4 - s2 * s2;
    return new double[] {
      (y0 * s4 - y2 * s2) / determinant, y1 / s2, (s0 * y2 - s2 * y0) / determinant
    };
  }

  @Override
  public void close() {
    network.close();
  }
}
