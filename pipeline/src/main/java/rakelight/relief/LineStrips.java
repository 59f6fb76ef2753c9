package rakelight.relief;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import rakelight.archive.BadInputException;
import rakelight.archive.DerivationKey;
import rakelight.archive.Given;
import rakelight.archive.NamedFiles;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.finding.LineStrip;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.Picture;
import rakelight.picture.Polygon;

/**
 * Every line of a face cut out of its relief images: {@code LINE.NAME.jpg}. There is none of a
 * picture that the face doesn't have.
 *
 * @see LightStrips
 */
public final class LineStrips implements Stage<LineStrips.Input, NamedFiles> {
  public static final StageKind<Input, NamedFiles> KIND =
      new StageKind<>("strips", 4, Input.class, NamedFiles.class);

  /** A strip as the recognisers like it, 1.7 capitals high, of which each stands 80 px high. */
  public static final int HEIGHT_PX = 136;

  /** The relief images that strips are cut from: all but the grey one, which the lights show. */
  private static final List<String> STRIPPED =
      Stream.concat(Stream.of(RakingSet.DEPTH), Relief.NAMES.stream().skip(1)).toList();

  private static final double CAPITALS = 1.7;
  private static final int WIDEST_PX = 6000;
  private static final int QUALITY = 88;

  /**
   * @param relief of the same face by {@link ReliefPictures}
   * @param outline of the face on the leading photograph
   * @param proportion width by height of the face as seen from in front, if known
   */
  public record Input(
      DerivationKey relief, Polygon outline, Optional<Double> proportion, List<Line> lines) {
    public Input {
      lines = List.copyOf(lines);
    }
  }

  /**
   * A line to cut out.
   *
   * @param line in pixels of the photograph it was read on
   * @param toLeading from there to the leading photograph
   */
  public record Line(int number, FoundLine line, Homography toLeading) {}

  /** The file of a line's strip of that name. */
  public static String fileOf(int line, String name) {
    return line + "." + name + ".jpg";
  }

  /** How wide the strips of a line are. */
  public static int widthPx(FoundLine line) {
    return Math.min(WIDEST_PX, LineStrip.widthPx(line, HEIGHT_PX, CAPITALS));
  }

  @Override
  public StageKind<Input, NamedFiles> kind() {
    return KIND;
  }

  @Override
  public NamedFiles run(Input input, Given given) throws BadInputException {
    Map<String, byte[]> files = new TreeMap<>();
    Homography toSquared =
        SquaredFace.Shape.of(input.outline(), input.proportion()).toPhotograph().inverse();
    NamedFiles relief = given.result(ReliefPictures.KIND, input.relief());
    for (String name : STRIPPED) {
      Optional<byte[]> png = relief.file(ReliefPictures.fileOf(name));
      if (png.isPresent()) {
        GrayImage picture = Picture.upright(png.get(), 1);
        for (Line line : input.lines()) {
          files.put(fileOf(line.number(), name), cut(line, picture, toSquared));
        }
      }
    }
    return NamedFiles.of(files);
  }

  /** A line's strip of a picture as a JPEG file. */
  static byte[] cut(Line line, GrayImage picture, Homography fromLeading) {
    GrayImage strip =
        LineStrip.cut(
            picture,
            new LaidLine(line.line(), line.toLeading()).then(fromLeading),
            widthPx(line.line()),
            HEIGHT_PX,
            CAPITALS);
    return Picture.jpeg(strip, QUALITY);
  }
}
