package rakelight.person;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.MarkerId;
import rakelight.person.Evidence.FaceStatements;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.photo.Position;

/**
 * The persons of an archive: concluded anew each time from the confirmed readings and from what
 * people decided about who is one with whom. Nothing of it is kept.
 */
public final class People {
  private final List<Mention> mentions;
  private final List<Opinion> opinions;
  private final Map<MarkerId, Position> places;

  private People(List<Mention> mentions, List<Opinion> opinions, Map<MarkerId, Position> places) {
    this.mentions = List.copyOf(mentions);
    this.opinions = List.copyOf(opinions);
    this.places = Map.copyOf(places);
  }

  /** Those that the archive's confirmed readings speak of. */
  public static People of(Archive archive) {
    return of(
        new Evidence(archive).confirmed(), new PersonStore(archive).opinions(), places(archive));
  }

  /**
   * Those of whom these faces speak.
   *
   * @param opinions what people decided about them
   * @param places where the markers stand, for what is proposed
   */
  public static People of(
      List<FaceStatements> faces, List<Opinion> opinions, Map<MarkerId, Position> places) {
    return new People(Mentions.of(faces), opinions, places);
  }

  /** Where markers stand, from the cameras' positions: the mean of a marker's photographs. */
  private static Map<MarkerId, Position> places(Archive archive) {
    PhotoStore photographs = new PhotoStore(archive);
    Map<MarkerId, List<Position>> seen = new HashMap<>();
    for (Face face : photographs.faces()) {
      for (Photograph photograph : photographs.ofFace(face.id())) {
        photograph
            .position()
            .ifPresent(p -> seen.computeIfAbsent(face.marker(), m -> new ArrayList<>()).add(p));
      }
    }
    Map<MarkerId, Position> places = new HashMap<>();
    seen.forEach(
        (marker, positions) ->
            places.put(
                marker,
                new Position(
                    positions.stream().mapToDouble(Position::latitudeDegrees).average().orElse(0),
                    positions.stream().mapToDouble(Position::longitudeDegrees).average().orElse(0),
                    Optional.empty(),
                    Optional.empty())));
    return places;
  }

  /** Everybody spoken of on a face, place by place. */
  public List<Mention> mentions() {
    return mentions;
  }

  /**
   * The mention that a label names.
   *
   * @throws ArchiveException if there is none
   */
  public Mention mention(String label) {
    return mentions.stream()
        .filter(mention -> mention.label().equals(label.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new ArchiveException(
                    label
                        + ": nobody is spoken of there. Give marker, face and number, such as"
                        + " 15:E:1; `persons` lists them."));
  }

  /** Everybody, those of one person brought together; the first mention decides the order. */
  public List<Person> persons() {
    Map<MentionId, Integer> group = new HashMap<>();
    Map<Integer, List<Mention>> groups = new LinkedHashMap<>();
    for (int i = 0; i < mentions.size(); i++) {
      group.put(mentions.get(i).id(), i);
      groups.put(i, new ArrayList<>(List.of(mentions.get(i))));
    }
    for (Opinion opinion : opinions) {
      if (opinion.kind() == Opinion.Kind.SAME) {
        join(opinion, group, groups);
      }
    }
    List<Person> persons = new ArrayList<>();
    groups.values().forEach(own -> persons.add(person(own)));
    for (Opinion opinion : opinions) {
      if (opinion.kind() == Opinion.Kind.UNNAMED) {
        persons.add(
            new Person(opinion.decision().value(), List.of(), Optional.of(opinion), List.of()));
      }
    }
    return List.copyOf(persons);
  }

  private static void join(
      Opinion opinion, Map<MentionId, Integer> group, Map<Integer, List<Mention>> groups) {
    Integer one = opinion.one().map(group::get).orElse(null);
    Integer other = opinion.other().map(group::get).orElse(null);
    if (one == null || other == null || one.equals(other)) {
      return;
    }
    int kept = Math.min(one, other);
    List<Mention> moved = groups.remove(Math.max(one, other));
    List<Mention> all = groups.get(kept);
    if (moved != null && all != null) {
      all.addAll(moved);
      moved.forEach(mention -> group.put(mention.id(), kept));
    }
  }

  private Person person(List<Mention> own) {
    List<Mention> ordered = new ArrayList<>(own.stream().filter(m -> !m.isKinOnly()).toList());
    own.stream().filter(Mention::isKinOnly).forEach(ordered::add);
    Set<MentionId> ids = new HashSet<>();
    own.forEach(mention -> ids.add(mention.id()));
    List<Opinion> died =
        opinions.stream()
            .filter(o -> o.kind() == Opinion.Kind.DIED && ids.contains(o.one().orElseThrow()))
            .toList();
    return new Person(own.get(0).id().personId(), ordered, Optional.empty(), died);
  }

  /**
   * Pairs of mentions that may be of one person and of which nobody has decided, likeliest first.
   */
  public List<Linkage.Pair> proposals() {
    Set<Set<MentionId>> decided = new HashSet<>();
    opinions.forEach(opinion -> decided.add(PersonStore.pair(opinion)));
    Map<MentionId, Person> personOf = new HashMap<>();
    persons().forEach(person -> person.mentions().forEach(m -> personOf.put(m.id(), person)));
    return Linkage.propose(mentions, places).stream()
        .filter(pair -> !decided.contains(Set.of(pair.one().id(), pair.other().id())))
        .filter(pair -> !same(personOf.get(pair.one().id()), personOf.get(pair.other().id())))
        .toList();
  }

  private static boolean same(
      @org.jspecify.annotations.Nullable Person one,
      @org.jspecify.annotations.Nullable Person other) {
    return one != null && other != null && one.id().equals(other.id());
  }
}
