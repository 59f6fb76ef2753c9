package rakelight.person;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.Conclusions;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.Sha256;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.calendar.CalendarChange;
import rakelight.photo.PhotoStore;
import rakelight.photo.Position;

/**
 * The pairs that {@link Linkage} proposes, fitted once for each state of the ground: the readings
 * that stand, the markers they are on and where these stand. What people decided about persons
 * doesn't change it. Only the newest state is kept, since nobody lists an older one.
 */
final class KeptLinkage {
  private static final Conclusions.Kind KIND = new Conclusions.Kind("linkage", 1);

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
   * The pairs among mentions that may be of one person, the likeliest first.
   *
   * @param faces all that have a confirmed reading
   * @param mentions on these faces
   */
  List<Linkage.Pair> pairs(List<FaceStatements> faces, List<Mention> mentions) {
    Map<MarkerId, Position> places = new PhotoStore(archive).positions();
    String state = state(faces, places);
    Optional<String> kept = archive.conclusions().find(KIND, state);
    if (kept.isPresent()) {
      return read(kept.get(), mentions);
    }
    List<Linkage.Pair> pairs = Linkage.propose(mentions, places);
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
  private String state(List<FaceStatements> faces, Map<MarkerId, Position> places) {
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
    return Sha256.of(state.toString().getBytes(StandardCharsets.UTF_8)).hex();
  }

  private static List<Linkage.Pair> read(String document, List<Mention> mentions) {
    Map<MentionId, Mention> byId = new HashMap<>();
    mentions.forEach(mention -> byId.put(mention.id(), mention));
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
