package rakelight.relief;

import java.util.List;
import java.util.Optional;
import org.opencv.core.Core;
import org.opencv.core.Mat;
import org.opencv.core.MatOfPoint2f;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativeScope;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * The inscribed face as seen from straight in front.
 *
 * @param image the face, grey
 * @param toPhotograph from its pixels to upright full-size pixels of the photograph
 */
public record SquaredFace(GrayImage image, Homography toPhotograph) {
  /** Longest side of a squared face; letters of a page-long epitaph still stand 25 px high. */
  public static final int LONGEST_SIDE_PX = 2000;

  /**
   * How large a squared face becomes, and where it lies on the photograph.
   *
   * @param scale of its pixels against the photograph's, at most 1
   * @param toPhotograph from its pixels to those of the photograph
   */
  public record Shape(int widthPx, int heightPx, double scale, Homography toPhotograph) {
    /**
     * @param outline four corners, top left first, clockwise
     * @param proportion width by height as seen from in front; where it isn't known, that of the
     *     outline's mean sides
     */
    public static Shape of(Polygon outline, Optional<Double> proportion) {
      List<Point> corners = outline.points();
      if (corners.size() != 4) {
        throw new IllegalArgumentException("A face has four corners, not " + corners.size());
      }
      double width =
          (corners.get(0).distance(corners.get(1)) + corners.get(3).distance(corners.get(2))) / 2;
      double height =
          (corners.get(0).distance(corners.get(3)) + corners.get(1).distance(corners.get(2))) / 2;
      double size = Math.sqrt(width * height);
      double wide = Math.sqrt(proportion.orElse(width / height));
      width = size * wide;
      height = size / wide;
      double scale = Math.min(1, LONGEST_SIDE_PX / Math.max(width, height));
      int widthPx = (int) Math.max(16, Math.round(width * scale));
      int heightPx = (int) Math.max(16, Math.round(height * scale));
      return new Shape(
          widthPx, heightPx, scale, Homography.ofRectangle(widthPx, heightPx, corners));
    }
  }

  /**
   * Squares the quadrilateral: its corners become those of a rectangle, never larger than it is on
   * the photograph.
   *
   * @param outline four corners, top left first, clockwise
   * @param proportion width by height as seen from in front; where it isn't known, that of the
   *     outline's mean sides
   */
  public static SquaredFace of(GrayImage photograph, Polygon outline, Optional<Double> proportion) {
    Shape shape = Shape.of(outline, proportion);
    double scale = shape.scale();
    int squareWidth = shape.widthPx();
    int squareHeight = shape.heightPx();
    List<Point> corners = outline.points();
    try (NativeScope scope = new NativeScope()) {
      Mat whole = photograph.in(scope);
      // Reduce first where much is lost in size: warping alone would pick single pixels.
      double reduce = scale < 0.75 ? scale : 1;
      Mat source = whole;
      if (reduce < 1) {
        source = scope.mat();
        Imgproc.resize(whole, source, new Size(), reduce, reduce, Imgproc.INTER_AREA);
      }
      MatOfPoint2f from =
          scope.own(
              new MatOfPoint2f(
                  corners.stream()
                      .map(p -> new org.opencv.core.Point(p.x() * reduce, p.y() * reduce))
                      .toArray(org.opencv.core.Point[]::new)));
      MatOfPoint2f to =
          scope.own(
              new MatOfPoint2f(
                  new org.opencv.core.Point(0, 0),
                  new org.opencv.core.Point(squareWidth, 0),
                  new org.opencv.core.Point(squareWidth, squareHeight),
                  new org.opencv.core.Point(0, squareHeight)));
      Mat forward = scope.own(Imgproc.getPerspectiveTransform(from, to));
      Mat squared = scope.mat();
      Imgproc.warpPerspective(
          source,
          squared,
          forward,
          new Size(squareWidth, squareHeight),
          Imgproc.INTER_LINEAR,
          Core.BORDER_REPLICATE);
      return new SquaredFace(GrayImage.of(squared), shape.toPhotograph());
    }
  }
}
