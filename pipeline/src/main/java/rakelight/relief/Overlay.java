package rakelight.relief;

import java.util.List;
import org.opencv.core.Mat;
import org.opencv.core.MatOfByte;
import org.opencv.core.MatOfInt;
import org.opencv.core.MatOfPoint;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/** Draws outlines into a photograph, for a person who reads beside it. */
public final class Overlay {
  /** Longest side of the drawing: enough to read by, small enough to open quickly. */
  private static final int LONGEST_SIDE_PX = 2400;

  private static final int JPEG_QUALITY = 88;

  // OpenCV's order: blue, green, red. Light enough for slate, dark enough for marble.
  private static final Scalar LINE = new Scalar(40, 140, 255);
  private static final Scalar SURE = new Scalar(150, 170, 60);
  private static final Scalar DOUBTFUL = new Scalar(60, 60, 240);
  private static final Scalar FACE = new Scalar(120, 200, 120);

  private Overlay() {}

  /**
   * One line to draw.
   *
   * @param number written at its left end
   * @param letters drawn fine
   */
  public record Line(int number, Polygon outline, List<Letter> letters) {
    public Line {
      letters = List.copyOf(letters);
    }
  }

  /** One letter to draw, and whether it is sure or doubtful: each has its colour. */
  public record Letter(Polygon outline, boolean sure) {}

  /** The photograph with the outlines drawn in, as JPEG; outlines are in its pixels. */
  public static byte[] jpeg(GrayImage photograph, Polygon face, List<Line> lines) {
    double scale =
        Math.min(
            1, (double) LONGEST_SIDE_PX / Math.max(photograph.widthPx(), photograph.heightPx()));
    try (NativeScope scope = new NativeScope()) {
      Mat drawing = scope.mat();
      Imgproc.cvtColor(photograph.in(scope), drawing, Imgproc.COLOR_GRAY2BGR);
      if (scale < 1) {
        Imgproc.resize(drawing, drawing, new Size(), scale, scale, Imgproc.INTER_AREA);
      }
      int stroke = Math.max(1, drawing.cols() / 700);
      draw(drawing, face, scale, FACE, stroke, scope);
      for (Line line : lines) {
        for (Letter letter : line.letters()) {
          draw(drawing, letter.outline(), scale, letter.sure() ? SURE : DOUBTFUL, 1, scope);
        }
        draw(drawing, line.outline(), scale, LINE, stroke, scope);
        Point corner = line.outline().points().get(0);
        double size = drawing.cols() / 1400.0;
        Imgproc.putText(
            drawing,
            Integer.toString(line.number()),
            new org.opencv.core.Point(
                Math.max(2, corner.x() * scale - 34 * size), corner.y() * scale + 20 * size),
            Imgproc.FONT_HERSHEY_SIMPLEX,
            Math.max(0.4, size),
            LINE,
            stroke,
            Imgproc.LINE_AA);
      }
      MatOfByte bytes = scope.own(new MatOfByte());
      MatOfInt quality = scope.own(new MatOfInt(Imgcodecs.IMWRITE_JPEG_QUALITY, JPEG_QUALITY));
      Imgcodecs.imencode(".jpg", drawing, bytes, quality);
      return bytes.toArray();
    }
  }

  private static void draw(
      Mat drawing, Polygon outline, double scale, Scalar colour, int stroke, NativeScope scope) {
    MatOfPoint points =
        scope.own(
            new MatOfPoint(
                outline.points().stream()
                    .map(p -> new org.opencv.core.Point(p.x() * scale, p.y() * scale))
                    .toArray(org.opencv.core.Point[]::new)));
    Imgproc.polylines(drawing, List.of(points), true, colour, stroke, Imgproc.LINE_AA);
  }
}
