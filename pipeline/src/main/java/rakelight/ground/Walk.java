package rakelight.ground;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.MarkerId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

/**
 * A walk past some markers in a good order.
 *
 * @param stops in order; those of which nobody knows where they stand come last, by number
 * @param metres how far it is from the first to the last that is known
 * @param unplaced so many of the last stops have no known place
 */
public record Walk(List<Stop> stops, double metres, int unplaced) {
  /** A slow walk over uneven ground; common practice, no source. */
  private static final double METRES_A_MINUTE = 40;

  /**
   * @param metres from the stop before, straight; empty for the first and where nobody knows
   */
  public record Stop(Marker marker, Optional<Double> metres) {}

  public Walk {
    stops = List.copyOf(stops);
  }

  /**
   * From the first marker past the others.
   *
   * @param markers where to go, the first where one begins; at least one
   * @param best where markers stand
   * @param plane on which distances are measured
   * @param back whether one returns
   */
  public static Walk of(
      List<Marker> markers, Map<MarkerId, MarkerPosition> best, GroundPlane plane, boolean back) {
    List<Marker> placed = new ArrayList<>();
    List<Marker> unplaced = new ArrayList<>();
    List<Spot> spots = new ArrayList<>();
    for (Marker marker : markers) {
      Optional<MarkerPosition> known = Optional.ofNullable(best.get(marker.id()));
      (known.isPresent() ? placed : unplaced).add(marker);
      known.ifPresent(position -> spots.add(spot(position, plane)));
    }
    unplaced.sort(MarkerStore.BY_NUMBER);
    List<Stop> stops = new ArrayList<>();
    double length = 0;
    if (!placed.isEmpty()) {
      double[][] metres = new double[spots.size()][spots.size()];
      for (int i = 0; i < metres.length; i++) {
        for (int j = 0; j < metres.length; j++) {
          metres[i][j] =
              Math.hypot(
                  spots.get(i).eastMetres() - spots.get(j).eastMetres(),
                  spots.get(i).northMetres() - spots.get(j).northMetres());
        }
      }
      int[] order = WalkingOrder.of(metres, back);
      length = WalkingOrder.length(metres, order, back);
      for (int i = 0; i < order.length; i++) {
        Optional<Double> way =
            i == 0 ? Optional.empty() : Optional.of(metres[order[i - 1]][order[i]]);
        stops.add(new Stop(placed.get(order[i]), way));
      }
    }
    unplaced.forEach(one -> stops.add(new Stop(one, Optional.empty())));
    return new Walk(stops, length, unplaced.size());
  }

  private static Spot spot(MarkerPosition position, GroundPlane plane) {
    return plane.spot(position.place().latitudeDegrees(), position.place().longitudeDegrees());
  }

  /** How long it takes, in minutes, with so many at each stop. */
  public double minutes(double eachMinutes) {
    return metres / METRES_A_MINUTE + eachMinutes * stops.size();
  }
}
