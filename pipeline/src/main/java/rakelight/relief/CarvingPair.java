package rakelight.relief;

import java.util.List;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfByte;
import org.opencv.core.Point;
import org.opencv.core.Rect;
import org.opencv.core.Scalar;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;

/** Two carvings side by side, places that are alike joined by lines. */
public final class CarvingPair {
  private static final int GAP_PX = 24;
  private static final Scalar BLUE = new Scalar(200, 110, 20);

  private CarvingPair() {}

  /**
   * @return a PNG file
   */
  public static byte[] drawn(CarvingLook one, CarvingLook other, List<CarvingSought.Place> places) {
    int px = CarvingShape.PICTURE_PX;
    GrayImage left = one.picture();
    GrayImage right = other.picture();
    try (NativeScope scope = new NativeScope()) {
      Mat grey = scope.own(new Mat(px, 2 * px + GAP_PX, CvType.CV_8U, Scalar.all(255)));
      left.in(scope).copyTo(scope.own(grey.submat(new Rect(0, 0, px, px))));
      right.in(scope).copyTo(scope.own(grey.submat(new Rect(px + GAP_PX, 0, px, px))));
      Mat drawn = scope.mat();
      Imgproc.cvtColor(grey, drawn, Imgproc.COLOR_GRAY2BGR);
      for (CarvingSought.Place place : places) {
        Point from = new Point(px * place.here().x(), px * place.here().y());
        Point to = new Point(px + GAP_PX + px * place.there().x(), px * place.there().y());
        Imgproc.circle(drawn, from, 4, BLUE, 1, Imgproc.LINE_AA);
        Imgproc.circle(drawn, to, 4, BLUE, 1, Imgproc.LINE_AA);
        Imgproc.line(drawn, from, to, BLUE, 1, Imgproc.LINE_AA);
      }
      MatOfByte png = scope.own(new MatOfByte());
      Imgcodecs.imencode(".png", drawn, png);
      return png.toArray();
    }
  }
}
