package rakelight.finding;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Rect;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * Cuts lines out of a picture as straight level strips, following their ribbons round arches. A
 * strip's columns are even steps along the line's middle on the photograph it was found on; on
 * other pictures of the stone the same places are cut (see {@link LaidLine}).
 *
 * <p>How tall a strip is against its letters matters more than anything else a recogniser is given:
 * about 1.7 times the height of capitals is best; at 2.6 times the errors on hard lines double.
 */
public final class LineStrip {
  /** Ends of a strip lie this many letter heights beyond the found ends. */
  private static final double END_MARGIN_HEIGHTS = 0.5;

  /**
   * No strip is wider: letters of what a finder takes for a line longer than this are squeezed. A
   * line of a hundred letters is less than half as wide.
   */
  private static final int MOST_WIDTH_PX = 8000;

  /** The widest grid of points that OpenCV takes. */
  private static final int MOST_POINTS_ACROSS = Short.MAX_VALUE - 1;

  private LineStrip() {}

  /**
   * Cuts one strip per line.
   *
   * @param picture borrowed
   * @param lines found on this picture, or on one that it lies over
   * @param heightPx the height of every strip
   * @param capHeights how many times the height of a capital a strip covers, usually 1.7
   */
  public static List<GrayImage> cut(
      GrayImage picture, List<LaidLine> lines, int heightPx, double capHeights) {
    List<GrayImage> strips = new ArrayList<>();
    if (lines.isEmpty()) {
      return strips;
    }
    try (NativeScope scope = new NativeScope()) {
      Mat whole = picture.in(scope);
      for (LaidLine line : lines) {
        int widthPx = widthPx(line.line(), heightPx, capHeights);
        strips.add(cut(whole, line, widthPx, heightPx, capHeights));
      }
    }
    return strips;
  }

  /**
   * Cuts one strip of a given size. Strips of one line and one size lie over each other, from
   * whatever picture they are cut.
   *
   * @param picture borrowed
   */
  public static GrayImage cut(
      GrayImage picture, LaidLine line, int widthPx, int heightPx, double capHeights) {
    try (NativeScope scope = new NativeScope()) {
      return cut(picture.in(scope), line, widthPx, heightPx, capHeights);
    }
  }

  /** How long a strip of the line is, in heights of capitals. */
  public static double capitals(FoundLine line) {
    return Math.max(1, new Spine(line).lengthPx() / line.heightPx());
  }

  /** How wide a strip of the line is at this height. */
  public static int widthPx(FoundLine line, int heightPx, double capHeights) {
    Spine spine = new Spine(line);
    double wholePx = capHeights * line.heightPx();
    long width = Math.round(spine.lengthPx() * heightPx / wholePx);
    return (int) Math.min(MOST_WIDTH_PX, Math.max(heightPx / 2, width));
  }

  /**
   * Cuts at twice the size or more, then takes means, so that fine grain doesn't turn into noise.
   * Where the picture is finer than that it is reduced first, by what the line's middle asks; where
   * some part of the line is nearer to the camera, points are taken closer.
   */
  private static GrayImage cut(
      Mat whole, LaidLine line, int width, int heightPx, double capHeights) {
    try (NativeScope scope = new NativeScope()) {
      Spine spine = new Spine(line.line());
      double shrink = Math.min(1, 2 * heightPx / (capHeights * line.heightPx()));
      if (shrink >= 0.75) {
        shrink = 1;
      }
      Grid grid = Grid.of(spine, line, width, heightPx, capHeights, 2, 2);
      int finerAcross =
          Math.min(grid.finer(grid.stepAcross() * shrink), MOST_POINTS_ACROSS / (2 * width));
      int finerDown = grid.finer(grid.stepDown() * shrink);
      if (finerAcross > 1 || finerDown > 1) {
        grid = Grid.of(spine, line, width, heightPx, capHeights, 2 * finerAcross, 2 * finerDown);
      }
      float[] xs = grid.xs();
      float[] ys = grid.ys();
      Rect window = window(xs, ys, whole.cols(), whole.rows());
      Mat part = scope.own(whole.submat(window));
      Mat source = part;
      if (shrink < 1) {
        source = scope.mat();
        Imgproc.resize(
            part,
            source,
            new Size(
                Math.max(1, Math.round(part.cols() * shrink)),
                Math.max(1, Math.round(part.rows() * shrink))),
            0,
            0,
            Imgproc.INTER_AREA);
      }
      double scaleX = (double) source.cols() / part.cols();
      double scaleY = (double) source.rows() / part.rows();
      for (int i = 0; i < xs.length; i++) {
        xs[i] = (float) ((xs[i] - window.x) * scaleX - 0.5);
        ys[i] = (float) ((ys[i] - window.y) * scaleY - 0.5);
      }
      Mat mapX = scope.own(new Mat(grid.height(), grid.width(), CvType.CV_32FC1));
      Mat mapY = scope.own(new Mat(grid.height(), grid.width(), CvType.CV_32FC1));
      mapX.put(0, 0, xs);
      mapY.put(0, 0, ys);
      Mat fine = scope.mat();
      Imgproc.remap(
          source, fine, mapX, mapY, Imgproc.INTER_LINEAR, org.opencv.core.Core.BORDER_REPLICATE);
      Mat strip = scope.mat();
      Imgproc.resize(fine, strip, new Size(width, heightPx), 0, 0, Imgproc.INTER_AREA);
      return GrayImage.of(strip);
    }
  }

  /** Where the points of a strip lie on the picture, row by row. */
  private record Grid(int width, int height, float[] xs, float[] ys) {
    /** Points further apart than this many pixels would miss some; so far apart two may be. */
    private static final double LARGEST_STEP_PX = 1.5;

    private static final int MOST_TIMES_FINER = 8;

    static Grid of(
        Spine spine,
        LaidLine line,
        int stripWidth,
        int stripHeight,
        double capHeights,
        int across,
        int down) {
      int width = across * stripWidth;
      int height = down * stripHeight;
      float[] xs = new float[width * height];
      float[] ys = new float[width * height];
      double[] at = new double[4];
      for (int x = 0; x < width; x++) {
        spine.at(spine.lengthPx() * (x + 0.5) / width, at);
        for (int y = 0; y < height; y++) {
          double part = capHeights * (2 * (y + 0.5) / height - 1);
          Point p = line.there(at[0] + at[2] * part, at[1] + at[3] * part);
          xs[y * width + x] = (float) p.x();
          ys[y * width + x] = (float) p.y();
        }
      }
      return new Grid(width, height, xs, ys);
    }

    /** The longest way from a point to the next of its row, in pixels of the picture. */
    double stepAcross() {
      return longest(1, width - 1, height);
    }

    /** The longest way from a point to the one below it. */
    double stepDown() {
      return longest(width, width, height - 1);
    }

    private double longest(int step, int columns, int rows) {
      double longest = 0;
      for (int y = 0; y < rows; y++) {
        for (int x = 0; x < columns; x++) {
          int i = y * width + x;
          longest = Math.max(longest, Math.hypot(xs[i + step] - xs[i], ys[i + step] - ys[i]));
        }
      }
      return longest;
    }

    int finer(double stepPx) {
      return (int) Math.max(1, Math.min(MOST_TIMES_FINER, Math.ceil(stepPx / LARGEST_STEP_PX)));
    }
  }

  /** The part of the picture that a strip's points need, and a little more. */
  private static Rect window(float[] xs, float[] ys, int width, int height) {
    float left = Float.MAX_VALUE;
    float top = Float.MAX_VALUE;
    float right = -Float.MAX_VALUE;
    float bottom = -Float.MAX_VALUE;
    for (int i = 0; i < xs.length; i++) {
      left = Math.min(left, xs[i]);
      right = Math.max(right, xs[i]);
      top = Math.min(top, ys[i]);
      bottom = Math.max(bottom, ys[i]);
    }
    int x0 = Math.max(0, Math.min(width - 1, (int) left - 2));
    int y0 = Math.max(0, Math.min(height - 1, (int) top - 2));
    int x1 = Math.max(x0 + 1, Math.min(width, (int) right + 3));
    int y1 = Math.max(y0 + 1, Math.min(height, (int) bottom + 3));
    return new Rect(x0, y0, x1 - x0, y1 - y0);
  }

  /**
   * Where on the picture part of a line lies, for drawing a letter's box.
   *
   * @param from beginning, 0 (the strip's left end) to 1 (its right end)
   * @param to end, 0 to 1
   */
  public static Polygon boxOf(FoundLine line, double from, double to) {
    Spine spine = new Spine(line);
    double[] a = new double[4];
    double[] b = new double[4];
    spine.at(from * spine.lengthPx(), a);
    spine.at(to * spine.lengthPx(), b);
    return new Polygon(
        List.of(
            new Point(a[0] - a[2], a[1] - a[3]),
            new Point(b[0] - b[2], b[1] - b[3]),
            new Point(b[0] + b[2], b[1] + b[3]),
            new Point(a[0] + a[2], a[1] + a[3])));
  }

  /**
   * The column of a line's strip that shows a place, or the nearest to it.
   *
   * @param place on the photograph that the line was found on
   * @return 0 (the left end) to 1 (the right end)
   */
  public static double columnOf(FoundLine line, Point place) {
    return new Spine(line).nearest(place);
  }

  /**
   * The same along the line's curve: a point at each end and at each bend between.
   *
   * @param from beginning, 0 to 1
   * @param to end, 0 to 1
   */
  public static Polygon ribbonOf(FoundLine line, double from, double to) {
    Spine spine = new Spine(line);
    List<Point> top = new ArrayList<>();
    List<Point> foot = new ArrayList<>();
    double[] at = new double[4];
    for (double reached : spine.bends(from * spine.lengthPx(), to * spine.lengthPx())) {
      spine.at(reached, at);
      top.add(new Point(at[0] - at[2], at[1] - at[3]));
      foot.add(0, new Point(at[0] + at[2], at[1] + at[3]));
    }
    top.addAll(foot);
    return new Polygon(top);
  }

  /** The middle of a line with the way down half its letters, by length from the left end. */
  private static final class Spine {
    private final List<Point> middle;
    private final List<Point> down = new ArrayList<>();
    private final double[] reached;

    Spine(FoundLine line) {
      double marginPx = END_MARGIN_HEIGHTS * line.heightPx();
      List<Point> points = new ArrayList<>(line.middle());
      List<Point> top = line.top();
      List<Point> foot = line.foot();
      int last = points.size() - 1;
      // As tall across the line, on average, as its capitals are.
      double across = 0;
      for (int i = 0; i <= last; i++) {
        across +=
            across(
                    points.get(Math.max(0, i - 1)),
                    points.get(Math.min(last, i + 1)),
                    top.get(i),
                    foot.get(i))
                / (last + 1);
      }
      double scale = line.heightPx() / Math.max(1e-6, across) / 2;
      for (int i = 0; i <= last; i++) {
        down.add(
            new Point(
                (foot.get(i).x() - top.get(i).x()) * scale,
                (foot.get(i).y() - top.get(i).y()) * scale));
      }
      Point first = points.get(0);
      Point end = points.get(last);
      points.set(0, beyond(points.get(1), first, marginPx));
      points.set(last, beyond(points.get(last - 1), end, marginPx));
      middle = List.copyOf(points);
      reached = new double[middle.size()];
      for (int i = 1; i < reached.length; i++) {
        reached[i] = reached[i - 1] + middle.get(i - 1).distance(middle.get(i));
      }
    }

    /** How far it is from top to foot across the way from one point to another. */
    private static double across(Point from, Point to, Point top, Point foot) {
      double cross =
          (to.x() - from.x()) * (foot.y() - top.y()) - (to.y() - from.y()) * (foot.x() - top.x());
      return Math.abs(cross) / Math.max(1e-6, from.distance(to));
    }

    private static Point beyond(Point from, Point to, double byPx) {
      double length = Math.max(1e-6, from.distance(to));
      return from.towards(to, 1 + byPx / length);
    }

    double lengthPx() {
      return reached[reached.length - 1];
    }

    /** Where the middle comes nearest to a place, as a part of its length. */
    double nearest(Point place) {
      double least = Double.MAX_VALUE;
      double at = 0;
      for (int i = 1; i < reached.length; i++) {
        Point a = middle.get(i - 1);
        Point b = middle.get(i);
        double length = Math.max(1e-6, a.distance(b));
        double along =
            ((place.x() - a.x()) * (b.x() - a.x()) + (place.y() - a.y()) * (b.y() - a.y()))
                / (length * length);
        double part = Math.max(0, Math.min(1, along));
        double distance = a.towards(b, part).distance(place);
        if (distance < least) {
          least = distance;
          at = reached[i - 1] + part * length;
        }
      }
      return at / Math.max(1e-6, lengthPx());
    }

    /** Where a stretch begins, where it bends and where it ends. */
    double[] bends(double fromPx, double toPx) {
      return DoubleStream.concat(
              DoubleStream.of(fromPx, toPx),
              DoubleStream.of(reached).filter(bend -> bend > fromPx && bend < toPx))
          .sorted()
          .toArray();
    }

    /** Fills x, y of the middle and x, y of the way from there to the letters' foot. */
    void at(double lengthPx, double[] xyDown) {
      int i = 1;
      while (i < reached.length - 1 && reached[i] < lengthPx) {
        i++;
      }
      double part = (lengthPx - reached[i - 1]) / Math.max(1e-6, reached[i] - reached[i - 1]);
      Point p = middle.get(i - 1).towards(middle.get(i), part);
      Point d = down.get(i - 1).towards(down.get(i), part);
      xyDown[0] = p.x();
      xyDown[1] = p.y();
      xyDown[2] = d.x();
      xyDown[3] = d.y();
    }
  }
}
