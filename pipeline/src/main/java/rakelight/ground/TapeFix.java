package rakelight.ground;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A place by distances from two or more known points: least squares, by Gauss and Newton's steps,
 * damped. Two distances fit two places, one the other mirrored at the line between the points; so
 * do more where the points lie on one line. Whoever stands there knows which.
 *
 * @param best the place that fits best
 * @param mirrored the other place, where it fits nearly as well or wasn't ruled out by much
 */
record TapeFix(Place best, Optional<Place> mirrored) {
  /** A tape's own error, and its part of the length; common practice, no source. */
  private static final double TAPE_METRES = 0.03;

  private static final double TAPE_SHARE = 0.005;

  /** Less misfit apart, in chi-square, and either may be meant: three standard errors. */
  private static final double UNDECIDED = 9;

  private static final int STEPS = 60;
  private static final double SAME_METRES = 0.05;

  /** One distance. */
  record Tape(String point, Spot from, double pointErrorMetres, double metres) {
    double error() {
      return Math.hypot(pointErrorMetres, TAPE_METRES + TAPE_SHARE * metres);
    }
  }

  /**
   * A place that fits.
   *
   * @param errorMetres standard error of east and north, on average
   * @param misfit chi-square of all distances
   * @param residualsMetres measured less reckoned, in the order of the distances
   */
  record Place(Spot spot, double errorMetres, double misfit, List<Double> residualsMetres) {
    Place {
      residualsMetres = List.copyOf(residualsMetres);
    }
  }

  /** Whether the distances alone don't say which of the two it is. */
  boolean isUndecided() {
    return mirrored.filter(other -> other.misfit() - best.misfit() < UNDECIDED).isPresent();
  }

  /** The place on one side of the line from the first point to the second, seen along it. */
  Optional<Place> on(boolean left, List<Tape> tapes) {
    return mirrored.isEmpty()
        ? Optional.of(best)
        : isLeft(best, tapes) == left ? Optional.of(best) : mirrored;
  }

  static boolean isLeft(Place place, List<Tape> tapes) {
    Spot a = tapes.get(0).from();
    Spot b = tapes.get(1).from();
    return (b.eastMetres() - a.eastMetres()) * (place.spot().northMetres() - a.northMetres())
            - (b.northMetres() - a.northMetres()) * (place.spot().eastMetres() - a.eastMetres())
        > 0;
  }

  /**
   * @throws IllegalArgumentException if there are fewer than two distances, or all points are one
   */
  static TapeFix of(List<Tape> tapes) {
    if (tapes.size() < 2) {
      throw new IllegalArgumentException("a place by tape needs distances from two points or more");
    }
    if (tapes.stream().allMatch(t -> t.from().metresTo(tapes.get(0).from()) < SAME_METRES)) {
      throw new IllegalArgumentException("the points must lie apart");
    }
    List<Place> found = new ArrayList<>();
    for (int i = 0; i < tapes.size(); i++) {
      for (int j = i + 1; j < tapes.size(); j++) {
        for (Spot start : crossings(tapes.get(i), tapes.get(j))) {
          Place place = settle(start, tapes);
          if (found.stream().noneMatch(o -> o.spot().metresTo(place.spot()) < SAME_METRES)) {
            found.add(place);
          }
        }
      }
    }
    found.sort(Comparator.comparingDouble(Place::misfit));
    return new TapeFix(
        found.get(0), found.size() > 1 ? Optional.of(found.get(1)) : Optional.empty());
  }

  /** Where two circles meet; where they don't, points a little to both sides of the line. */
  private static List<Spot> crossings(Tape one, Tape other) {
    double east = other.from().eastMetres() - one.from().eastMetres();
    double north = other.from().northMetres() - one.from().northMetres();
    double apart = Math.hypot(east, north);
    if (apart < SAME_METRES) {
      return List.of();
    }
    double along =
        (one.metres() * one.metres() - other.metres() * other.metres() + apart * apart)
            / (2 * apart);
    double aside = Math.sqrt(Math.max(0.01, one.metres() * one.metres() - along * along));
    List<Spot> spots = new ArrayList<>();
    for (int side : new int[] {1, -1}) {
      spots.add(
          one.from()
              .plus(
                  (along * east - side * aside * north) / apart,
                  (along * north + side * aside * east) / apart));
    }
    return spots;
  }

  private static Place settle(Spot start, List<Tape> tapes) {
    Spot spot = start;
    double misfit = misfit(spot, tapes);
    double damping = 1e-3;
    double[] normal = new double[3];
    for (int step = 0; step < STEPS; step++) {
      normal = new double[3];
      double[] gradient = new double[2];
      for (Tape tape : tapes) {
        double reckoned = Math.max(1e-6, spot.metresTo(tape.from()));
        double e = (spot.eastMetres() - tape.from().eastMetres()) / reckoned / tape.error();
        double n = (spot.northMetres() - tape.from().northMetres()) / reckoned / tape.error();
        double off = (tape.metres() - reckoned) / tape.error();
        normal[0] += e * e;
        normal[1] += e * n;
        normal[2] += n * n;
        gradient[0] += e * off;
        gradient[1] += n * off;
      }
      double a = normal[0] * (1 + damping) + 1e-9;
      double c = normal[2] * (1 + damping) + 1e-9;
      double determinant = a * c - normal[1] * normal[1];
      Spot next =
          spot.plus(
              (c * gradient[0] - normal[1] * gradient[1]) / determinant,
              (a * gradient[1] - normal[1] * gradient[0]) / determinant);
      double better = misfit(next, tapes);
      if (better <= misfit) {
        boolean settled = next.metresTo(spot) < 1e-6;
        spot = next;
        misfit = better;
        damping /= 4;
        if (settled) {
          break;
        }
      } else {
        damping = Math.min(1e6, damping * 8);
      }
    }
    double determinant = normal[0] * normal[2] - normal[1] * normal[1];
    int free = tapes.size() - 2;
    double scatter = free == 0 ? 1 : Math.max(1, misfit / free);
    double error =
        determinant < 1e-9
            ? Double.MAX_VALUE
            : Math.sqrt((normal[0] + normal[2]) / determinant / 2 * scatter);
    Spot at = spot;
    // Where the lines of sight nearly fall together the circles say little across them.
    double farthest = tapes.stream().mapToDouble(Tape::metres).max().orElse(1);
    return new Place(
        at,
        Math.min(error, Math.max(1, farthest)),
        misfit,
        tapes.stream().map(tape -> tape.metres() - at.metresTo(tape.from())).toList());
  }

  private static double misfit(Spot spot, List<Tape> tapes) {
    double sum = 0;
    for (Tape tape : tapes) {
      double off = (tape.metres() - spot.metresTo(tape.from())) / tape.error();
      sum += off * off;
    }
    return sum;
  }
}
