package rakelight.ground;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import rakelight.archive.DecisionId;
import rakelight.archive.MarkerId;

/**
 * A walk that somebody planned: where it goes and what is to be said there. In which order it goes
 * is worked out when it is shown, by where the markers are then known to stand.
 *
 * @param id its own
 * @param name as people call it, such as {@code Saturday}
 * @param stops where it goes; it begins at the first
 * @param back whether it ends where it began
 * @param minutes how long one stays at each
 * @param reader who changed it last
 */
public record PlannedWalk(
    UUID id,
    String name,
    List<Stop> stops,
    boolean back,
    int minutes,
    String reader,
    Instant at,
    DecisionId decision) {
  /**
   * @param note what is to be said or looked at there; may be empty
   */
  public record Stop(MarkerId marker, String note) {}

  public PlannedWalk {
    stops = List.copyOf(stops);
  }

  /** A walk that nobody keeps. */
  public static PlannedWalk unkept(String name, List<MarkerId> markers, boolean back, int minutes) {
    return new PlannedWalk(
        new UUID(0, 0),
        name,
        markers.stream().map(marker -> new Stop(marker, "")).toList(),
        back,
        minutes,
        "",
        Instant.EPOCH,
        DecisionId.of(new UUID(0, 0).toString()));
  }

  /** What is to be said at a marker; empty if nothing. */
  public String note(MarkerId marker) {
    return stops.stream()
        .filter(stop -> stop.marker().equals(marker))
        .map(Stop::note)
        .findFirst()
        .orElse("");
  }
}
