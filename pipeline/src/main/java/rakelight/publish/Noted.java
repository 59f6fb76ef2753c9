package rakelight.publish;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.ground.GroundPlan;
import rakelight.ground.KeptAnswers;
import rakelight.ground.PlannedWalk;
import rakelight.ground.PositionStore;
import rakelight.ground.Walk;
import rakelight.ground.WalkStore;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Person;
import rakelight.person.Question;
import rakelight.person.QuestionStore;

/**
 * What people noted of markers beside their readings, complete: the one place where an edition asks
 * for descriptions, emblems, places, walks and questions. Looked up once.
 */
final class Noted {
  private final Archive archive;
  private final PositionStore positions;
  private Optional<Map<MarkerId, Description>> descriptions = Optional.empty();
  private Optional<Map<MarkerId, List<EmblemNote>>> emblems = Optional.empty();

  Noted(Archive archive) {
    this.archive = archive;
    this.positions = new PositionStore(archive);
  }

  /** What a marker is. */
  Description description(MarkerId marker) {
    if (descriptions.isEmpty()) {
      Map<MarkerId, Description> all = new HashMap<>();
      new DescriptionStore(archive).all().forEach((id, said) -> all.put(id, said.description()));
      descriptions = Optional.of(all);
    }
    return descriptions.get().getOrDefault(marker, Description.NONE);
  }

  /** The emblems seen on a marker. */
  List<EmblemNote> emblems(MarkerId marker) {
    if (emblems.isEmpty()) {
      Map<MarkerId, List<EmblemNote>> all = new HashMap<>();
      for (EmblemNote note : new EmblemStore(archive).all()) {
        all.computeIfAbsent(note.marker(), m -> new ArrayList<>()).add(note);
      }
      emblems = Optional.of(all);
    }
    return emblems.get().getOrDefault(marker, List.of());
  }

  List<Question> questions() {
    return new QuestionStore(archive).questions();
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
