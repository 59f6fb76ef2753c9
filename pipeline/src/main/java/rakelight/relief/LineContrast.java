package rakelight.relief;

import java.util.ArrayList;
import java.util.List;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;
import rakelight.finding.LaidLine;
import rakelight.finding.LineStrip;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;

/**
 * How far the letters of a line stand out from the stone above and below them, on one photograph.
 *
 * <p>Brightness is made linear and divided by its background, so exposure doesn't matter; of what
 * is left only shapes between grain and a stroke are kept. Grain is relief as letters are: lower
 * light strengthens both. So what counts is the ratio, piece by piece along the line.
 *
 * @param pieces for each piece of the line the logarithm of how many times its letters vary as much
 *     as the stone beside them; 0 and less where nothing stands out
 */
public record LineContrast(List<Double> pieces) {
  private static final int HEIGHT_PX = 64;

  /** How many capital heights a strip covers; the letters stand in the middle one. */
  private static final double CAP_HEIGHTS = 1.9;

  private static final double CAPITAL_PX = HEIGHT_PX / CAP_HEIGHTS;

  /** Of a capital: grain is finer, shade is larger. */
  private static final double FINE = 0.05;

  private static final double COARSE = 0.35;

  /** A piece is so many capitals long. */
  private static final double PIECE = 2;

  public LineContrast {
    pieces = List.copyOf(pieces);
  }

  /** Measures a line on a picture that it is laid over. */
  public static LineContrast of(GrayImage picture, LaidLine line) {
    int width = LineStrip.widthPx(line.line(), HEIGHT_PX, CAP_HEIGHTS);
    GrayImage strip = LineStrip.cut(picture, line, width, HEIGHT_PX, CAP_HEIGHTS);
    float[] band = band(strip);
    int pieces = Math.max(1, (int) (width / (PIECE * CAPITAL_PX)));
    List<Double> found = new ArrayList<>();
    for (int i = 0; i < pieces; i++) {
      found.add(piece(band, width, i * width / pieces, (i + 1) * width / pieces));
    }
    return new LineContrast(found);
  }

  /** Of all pieces the mean. */
  public double mean() {
    return pieces.stream().mapToDouble(Double::doubleValue).average().orElse(0);
  }

  private static float[] band(GrayImage strip) {
    try (NativeScope scope = new NativeScope()) {
      Mat flat = Relief.flattened(Relief.linear(strip.in(scope), scope), 1.5 * CAPITAL_PX, scope);
      Mat fine = scope.mat();
      Imgproc.GaussianBlur(flat, fine, new Size(), FINE * CAPITAL_PX);
      Mat coarse = scope.mat();
      Imgproc.GaussianBlur(flat, coarse, new Size(), COARSE * CAPITAL_PX);
      Core.subtract(fine, coarse, fine);
      Mat plain = scope.mat();
      fine.convertTo(plain, CvType.CV_32F);
      float[] band = new float[strip.widthPx() * strip.heightPx()];
      plain.get(0, 0, band);
      return band;
    }
  }

  private static double piece(float[] band, int width, int from, int to) {
    double margin = (CAP_HEIGHTS - 1) / 2 * CAPITAL_PX;
    double letters = 0;
    double stone = 0;
    int inside = 0;
    int outside = 0;
    for (int y = 0; y < HEIGHT_PX; y++) {
      boolean in = y >= margin && y < HEIGHT_PX - margin;
      boolean out = y < 0.6 * margin || y >= HEIGHT_PX - 0.6 * margin;
      for (int x = from; x < to; x++) {
        double v = band[y * width + x];
        if (in) {
          letters += v * v;
          inside++;
        } else if (out) {
          stone += v * v;
          outside++;
        }
      }
    }
    double beside = stone / Math.max(1, outside) + 1e-6;
    return 0.5 * Math.log((letters / Math.max(1, inside) + 1e-6) / beside);
  }
}
