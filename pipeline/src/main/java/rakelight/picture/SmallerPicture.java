package rakelight.picture;

import java.util.Map;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.NamedFiles;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.photo.PictureSource;

/** A photograph in colour, upright and not too large, to be looked at. */
public final class SmallerPicture implements Stage<SmallerPicture.Input, NamedFiles> {
  public static final StageKind<Input, NamedFiles> KIND =
      new StageKind<>("smaller", 1, Input.class, NamedFiles.class);

  /** The one file it makes. */
  public static final String JPEG = "jpg";

  /**
   * @param longestPx the longest side it may have; it is never made larger
   */
  public record Input(PictureSource picture, int longestPx) {}

  @Override
  public StageKind<Input, NamedFiles> kind() {
    return KIND;
  }

  @Override
  public NamedFiles run(Input input, Given given) throws BadInputException {
    return NamedFiles.of(
        Map.of(
            JPEG,
            Picture.smaller(
                input.picture().bytes(given), input.picture().orientation(), input.longestPx())));
  }
}
