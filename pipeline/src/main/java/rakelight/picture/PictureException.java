package rakelight.picture;

import rakelight.archive.BadInputException;

/**
 * A file that can't be read as a picture; the message says why and stands after the file's name.
 */
public final class PictureException extends BadInputException {
  public PictureException(String message) {
    super(message);
  }
}
