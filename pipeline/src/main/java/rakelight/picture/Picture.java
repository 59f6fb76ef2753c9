package rakelight.picture;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Iterator;
import java.util.Locale;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import org.opencv.core.Core;
import org.opencv.core.CvException;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfByte;
import org.opencv.core.MatOfInt;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.photo.CodedPicture;
import rakelight.photo.FileFormat;
import rakelight.photo.PictureSource;
import rakelight.photo.SmallPictures;

/**
 * Decodes and encodes pictures. Works on bytes, never on paths, so that no file name can be in the
 * way. JPEG, PNG, TIFF and WebP are read; HEIC and AVIF where their decoders lie beside the
 * program.
 */
public final class Picture {
  /** Pictures up to this size are made from a picture that was decoded to a smaller size. */
  private static final int THUMBNAIL_PX = 320;

  private static final int[] REDUCED_GREY = {
    Imgcodecs.IMREAD_REDUCED_GRAYSCALE_2,
    Imgcodecs.IMREAD_REDUCED_GRAYSCALE_4,
    Imgcodecs.IMREAD_REDUCED_GRAYSCALE_8
  };

  private static final int[] REDUCED_COLOUR = {
    Imgcodecs.IMREAD_REDUCED_COLOR_2,
    Imgcodecs.IMREAD_REDUCED_COLOR_4,
    Imgcodecs.IMREAD_REDUCED_COLOR_8
  };

  private Picture() {}

  /** Whether files of a kind can be shown here that are pictures themselves. */
  public static boolean isRead(FileFormat format) {
    return !format.isCoded() || Natives.hasDecoders();
  }

  /**
   * Decodes a picture to grey and turns it upright.
   *
   * @param file the bytes of the file
   * @param orientation EXIF orientation, 1 to 8; anything else counts as 1
   * @throws PictureException if the bytes aren't a picture, or one too large
   */
  public static GrayImage upright(byte[] file, int orientation) throws PictureException {
    Natives.openCv();
    requireReasonableSize(file);
    try (NativeScope scope = new NativeScope()) {
      Mat grey = decoded(file, Imgcodecs.IMREAD_GRAYSCALE, scope);
      return GrayImage.of(turn(grey, orientation, scope));
    } catch (CvException e) {
      throw new PictureException("can't be decoded: " + e.getMessage());
    }
  }

  /**
   * Decodes a picture to grey, of JPEG by halves as long as its longest side stays long enough,
   * which is quicker than to decode it whole. It isn't turned.
   *
   * @param file the bytes of the file
   * @param longSidePx the longest side it keeps at least, if it has it
   * @throws PictureException if the bytes aren't a picture, or one too large
   */
  public static SmallPictures.Grey reduced(byte[] file, int longSidePx) throws PictureException {
    Natives.openCv();
    int longest = requireReasonableSize(file);
    try (NativeScope scope = new NativeScope()) {
      int flag = flag(longest, longSidePx, REDUCED_GREY, Imgcodecs.IMREAD_GRAYSCALE);
      GrayImage grey = GrayImage.of(decoded(file, flag, scope));
      return new SmallPictures.Grey(grey.widthPx(), grey.heightPx(), grey.pixels());
    } catch (CvException e) {
      throw new PictureException("can't be decoded: " + e.getMessage());
    }
  }

  /**
   * A smaller copy of the picture of a photograph, grey and upright. JPEG is decoded straight to a
   * smaller size where that is enough, in a fraction of the time.
   *
   * @param longestPx the longest side it may have; it is never made larger
   * @throws BadInputException if the original is missing, isn't a picture, or one too large
   */
  public static GrayImage small(PictureSource source, Given given, int longestPx)
      throws BadInputException {
    Natives.openCv();
    byte[] file = source.bytes(given);
    try (NativeScope scope = new NativeScope()) {
      int longest = requireReasonableSize(file);
      int flag = flag(longest, longestPx, REDUCED_GREY, Imgcodecs.IMREAD_GRAYSCALE);
      Mat grey = shrunk(decoded(file, flag, scope), longestPx, scope);
      return GrayImage.of(turn(grey, source.orientation(), scope));
    } catch (CvException e) {
      throw new PictureException("can't be decoded: " + e.getMessage());
    }
  }

  /**
   * The picture of a photograph, grey and upright.
   *
   * @throws BadInputException if the original is missing, isn't a picture, or one too large
   */
  public static GrayImage upright(PictureSource source, Given given) throws BadInputException {
    return upright(source.bytes(given), source.orientation());
  }

  /**
   * A smaller copy in colour, upright, to be looked at.
   *
   * @param file the bytes of the file
   * @param orientation EXIF orientation, 1 to 8; anything else counts as 1
   * @param longestPx the longest side it may have; it is never made larger
   * @return a JPEG file
   * @throws PictureException if the bytes aren't a picture, or one too large
   */
  public static byte[] smaller(byte[] file, int orientation, int longestPx)
      throws PictureException {
    Natives.openCv();
    int longest = requireReasonableSize(file);
    try (NativeScope scope = new NativeScope()) {
      int flag =
          longestPx <= THUMBNAIL_PX
              ? flag(longest, longestPx, REDUCED_COLOUR, Imgcodecs.IMREAD_COLOR)
              : Imgcodecs.IMREAD_COLOR;
      Mat reduced = shrunk(decoded(file, flag, scope), longestPx, scope);
      MatOfByte jpeg = scope.own(new MatOfByte());
      Imgcodecs.imencode(
          ".jpg",
          turn(reduced, orientation, scope),
          jpeg,
          scope.own(new MatOfInt(Imgcodecs.IMWRITE_JPEG_QUALITY, 88)));
      return jpeg.toArray();
    } catch (CvException e) {
      throw new PictureException("can't be decoded: " + e.getMessage());
    }
  }

  private static Mat decoded(byte[] file, int flag, NativeScope scope) throws PictureException {
    Optional<CodedPicture> coded = CodedPictures.in(file);
    if (coded.isPresent()) {
      boolean inColour = (flag & Imgcodecs.IMREAD_COLOR) != 0;
      Mat whole = CodedPictures.decoded(file, coded.get(), inColour, scope);
      int longest = Math.max(whole.cols(), whole.rows());
      return shrunk(whole, longest / reduction(flag), scope);
    }
    Mat bytes = scope.own(new Mat(1, file.length, CvType.CV_8UC1));
    bytes.put(0, 0, file);
    Mat picture = scope.own(Imgcodecs.imdecode(bytes, flag | Imgcodecs.IMREAD_IGNORE_ORIENTATION));
    if (picture.empty()) {
      throw new PictureException(
          "not a picture that can be decoded; look whether the copy is whole");
    }
    return picture;
  }

  private static Mat shrunk(Mat picture, int longestPx, NativeScope scope) {
    double scale = (double) longestPx / Math.max(picture.cols(), picture.rows());
    if (scale >= 1) {
      return picture;
    }
    Mat smaller = scope.mat();
    Imgproc.resize(picture, smaller, new Size(), scale, scale, Imgproc.INTER_AREA);
    return smaller;
  }

  /**
   * How to decode so that the longest side is still as long as asked for.
   *
   * @param longest the longest side as it is; 0 where nobody knows
   * @param flags for a half, a quarter and an eighth
   * @param whole for the whole size
   */
  private static int flag(int longest, int longestPx, int[] flags, int whole) {
    int flag = whole;
    for (int i = 0; i < flags.length && longest >> (i + 1) >= longestPx; i++) {
      flag = flags[i];
    }
    return flag;
  }

  /** How many times smaller OpenCV decodes with a flag. */
  private static int reduction(int flag) {
    return Math.max(1, flag / Imgcodecs.IMREAD_REDUCED_GRAYSCALE_2 * 2);
  }

  /** Turns a decoded picture as its EXIF orientation asks (Exif 2.32, tag 0x0112). */
  private static Mat turn(Mat grey, int orientation, NativeScope scope) {
    Mat turned = scope.mat();
    switch (orientation) {
      case 2 -> Core.flip(grey, turned, 1);
      case 3 -> Core.rotate(grey, turned, Core.ROTATE_180);
      case 4 -> Core.flip(grey, turned, 0);
      case 5 -> Core.transpose(grey, turned);
      case 6 -> Core.rotate(grey, turned, Core.ROTATE_90_CLOCKWISE);
      case 7 -> {
        Mat transposed = scope.mat();
        Core.transpose(grey, transposed);
        Core.rotate(transposed, turned, Core.ROTATE_180);
      }
      case 8 -> Core.rotate(grey, turned, Core.ROTATE_90_COUNTERCLOCKWISE);
      default -> {
        return grey;
      }
    }
    return turned;
  }

  /**
   * A header may claim any size, and decoding would believe it: ask the header first.
   *
   * @return the longest side it claims; 0 where only the decoder can read it
   */
  private static int requireReasonableSize(byte[] file) throws PictureException {
    Optional<CodedPicture> coded = CodedPictures.in(file);
    if (coded.isPresent()) {
      return requireReasonable(coded.get().widthPx(), coded.get().heightPx());
    }
    try (ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(file))) {
      Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
      if (!readers.hasNext()) {
        return 0; // The decoder knows best what it can read.
      }
      ImageReader reader = readers.next();
      try {
        reader.setInput(in, true, true);
        return requireReasonable(reader.getWidth(0), reader.getHeight(0));
      } finally {
        reader.dispose();
      }
    } catch (IOException | RuntimeException e) {
      throw new PictureException("its header can't be read: " + e.getMessage());
    }
  }

  private static int requireReasonable(long width, long height) throws PictureException {
    if (width <= 0 || height <= 0 || width * height > PictureSource.MOST_PIXELS) {
      throw new PictureException(
          String.format(
              Locale.ROOT,
              "%d x %d pixels; at most %d megapixels are read. Ingest a smaller copy",
              width,
              height,
              PictureSource.MOST_PIXELS / 1_000_000));
    }
    return (int) Math.max(width, height);
  }

  /** Encodes as PNG, without loss. */
  public static byte[] png(GrayImage image) {
    return encode(image, ".png", new int[] {Imgcodecs.IMWRITE_PNG_COMPRESSION, 3});
  }

  /**
   * Encodes as JPEG.
   *
   * @param quality 1 to 100
   */
  public static byte[] jpeg(GrayImage image, int quality) {
    return encode(image, ".jpg", new int[] {Imgcodecs.IMWRITE_JPEG_QUALITY, quality});
  }

  private static byte[] encode(GrayImage image, String extension, int[] settings) {
    Natives.openCv();
    try (NativeScope scope = new NativeScope()) {
      MatOfByte bytes = scope.own(new MatOfByte());
      Imgcodecs.imencode(extension, image.in(scope), bytes, scope.own(new MatOfInt(settings)));
      return bytes.toArray();
    }
  }
}
