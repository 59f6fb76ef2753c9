package rakelight.samples;

import java.awt.geom.Point2D;
import java.util.List;

/**
 * A photograph and what is truly on it.
 *
 * @param jpeg the file, with EXIF
 * @param lines the lines of the face in order
 * @param faceToImage homography from face millimetres (top left corner, y down) to upright pixels,
 *     row by row
 */
public record RenderedPhotograph(
    byte[] jpeg, int widthPx, int heightPx, List<Line> lines, double[] faceToImage) {
  /** How well a line can be read on this photograph. */
  public enum Legibility {
    LEGIBLE,
    WORN,
    POOR
  }

  /**
   * @param asCut the letters as cut
   * @param leiden what a careful reader could write, in Leiden signs: a dot below an unclear
   *     letter, + for an illegible one, [...] for lost ones, (vac. n) for space left uncut
   * @param polygon outline of the ink in upright full-size pixels, clockwise from the top left
   */
  public record Line(
      int number,
      String asCut,
      String leiden,
      Legibility legibility,
      List<Point2D> polygon,
      List<Letter> letters) {
    public Line {
      polygon = List.copyOf(polygon);
      letters = List.copyOf(letters);
    }
  }

  /** One letter with its standing and the four corners of its cell in upright pixels. */
  public record Letter(char letter, StoneStanding standing, List<Point2D> corners) {
    public Letter {
      corners = List.copyOf(corners);
    }
  }

  public RenderedPhotograph {
    lines = List.copyOf(lines);
  }
}
