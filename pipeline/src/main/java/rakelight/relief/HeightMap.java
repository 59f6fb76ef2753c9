package rakelight.relief;

import java.util.Arrays;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfByte;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Natives;
import rakelight.picture.PictureException;

/**
 * How high every pixel of a squared face stands over the plane around it, so that the face can be
 * lit anew.
 *
 * <pre>{@code
 * HeightMap heights = HeightMap.ofPng(Files.readAllBytes(file));
 * GrayImage lit = heights.lit(LightDirection.raking(300, 12));
 * }</pre>
 *
 * As a file it is a 16-bit grey PNG: (value - 32768) / 1000 is the height in pixels. The array
 * isn't copied: whoever makes one hands it over.
 *
 * @param heights row by row, in pixels, negative where something is cut
 */
public record HeightMap(int widthPx, int heightPx, float[] heights) {
  private static final double UNITS_PER_PIXEL = 1000;
  private static final int ZERO = 32768;

  /** A plane lit from anywhere is drawn as this grey, so that both flanks of a cut show. */
  private static final double PLANE = 128;

  /** The local plane follows shapes larger than this many letter heights. */
  private static final double PLANE_HEIGHTS = 0.7;

  private static final int PLANE_PASSES = 3;

  /** Relief is measured over so many letter heights around. */
  private static final double AROUND_HEIGHTS = 1.5;

  /** Bare stone isn't magnified into letters: so little of the middle relief counts at least. */
  private static final double LEAST_AROUND = 0.7;

  /** So many deviations of the relief around are black. */
  private static final double BLACK = 2.5;

  public HeightMap {
    if (widthPx < 1 || heightPx < 1 || heights.length != (long) widthPx * heightPx) {
      throw new IllegalArgumentException(
          "A map of " + widthPx + " x " + heightPx + " can't have " + heights.length + " heights");
    }
  }

  /**
   * The surface under another light: Lambert's law for one small lamp, nothing in cast shadow.
   * Exposed so that the plane is middle grey whatever the angle.
   */
  public GrayImage lit(LightDirection light) {
    byte[] pixels = new byte[heights.length];
    for (int y = 0; y < heightPx; y++) {
      int above = Math.max(0, y - 1) * widthPx;
      int below = Math.min(heightPx - 1, y + 1) * widthPx;
      double rows = Math.max(1, (below - above) / widthPx);
      for (int x = 0; x < widthPx; x++) {
        int left = Math.max(0, x - 1);
        int right = Math.min(widthPx - 1, x + 1);
        int row = y * widthPx;
        double p = (heights[row + right] - heights[row + left]) / Math.max(1, right - left);
        double q = (heights[above + x] - heights[below + x]) / rows;
        double shade =
            (light.z() - p * light.x() - q * light.y()) / Math.sqrt(1 + p * p + q * q) / light.z();
        pixels[row + x] = (byte) Math.max(0, Math.min(255, Math.round(PLANE * shade)));
      }
    }
    return new GrayImage(widthPx, heightPx, pixels);
  }

  /**
   * What is cut, dark on white, as deep as it is; where letters are raised, what stands up. Depth
   * is in units of the relief around, so that a worn line isn't lost beside a deep one.
   *
   * @param like the picture is made as large as this one
   * @param capitalPx the height of capitals on this map
   */
  GrayImage depth(GrayImage like, double capitalPx) {
    try (NativeScope scope = new NativeScope()) {
      Mat height = scope.own(new Mat(heightPx, widthPx, CvType.CV_32F));
      height.put(0, 0, heights);
      Mat squares = scope.mat();
      Core.multiply(height, height, squares);
      double sigma = AROUND_HEIGHTS * capitalPx;
      Mat around = blurred(squares, sigma, scope);
      Core.sqrt(around, around);
      Core.max(around, new Scalar(LEAST_AROUND * median(around)), around);
      Core.divide(height, around, height);
      float[] relative = new float[heights.length];
      height.get(0, 0, relative);
      for (int i = 0; i < relative.length; i++) {
        relative[i] = (float) Math.max(-BLACK, Math.min(BLACK, relative[i]));
      }
      boolean raised = LightEstimate.skew(relative) > 0;
      Mat drawn = scope.mat();
      height.convertTo(drawn, CvType.CV_8U, (raised ? -255 : 255) / BLACK, 255);
      Mat large = scope.mat();
      Imgproc.resize(
          drawn, large, new Size(like.widthPx(), like.heightPx()), 0, 0, Imgproc.INTER_LINEAR);
      return GrayImage.of(large);
    }
  }

  /** A wide blur, on a copy of an eighth. */
  private static Mat blurred(Mat values, double sigmaPx, NativeScope scope) {
    double reduction = Math.max(1, Math.min(8, sigmaPx / 3));
    Mat small = scope.mat();
    Imgproc.resize(
        values,
        small,
        new Size(Math.max(1, values.cols() / reduction), Math.max(1, values.rows() / reduction)),
        0,
        0,
        Imgproc.INTER_AREA);
    double sigma = sigmaPx / reduction;
    Imgproc.GaussianBlur(small, small, new Size(), sigma, sigma, Core.BORDER_REPLICATE);
    Mat blurred = scope.mat();
    Imgproc.resize(small, blurred, values.size(), 0, 0, Imgproc.INTER_LINEAR);
    return blurred;
  }

  private static float median(Mat values) {
    float[] sorted = new float[values.rows() * values.cols()];
    values.get(0, 0, sorted);
    Arrays.sort(sorted);
    return Math.max(1e-6f, sorted[sorted.length / 2]);
  }

  /** As a 16-bit PNG; what stands more than 32 pixels from the plane is written as 32. */
  public byte[] png() {
    Natives.openCv();
    short[] values = new short[heights.length];
    for (int i = 0; i < values.length; i++) {
      values[i] =
          (short) Math.max(0, Math.min(65535, Math.round(heights[i] * UNITS_PER_PIXEL) + ZERO));
    }
    try (NativeScope scope = new NativeScope()) {
      Mat mat = scope.own(new Mat(heightPx, widthPx, CvType.CV_16UC1));
      mat.put(0, 0, values);
      MatOfByte bytes = scope.own(new MatOfByte());
      Imgcodecs.imencode(".png", mat, bytes);
      return bytes.toArray();
    }
  }

  /**
   * Reads what {@link #png} wrote.
   *
   * @throws PictureException if it isn't a 16-bit grey picture
   */
  public static HeightMap ofPng(byte[] file) throws PictureException {
    Natives.openCv();
    try (NativeScope scope = new NativeScope()) {
      Mat bytes = scope.own(new Mat(1, Math.max(1, file.length), CvType.CV_8UC1));
      bytes.put(0, 0, file);
      Mat mat = scope.own(Imgcodecs.imdecode(bytes, Imgcodecs.IMREAD_UNCHANGED));
      if (mat.empty() || mat.type() != CvType.CV_16UC1) {
        throw new PictureException(
            "not a map of heights, which is a 16-bit grey PNG; delete it to have it made again");
      }
      short[] values = new short[mat.rows() * mat.cols()];
      mat.get(0, 0, values);
      float[] heights = new float[values.length];
      for (int i = 0; i < values.length; i++) {
        heights[i] = (float) (((values[i] & 0xffff) - ZERO) / UNITS_PER_PIXEL);
      }
      return new HeightMap(mat.cols(), mat.rows(), heights);
    }
  }

  /**
   * The heights over the local plane, which is what most of the surface around lies in: what lies
   * away from it hardly counts, so letters don't pull it down.
   *
   * @param capitalPx the height of capitals
   */
  HeightMap overPlane(double capitalPx) {
    try (NativeScope scope = new NativeScope()) {
      double reduction = Math.max(1, Math.min(4, capitalPx / 12));
      Mat all = scope.own(new Mat(heightPx, widthPx, CvType.CV_32F));
      all.put(0, 0, heights);
      Mat small = scope.mat();
      Imgproc.resize(
          all,
          small,
          new Size(Math.max(1, widthPx / reduction), Math.max(1, heightPx / reduction)),
          0,
          0,
          Imgproc.INTER_AREA);
      double sigma = PLANE_HEIGHTS * capitalPx / reduction;
      Mat weights = scope.own(new Mat(small.size(), CvType.CV_32F, new Scalar(1)));
      Mat plane = scope.mat();
      for (int pass = 0; pass < PLANE_PASSES; pass++) {
        Mat weighted = scope.mat();
        Core.multiply(small, weights, weighted);
        Imgproc.GaussianBlur(weighted, weighted, new Size(), sigma, sigma, Core.BORDER_REPLICATE);
        Mat blurred = scope.mat();
        Imgproc.GaussianBlur(weights, blurred, new Size(), sigma, sigma, Core.BORDER_REPLICATE);
        Core.divide(weighted, blurred, plane);
        weigh(small, plane, weights);
      }
      Mat large = scope.mat();
      Imgproc.resize(plane, large, all.size(), 0, 0, Imgproc.INTER_LINEAR);
      Mat over = scope.mat();
      Core.subtract(all, large, over);
      float[] result = new float[heights.length];
      over.get(0, 0, result);
      return new HeightMap(widthPx, heightPx, result);
    }
  }

  /** What lies far from the plane, in deviations of the whole, counts less for it. */
  private static void weigh(Mat heights, Mat plane, Mat weights) {
    int n = heights.rows() * heights.cols();
    float[] h = new float[n];
    heights.get(0, 0, h);
    float[] p = new float[n];
    plane.get(0, 0, p);
    float[] away = new float[n];
    for (int i = 0; i < n; i++) {
      h[i] -= p[i];
      away[i] = Math.abs(h[i]);
    }
    Arrays.sort(away);
    double spread = Math.max(1e-6, 1.4826 * away[n / 2]);
    for (int i = 0; i < n; i++) {
      double t = h[i] / spread;
      h[i] = (float) (1 / (1 + t * t));
    }
    weights.put(0, 0, h);
  }
}
