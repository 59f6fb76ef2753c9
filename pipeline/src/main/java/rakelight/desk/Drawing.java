package rakelight.desk;

import java.util.List;

/**
 * A stretch of a photograph with letters of a line drawn on it.
 *
 * @param picture its address
 * @param widthPx of the photograph, upright and full-size, as all that follows
 * @param viewBox left, top, width and height of the stretch, as SVG has them
 * @param says what is to be seen, for those who don't see it
 */
public record Drawing(
    String picture, int widthPx, int heightPx, String viewBox, String says, List<Shape> shapes) {
  /**
   * Letters side by side.
   *
   * @param how they are told apart: {@code sure}, {@code guessed} or {@code other}
   * @param points of the outline, as SVG has them
   */
  public record Shape(String how, String points) {}
}
