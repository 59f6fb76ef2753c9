package rakelight.relief;

import java.util.List;
import java.util.Map;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.NamedFiles;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.photo.PictureSource;
import rakelight.picture.Picture;
import rakelight.picture.Polygon;

/** The leading photograph of a face with its lines and letters boxed: see {@link Overlay}. */
public final class LinesDrawn implements Stage<LinesDrawn.Input, NamedFiles> {
  public static final StageKind<Input, NamedFiles> KIND =
      new StageKind<>("lines", 1, Input.class, NamedFiles.class);

  /** The one file it makes. */
  public static final String JPEG = "jpg";

  /**
   * @param outline of the face on the photograph
   * @param lines in pixels of the photograph
   */
  public record Input(PictureSource leading, Polygon outline, List<Overlay.Line> lines) {
    public Input {
      lines = List.copyOf(lines);
    }
  }

  @Override
  public StageKind<Input, NamedFiles> kind() {
    return KIND;
  }

  @Override
  public NamedFiles run(Input input, Given given) throws BadInputException {
    return NamedFiles.of(
        Map.of(
            JPEG,
            Overlay.jpeg(Picture.upright(input.leading(), given), input.outline(), input.lines())));
  }
}
