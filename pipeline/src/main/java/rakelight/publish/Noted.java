package rakelight.publish;

import java.util.List;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.ground.GroundPlan;
import rakelight.ground.KeptAnswers;
import rakelight.ground.PlannedWalk;
import rakelight.ground.PositionStore;
import rakelight.ground.Walk;
import rakelight.ground.WalkStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Person;

/**
 * What people planned and where things stand, complete: where an edition asks for walks and the
 * plan.
 */
final class Noted {
  private final Archive archive;
  private final PositionStore positions;

  Noted(Archive archive) {
    this.archive = archive;
    this.positions = new PositionStore(archive);
  }

  List<PlannedWalk> walks() {
    return new WalkStore(archive).walks();
  }

  /** A walk past these markers, by where they are known to stand. */
  Walk inOrder(List<Marker> stops, boolean back) {
    return Walk.of(stops, positions.best(), positions.plane(), back);
  }

  Optional<Marker> marker(MarkerId id) {
    return new MarkerStore(archive).marker(id);
  }

  /** The plan as these faces and persons alone make it. */
  GroundPlan plan(List<FaceStatements> faces, List<Person> persons) {
    return GroundPlan.of(archive, faces, persons, new KeptAnswers(archive));
  }
}
