package rakelight.person;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Evidence.FaceStatements;
import rakelight.photo.PhotoStore;
import rakelight.photo.Position;

/**
 * Persons: concluded from the confirmed readings and from what people decided about who is one with
 * whom. Of one marker or one mention ask {@link #on} and {@link #mention}, which look at no other
 * readings than those they need; {@link #of} is for lists of the whole ground.
 */
public final class People {
  private final List<Mention> mentions;
  private final List<Opinion> opinions;
  private final ArchivePairing pairing;

  /** How the pairs are had that may be of one person. */
  private interface ArchivePairing {
    List<Linkage.Pair> of(
        List<Person> persons, Set<Set<MentionId>> twoPersons, List<Belonging> belongings);
  }

  private People(List<Mention> mentions, List<Opinion> opinions, ArchivePairing pairing) {
    this.mentions = List.copyOf(mentions);
    this.opinions = List.copyOf(opinions);
    this.pairing = pairing;
  }

  /**
   * Those that all of the archive's confirmed readings speak of; what is proposed takes no account
   * of where markers stand.
   */
  public static People of(Archive archive) {
    return of(archive, Map.of());
  }

  /**
   * Those that all of the archive's confirmed readings speak of.
   *
   * @param places where the markers stand, for what is proposed
   */
  public static People of(Archive archive, Map<MarkerId, Position> places) {
    return of(archive, new Evidence(archive).confirmed(), places);
  }

  /**
   * The same for whoever has looked at the readings already.
   *
   * @param faces all that have a confirmed reading
   * @param places where the markers stand, for what is proposed
   */
  public static People of(
      Archive archive, List<FaceStatements> faces, Map<MarkerId, Position> places) {
    List<Mention> mentions = Mentions.of(faces);
    return new People(
        mentions,
        new PersonStore(archive).opinions(),
        (persons, two, belongings) ->
            new KeptLinkage(archive).pairs(faces, persons, two, belongings, places));
  }

  /**
   * Those of whom these faces speak.
   *
   * @param opinions what people decided about them
   * @param places where the markers stand, for what is proposed
   */
  public static People of(
      List<FaceStatements> faces, List<Opinion> opinions, Map<MarkerId, Position> places) {
    List<Mention> mentions = Mentions.of(faces);
    return new People(
        mentions,
        opinions,
        (persons, two, belongings) -> Linkage.propose(persons, two, belongings, places));
  }

  /**
   * The persons of whom one marker tells, with their mentions elsewhere. Only its readings are
   * looked at and those of markers that name somebody whom people said to be one with them.
   */
  public static List<Person> on(Archive archive, Marker marker) {
    MarkerStore markers = new MarkerStore(archive);
    PhotoStore photographs = new PhotoStore(archive);
    PersonStore store = new PersonStore(archive);
    Evidence evidence = new Evidence(archive);
    Map<Marker, List<Mention>> looked = new TreeMap<>(MarkerStore.BY_NUMBER);
    List<Mention> here = Mentions.of(evidence.confirmed(marker));
    looked.put(marker, here);
    Set<MentionId> found = new HashSet<>();
    Deque<MentionId> waiting = new ArrayDeque<>(here.stream().map(Mention::id).toList());
    while (!waiting.isEmpty()) {
      MentionId id = waiting.remove();
      Optional<Marker> of =
          photographs.face(id.face()).flatMap(face -> markers.marker(face.marker()));
      boolean named =
          of.isPresent()
              && looked
                  .computeIfAbsent(of.get(), row -> Mentions.of(evidence.confirmed(row)))
                  .stream()
                  .anyMatch(mention -> mention.id().equals(id));
      if (named && found.add(id)) {
        for (Opinion opinion : store.about(Set.of(id.face()), marker.id())) {
          Set<MentionId> both = PersonStore.pair(opinion);
          if (opinion.kind() == Opinion.Kind.SAME && both.contains(id)) {
            waiting.addAll(both);
          }
        }
      }
    }
    Set<FaceId> faces = new HashSet<>();
    found.forEach(id -> faces.add(id.face()));
    return new People(
            looked.values().stream()
                .flatMap(List::stream)
                .filter(mention -> found.contains(mention.id()))
                .toList(),
            store.about(faces, marker.id()),
            (persons, two, belongings) -> List.of())
        .persons().stream().filter(person -> tellsOf(marker, person)).toList();
  }

  private static boolean tellsOf(Marker marker, Person person) {
    return person.mentions().stream().anyMatch(m -> m.source().marker().id().equals(marker.id()))
        || person.fromForm().flatMap(Opinion::marker).filter(marker.id()::equals).isPresent();
  }

  /**
   * The mention that a label names, such as {@code 15:E:1}. Only the readings of that marker are
   * looked at.
   *
   * @throws ArchiveException if nobody is spoken of there
   */
  public static Mention mention(Archive archive, String label) {
    String wanted = label.strip();
    MarkerStore markers = new MarkerStore(archive);
    Evidence evidence = new Evidence(archive);
    // A number may have a colon in it.
    for (int colon = wanted.indexOf(':'); colon >= 0; colon = wanted.indexOf(':', colon + 1)) {
      Optional<Mention> mention =
          markers.byNumber(wanted.substring(0, colon)).stream()
              .flatMap(marker -> Mentions.of(evidence.confirmed(marker)).stream())
              .filter(one -> one.label().equals(wanted))
              .findFirst();
      if (mention.isPresent()) {
        return mention.get();
      }
    }
    throw new ArchiveException(
        label
            + ": nobody is spoken of there. Give marker, face and number, such as 15:E:1;"
            + " `persons` lists them.");
  }

  /** Everybody spoken of on a face, place by place. */
  public List<Mention> mentions() {
    return mentions;
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
    Map<Integer, List<Opinion>> died = new HashMap<>();
    for (Opinion opinion : opinions) {
      Integer of = opinion.one().map(group::get).orElse(null);
      if (opinion.kind() == Opinion.Kind.DIED && of != null) {
        died.computeIfAbsent(of, g -> new ArrayList<>()).add(opinion);
      }
    }
    List<Person> persons = new ArrayList<>();
    groups.forEach((g, own) -> persons.add(person(own, died.getOrDefault(g, List.of()))));
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

  private static Person person(List<Mention> own, List<Opinion> died) {
    List<Mention> ordered = new ArrayList<>(own.stream().filter(m -> !m.isKinOnly()).toList());
    own.stream().filter(Mention::isKinOnly).forEach(ordered::add);
    return new Person(own.get(0).id().personId(), ordered, Optional.empty(), died);
  }

  /**
   * Pairs of mentions that may be of one person and of which nobody has decided, likeliest first.
   * Those of one person stand for him by the fullest of them; what people said of any of them holds
   * for all.
   *
   * @param belongings what people confirmed of stones
   */
  public List<Linkage.Pair> proposals(List<Belonging> belongings) {
    return pairing.of(persons(), parted(), belongings);
  }

  /** The pairs of mentions that people said are of two persons. */
  public Set<Set<MentionId>> parted() {
    Set<Set<MentionId>> two = new HashSet<>();
    for (Opinion opinion : opinions) {
      if (opinion.kind() == Opinion.Kind.DIFFERENT) {
        two.add(PersonStore.pair(opinion));
      }
    }
    return two;
  }
}
