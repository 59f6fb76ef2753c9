package rakelight.relief;

import java.util.List;
import rakelight.finding.LaidLine;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;

/**
 * How legible a line is in one season against another, from a photograph of each.
 *
 * @param before how many times the letters vary as much as the stone beside them, as a logarithm
 * @param change of that, negative where letters stand out less
 * @param uncertainty one standard deviation of the change: how far pieces of the line disagree, and
 *     what another light alone does
 */
public record LegibilityChange(double before, double change, double uncertainty) {
  /** What another light alone does to a line, one standard deviation; see measurements.md. */
  static final double LIGHT = 0.15;

  /** Called worn from so many deviations on. */
  private static final double CLEAR = 2;

  /** Compares one line on two pictures, see {@link Registration} for the way between them. */
  public static LegibilityChange of(
      GrayImage first, GrayImage second, LaidLine line, Homography move) {
    return of(
        List.of(LineContrast.of(first, line)), List.of(LineContrast.of(second, line.then(move))));
  }

  /**
   * Compares one line in two seasons, each photographed once or more often.
   *
   * @param first one or more, with as many pieces as each of the others
   */
  public static LegibilityChange of(List<LineContrast> first, List<LineContrast> second) {
    int n = first.get(0).pieces().size();
    double mean = 0;
    double before = 0;
    double[] changes = new double[n];
    for (int i = 0; i < n; i++) {
      double was = piece(first, i);
      changes[i] = piece(second, i) - was;
      mean += changes[i] / n;
      before += was / n;
    }
    double squares = 0;
    for (double change : changes) {
      squares += (change - mean) * (change - mean);
    }
    double light = LIGHT * LIGHT * (0.5 / first.size() + 0.5 / second.size());
    double pieces = n > 1 ? squares / (n - 1) / n : light;
    return new LegibilityChange(before, mean, Math.sqrt(pieces + light));
  }

  /**
   * The same with something else by which legibility changes: the product of both.
   *
   * @param more its natural logarithm
   * @param deviation one standard deviation of that
   */
  public LegibilityChange and(double more, double deviation) {
    return new LegibilityChange(before, change + more, Math.hypot(uncertainty, deviation));
  }

  private static double piece(List<LineContrast> season, int i) {
    return season.stream().mapToDouble(one -> one.pieces().get(i)).average().orElseThrow();
  }

  /** Whether the line has lost more than another light could take. */
  public boolean isWorn() {
    return change < -CLEAR * uncertainty;
  }
}
