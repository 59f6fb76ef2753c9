package rakelight.photo;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.NotFoundException;
import com.google.zxing.PlanarYUVLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Iterator;
import java.util.Map;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.Sha256;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;

/** Whether the picture of one photograph shows a field card, and which. */
public final class CardLook implements Stage<CardLook.Input, CardLook.Outcome> {
  public static final StageKind<Input, Outcome> KIND =
      new StageKind<>("cards", 1, Input.class, Outcome.class);

  /**
   * Long sides searched, in turn. A card that fills a quarter of the frame's width has modules of
   * four pixels in the larger one; the smaller one mends noise (tried on printed cards: 800, 1600).
   */
  private static final int[] LONG_SIDES_PX = {1600, 800};

  /** A card is found whichever way up it is, so orientation doesn't matter. */
  public record Input(Sha256 original, Optional<Preview> preview) {}

  /** What was found, or that nothing was. */
  public record Outcome(Optional<CardLabel> card) {}

  @Override
  public StageKind<Input, Outcome> kind() {
    return KIND;
  }

  @Override
  public Outcome run(Input input, Given given) throws BadInputException {
    byte[] bytes = new PictureSource(input.original(), input.preview(), 1).bytes(given);
    try (ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(bytes))) {
      return new Outcome(find(small(in)));
    } catch (IOException | RuntimeException e) {
      // A picture that no decoder likes shows no card either; reading it will say what is wrong.
      return new Outcome(Optional.empty());
    }
  }

  /** The picture at about twice the larger size searched, so that halving it can average. */
  private static BufferedImage small(ImageInputStream in) throws IOException {
    Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
    if (!readers.hasNext()) {
      throw new IOException("no decoder");
    }
    ImageReader imageReader = readers.next();
    try {
      imageReader.setInput(in, true, true);
      int longSide = Math.max(imageReader.getWidth(0), imageReader.getHeight(0));
      int step = Math.max(1, longSide / (2 * LONG_SIDES_PX[0]));
      ImageReadParam param = imageReader.getDefaultReadParam();
      param.setSourceSubsampling(step, step, 0, 0);
      return imageReader.read(0, param);
    } finally {
      imageReader.dispose();
    }
  }

  /** The first card in a picture. */
  static Optional<CardLabel> find(BufferedImage picture) {
    for (int longSidePx : LONG_SIDES_PX) {
      int step = Math.max(1, Math.max(picture.getWidth(), picture.getHeight()) / longSidePx);
      Optional<CardLabel> card = decode(picture, step).flatMap(CardText::read);
      if (card.isPresent()) {
        return card;
      }
    }
    return Optional.empty();
  }

  private static Optional<String> decode(BufferedImage picture, int step) {
    int width = picture.getWidth() / step;
    int height = picture.getHeight() / step;
    if (width == 0 || height == 0) {
      return Optional.empty();
    }
    byte[] grey = grey(picture, step, width, height);
    try {
      BinaryBitmap bitmap =
          new BinaryBitmap(
              new HybridBinarizer(
                  new PlanarYUVLuminanceSource(grey, width, height, 0, 0, width, height, false)));
      return Optional.of(
          new QRCodeReader().decode(bitmap, Map.of(DecodeHintType.TRY_HARDER, true)).getText());
    } catch (NotFoundException e) {
      return Optional.empty();
    } catch (ReaderException e) {
      return Optional.empty();
    }
  }

  /** Grey values, each the mean of a square; luma weights of ITU-R BT.601 in 1024ths. */
  private static byte[] grey(BufferedImage picture, int step, int width, int height) {
    byte[] grey = new byte[width * height];
    int[] row = new int[picture.getWidth()];
    int[] sums = new int[width];
    for (int y = 0; y < height; y++) {
      java.util.Arrays.fill(sums, 0);
      for (int dy = 0; dy < step; dy++) {
        picture.getRGB(0, y * step + dy, row.length, 1, row, 0, row.length);
        for (int x = 0; x < width * step; x++) {
          int rgb = row[x];
          sums[x / step] +=
              (306 * (rgb >> 16 & 0xFF) + 601 * (rgb >> 8 & 0xFF) + 117 * (rgb & 0xFF)) >> 10;
        }
      }
      for (int x = 0; x < width; x++) {
        grey[y * width + x] = (byte) (sums[x] / (step * step));
      }
    }
    return grey;
  }
}
