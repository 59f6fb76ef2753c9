package rakelight.picture;

import org.opencv.core.CvType;
import org.opencv.core.Mat;

/**
 * A grey picture, 0 black to 255 white, rows from the top. The pixels are not copied: whoever makes
 * one hands the array over and leaves it alone.
 */
public final class GrayImage {
  private final int widthPx;
  private final int heightPx;
  private final byte[] pixels;

  /**
   * @param pixels taken, not copied; row by row, {@code widthPx * heightPx} of them
   */
  public GrayImage(int widthPx, int heightPx, byte[] pixels) {
    if (widthPx < 1 || heightPx < 1 || pixels.length != (long) widthPx * heightPx) {
      throw new IllegalArgumentException(
          "A picture of "
              + widthPx
              + " x "
              + heightPx
              + " can't have "
              + pixels.length
              + " pixels");
    }
    this.widthPx = widthPx;
    this.heightPx = heightPx;
    this.pixels = pixels;
  }

  public int widthPx() {
    return widthPx;
  }

  public int heightPx() {
    return heightPx;
  }

  /** The pixels themselves, lent: not to be changed. */
  public byte[] pixels() {
    return pixels;
  }

  /** The value at a pixel, 0 to 255. */
  public int at(int x, int y) {
    return pixels[y * widthPx + x] & 0xff;
  }

  /**
   * A part of it.
   *
   * @throws IllegalArgumentException if that isn't on the picture as a whole
   */
  public GrayImage part(int left, int top, int width, int height) {
    if (left < 0 || top < 0 || left + width > widthPx || top + height > heightPx) {
      throw new IllegalArgumentException(
          "A picture of "
              + widthPx
              + " x "
              + heightPx
              + " has no part so large at "
              + left
              + ","
              + top);
    }
    byte[] part = new byte[Math.multiplyExact(width, height)];
    for (int y = 0; y < height; y++) {
      System.arraycopy(pixels, (top + y) * widthPx + left, part, y * width, width);
    }
    return new GrayImage(width, height, part);
  }

  /** Copies an 8-bit one-channel picture out of OpenCV; borrows it. */
  public static GrayImage of(Mat mat) {
    if (mat.type() != CvType.CV_8UC1) {
      throw new IllegalArgumentException(
          "Not an 8-bit grey picture: " + CvType.typeToString(mat.type()));
    }
    byte[] pixels = new byte[mat.rows() * mat.cols()];
    mat.get(0, 0, pixels);
    return new GrayImage(mat.cols(), mat.rows(), pixels);
  }

  /** Copies this picture into OpenCV; the scope owns the copy. */
  public Mat in(NativeScope scope) {
    Natives.openCv();
    Mat mat = scope.own(new Mat(heightPx, widthPx, CvType.CV_8UC1));
    mat.put(0, 0, pixels);
    return mat;
  }
}
