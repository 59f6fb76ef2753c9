package rakelight.relief;

import java.util.List;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfByte;
import org.opencv.core.Rect;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;
import rakelight.picture.NativeScope;

/** Letters of two faces, one's above the other's, as they were compared. */
public final class LetterPairs {
  private static final int GAP_PX = 6;
  private static final int TIMES = 2;
  private static final int STONE = 235;

  private LetterPairs() {}

  /**
   * A letter of each.
   *
   * @param laid how they lie over each other
   */
  public record Pair(LetterShape above, LetterShape below, LetterShape.Laid laid) {
    public String letter() {
      return above.letter();
    }

    double likeness() {
      return laid.likeness();
    }
  }

  /**
   * @return a PNG file
   */
  public static byte[] drawn(List<Pair> pairs) {
    int px = LetterShape.SIDE;
    int step = px + GAP_PX;
    try (NativeScope scope = new NativeScope()) {
      int columns = Math.max(1, pairs.size());
      Mat drawn = scope.own(new Mat(2 * step, columns * step, CvType.CV_8U, Scalar.all(STONE)));
      for (int i = 0; i < pairs.size(); i++) {
        put(drawn, pairs.get(i).above(), i * step, 0, scope);
        put(drawn, pairs.get(i).below(), i * step, step, scope);
      }
      Mat larger = scope.mat();
      Imgproc.resize(drawn, larger, new Size(), TIMES, TIMES, Imgproc.INTER_CUBIC);
      MatOfByte png = scope.own(new MatOfByte());
      Imgcodecs.imencode(".png", larger, png);
      return png.toArray();
    }
  }

  private static void put(Mat drawn, LetterShape letter, int left, int top, NativeScope scope) {
    int px = LetterShape.SIDE;
    Mat square = scope.own(new Mat(px, px, CvType.CV_32F));
    square.put(0, 0, letter.ink());
    square.convertTo(
        scope.own(drawn.submat(new Rect(left, top, px, px))), CvType.CV_8U, -STONE / 255.0, STONE);
  }
}
