package rakelight.finding;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * Finds lines with our own network, trained on rendered stones ({@code pipeline/recogniser/finder},
 * with its model card): it marks the core of each line, its letter height and direction, the
 * inscribed face, other stones and emblems.
 *
 * <p>Lines run in reading direction whatever way the picture lies, and bend with arches. Lines of
 * stones beside the inscribed one are left out. Limits: capitals under about 6 pixels at a long
 * side of {@value #LONG_SIDE_PX} are lost, and letters with wide gaps may come as two lines.
 */
public final class CarvedLineFinder implements LineFinder {
  /** Length of the picture's long side as the network sees it; 1024 to 1600 tried. */
  private static final int LONG_SIDE_PX = 1280;

  /** Small pictures are enlarged at most this much. */
  private static final double LARGEST_ENLARGEMENT = 2;

  private static final int MULTIPLE_PX = 32;
  private static final double FACE_THRESHOLD = 0.5;

  /** A face smaller than this part of the picture isn't believed. */
  private static final double SMALLEST_FACE = 0.02;

  /** A line with more of this on another stone than on the face belongs there. */
  private static final double OTHER_THRESHOLD = 0.5;

  private final Network network = Network.ofResource("rakelight/finding/line-finder.onnx");

  @Override
  public String name() {
    return "carved-lines";
  }

  @Override
  public String digest() {
    return network.digest();
  }

  @Override
  public Found find(GrayImage upright) {
    try (NativeScope scope = new NativeScope()) {
      Mat whole = upright.in(scope);
      double scale =
          Math.min(
              LARGEST_ENLARGEMENT,
              (double) LONG_SIDE_PX / Math.max(upright.widthPx(), upright.heightPx()));
      int width = multiple(upright.widthPx() * scale);
      int height = multiple(upright.heightPx() * scale);
      Mat small = scope.mat();
      int filter = scale < 1 ? Imgproc.INTER_AREA : Imgproc.INTER_CUBIC;
      Imgproc.resize(whole, small, new Size(width, height), 0, 0, filter);
      LineMaps maps = maps(small);
      double toFullX = (double) upright.widthPx() / width;
      double toFullY = (double) upright.heightPx() / height;
      List<LineDecoder.Line> decoded = ofTheFace(LineDecoder.decode(maps));
      List<FoundLine> lines = new ArrayList<>();
      for (LineDecoder.Line line : LineDecoder.inReadingOrder(decoded)) {
        Polygon ribbon = line.ribbon().map(p -> new Point(p.x() * toFullX, p.y() * toFullY));
        double heightPx = line.heightPx() * Math.sqrt(toFullX * toFullY);
        lines.add(new FoundLine(ribbon, heightPx, Math.min(1, line.score())));
      }
      List<Point> face = faceCorners(maps, LineDecoder.turn(decoded));
      Polygon outline =
          face.isEmpty()
              ? FaceOutline.of(whole, lines)
              : new Polygon(face).map(p -> new Point(p.x() * toFullX, p.y() * toFullY));
      return new Found(outline, lines);
    }
  }

  private static int multiple(double px) {
    return (int) Math.max(MULTIPLE_PX, Math.round(px / MULTIPLE_PX) * MULTIPLE_PX);
  }

  private LineMaps maps(Mat grey) {
    int width = grey.cols();
    int height = grey.rows();
    byte[] pixels = new byte[width * height];
    grey.get(0, 0, pixels);
    float[] input = new float[pixels.length];
    for (int i = 0; i < pixels.length; i++) {
      input[i] = (pixels[i] & 0xff) / 255f;
    }
    return network.run(
        input,
        new long[] {1, 1, height, width},
        (values, shape) -> {
          float[] maps = new float[values.remaining()];
          values.get(maps);
          return new LineMaps((int) shape[3], (int) shape[2], maps);
        });
  }

  /** Without the lines of stones beside the face, unless there are no others. */
  static List<LineDecoder.Line> ofTheFace(List<LineDecoder.Line> lines) {
    List<LineDecoder.Line> kept =
        lines.stream()
            .filter(line -> line.other() < OTHER_THRESHOLD || line.other() < line.face())
            .toList();
    return kept.isEmpty() ? lines : kept;
  }

  /**
   * Corners of the largest face area, from its top left clockwise as the letters stand, in input
   * pixels; empty if none is believed.
   *
   * <p>A corner is the cell that lies farthest that way along the diagonal of the lettering, which
   * keeps the narrowing of a stone seen at an angle.
   *
   * @param right reading direction, a unit vector
   */
  static List<Point> faceCorners(LineMaps maps, Point right) {
    List<Integer> face = largestFace(maps);
    if (face.size() < SMALLEST_FACE * maps.cells()) {
      return List.of();
    }
    double[][] ways = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};
    List<Point> corners = new ArrayList<>();
    for (double[] way : ways) {
      double farthest = -Double.MAX_VALUE;
      Point corner = new Point(0, 0);
      for (int cell : face) {
        double x = maps.x(cell);
        double y = maps.y(cell);
        double u = x * right.x() + y * right.y();
        double v = -x * right.y() + y * right.x();
        double reach = way[0] * u + way[1] * v;
        if (reach > farthest) {
          farthest = reach;
          corner = new Point(x, y);
        }
      }
      corners.add(corner);
    }
    return corners;
  }

  private static List<Integer> largestFace(LineMaps maps) {
    boolean[] seen = new boolean[maps.cells()];
    List<Integer> largest = List.of();
    for (int start = 0; start < maps.cells(); start++) {
      if (seen[start] || maps.at(LineMaps.FACE, start) < FACE_THRESHOLD) {
        continue;
      }
      List<Integer> area = new ArrayList<>();
      ArrayDeque<Integer> queue = new ArrayDeque<>(List.of(start));
      seen[start] = true;
      while (!queue.isEmpty()) {
        int cell = queue.remove();
        area.add(cell);
        int x = cell % maps.columns();
        int[] beside = {
          x > 0 ? cell - 1 : -1,
          x < maps.columns() - 1 ? cell + 1 : -1,
          cell - maps.columns(),
          cell + maps.columns()
        };
        for (int next : beside) {
          if (next >= 0
              && next < maps.cells()
              && !seen[next]
              && maps.at(LineMaps.FACE, next) >= FACE_THRESHOLD) {
            seen[next] = true;
            queue.add(next);
          }
        }
      }
      if (area.size() > largest.size()) {
        largest = area;
      }
    }
    return largest;
  }

  @Override
  public void close() {
    network.close();
  }
}
