package rakelight.ground;

import java.util.List;
import java.util.Optional;

/**
 * Where a place in a row is, by others of the row whose positions are known: a straight row with
 * even places, by least squares weighted by inverse variance.
 */
final class RowFit {
  /** How far a stone stands from its even place in a row; a choice, no source. */
  private static final double UNEVEN_METRES = 0.5;

  /** The error grows so much for each place past the last that is known; a choice, no source. */
  private static final double PAST_THE_END_METRES = 0.25;

  /** A place that is known. */
  record Known(int place, Spot spot, double errorMetres) {}

  /** A place that is reckoned. */
  record Reckoned(Spot spot, double errorMetres) {}

  private RowFit() {}

  /** Empty unless two places at least are known. */
  static Optional<Reckoned> at(int place, List<Known> known) {
    if (known.stream().mapToInt(Known::place).distinct().count() < 2) {
      return Optional.empty();
    }
    double w = 0;
    double mean = 0;
    double east = 0;
    double north = 0;
    for (Known one : known) {
      double weight = weight(one);
      w += weight;
      mean += weight * one.place();
      east += weight * one.spot().eastMetres();
      north += weight * one.spot().northMetres();
    }
    mean /= w;
    east /= w;
    north /= w;
    double spread = 0;
    double stepEast = 0;
    double stepNorth = 0;
    for (Known one : known) {
      double weight = weight(one);
      double off = one.place() - mean;
      spread += weight * off * off;
      stepEast += weight * off * (one.spot().eastMetres() - east);
      stepNorth += weight * off * (one.spot().northMetres() - north);
    }
    stepEast /= spread;
    stepNorth /= spread;
    double misfit = 0;
    for (Known one : known) {
      double off = one.place() - mean;
      Spot even = new Spot(east + off * stepEast, north + off * stepNorth);
      misfit += weight(one) * Math.pow(one.spot().metresTo(even), 2);
    }
    int free = 2 * known.size() - 4;
    double scatter = free == 0 ? 1 : Math.max(1, misfit / free);
    double off = place - mean;
    int first = known.stream().mapToInt(Known::place).min().orElse(place);
    int last = known.stream().mapToInt(Known::place).max().orElse(place);
    int past = Math.max(0, Math.max(first - place, place - last));
    double variance =
        (1 / w + off * off / spread) * scatter
            + UNEVEN_METRES * UNEVEN_METRES
            + Math.pow(PAST_THE_END_METRES * past, 2);
    return Optional.of(
        new Reckoned(
            new Spot(east + off * stepEast, north + off * stepNorth), Math.sqrt(variance)));
  }

  private static double weight(Known one) {
    return 1 / (one.errorMetres() * one.errorMetres() + UNEVEN_METRES * UNEVEN_METRES);
  }
}
