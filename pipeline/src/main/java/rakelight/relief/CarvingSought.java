package rakelight.relief;

import java.util.ArrayList;
import java.util.List;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import rakelight.picture.NativeScope;
import rakelight.picture.Point;

/**
 * A carving whose likes are looked for: it is turned, scaled and mirrored a little, each time laid
 * over another at every shift at once (correlation by Fourier's transform), and where it lies best
 * compared tile by tile, each of which may lie a little elsewhere.
 */
public final class CarvingSought {
  /** It is shifted by this part of the square at most. */
  private static final int MOST_SHIFT = CarvingShape.SIDE / 10;

  private static final int TILE = 8;

  /** A tile may lie so many cells from where the whole would have it. */
  private static final int ELSEWHERE = 2;

  /** A tile's places are alike from this correlation. */
  private static final double ALIKE = 0.5;

  /** Tiles with less than this part of the mean tile's edges show nothing. */
  private static final double EMPTY = 0.4;

  private final List<Posed> posed = new ArrayList<>();

  private record Posed(CarvingShape.Pose pose, CarvingShape shape, float[] spectrum) {}

  private CarvingSought() {}

  /**
   * Prepares one.
   *
   * @param looked what {@link FindCarving} found of it
   */
  public static CarvingSought of(CarvingLook looked) {
    CarvingSought sought = new CarvingSought();
    for (CarvingShape.Pose pose : CarvingShape.poses()) {
      CarvingShape shape = looked.shape().posed(pose);
      sought.posed.add(new Posed(pose, shape, shape.spectrum()));
    }
    return sought;
  }

  /**
   * How alike another is.
   *
   * @param likeness 0 to 1: how far edges lie alike where it lies best; what share of it is chance
   *     depends on both
   * @param mirrored whether it is alike if one is mirrored
   * @param places that are alike, the most alike first, in shares of the side of the squares
   */
  public record Match(double likeness, boolean mirrored, List<Place> places) {
    public Match {
      places = List.copyOf(places);
    }
  }

  /** A place here and its like there. */
  public record Place(Point here, Point there, double likeness) {}

  private record Fit(Posed posed, double likeness, int x, int y) {}

  /** Compares with another. */
  public Match match(CarvingLook other) {
    return byTiles(fit(other), other.shape());
  }

  /** The likeness alone. */
  public double likeness(CarvingLook other) {
    return Math.max(0, fit(other).likeness());
  }

  private Fit fit(CarvingLook other) {
    float[] spectrum = other.shape().spectrum();
    Fit best = new Fit(posed.get(0), -1, 0, 0);
    try (NativeScope scope = new NativeScope()) {
      Mat product = scope.own(new Mat(CarvingShape.SIDE, CarvingShape.SIDE, CvType.CV_32FC2));
      Mat shifts = scope.mat();
      for (Posed one : posed) {
        product.put(0, 0, product(one.spectrum(), spectrum));
        Core.dft(product, shifts, Core.DFT_INVERSE | Core.DFT_SCALE | Core.DFT_REAL_OUTPUT);
        Fit fit = highest(one, shifts);
        if (fit.likeness() > best.likeness()) {
          best = fit;
        }
      }
    }
    return best;
  }

  private static float[] product(float[] one, float[] other) {
    int n = 2 * CarvingShape.PLACES;
    float[] product = new float[n];
    for (int from = 0; from < one.length; from += n) {
      for (int i = 0; i < n; i += 2) {
        float re = one[from + i];
        float im = one[from + i + 1];
        float ro = other[from + i];
        float io = other[from + i + 1];
        product[i] += re * ro + im * io;
        product[i + 1] += re * io - im * ro;
      }
    }
    return product;
  }

  private static Fit highest(Posed posed, Mat shifts) {
    float[] at = new float[CarvingShape.PLACES];
    shifts.get(0, 0, at);
    Fit best = new Fit(posed, -1, 0, 0);
    for (int y = -MOST_SHIFT; y <= MOST_SHIFT; y++) {
      for (int x = -MOST_SHIFT; x <= MOST_SHIFT; x++) {
        int place =
            Math.floorMod(y, CarvingShape.SIDE) * CarvingShape.SIDE
                + Math.floorMod(x, CarvingShape.SIDE);
        if (at[place] > best.likeness()) {
          best = new Fit(posed, at[place], x, y);
        }
      }
    }
    return best;
  }

  private static Match byTiles(Fit fit, CarvingShape other) {
    CarvingShape own = fit.posed().shape();
    int tiles = CarvingShape.SIDE / TILE;
    double[] edges = new double[tiles * tiles];
    double mean = 0;
    for (int t = 0; t < edges.length; t++) {
      edges[t] = product(own, t % tiles, t / tiles, own, 0, 0);
      mean += edges[t] / edges.length;
    }
    List<Place> places = new ArrayList<>();
    for (int t = 0; t < edges.length; t++) {
      if (edges[t] < EMPTY * mean) {
        continue;
      }
      Place place = place(fit, other, t % tiles, t / tiles, edges[t]);
      if (place.likeness() >= ALIKE) {
        places.add(place);
      }
    }
    places.sort((a, b) -> Double.compare(b.likeness(), a.likeness()));
    return new Match(Math.max(0, fit.likeness()), fit.posed().pose().mirrored(), places);
  }

  /** Where a tile lies best. */
  private static Place place(Fit fit, CarvingShape other, int tx, int ty, double own) {
    double best = -1;
    int bestX = 0;
    int bestY = 0;
    for (int dy = -ELSEWHERE; dy <= ELSEWHERE; dy++) {
      for (int dx = -ELSEWHERE; dx <= ELSEWHERE; dx++) {
        int x = fit.x() + dx;
        int y = fit.y() + dy;
        double like = product(fit.posed().shape(), tx, ty, other, x, y);
        if (like <= 0) {
          continue;
        }
        double there = squares(other, tx * TILE + x, ty * TILE + y);
        double correlation = like / Math.sqrt(Math.max(1e-12, own * there));
        if (correlation > best) {
          best = correlation;
          bestX = x;
          bestY = y;
        }
      }
    }
    double x = (tx + 0.5) * TILE;
    double y = (ty + 0.5) * TILE;
    return new Place(
        unposed(fit.posed().pose(), x / CarvingShape.SIDE, y / CarvingShape.SIDE),
        new Point((x + bestX) / CarvingShape.SIDE, (y + bestY) / CarvingShape.SIDE),
        Math.max(0, best));
  }

  private static double product(
      CarvingShape own, int tx, int ty, CarvingShape other, int shiftX, int shiftY) {
    double sum = 0;
    for (int b = 0; b < CarvingShape.BINS; b++) {
      for (int y = ty * TILE; y < (ty + 1) * TILE; y++) {
        for (int x = tx * TILE; x < (tx + 1) * TILE; x++) {
          sum += own.cell(b, x, y) * other.cell(b, x + shiftX, y + shiftY);
        }
      }
    }
    return sum;
  }

  private static double squares(CarvingShape shape, int left, int top) {
    double sum = 0;
    for (int b = 0; b < CarvingShape.BINS; b++) {
      for (int y = top; y < top + TILE; y++) {
        for (int x = left; x < left + TILE; x++) {
          double cell = shape.cell(b, x, y);
          sum += cell * cell;
        }
      }
    }
    return sum;
  }

  /** Back from the turned square to the square as it is. */
  private static Point unposed(CarvingShape.Pose pose, double x, double y) {
    double cos = Math.cos(Math.toRadians(pose.turnDegrees()));
    double sin = Math.sin(Math.toRadians(pose.turnDegrees()));
    double px = (x - 0.5) / pose.scale();
    double py = (y - 0.5) / pose.scale();
    double back = cos * px - sin * py;
    return new Point(0.5 + (pose.mirrored() ? -back : back), 0.5 + sin * px + cos * py);
  }
}
