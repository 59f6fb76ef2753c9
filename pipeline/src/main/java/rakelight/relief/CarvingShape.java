package rakelight.relief;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Natives;

/**
 * The lines of a carving by their direction, whichever way they are lit: for each of eight
 * directions how strong edges are at each place of a grid, against the edges thereabouts. Edges of
 * all lights are added up, since each light shows those across it.
 *
 * <p>What counts is direction and place of edges; neither colour, tone nor which flank of a cut is
 * the bright one.
 */
public final class CarvingShape {
  static final int BINS = 8;

  /** Cells of the grid along a side. */
  static final int SIDE = 64;

  /** The side of the square around a carving, in the longest side of its outline. */
  public static final double ROOM = 1.45;

  private static final int PX_A_CELL = 4;

  /** The square around a carving is looked at on a picture of this size. */
  public static final int PICTURE_PX = PX_A_CELL * SIDE;

  static final int PLACES = SIDE * SIDE;

  /** All in cells; tried on rendered carvings: 0.15 to 2, 4 to 20, 0.6 to 2. */
  private static final double GRAIN = 0.3;

  private static final double AROUND = 8;
  private static final double SOFT = 1;

  /** Of the mean edge: what counts as no edge where all is smooth. Tried: 0.05 to 2. */
  private static final double FAINT = 0.3;

  /** Beyond the outline edges count less and less, in cells. */
  private static final double FADES = 3;

  private static final double OUTLINE_ROOM = 1.05;

  /** Edges as found, direction by direction: what all poses are made of. */
  private final float[] found;

  private final float[] cells;
  private final double widthShare;
  private final double heightShare;

  private CarvingShape(float[] found, double widthShare, double heightShare, Pose pose) {
    this.found = found;
    this.widthShare = widthShare;
    this.heightShare = heightShare;
    this.cells = found.clone();
    double[] weights = weights(widthShare, heightShare, pose);
    for (int b = 0; b < BINS; b++) {
      weigh(cells, b * PLACES, weights);
    }
    toLengthOne(cells);
  }

  /**
   * How a carving is turned about the middle of its square before it is looked at.
   *
   * @param turnDegrees anticlockwise as seen
   */
  record Pose(double turnDegrees, double scale, boolean mirrored) {
    static final Pose AS_IT_IS = new Pose(0, 1, false);
  }

  /**
   * @param lights pictures of the square around the carving under one light or several, {@value
   *     #PICTURE_PX} pixels wide and high, lying over each other
   * @param widthShare the outline's width in the square's side
   * @param heightShare likewise
   */
  static CarvingShape of(List<GrayImage> lights, double widthShare, double heightShare) {
    Natives.openCv();
    try (NativeScope scope = new NativeScope()) {
      Mat[] bins = new Mat[BINS];
      for (int b = 0; b < BINS; b++) {
        bins[b] = scope.own(Mat.zeros(PICTURE_PX, PICTURE_PX, CvType.CV_32F));
      }
      Mat all = scope.own(Mat.zeros(PICTURE_PX, PICTURE_PX, CvType.CV_32F));
      for (GrayImage light : lights) {
        addEdges(light, bins, all);
      }
      double mean = Core.mean(all).val[0];
      Mat around = scope.mat();
      Imgproc.GaussianBlur(all, around, new Size(), PX_A_CELL * AROUND);
      Core.add(around, Scalar.all(FAINT * mean + 1e-3), around);
      float[] found = new float[BINS * PLACES];
      float[] one = new float[PLACES];
      Mat small = scope.mat();
      for (int b = 0; b < BINS; b++) {
        Core.divide(bins[b], around, bins[b]);
        Imgproc.GaussianBlur(bins[b], bins[b], new Size(), PX_A_CELL * SOFT);
        Imgproc.resize(bins[b], small, new Size(SIDE, SIDE), 0, 0, Imgproc.INTER_AREA);
        small.get(0, 0, one);
        System.arraycopy(one, 0, found, b * PLACES, PLACES);
      }
      return new CarvingShape(found, widthShare, heightShare, Pose.AS_IT_IS);
    }
  }

  /** The same turned, scaled and mirrored. */
  CarvingShape posed(Pose pose) {
    float[] posed = new float[found.length];
    float[] one = new float[PLACES];
    double shift = -pose.turnDegrees() / 180 * BINS;
    try (NativeScope scope = new NativeScope()) {
      double centre = (SIDE - 1) / 2.0;
      Mat warp =
          scope.own(
              Imgproc.getRotationMatrix2D(
                  new org.opencv.core.Point(centre, centre), pose.turnDegrees(), pose.scale()));
      Mat plane = scope.own(new Mat(SIDE, SIDE, CvType.CV_32F));
      Mat turned = scope.mat();
      for (int b = 0; b < BINS; b++) {
        plane.put(0, 0, direction(b - shift, pose.mirrored()));
        if (pose.mirrored()) {
          Core.flip(plane, plane, 1);
        }
        Imgproc.warpAffine(
            plane, turned, warp, plane.size(), Imgproc.INTER_LINEAR, Core.BORDER_REPLICATE);
        turned.get(0, 0, one);
        System.arraycopy(one, 0, posed, b * PLACES, PLACES);
      }
    }
    return new CarvingShape(posed, widthShare, heightShare, pose);
  }

  /** Edges of a direction between two that are kept; a mirror turns them the other way. */
  private float[] direction(double at, boolean mirrored) {
    double asFound = mirrored ? -at : at;
    int lower = (int) Math.floor(asFound);
    float part = (float) (asFound - lower);
    int a = Math.floorMod(lower, BINS) * PLACES;
    int b = Math.floorMod(lower + 1, BINS) * PLACES;
    float[] one = new float[PLACES];
    for (int i = 0; i < PLACES; i++) {
      one[i] = found[a + i] * (1 - part) + found[b + i] * part;
    }
    return one;
  }

  /** Edges of one light by their direction, up to half a turn. */
  private static void addEdges(GrayImage light, Mat[] bins, Mat all) {
    try (NativeScope scope = new NativeScope()) {
      Mat picture = scope.mat();
      light.in(scope).convertTo(picture, CvType.CV_32F);
      Imgproc.GaussianBlur(picture, picture, new Size(), PX_A_CELL * GRAIN);
      Mat dx = scope.mat();
      Mat dy = scope.mat();
      Imgproc.Scharr(picture, dx, CvType.CV_32F, 1, 0);
      Imgproc.Scharr(picture, dy, CvType.CV_32F, 0, 1);
      int n = PICTURE_PX * PICTURE_PX;
      float[] gx = new float[n];
      float[] gy = new float[n];
      dx.get(0, 0, gx);
      dy.get(0, 0, gy);
      float[][] binned = new float[BINS][n];
      for (int i = 0; i < n; i++) {
        double strength = Math.sqrt(gx[i] * gx[i] + gy[i] * gy[i]);
        double at = Math.atan2(gy[i], gx[i]) / Math.PI * BINS + BINS;
        int lower = (int) at;
        double part = at - lower;
        binned[lower % BINS][i] += (float) (strength * (1 - part));
        binned[(lower + 1) % BINS][i] += (float) (strength * part);
      }
      Mat one = scope.own(new Mat(PICTURE_PX, PICTURE_PX, CvType.CV_32F));
      for (int b = 0; b < BINS; b++) {
        one.put(0, 0, binned[b]);
        Core.add(bins[b], one, bins[b]);
      }
      Core.magnitude(dx, dy, one);
      Core.add(all, one, all);
    }
  }

  /** 1 within the turned outline, less and less beyond. */
  private static double[] weights(double widthShare, double heightShare, Pose pose) {
    double w = widthShare * pose.scale() * SIDE / 2 * OUTLINE_ROOM;
    double h = heightShare * pose.scale() * SIDE / 2 * OUTLINE_ROOM;
    double cos = Math.cos(Math.toRadians(pose.turnDegrees()));
    double sin = Math.sin(Math.toRadians(pose.turnDegrees()));
    double[] weights = new double[PLACES];
    for (int y = 0; y < SIDE; y++) {
      for (int x = 0; x < SIDE; x++) {
        double px = x - (SIDE - 1) / 2.0;
        double py = y - (SIDE - 1) / 2.0;
        double beyond =
            Math.max(Math.abs(cos * px - sin * py) - w, Math.abs(sin * px + cos * py) - h);
        weights[y * SIDE + x] = Math.max(0, Math.min(1, 1 - beyond / FADES));
      }
    }
    return weights;
  }

  /** Roots keep a few strong edges from deciding alone; what is everywhere says nothing. */
  private static void weigh(float[] cells, int from, double[] weights) {
    double sum = 0;
    double total = 0;
    for (int i = 0; i < PLACES; i++) {
      cells[from + i] = (float) Math.sqrt(Math.max(0, cells[from + i]));
      sum += weights[i] * cells[from + i];
      total += weights[i];
    }
    for (int i = 0; i < PLACES; i++) {
      cells[from + i] = (float) (weights[i] * (cells[from + i] - sum / Math.max(1, total)));
    }
  }

  private static void toLengthOne(float[] cells) {
    double squares = 1e-12;
    for (float cell : cells) {
      squares += cell * cell;
    }
    float length = (float) Math.sqrt(squares);
    for (int i = 0; i < cells.length; i++) {
      cells[i] /= length;
    }
  }

  float cell(int bin, int x, int y) {
    return x < 0 || y < 0 || x >= SIDE || y >= SIDE ? 0 : cells[bin * PLACES + y * SIDE + x];
  }

  /** Fourier's transform of each direction, one after the other, real and imaginary parts. */
  float[] spectrum() {
    float[] spectrum = new float[BINS * PLACES * 2];
    float[] one = new float[2 * PLACES];
    try (NativeScope scope = new NativeScope()) {
      Mat plane = scope.own(new Mat(SIDE, SIDE, CvType.CV_32F));
      Mat complex = scope.mat();
      for (int b = 0; b < BINS; b++) {
        plane.put(0, 0, Arrays.copyOfRange(cells, b * PLACES, (b + 1) * PLACES));
        Core.dft(plane, complex, Core.DFT_COMPLEX_OUTPUT);
        complex.get(0, 0, one);
        System.arraycopy(one, 0, spectrum, b * one.length, one.length);
      }
    }
    return spectrum;
  }

  /** Big-endian numbers, direction by direction. */
  byte[] bytes() {
    ByteBuffer out = ByteBuffer.allocate(found.length * Float.BYTES);
    out.asFloatBuffer().put(found);
    return out.array();
  }

  /** Reads what {@link #bytes} wrote. */
  static CarvingShape read(byte[] bytes, double widthShare, double heightShare) {
    float[] found = new float[BINS * PLACES];
    ByteBuffer.wrap(bytes).asFloatBuffer().get(found);
    return new CarvingShape(found, widthShare, heightShare, Pose.AS_IT_IS);
  }

  /** The poses in which one is laid over others. */
  static List<Pose> poses() {
    List<Pose> poses = new ArrayList<>();
    for (double turn : new double[] {-8, -4, 0, 4, 8}) {
      for (double scale : new double[] {0.86, 0.93, 1, 1.075, 1.16}) {
        poses.add(new Pose(turn, scale, false));
      }
    }
    for (double scale : new double[] {0.9, 1, 1.1}) {
      poses.add(new Pose(0, scale, true));
    }
    return poses;
  }
}
