package rakelight.finding;

import rakelight.picture.GrayImage;

/**
 * Finds the lines of letters on a picture of a stone. Implementations hold a native session: close
 * them. {@link #find} may be called by several threads at once.
 */
public interface LineFinder extends AutoCloseable {
  /** A short name for reports, such as "ppocr-v4". */
  String name();

  /** SHA-256, in hexadecimal, of the weights; with the name it identifies the finder. */
  String digest();

  /** Finds lines and face; an empty list of lines if there are none. */
  Found find(GrayImage upright);

  @Override
  void close();
}
