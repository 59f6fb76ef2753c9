package rakelight.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.ground.PlannedWalk;
import rakelight.ground.PositionStore;
import rakelight.ground.Walk;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;

/** Planned walks in the order in which they are walked, with what is known of each stop. */
final class WalkPlans {
  private WalkPlans() {}

  /** In order, by where the markers are known to stand now. */
  static Walk order(Archive archive, PlannedWalk planned) {
    MarkerStore markers = new MarkerStore(archive);
    PositionStore positions = new PositionStore(archive);
    List<Marker> stops =
        planned.stops().stream()
            .flatMap(stop -> markers.marker(stop.marker()).stream())
            .distinct()
            .toList();
    return Walk.of(stops, positions.best(), positions.plane(), planned.back());
  }

  static GuidePage.WalkShown shown(Archive archive, PlannedWalk planned) {
    Walk walk = order(archive, planned);
    Map<MarkerId, ConditionNote> noted = new ConditionStore(archive).newest();
    DescriptionStore descriptions = new DescriptionStore(archive);
    List<GuidePage.Stop> stops = new ArrayList<>();
    for (Walk.Stop stop : walk.stops()) {
      Marker marker = stop.marker();
      Description said =
          descriptions.of(marker.id()).map(Described::description).orElse(Description.NONE);
      stops.add(
          new GuidePage.Stop(
              stops.size() + 1,
              marker,
              stop.metres().map(metres -> Math.round(metres) + " m on").orElse(""),
              stops.size() < walk.stops().size() - walk.unplaced(),
              GuidePage.line(
                  said.kind().orElse(""), said.form().orElse(""), said.material().orElse("")),
              planned.note(marker.id()),
              Optional.ofNullable(noted.get(marker.id())).map(ConditionNote::unsafe).orElse("")));
    }
    return new GuidePage.WalkShown(planned, walk, stops, summary(planned, walk));
  }

  private static String summary(PlannedWalk planned, Walk walk) {
    int stops = walk.stops().size();
    return stops
        + (stops == 1 ? " stop" : " stops")
        + ", "
        + Math.round(walk.metres())
        + " m in straight lines, about "
        + Math.round(walk.minutes(planned.minutes()))
        + " min with "
        + planned.minutes()
        + " at each"
        + (planned.back() ? ", and back to where it begins" : "")
        + (walk.unplaced() == 0
            ? ""
            : "; of "
                + walk.unplaced()
                + " nobody knows where "
                + (walk.unplaced() == 1 ? "it stands" : "they stand"))
        + ".";
  }
}
