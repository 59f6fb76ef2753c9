package rakelight.photo;

import rakelight.archive.ArchiveException;

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

  /**
   * The frame about a place, with some room around, cut at the photograph's edges.
   *
   * @param room so many times the larger side is left on each side
   * @throws ArchiveException if nothing of it is on the photograph
   */
  static Frame about(
      double left, double top, double right, double bottom, double room, Photograph photograph) {
    double rim = room * Math.max(right - left, bottom - top);
    int fromX = (int) Math.max(0, Math.floor(left - rim));
    int fromY = (int) Math.max(0, Math.floor(top - rim));
    int toX = (int) Math.min(photograph.uprightWidthPx(), Math.ceil(right + rim));
    int toY = (int) Math.min(photograph.uprightHeightPx(), Math.ceil(bottom + rim));
    if (toX <= fromX || toY <= fromY) {
      throw new ArchiveException(
          photograph.originalName() + ": that place isn't on the photograph.");
    }
    return new Frame(fromX, fromY, toX - fromX, toY - fromY);
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
