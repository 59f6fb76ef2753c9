package rakelight.photo;

/**
 * A part of a photograph, in upright full-size pixels.
 *
 * @param left of its left edge, 0 or more
 * @param top of its upper edge, 0 or more
 * @param widthPx at least 1
 * @param heightPx at least 1
 */
public record Frame(int left, int top, int widthPx, int heightPx) {
  public Frame {
    if (left < 0 || top < 0 || widthPx < 1 || heightPx < 1) {
      throw new IllegalArgumentException(
          "a part of a photograph has a place and a size: "
              + left
              + ","
              + top
              + " "
              + widthPx
              + "x"
              + heightPx);
    }
  }

  /** Its place and size, as commands take it: left, top, width, height. */
  public String inWords() {
    return left + "," + top + "," + widthPx + "," + heightPx;
  }

  /** Whether a point lies in it. */
  public boolean contains(double x, double y) {
    return x >= left && x < left + widthPx && y >= top && y < top + heightPx;
  }

  double middleX() {
    return left + widthPx / 2.0;
  }

  double middleY() {
    return top + heightPx / 2.0;
  }
}
