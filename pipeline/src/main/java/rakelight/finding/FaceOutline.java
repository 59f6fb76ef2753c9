package rakelight.finding;

import java.util.ArrayList;
import java.util.List;
import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * The outline of the inscribed face on a photograph: what a rectangle on the stone's own plane
 * looks like from where the camera stood, its sides along the lines and the stems.
 */
final class FaceOutline {
  /** Around the lines this many letter heights of stone are taken along. */
  private static final double MARGIN_HEIGHTS = 1.5;

  private FaceOutline() {}

  /**
   * Outlines the face. Without lines, the whole picture.
   *
   * @param plane that the lines lie on
   * @param area points all about the stone's face, as far as it is known; may be empty
   */
  static Polygon of(
      int widthPx, int heightPx, FacePlane plane, List<FoundLine> lines, List<Point> area) {
    if (lines.isEmpty()) {
      return Polygon.rectangle(0, 0, widthPx, heightPx);
    }
    List<Point> ribbons = lines.stream().flatMap(line -> line.ribbon().points().stream()).toList();
    Homography toPicture = plane.toPicture(new Polygon(ribbons).centre());
    Homography toPlane = toPicture.inverse();
    List<Point> within = new ArrayList<>(area.stream().map(toPlane::map).toList());
    for (FoundLine line : lines) {
      Polygon there = line.ribbon().map(toPlane::map);
      double scale = Math.sqrt(there.area() / Math.max(1e-6, line.ribbon().area()));
      double margin = MARGIN_HEIGHTS * line.heightPx() * scale;
      within.addAll(
          Polygon.rectangle(
                  there.left() - margin,
                  there.top() - margin,
                  there.right() + margin,
                  there.bottom() + margin)
              .points());
    }
    Polygon all = new Polygon(within);
    return Polygon.rectangle(all.left(), all.top(), all.right(), all.bottom()).map(toPicture::map);
  }
}
