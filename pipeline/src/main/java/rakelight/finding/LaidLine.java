package rakelight.finding;

import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * A line and how its own photograph lies over another picture of the same stone. The line keeps its
 * one curve: what is cut out there is reckoned here and carried over point by point, so that a
 * column of its strip is the same place on the stone whichever picture the strip is cut from.
 *
 * @param line in pixels of the photograph it was found on
 * @param toPicture from there to the other picture
 */
public record LaidLine(FoundLine line, Homography toPicture) {
  /** A line on the photograph it was found on. */
  public static LaidLine own(FoundLine line) {
    return new LaidLine(line, Homography.identity());
  }

  /** The same line on a picture that lies so over this one. */
  public LaidLine then(Homography next) {
    return new LaidLine(line, toPicture.then(next));
  }

  /** Its ribbon on the picture. */
  public Polygon ribbon() {
    return line.ribbon().map(toPicture::map);
  }

  /** The height of its capitals on the picture, on average, in pixels. */
  public double heightPx() {
    return line.heightPx() * Math.sqrt(ribbon().area() / Math.max(1e-6, line.ribbon().area()));
  }

  Point there(double x, double y) {
    return toPicture.map(new Point(x, y));
  }
}
