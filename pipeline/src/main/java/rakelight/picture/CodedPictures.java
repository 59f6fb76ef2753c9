package rakelight.picture;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Rect;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.photo.CodedPicture;
import rakelight.photo.CodedPicture.Colour;
import rakelight.photo.CodedPicture.Tile;
import rakelight.photo.UnfitFileException;

/** Puts pictures of HEIC and AVIF files together from their tiles, 8 bits a sample, not turned. */
final class CodedPictures {
  private static final Scalar MIDDLE = new Scalar(128);

  private CodedPictures() {}

  /** Where the main picture of a file lies, if the file is of a kind that has coded pictures. */
  static Optional<CodedPicture> in(byte[] file) throws PictureException {
    if (!CodedPicture.maybeIn(file)) {
      return Optional.empty();
    }
    try {
      return CodedPicture.of(ByteBuffer.wrap(file));
    } catch (UnfitFileException e) {
      throw new PictureException("can't be decoded: " + e.getMessage());
    }
  }

  /**
   * Decodes a picture. A tile that is missing or damaged stays grey.
   *
   * @param inColour else only its luminance
   * @throws PictureException if no tile can be decoded
   */
  static Mat decoded(byte[] file, CodedPicture picture, boolean inColour, NativeScope scope)
      throws PictureException {
    if (!Natives.hasDecoders()) {
      throw new PictureException(Natives.decodersMissing());
    }
    List<Mat> planes = new ArrayList<>();
    try (TileDecoder decoder = new TileDecoder(picture.coding())) {
      for (int i = 0; i < picture.tiles().size(); i++) {
        try (NativeScope tile = new NativeScope()) {
          Optional<TileDecoder.Planes> decoded = decoded(decoder, file, picture, i, tile);
          if (decoded.isPresent()) {
            lay(decoded.get(), i, picture, planes, scope);
          }
        }
      }
      if (planes.isEmpty()) {
        throw new PictureException(
            "none of its tiles can be decoded; look whether the copy is whole");
      }
      Colour colour = picture.colour().orElse(decoder.colour());
      return inColour ? colours(planes, colour, scope) : luminance(planes.get(0), colour, scope);
    }
  }

  private static Optional<TileDecoder.Planes> decoded(
      TileDecoder decoder, byte[] file, CodedPicture picture, int index, NativeScope scope)
      throws PictureException {
    Tile tile = picture.tiles().get(index);
    if (!tile.whole()) {
      return Optional.empty();
    }
    try {
      return decoder.decode(picture.stream(file, tile), scope);
    } catch (UnfitFileException e) {
      return Optional.empty();
    }
  }

  /** Lays a tile into the planes of the whole, which the first tile makes. */
  private static void lay(
      TileDecoder.Planes tile,
      int index,
      CodedPicture picture,
      List<Mat> planes,
      NativeScope scope) {
    List<Mat> parts = new ArrayList<>(List.of(tile.luminance()));
    tile.blueness().ifPresent(parts::add);
    tile.redness().ifPresent(parts::add);
    if (planes.isEmpty()) {
      for (Mat part : parts) {
        int across = scaled(picture.widthPx(), part.cols(), tile.luminance().cols());
        int down = scaled(picture.heightPx(), part.rows(), tile.luminance().rows());
        planes.add(scope.own(new Mat(down, across, CvType.CV_8UC1, MIDDLE)));
      }
    }
    if (parts.size() != planes.size()) {
      return; // It isn't of one kind with the first: as good as damaged.
    }
    for (int i = 0; i < parts.size(); i++) {
      Mat part = parts.get(i);
      Mat whole = planes.get(i);
      int x = index % picture.columns() * part.cols();
      int y = index / picture.columns() * part.rows();
      int width = Math.min(part.cols(), whole.cols() - x);
      int height = Math.min(part.rows(), whole.rows() - y);
      if (width > 0 && height > 0) {
        try (NativeScope views = new NativeScope()) {
          Mat from = views.own(part.submat(new Rect(0, 0, width, height)));
          from.copyTo(views.own(whole.submat(new Rect(x, y, width, height))));
        }
      }
    }
  }

  /** Rounded up, as samples of colour that two pixels share are. */
  private static int scaled(int wholePx, int partSamples, int partPx) {
    return partSamples == partPx ? wholePx : (wholePx + 1) / 2;
  }

  private static Mat luminance(Mat plane, Colour colour, NativeScope scope) {
    if (colour.fullRange()) {
      return plane;
    }
    Mat full = scope.mat();
    plane.convertTo(full, CvType.CV_8U, 255 / 219.0, -16 * 255 / 219.0);
    return full;
  }

  /** Blue, green, red from luminance and colour differences: ITU-T H.273, section 8.3. */
  private static Mat colours(List<Mat> planes, Colour colour, NativeScope scope) {
    Mat colours = scope.mat();
    if (planes.size() == 1) {
      Imgproc.cvtColor(luminance(planes.get(0), colour, scope), colours, Imgproc.COLOR_GRAY2BGR);
      return colours;
    }
    Size size = planes.get(0).size();
    List<Mat> alike = new ArrayList<>(List.of(planes.get(0)));
    for (Mat plane : planes.subList(1, 3)) {
      Mat wide = scope.mat();
      Imgproc.resize(plane, wide, size, 0, 0, Imgproc.INTER_LINEAR);
      alike.add(wide);
    }
    Mat coded = scope.mat();
    Core.merge(alike, coded);
    double red =
        switch (colour.matrix()) {
          case 1 -> 0.2126;
          case 9 -> 0.2627;
          default -> 0.299;
        };
    double blue =
        switch (colour.matrix()) {
          case 1 -> 0.0722;
          case 9 -> 0.0593;
          default -> 0.114;
        };
    double green = 1 - red - blue;
    double light = colour.fullRange() ? 1 : 255 / 219.0;
    double black = colour.fullRange() ? 0 : -16 * light;
    double tint = colour.fullRange() ? 1 : 255 / 224.0;
    double toBlue = 2 * (1 - blue) * tint;
    double toRed = 2 * (1 - red) * tint;
    double greenOfBlue = -toBlue * blue / green;
    double greenOfRed = -toRed * red / green;
    Mat matrix = scope.own(new Mat(3, 4, CvType.CV_64FC1));
    matrix.put(0, 0, light, toBlue, 0, black - 128 * toBlue);
    matrix.put(1, 0, light, greenOfBlue, greenOfRed, black - 128 * (greenOfBlue + greenOfRed));
    matrix.put(2, 0, light, 0, toRed, black - 128 * toRed);
    Core.transform(coded, colours, matrix);
    return colours;
  }
}
