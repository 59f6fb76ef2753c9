package rakelight.publish.iiif;

import rakelight.publish.ReadFrom;

/**
 * A file that shows a photograph upright.
 *
 * @param address on the web
 * @param mediaType such as {@code image/jpeg}
 * @param widthPx of the picture in it
 * @param heightPx of the picture in it
 */
public record PictureFile(String address, String mediaType, int widthPx, int heightPx) {
  /** The file of a photograph as it came. */
  public static PictureFile original(String address, ReadFrom.Shot shot) {
    return new PictureFile(address, shot.format().mediaType(), shot.widthPx(), shot.heightPx());
  }

  /**
   * A JPEG made of it.
   *
   * @param longestPx the longest side it was allowed
   */
  public static PictureFile jpeg(String address, ReadFrom.Shot shot, int longestPx) {
    double scale =
        Math.min(1, longestPx / (double) Math.max(1, Math.max(shot.widthPx(), shot.heightPx())));
    return new PictureFile(
        address,
        "image/jpeg",
        (int) Math.max(1, Math.round(shot.widthPx() * scale)),
        (int) Math.max(1, Math.round(shot.heightPx() * scale)));
  }
}
