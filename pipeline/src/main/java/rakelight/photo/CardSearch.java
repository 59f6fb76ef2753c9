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
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DerivationKey;
import rakelight.archive.Json;
import rakelight.archive.Stage;

/**
 * Looks for field cards in photographs that are on no face yet. What was found, or that nothing
 * was, is kept as a derivation, so that no picture is looked through twice.
 */
public final class CardSearch {
  private static final Stage STAGE = new Stage("cards", 1);

  /**
   * Long sides searched, in turn. A card that fills a quarter of the frame's width has modules of
   * four pixels in the larger one; the smaller one mends noise (tried on printed cards: 800, 1600).
   */
  private static final int[] LONG_SIDES_PX = {1600, 800};

  private static final int WORKERS = 2;

  private final Archive archive;
  private final PhotoStore store;
  private final String reader;

  public CardSearch(Archive archive, String reader) {
    this.archive = archive;
    this.store = new PhotoStore(archive);
    this.reader = reader;
  }

  private record Outcome(Optional<CardLabel> card) {}

  /** The photographs that a search would look at. */
  public List<Photograph> candidates() {
    return store.photographs().stream()
        .filter(p -> p.face().isEmpty() && p.card().isEmpty())
        .filter(p -> p.picture() != PictureKind.NONE)
        .toList();
  }

  /**
   * Looks, and notes the cards found.
   *
   * @param progress is told of each photograph as it is done
   * @return how many cards were found
   */
  public int run(List<Photograph> candidates, Consumer<Photograph> progress) {
    ExecutorService pool = Executors.newFixedThreadPool(WORKERS);
    int cards = 0;
    try {
      List<Future<Outcome>> outcomes = new ArrayList<>();
      for (Photograph photograph : candidates) {
        outcomes.add(pool.submit(() -> outcome(photograph)));
      }
      for (int i = 0; i < candidates.size(); i++) {
        Photograph photograph = candidates.get(i);
        Optional<CardLabel> card = outcomes.get(i).get().card();
        if (card.isPresent()) {
          store.showsCard(photograph.id(), card.get(), reader);
          cards++;
        }
        progress.accept(photograph);
      }
    } catch (ExecutionException e) {
      throw new ArchiveException("The search for field cards failed: " + e.getCause(), e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new ArchiveException("Interrupted. Run the command again; it goes on.", e);
    } finally {
      pool.shutdownNow();
    }
    return cards;
  }

  private Outcome outcome(Photograph photograph) throws IOException {
    DerivationKey key = DerivationKey.of(STAGE, List.of(), Map.of(), List.of(photograph.sha256()));
    if (archive.derived().has(STAGE, key, "json")) {
      return Json.read(Files.readString(archive.derived().path(STAGE, key, "json")), Outcome.class);
    }
    Outcome outcome = new Outcome(look(photograph));
    archive.derived().write(STAGE, key, "json", out -> Json.mapper().writeValue(out, outcome));
    return outcome;
  }

  private Optional<CardLabel> look(Photograph photograph) {
    Path original = archive.originals().path(photograph.sha256(), photograph.format().extension());
    try (ImageInputStream in = open(original, photograph.preview())) {
      return find(small(in));
    } catch (IOException | RuntimeException e) {
      // A picture that no decoder likes shows no card either; reading it will say what is wrong.
      return Optional.empty();
    }
  }

  private static ImageInputStream open(Path original, Optional<Preview> preview)
      throws IOException {
    if (preview.isEmpty()) {
      return ImageIO.createImageInputStream(original.toFile());
    }
    byte[] bytes = new byte[(int) preview.get().lengthBytes()];
    try (RandomAccessFile file = new RandomAccessFile(original.toFile(), "r")) {
      file.seek(preview.get().offsetBytes());
      file.readFully(bytes);
    }
    return new MemoryCacheImageInputStream(new ByteArrayInputStream(bytes));
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
