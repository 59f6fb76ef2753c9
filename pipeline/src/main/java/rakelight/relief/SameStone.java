package rakelight.relief;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.opencv.calib3d.Calib3d;
import org.opencv.core.Mat;
import org.opencv.core.MatOfPoint2f;
import org.opencv.core.Point;
import rakelight.picture.NativeScope;
import rakelight.picture.Natives;

/**
 * How far two photographs look like one stone: like places are paired, and those counted that one
 * homography carries over, as it must where both lie on one flat face.
 */
public final class SameStone {
  /** The best pair differs in so many times fewer bits than the next (tried 0.8 to 0.9). */
  private static final double RATIO = 0.88;

  /** Codes of unlike places differ in some 110 bits of 256 and more; the ratio decides. */
  private static final int MOST_BITS = 120;

  private static final int FEWEST = 8;

  /** The longest side that places are reckoned on: the search has thresholds of its own. */
  private static final double LONGEST = 640;

  /** How far a place may lie from where it should. */
  private static final double TOLERANCE = 5;

  private static final int ITERATIONS = 2000;
  private static final double CONFIDENCE = 0.999;

  /** Enlargement by area, and how far the horizon may tilt; people hold cameras upright. */
  private static final double LARGEST_ENLARGEMENT = 5;

  private static final double LARGEST_TURN_RADIANS = 0.6;

  /** One side of the picture comes nearer than the other by such a part, at most. */
  private static final double LARGEST_NEARING = 1.2 / LONGEST;

  /** Places nearer to each other than this count once. */
  private static final double APART = 6;

  private static final int CELLS_A_ROW = 10_000;

  private SameStone() {}

  /**
   * How many places agree, each photograph's own places counted, the fewer of both; 0 where they
   * can't show one stone. 15 and more are seldom chance; pictures without letters or edges have few
   * whatever they show.
   */
  public static int agreeing(Features one, Features other) {
    List<Point> from = new ArrayList<>();
    List<Point> to = new ArrayList<>();
    for (int i = 0; i < one.count(); i++) {
      int best = Features.CODE_BITS;
      int next = Features.CODE_BITS;
      int at = 0;
      for (int j = 0; j < other.count(); j++) {
        int bits = one.difference(i, other, j);
        if (bits < best) {
          next = best;
          best = bits;
          at = j;
        } else if (bits < next) {
          next = bits;
        }
      }
      if (best < MOST_BITS && best < RATIO * next) {
        from.add(point(one, i));
        to.add(point(other, at));
      }
    }
    return from.size() < FEWEST ? 0 : carriedOver(from, to);
  }

  private static Point point(Features features, int i) {
    return new Point(LONGEST * features.place(i).x(), LONGEST * features.place(i).y());
  }

  private static int carriedOver(List<Point> from, List<Point> to) {
    Natives.openCv();
    try (NativeScope scope = new NativeScope()) {
      Mat carried = scope.mat();
      Mat found =
          scope.own(
              Calib3d.findHomography(
                  scope.own(new MatOfPoint2f(from.toArray(Point[]::new))),
                  scope.own(new MatOfPoint2f(to.toArray(Point[]::new))),
                  Calib3d.USAC_MAGSAC,
                  TOLERANCE,
                  carried,
                  ITERATIONS,
                  CONFIDENCE));
      if (found.empty()) {
        return 0;
      }
      double[] h = new double[9];
      found.get(0, 0, h);
      if (!isPlausible(h)) {
        return 0;
      }
      byte[] is = new byte[carried.rows()];
      carried.get(0, 0, is);
      Set<Integer> cellsFrom = new HashSet<>();
      Set<Integer> cellsTo = new HashSet<>();
      for (int i = 0; i < is.length; i++) {
        if (is[i] != 0) {
          cellsFrom.add(cell(from.get(i)));
          cellsTo.add(cell(to.get(i)));
        }
      }
      return Math.min(cellsFrom.size(), cellsTo.size());
    }
  }

  private static boolean isPlausible(double[] h) {
    double enlargement = h[0] * h[4] - h[1] * h[3];
    double turn = Math.atan2(h[3] - h[1], h[0] + h[4]);
    return enlargement > 1 / LARGEST_ENLARGEMENT
        && enlargement < LARGEST_ENLARGEMENT
        && Math.abs(turn) < LARGEST_TURN_RADIANS
        && Math.abs(h[6]) < LARGEST_NEARING
        && Math.abs(h[7]) < LARGEST_NEARING;
  }

  private static int cell(Point p) {
    return (int) (p.x / APART) * CELLS_A_ROW + (int) (p.y / APART);
  }
}
