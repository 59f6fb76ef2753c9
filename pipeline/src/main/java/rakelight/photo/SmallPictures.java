package rakelight.photo;

import rakelight.archive.BadInputException;

/** Decodes pictures small and grey, as fast as may be. */
@FunctionalInterface
public interface SmallPictures {
  /**
   * A grey picture.
   *
   * @param pixels row by row from the top, 0 black to 255 white
   */
  record Grey(int widthPx, int heightPx, byte[] pixels) {}

  /**
   * A picture as small as is quickly had.
   *
   * @param file the bytes of the file
   * @param longSidePx the longest side it keeps at least, if it has it
   * @throws BadInputException if it can't be decoded
   */
  Grey of(byte[] file, int longSidePx) throws BadInputException;
}
