package rakelight.relief;

import java.util.Map;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.KeyPoint;
import org.opencv.core.Mat;
import org.opencv.core.MatOfKeyPoint;
import org.opencv.core.Rect;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.features2d.SIFT;
import org.opencv.imgproc.Imgproc;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.NamedFiles;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;
import rakelight.photo.PictureSource;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;

/**
 * Finds the {@link Features} of one photograph (SIFT: Lowe, IJCV 60, 2004). They are looked for
 * where brightness changes, whichever way, since a cut is lit on one flank in the morning and on
 * the other in the evening; and in proportion to how much it changes thereabouts, so that a stone
 * in shade has as many as one in the sun.
 */
public final class FindFeatures implements Stage<FindFeatures.Input, NamedFiles> {
  public static final StageKind<Input, NamedFiles> KIND =
      new StageKind<>("features", 1, Input.class, NamedFiles.class);

  /** The one file it makes. */
  public static final String FILE = "places";

  /** Photographs are looked at on copies of this size: letters of a line are some 20 pixels. */
  private static final int LONGEST_PX = 640;

  private static final int MOST = 700;

  /** Of SIFT: places of weaker contrast, and on straight edges, are left out (0.01 to 0.04). */
  private static final double CONTRAST = 0.02;

  private static final double EDGE = 10;
  private static final int OCTAVE_LAYERS = 3;
  private static final double SIFT_SIGMA = 1.6;

  private static final double SOFTNESS_PX = 2.2;

  /** The surroundings that the strength of an edge is measured by, and what counts as no edge. */
  private static final int AROUND_PX = 51;

  private static final double FAINT = 4;

  /** A mean edge becomes this grey. */
  private static final double MEAN_GREY = 70;

  /**
   * Only the middle of a picture is looked at, where the stone is: two stones before one hedge
   * would look alike by the hedge. Shares of width and height left out at each side.
   */
  private static final double BESIDE = 0.22;

  private static final double ABOVE = 0.12;

  public record Input(PictureSource picture) {}

  @Override
  public StageKind<Input, NamedFiles> kind() {
    return KIND;
  }

  @Override
  public NamedFiles run(Input input, Given given) throws BadInputException {
    GrayImage picture = Picture.small(input.picture(), given, LONGEST_PX);
    return NamedFiles.of(Map.of(FILE, of(picture).bytes()));
  }

  /** What a kept result holds. */
  public static Features read(NamedFiles result) {
    return Features.read(result.file(FILE).orElseThrow());
  }

  static Features of(GrayImage picture) {
    try (NativeScope scope = new NativeScope()) {
      MatOfKeyPoint found = scope.own(new MatOfKeyPoint());
      Mat described = scope.mat();
      SIFT.create(MOST, OCTAVE_LAYERS, CONTRAST, EDGE, SIFT_SIGMA)
          .detectAndCompute(
              edges(picture.in(scope), scope), middle(picture, scope), found, described);
      KeyPoint[] points = found.toArray();
      float longest = Math.max(picture.widthPx(), picture.heightPx());
      float[] x = new float[points.length];
      float[] y = new float[points.length];
      for (int i = 0; i < points.length; i++) {
        x[i] = (float) points[i].pt.x / longest;
        y[i] = (float) points[i].pt.y / longest;
      }
      float[] numbers = new float[(int) described.total()];
      if (numbers.length > 0) {
        described.get(0, 0, numbers);
      }
      return Features.of(x, y, numbers);
    }
  }

  private static Mat middle(GrayImage picture, NativeScope scope) {
    Mat middle = scope.own(Mat.zeros(picture.heightPx(), picture.widthPx(), CvType.CV_8U));
    int left = (int) (BESIDE * picture.widthPx());
    int top = (int) (ABOVE * picture.heightPx());
    scope
        .own(
            middle.submat(
                new Rect(left, top, picture.widthPx() - 2 * left, picture.heightPx() - 2 * top)))
        .setTo(Scalar.all(255));
    return middle;
  }

  private static Mat edges(Mat grey, NativeScope scope) {
    Mat soft = scope.mat();
    Imgproc.GaussianBlur(grey, soft, new Size(), 1);
    Mat strength = Registration.edges(soft, SOFTNESS_PX, scope);
    Mat around = scope.mat();
    Imgproc.blur(strength, around, new Size(AROUND_PX, AROUND_PX));
    Core.add(around, Scalar.all(FAINT), around);
    Core.divide(strength, around, strength);
    Mat eight = scope.mat();
    strength.convertTo(eight, CvType.CV_8U, MEAN_GREY);
    return eight;
  }
}
