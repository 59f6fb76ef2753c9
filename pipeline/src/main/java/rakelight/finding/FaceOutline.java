package rakelight.finding;

import java.util.ArrayList;
import java.util.List;

/** The outline of the inscribed face on a photograph, as a quadrilateral. */
final class FaceOutline {
  /** Around the lines this many letter heights of stone are taken along. */
  private static final double MARGIN_HEIGHTS = 1.5;

  private FaceOutline() {}

  /**
   * Outlines the block of text: its sides follow the slope of the lines. Without lines, the whole
   * picture.
   */
  static Polygon of(int widthPx, int heightPx, List<FoundLine> lines) {
    if (lines.isEmpty()) {
      return Polygon.rectangle(0, 0, widthPx, heightPx);
    }
    // The slope of the lines, each counted by its length.
    double alongX = 0;
    double alongY = 0;
    double height = 0;
    List<Point> corners = new ArrayList<>();
    for (FoundLine line : lines) {
      List<Point> middle = line.middle();
      Point first = middle.get(0);
      Point last = middle.get(middle.size() - 1);
      alongX += last.x() - first.x();
      alongY += last.y() - first.y();
      height = Math.max(height, line.heightPx());
      corners.addAll(line.ribbon().points());
    }
    double length = Math.max(1e-6, Math.hypot(alongX, alongY));
    double cos = alongX / length;
    double sin = alongY / length;
    double margin = MARGIN_HEIGHTS * height;
    double left = Double.MAX_VALUE;
    double right = -Double.MAX_VALUE;
    double top = Double.MAX_VALUE;
    double bottom = -Double.MAX_VALUE;
    for (Point p : corners) {
      double u = p.x() * cos + p.y() * sin;
      double v = -p.x() * sin + p.y() * cos;
      left = Math.min(left, u - margin);
      right = Math.max(right, u + margin);
      top = Math.min(top, v - margin);
      bottom = Math.max(bottom, v + margin);
    }
    return Polygon.rectangle(left, top, right, bottom)
        .map(p -> new Point(p.x() * cos - p.y() * sin, p.x() * sin + p.y() * cos))
        .map(
            p ->
                new Point(
                    Math.max(0, Math.min(widthPx, p.x())), Math.max(0, Math.min(heightPx, p.y()))));
  }
}
