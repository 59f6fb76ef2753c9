package rakelight.finding;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
  /**
   * Length of the long side as the network sees it; trained with 640 to 1024, other lengths not
   * tried.
   */
  private static final int LONG_SIDE_PX = 1280;

  /** Small pictures are enlarged at most this much. */
  private static final double LARGEST_ENLARGEMENT = 2;

  private static final int MULTIPLE_PX = 32;

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
      List<Point> corners = MapAreas.faceCorners(maps, LineDecoder.turn(decoded));
      Optional<Polygon> face =
          corners.isEmpty()
              ? Optional.empty()
              : Optional.of(
                  new Polygon(corners).map(p -> new Point(p.x() * toFullX, p.y() * toFullY)));
      // Four corners of a round-topped stone may cut its lines: then the block of text is the face.
      Polygon outline =
          face.filter(quadrilateral -> holds(quadrilateral, lines))
              .orElseGet(() -> FaceOutline.of(whole, lines));
      List<Polygon> emblems =
          MapAreas.emblems(maps).stream()
              .map(area -> area.map(p -> new Point(p.x() * toFullX, p.y() * toFullY)))
              .toList();
      return new Found(outline, lines, emblems);
    }
  }

  private static boolean holds(Polygon outline, List<FoundLine> lines) {
    return lines.stream()
        .flatMap(line -> line.ribbon().points().stream())
        .allMatch(outline::contains);
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

  @Override
  public void close() {
    network.close();
  }
}
