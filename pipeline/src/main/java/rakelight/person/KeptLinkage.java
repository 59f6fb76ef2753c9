package rakelight.person;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.Conclusions;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.Sha256;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.calendar.CalendarChange;
import rakelight.photo.Position;

/**
 * The pairs that {@link Linkage} proposes, fitted once for each state of the ground: the readings
 * that stand, the markers they are on and where these stand, and what people decided about who is
 * one with whom and whose a stone is. Only the newest state is kept, since nobody lists an older
 * one.
 */
final class KeptLinkage {
  private static final Conclusions.Kind KIND = new Conclusions.Kind("linkage", 2);

  private final Archive archive;

  /** A pair as it is written down. */
  private record Written(
      MentionId one,
      MentionId other,
      double bits,
      double probability,
      List<Linkage.Reason> reasons) {}

  KeptLinkage(Archive archive) {
    this.archive = archive;
  }

  /**
   * The pairs that may be of one person, the likeliest first.
   *
   * @param faces all that have a confirmed reading
   * @param persons named on these faces
   * @param twoPersons pairs of mentions that people said are of two persons
   * @param belongings what people confirmed of stones
   * @param places where markers stand, as far as known
   */
  List<Linkage.Pair> pairs(
      List<FaceStatements> faces,
      List<Person> persons,
      Set<Set<MentionId>> twoPersons,
      List<Belonging> belongings,
      Map<MarkerId, Position> places) {
    String state = state(faces, places, persons, twoPersons, belongings);
    Optional<String> kept = archive.conclusions().find(KIND, state);
    if (kept.isPresent()) {
      return read(kept.get(), persons);
    }
    List<Linkage.Pair> pairs = Linkage.propose(persons, twoPersons, belongings, places);
    List<Written> written =
        pairs.stream()
            .map(
                pair ->
                    new Written(
                        pair.one().id(),
                        pair.other().id(),
                        pair.bits(),
                        pair.probability(),
                        pair.reasons()))
            .toList();
    archive.conclusions().keepOnly(KIND, state, Json.text(written));
    return pairs;
  }

  /** Names everything the model is fitted to. */
  private String state(
      List<FaceStatements> faces,
      Map<MarkerId, Position> places,
      List<Person> persons,
      Set<Set<MentionId>> twoPersons,
      List<Belonging> belongings) {
    StringBuilder state = new StringBuilder();
    state.append(Statements.GRAMMAR).append(' ').append(CalendarChange.of(archive.ground()));
    for (FaceStatements face : faces) {
      state
          .append('\n')
          .append(face.marker().id())
          .append(' ')
          .append(face.marker().number())
          .append(' ')
          .append(face.face().id())
          .append(' ')
          .append(face.face().name())
          .append(' ')
          .append(face.reading().orElseThrow().id());
    }
    Map<String, Position> sorted = new TreeMap<>();
    places.forEach((marker, place) -> sorted.put(marker.toString(), place));
    state.append('\n').append(sorted);
    for (Person person : persons) {
      if (person.mentions().size() > 1) {
        state.append("\none ").append(person.mentions().stream().map(Mention::id).toList());
      }
    }
    twoPersons.stream()
        .map(both -> both.stream().map(MentionId::toString).sorted().toList().toString())
        .sorted()
        .forEach(both -> state.append("\ntwo ").append(both));
    new CorrectionStore(archive)
        .all()
        .values()
        .forEach(all -> all.forEach(one -> state.append("\nsaid ").append(one.decision())));
    belongings.forEach(belonging -> state.append('\n').append(belonging));
    return Sha256.of(state.toString().getBytes(StandardCharsets.UTF_8)).hex();
  }

  private static List<Linkage.Pair> read(String document, List<Person> persons) {
    Map<MentionId, Mention> byId = new HashMap<>();
    persons.forEach(person -> person.mentions().forEach(m -> byId.put(m.id(), m)));
    List<Linkage.Pair> pairs = new ArrayList<>();
    for (Written written : Json.read(document, Written[].class)) {
      Mention one = byId.get(written.one());
      Mention other = byId.get(written.other());
      if (one != null && other != null) {
        pairs.add(
            new Linkage.Pair(one, other, written.bits(), written.probability(), written.reasons()));
      }
    }
    return List.copyOf(pairs);
  }
}
