package rakelight.photo;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.PlanarYUVLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.BadInputException;
import rakelight.archive.Given;
import rakelight.archive.Sha256;
import rakelight.archive.Stage;
import rakelight.archive.StageKind;

/** Whether the picture of one photograph shows a field card, and which. */
public final class CardLook implements Stage<CardLook.Input, CardLook.Outcome> {
  public static final StageKind<Input, Outcome> KIND =
      new StageKind<>("cards", 2, Input.class, Outcome.class);

  /**
   * Long side searched, and half of it after that. A card that fills a quarter of the frame's width
   * then has modules of about four pixels; the smaller one mends noise (tried on printed cards: 900
   * to 1600, and their halves).
   */
  private static final int LONG_SIDE_PX = 900;

  private final SmallPictures pictures;

  /** A card is found whichever way up it is, so orientation doesn't matter. */
  public record Input(Sha256 original, Optional<Preview> preview) {}

  /** What was found, or that nothing was. */
  public record Outcome(Optional<CardLabel> card) {}

  public CardLook(SmallPictures pictures) {
    this.pictures = pictures;
  }

  @Override
  public StageKind<Input, Outcome> kind() {
    return KIND;
  }

  @Override
  public Outcome run(Input input, Given given) throws BadInputException {
    byte[] bytes = new PictureSource(input.original(), input.preview(), 1).bytes(given);
    try {
      return new Outcome(find(pictures.of(bytes, LONG_SIDE_PX)));
    } catch (BadInputException e) {
      // A picture that no decoder likes shows no card either; reading it will say what is wrong.
      return new Outcome(Optional.empty());
    }
  }

  /** The first card in a picture. */
  static Optional<CardLabel> find(SmallPictures.Grey picture) {
    return decode(picture)
        .flatMap(CardText::read)
        .or(() -> decode(half(picture)).flatMap(CardText::read));
  }

  private static Optional<String> decode(SmallPictures.Grey picture) {
    try {
      BinaryBitmap bitmap =
          new BinaryBitmap(
              new HybridBinarizer(
                  new PlanarYUVLuminanceSource(
                      picture.pixels(),
                      picture.widthPx(),
                      picture.heightPx(),
                      0,
                      0,
                      picture.widthPx(),
                      picture.heightPx(),
                      false)));
      return Optional.of(
          new QRCodeReader().decode(bitmap, Map.of(DecodeHintType.TRY_HARDER, true)).getText());
    } catch (ReaderException e) {
      return Optional.empty();
    }
  }

  /** Each pixel the mean of four; a picture of one row or column stays as it is. */
  private static SmallPictures.Grey half(SmallPictures.Grey picture) {
    int width = picture.widthPx() / 2;
    int height = picture.heightPx() / 2;
    if (width == 0 || height == 0) {
      return picture;
    }
    byte[] from = picture.pixels();
    byte[] halved = new byte[width * height];
    for (int y = 0; y < height; y++) {
      int at = 2 * y * picture.widthPx();
      for (int x = 0; x < width; x++, at += 2) {
        int below = at + picture.widthPx();
        halved[y * width + x] =
            (byte)
                (((from[at] & 0xFF)
                        + (from[at + 1] & 0xFF)
                        + (from[below] & 0xFF)
                        + (from[below + 1] & 0xFF))
                    / 4);
      }
    }
    return new SmallPictures.Grey(width, height, halved);
  }
}
