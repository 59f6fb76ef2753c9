package rakelight.relief;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Rect;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.NamedFiles;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.finding.LineStrip;
import rakelight.photo.PictureSource;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.picture.Polygon;

/**
 * Cuts the letters that people read on a photograph out of it, each at one height of capitals. All
 * lines are laid under each other first and made dark letters on pale stone together (see {@link
 * CutPicture}), so that one light is reckoned with for all of them.
 *
 * <p>Of each letter the first {@value #MOST} are kept. Other lights of the face aren't looked at.
 */
public final class FindLettering implements Stage<FindLettering.Input, NamedFiles> {
  public static final StageKind<Input, NamedFiles> KIND =
      new StageKind<>("lettering", 1, Input.class, NamedFiles.class);

  /** More of one letter add time and hardly anything else. */
  static final int MOST = 2;

  private static final String LETTERS = "letters";
  private static final double CAP_HEIGHTS = 2;
  private static final int STRIP_PX = (int) (CAP_HEIGHTS * LetterShape.CAPITAL_PX);

  /** Grain finer than this is no stroke. */
  private static final double GRAIN_PX = 1;

  /**
   * @param lines on the photograph, in its upright pixels
   */
  public record Input(PictureSource picture, List<Line> lines) {
    public Input {
      lines = List.copyOf(lines);
    }
  }

  /**
   * A line and the letters that people read on it.
   *
   * @param ribbon see {@link FoundLine}
   * @param heightPx the height of its capitals
   */
  public record Line(Polygon ribbon, double heightPx, List<Letter> letters) {
    public Line {
      letters = List.copyOf(letters);
    }
  }

  /**
   * @param from where it begins on the line's strip, 0 to 1
   * @param to where it ends
   */
  public record Letter(String letter, double from, double to) {}

  @Override
  public StageKind<Input, NamedFiles> kind() {
    return KIND;
  }

  @Override
  public NamedFiles run(Input input, Given given) throws BadInputException {
    LetteringLook look = look(Picture.upright(input.picture(), given), input.lines());
    return NamedFiles.of(Map.of(LETTERS, look.bytes()));
  }

  /** What a kept result holds. */
  public static LetteringLook read(NamedFiles result) {
    return LetteringLook.read(result.file(LETTERS).orElseThrow());
  }

  static LetteringLook look(GrayImage picture, List<Line> lines) {
    List<GrayImage> strips =
        LineStrip.cut(
            picture,
            lines.stream()
                .map(line -> LaidLine.own(new FoundLine(line.ribbon(), line.heightPx(), 1)))
                .toList(),
            STRIP_PX,
            CAP_HEIGHTS);
    if (strips.isEmpty()) {
      return new LetteringLook(List.of());
    }
    try (NativeScope scope = new NativeScope()) {
      Mat ink = ink(strips, scope);
      List<LetterShape> shapes = new ArrayList<>();
      Map<String, Integer> count = new HashMap<>();
      for (int i = 0; i < lines.size(); i++) {
        int widthPx = strips.get(i).widthPx();
        int top = i * STRIP_PX + (STRIP_PX - LetterShape.SIDE) / 2;
        for (Letter letter : lines.get(i).letters()) {
          double middle = (letter.from() + letter.to()) / 2 * widthPx;
          int left = (int) Math.round(middle - LetterShape.SIDE / 2.0);
          boolean fits = left >= 0 && left + LetterShape.SIDE <= ink.cols();
          if (fits && count.merge(letter.letter(), 1, Integer::sum) <= MOST) {
            shapes.add(
                new LetterShape(
                    letter.letter(),
                    square(ink, left, top),
                    (letter.to() - letter.from()) / 2 * widthPx));
          }
        }
      }
      return new LetteringLook(shapes);
    }
  }

  /** All strips under each other, what is cut bright on dark. */
  private static Mat ink(List<GrayImage> strips, NativeScope scope) {
    int width = strips.stream().mapToInt(GrayImage::widthPx).max().orElseThrow();
    width = Math.max(width, LetterShape.SIDE);
    Mat sheet = scope.own(new Mat(STRIP_PX * strips.size(), width, CvType.CV_8U));
    List<Polygon> places = new ArrayList<>();
    for (int i = 0; i < strips.size(); i++) {
      Mat strip = strips.get(i).in(scope);
      Mat row = scope.own(sheet.submat(new Rect(0, i * STRIP_PX, width, STRIP_PX)));
      int room = width - strip.cols();
      Core.copyMakeBorder(strip, row, 0, 0, 0, room, Core.BORDER_CONSTANT, Core.mean(strip));
      places.add(Polygon.rectangle(0, (i + 0.2) * STRIP_PX, strip.cols(), (i + 0.8) * STRIP_PX));
    }
    Mat ink = scope.mat();
    CutPicture.of(sheet, LetterShape.CAPITAL_PX, places)
        .image()
        .in(scope)
        .convertTo(ink, CvType.CV_32F, -1, 255);
    Imgproc.GaussianBlur(ink, ink, new Size(), GRAIN_PX);
    return ink;
  }

  private static float[] square(Mat ink, int left, int top) {
    try (NativeScope scope = new NativeScope()) {
      Mat part = scope.own(ink.submat(new Rect(left, top, LetterShape.SIDE, LetterShape.SIDE)));
      Mat square = scope.own(part.clone());
      float[] values = new float[LetterShape.SIDE * LetterShape.SIDE];
      square.get(0, 0, values);
      return values;
    }
  }
}
