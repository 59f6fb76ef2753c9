package rakelight.survey;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.marker.Described;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.Marker;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Statement;
import rakelight.person.edtf.Edtf;

/** When the markers of an archive were made, by what is described, carved and read. */
public final class MadeMarkers {
  private final Map<MarkerId, Description> described = new HashMap<>();
  private final Map<MarkerId, List<String>> emblems = new HashMap<>();
  private final Map<MarkerId, List<Integer>> deaths = new HashMap<>();
  private final Map<MarkerId, Making.Dated> dated = new HashMap<>();
  private final Making making;

  /**
   * @param faces all of the ground that have a confirmed reading
   */
  public MadeMarkers(Archive archive, List<DatingClue> clues, List<FaceStatements> faces) {
    for (Described one : new DescriptionStore(archive).all().values()) {
      described.put(one.marker(), one.description());
    }
    for (EmblemNote note : new EmblemStore(archive).all()) {
      emblems.computeIfAbsent(note.marker(), marker -> new ArrayList<>()).add(note.name());
    }
    for (FaceStatements face : faces) {
      deaths
          .computeIfAbsent(face.marker().id(), marker -> new ArrayList<>())
          .addAll(deaths(face.statements()));
    }
    deaths.forEach(
        (marker, years) ->
            described
                .getOrDefault(marker, Description.NONE)
                .material()
                .filter(material -> !years.isEmpty())
                .ifPresent(
                    material ->
                        dated.put(
                            marker,
                            new Making.Dated(
                                material,
                                years.stream().mapToInt(Integer::intValue).min().orElseThrow()))));
    this.making = new Making(clues, List.copyOf(dated.values()));
  }

  /**
   * One marker, beside all others of the ground; empty where nothing bears on it.
   *
   * @param opened when the ground was, if that is known
   */
  public Optional<Making.Made> of(MarkerId marker, OptionalInt opened) {
    return making.of(
        new Making.Known(
            described.getOrDefault(marker, Description.NONE),
            emblems.getOrDefault(marker, List.of()),
            deaths.getOrDefault(marker, List.of()),
            opened),
        Optional.ofNullable(dated.get(marker)));
  }

  /** What a marker is; {@link Description#NONE} where nobody has said. */
  public Description description(MarkerId marker) {
    return described.getOrDefault(marker, Description.NONE);
  }

  /**
   * One marker by itself, without a look at others.
   *
   * @param statements what its readings assert
   */
  public static Optional<Making.Made> alone(
      Archive archive, List<DatingClue> clues, Marker marker, List<Statement> statements) {
    return new Making(clues, List.of())
        .of(
            new Making.Known(
                new DescriptionStore(archive)
                    .of(marker.id())
                    .map(Described::description)
                    .orElse(Description.NONE),
                new EmblemStore(archive)
                    .ofMarker(marker.id()).stream().map(EmblemNote::name).toList(),
                deaths(statements),
                OptionalInt.empty()));
  }

  private static List<Integer> deaths(List<Statement> statements) {
    return statements.stream()
        .filter(one -> one.kind() == Statement.Kind.DEATH && !one.value().isEmpty())
        .flatMap(one -> Edtf.parse(one.value()).latest().stream())
        .map(day -> (int) day.year())
        .toList();
  }
}
