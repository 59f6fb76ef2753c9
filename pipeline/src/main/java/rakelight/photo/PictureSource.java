package rakelight.photo;

import java.util.Optional;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.Sha256;

/**
 * Where the picture of a photograph is, and how it is turned upright: all that a stage needs to
 * know of a photograph to see it.
 *
 * @param original the digest of the file
 * @param preview the place of the preview in it, where the picture is an embedded one
 * @param orientation Exif orientation, 1 to 8
 */
public record PictureSource(Sha256 original, Optional<Preview> preview, int orientation) {
  /**
   * The largest picture that is taken and read: at this size the grey picture and its copies still
   * fit beside two workers' networks. The largest full-frame cameras give 61 million pixels. A
   * header that claims more makes a decoder allocate gigabytes before it finds out that nothing is
   * there.
   */
  public static final long MOST_PIXELS = 200_000_000L;

  /**
   * The picture's file: the original, or the preview inside.
   *
   * @throws BadInputException if the original is missing or too short
   */
  public byte[] bytes(Given given) throws BadInputException {
    return preview.isPresent()
        ? given.original(original, preview.get().offsetBytes(), preview.get().lengthBytes())
        : given.original(original);
  }
}
