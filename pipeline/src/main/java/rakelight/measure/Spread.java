package rakelight.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;

/**
 * How far a figure may be chance: the faces are drawn anew, with replacement, many times, and nine
 * in ten of the figures that come out lie in between (bootstrap: Efron, Annals of Statistics 7,
 * 1979). Faces are drawn and not letters, for the letters of one stone are worn alike.
 *
 * @param low a twentieth of the draws gave less
 * @param high a twentieth gave more
 */
public record Spread(double low, double high) {
  private static final int DRAWS = 1000;
  private static final long SEED = 1;

  /**
   * Draws faces and works out a figure each time; not a number where no draw gives one.
   *
   * @param faces what is known of each
   * @param figure of the faces drawn; a draw for which it isn't finite doesn't count
   */
  static <T> Spread of(List<T> faces, ToDoubleFunction<List<T>> figure) {
    SplittableRandom random = new SplittableRandom(SEED);
    double[] figures = new double[DRAWS];
    for (int i = 0; i < DRAWS; i++) {
      List<T> drawn = new ArrayList<>(faces.size());
      for (int k = 0; k < faces.size(); k++) {
        drawn.add(faces.get(random.nextInt(faces.size())));
      }
      figures[i] = figure.applyAsDouble(drawn);
    }
    double[] sorted = Arrays.stream(figures).filter(Double::isFinite).sorted().toArray();
    return sorted.length == 0
        ? new Spread(Double.NaN, Double.NaN)
        : new Spread(sorted[sorted.length / 20], sorted[sorted.length - 1 - sorted.length / 20]);
  }
}
