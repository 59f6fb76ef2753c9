package rakelight.relief;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.opencv.core.Core;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.NamedFiles;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;
import rakelight.picture.Polygon;

/**
 * Squares a carving out of every photograph of its face that lies over the leading one, and keeps
 * the {@link CarvingShape} of them all.
 */
public final class FindCarving implements Stage<FindCarving.Input, NamedFiles> {
  public static final StageKind<Input, NamedFiles> KIND =
      new StageKind<>("carving", 1, Input.class, NamedFiles.class);

  /** The square on the leading photograph, for eyes. */
  public static final String PICTURE = "picture.png";

  private static final String SHAPE = "shape";

  /**
   * @param face the square around the carving, see {@link #square}, and the photographs of its face
   * @param widthShare the outline's width in the square's side
   * @param heightShare likewise
   */
  public record Input(RakedFace face, double widthShare, double heightShare) {
    /** A carving by its outline on the leading photograph. */
    public static Input of(Polygon outline, List<RakedFace.View> views) {
      double side = side(outline);
      return new Input(
          new RakedFace(square(outline), Optional.of(1.0), views),
          (outline.right() - outline.left()) / side,
          (outline.bottom() - outline.top()) / side);
    }
  }

  private static double side(Polygon outline) {
    double longest = Math.max(outline.right() - outline.left(), outline.bottom() - outline.top());
    return CarvingShape.ROOM * Math.max(1, longest);
  }

  /** The square around an outline, its corners clockwise from the top left. */
  public static Polygon square(Polygon outline) {
    double half = side(outline) / 2;
    double x = (outline.left() + outline.right()) / 2;
    double y = (outline.top() + outline.bottom()) / 2;
    return Polygon.rectangle(x - half, y - half, x + half, y + half);
  }

  @Override
  public StageKind<Input, NamedFiles> kind() {
    return KIND;
  }

  @Override
  public NamedFiles run(Input input, Given given) throws BadInputException {
    List<GrayImage> lights = new ArrayList<>();
    for (RakedFace.View view : input.face().views()) {
      Homography toThis = view.toLeading().inverse();
      lights.add(
          cut(Picture.upright(view.picture(), given), input.face().outline().map(toThis::map)));
    }
    CarvingLook looked = CarvingLook.of(lights, input.widthShare(), input.heightShare());
    return NamedFiles.of(
        Map.of(PICTURE, Picture.png(looked.picture()), SHAPE, looked.shape().bytes()));
  }

  /** A square of a photograph at the size it is looked at; beyond the picture its edge goes on. */
  static GrayImage cut(GrayImage photograph, Polygon square) {
    try (NativeScope scope = new NativeScope()) {
      int px = CarvingShape.PICTURE_PX;
      Homography to = Homography.ofRectangle(px, px, square.points());
      double larger = Math.sqrt(square.area()) / px;
      Mat source = photograph.in(scope);
      if (larger > 1) {
        Mat soft = scope.mat();
        Imgproc.GaussianBlur(source, soft, new Size(), larger / 2);
        source = soft;
      }
      Mat out = scope.mat();
      Imgproc.warpPerspective(
          source,
          out,
          Registration.matrix(to, scope),
          new Size(px, px),
          Imgproc.INTER_LINEAR | Imgproc.WARP_INVERSE_MAP,
          Core.BORDER_REPLICATE);
      return GrayImage.of(out);
    }
  }

  /**
   * What a kept result holds.
   *
   * @throws PictureException if a kept picture can't be read
   */
  public static CarvingLook read(Input input, NamedFiles result) throws PictureException {
    return new CarvingLook(
        Picture.upright(result.file(PICTURE).orElseThrow(), 1),
        CarvingShape.read(
            result.file(SHAPE).orElseThrow(), input.widthShare(), input.heightShare()));
  }
}
