package rakelight.picture;

import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * A picture in the size in which a finder's network sees it: sides divisible by {@value
 * #MULTIPLE_PX}, small pictures enlarged at most {@value #LARGEST_ENLARGEMENT} times.
 *
 * @param grey 0 black to 1 white, row by row
 * @param toFullX from its pixels to those of the picture, across
 * @param toFullY and down
 */
public record ScaledPicture(
    float[] grey, int widthPx, int heightPx, double toFullX, double toFullY) {
  private static final int MULTIPLE_PX = 32;
  private static final double LARGEST_ENLARGEMENT = 2;

  /**
   * @param longSidePx length of the long side for the network
   */
  public static ScaledPicture of(GrayImage picture, int longSidePx) {
    try (NativeScope scope = new NativeScope()) {
      Mat whole = picture.in(scope);
      double scale =
          Math.min(
              LARGEST_ENLARGEMENT,
              (double) longSidePx / Math.max(picture.widthPx(), picture.heightPx()));
      int width = multiple(picture.widthPx() * scale);
      int height = multiple(picture.heightPx() * scale);
      Mat small = scope.mat();
      int filter = scale < 1 ? Imgproc.INTER_AREA : Imgproc.INTER_CUBIC;
      Imgproc.resize(whole, small, new Size(width, height), 0, 0, filter);
      byte[] pixels = new byte[width * height];
      small.get(0, 0, pixels);
      float[] grey = new float[pixels.length];
      for (int i = 0; i < pixels.length; i++) {
        grey[i] = (pixels[i] & 0xff) / 255f;
      }
      return new ScaledPicture(
          grey,
          width,
          height,
          (double) picture.widthPx() / width,
          (double) picture.heightPx() / height);
    }
  }

  private static int multiple(double px) {
    return (int) Math.max(MULTIPLE_PX, Math.round(px / MULTIPLE_PX) * MULTIPLE_PX);
  }

  /** Where a point of the network's picture lies on the whole one. */
  public Point full(Point p) {
    return new Point(p.x() * toFullX, p.y() * toFullY);
  }
}
