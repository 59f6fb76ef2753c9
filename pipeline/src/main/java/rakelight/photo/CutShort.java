package rakelight.photo;

import java.awt.image.Raster;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Iterator;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;

/**
 * How much of a JPEG that lacks its end can be shown. Decoders fill what is missing with one tone
 * from side to side, so the picture ends with the last row that isn't all one tone.
 */
final class CutShort {
  /** Rows looked at; enough to tell the share within a half per cent. */
  private static final int ROWS = 200;

  /** A row whose values lie closer than this is one tone; rounding of colours gives 2. */
  private static final int ONE_TONE = 3;

  private CutShort() {}

  /** The share of its height that is shown, from 0 to 1; 0 too where no decoder shows anything. */
  static double shownShare(byte[] jpeg) {
    try (ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(jpeg))) {
      Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName("jpeg");
      ImageReader reader = readers.next();
      try {
        reader.setInput(in, true, true);
        int step = Math.max(1, reader.getHeight(0) / ROWS);
        ImageReadParam param = reader.getDefaultReadParam();
        param.setSourceSubsampling(step, step, 0, 0);
        Raster rows =
            reader.canReadRaster() ? reader.readRaster(0, param) : reader.read(0, param).getData();
        return (double) shownRows(rows) / rows.getHeight();
      } finally {
        reader.dispose();
      }
    } catch (IOException | RuntimeException e) {
      return 0;
    }
  }

  private static int shownRows(Raster picture) {
    int shown = picture.getHeight();
    while (shown > 0 && isOneTone(picture, shown - 1)) {
      shown--;
    }
    return shown;
  }

  private static boolean isOneTone(Raster picture, int row) {
    int bands = picture.getNumBands();
    int[] values = picture.getPixels(0, row, picture.getWidth(), 1, (int[]) null);
    for (int i = bands; i < values.length; i++) {
      if (Math.abs(values[i] - values[i % bands]) > ONE_TONE) {
        return false;
      }
    }
    return true;
  }
}
