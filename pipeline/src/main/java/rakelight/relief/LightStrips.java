package rakelight.relief;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.NamedFiles;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.photo.PictureSource;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;

/**
 * Every line of a face cut out of one photograph, as wide and high as by {@link LineStrips}: {@code
 * LINE.jpg}. They wait for nothing but that photograph, so that a reader sees the stone while its
 * relief is still being made.
 */
public final class LightStrips implements Stage<LightStrips.Input, NamedFiles> {
  public static final StageKind<Input, NamedFiles> KIND =
      new StageKind<>("light-strips", 1, Input.class, NamedFiles.class);

  /**
   * @param toLeading from the photograph's pixels to those of the leading photograph
   */
  public record Input(PictureSource picture, Homography toLeading, List<LineStrips.Line> lines) {
    public Input {
      lines = List.copyOf(lines);
    }
  }

  /** The file of a line's strip. */
  public static String fileOf(int line) {
    return line + ".jpg";
  }

  @Override
  public StageKind<Input, NamedFiles> kind() {
    return KIND;
  }

  @Override
  public NamedFiles run(Input input, Given given) throws BadInputException {
    GrayImage picture = Picture.upright(input.picture(), given);
    Homography fromLeading = input.toLeading().inverse();
    Map<String, byte[]> files = new TreeMap<>();
    for (LineStrips.Line line : input.lines()) {
      files.put(fileOf(line.number()), LineStrips.cut(line, picture, fromLeading));
    }
    return NamedFiles.of(files);
  }
}
