package rakelight.desk;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.ground.GroundPlan;
import rakelight.ground.KeptAnswers;
import rakelight.ground.LinkStore;
import rakelight.ground.PositionStore;
import rakelight.marker.Marker;
import rakelight.names.NameForms;
import rakelight.person.DateFinding;
import rakelight.person.Deaths;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.FoldedWords;
import rakelight.person.Linkage;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.SoughtMatches;
import rakelight.person.SourceStore;
import rakelight.publish.Edition;
import rakelight.publish.ToldFace;
import rakelight.publish.ToldGround;
import rakelight.publish.iiif.Manifests;

/**
 * What all confirmed readings of the ground assert, and what follows from it, at one state of the
 * journal. Each part is worked out when it is first asked for. Safe for many threads.
 */
final class Conclusion {
  /** Comes after every letter. */
  private static final String LAST = "\uFFFF";

  private final Archive archive;
  private final List<FaceStatements> faces;
  private final People people;
  private final List<Person> persons;
  private final Map<UUID, Person> byMention = new HashMap<>();
  private final LocalDate day;
  private final KeptAnswers answers;
  private final CompletableFuture<List<Linkage.Pair>> pairs = new CompletableFuture<>();
  private final Object told = new Object();
  private Optional<Edition> edition = Optional.empty();
  private volatile boolean toldAskedFor;
  private final Map<String, Object> parts = new ConcurrentHashMap<>();

  /**
   * @param faces all that have a confirmed reading, in the order of their markers
   * @param day by which it is reckoned who may be living
   * @param answers whose footstones are, as far as it was asked before
   */
  Conclusion(Archive archive, List<FaceStatements> faces, LocalDate day, KeptAnswers answers) {
    this.archive = archive;
    this.answers = answers;
    this.faces = List.copyOf(faces);
    this.people = People.of(archive, faces, new PositionStore(archive).places());
    this.persons = people.persons();
    this.day = day;
    index(persons, byMention);
  }

  private static void index(List<Person> persons, Map<UUID, Person> byMention) {
    for (Person person : persons) {
      byMention.put(person.id(), person);
      person.mentions().forEach(mention -> byMention.put(mention.id().personId(), person));
    }
  }

  LocalDate day() {
    return day;
  }

  /** What may be told to everybody on the day. */
  Edition edition() {
    // Takes long on a large ground; what isn't for everybody needn't wait for it.
    synchronized (told) {
      if (edition.isEmpty()) {
        edition = Optional.of(Edition.of(archive, day));
      }
      return edition.get();
    }
  }

  /** What of the ground around the readings may be told to everybody. */
  ToldGround around() {
    return part("around", edition()::around);
  }

  /** The markers of which a photograph may be told. */
  List<Marker> pictured() {
    return part("pictured", () -> Manifests.pictured(edition()));
  }

  /** Whether anybody asked for what may be told to everybody. */
  boolean isToldAskedFor() {
    return toldAskedFor;
  }

  /** Works out what everybody may see, so that nobody waits for it. */
  void tell() {
    toldAskedFor = true;
    faces(false);
    byName(false);
  }

  /**
   * The faces with what they assert.
   *
   * @param all whether what may not be told is among it
   */
  List<FaceStatements> faces(boolean all) {
    if (all) {
      return faces;
    }
    toldAskedFor = true;
    Edition now = edition();
    return part("told", () -> now.faces().stream().map(ToldFace::says).toList());
  }

  Optional<FaceStatements> face(FaceId id, boolean all) {
    return faces(all).stream().filter(face -> face.face().id().equals(id)).findFirst();
  }

  List<Person> persons(boolean all) {
    if (all) {
      return persons;
    }
    toldAskedFor = true;
    Edition now = edition();
    return part("persons told", now::persons);
  }

  /** The same, by surname and given name; those without one last. */
  List<Person> byName(boolean all) {
    return part(
        "by name " + all,
        () -> {
          Map<Person, String> keys = new IdentityHashMap<>();
          persons(all).forEach(person -> keys.put(person, key(person)));
          return persons(all).stream().sorted(Comparator.comparing(keys::get)).toList();
        });
  }

  private static String key(Person person) {
    String surname = person.fullest().map(m -> NameForms.fold(m.name().surname())).orElse("");
    String given = person.fullest().map(m -> NameForms.fold(m.name().given())).orElse("");
    return (surname.isEmpty() ? LAST : surname) + " " + (given.isEmpty() ? LAST : given);
  }

  /** Whether somebody may be living on the day. */
  boolean mayBeLiving(Person person) {
    return part(
            "living",
            () ->
                persons.stream()
                    .filter(one -> Edition.mayBeLiving(one, day))
                    .map(Person::id)
                    .collect(Collectors.toSet()))
        .contains(person.id());
  }

  /** Whether people hold two persons to be two. */
  boolean areTwo(Person one, Person other) {
    return parted().contains(Set.of(one.id(), other.id()));
  }

  private Set<Set<UUID>> parted() {
    return part(
        "parted",
        () -> {
          Set<Set<UUID>> two = new HashSet<>();
          for (Set<MentionId> both : people.parted()) {
            Set<UUID> now = new HashSet<>();
            both.forEach(id -> person(id.personId(), true).map(Person::id).ifPresent(now::add));
            two.add(now);
          }
          return two;
        });
  }

  /** The person with this id, or with that of one of the mentions. */
  Optional<Person> person(UUID id, boolean all) {
    Map<UUID, Person> known =
        all
            ? byMention
            : part(
                "by mention",
                () -> {
                  Map<UUID, Person> told = new HashMap<>();
                  index(persons(false), told);
                  return told;
                });
    return Optional.ofNullable(known.get(id));
  }

  /** Days and weeks with many deaths. */
  List<Deaths.Cluster> deaths(boolean all) {
    return part("deaths " + all, () -> Deaths.of(persons(all)));
  }

  /** What reckoning with dates brought out. */
  List<DateFinding> findings(boolean all) {
    return part(
        "findings " + all,
        () -> faces(all).stream().flatMap(face -> DateFinding.of(face).stream()).toList());
  }

  /** Everybody sought, with the stones that may be his. */
  List<SoughtMatches.Result> sought(boolean all) {
    return part(
        "sought " + all, () -> SoughtMatches.of(new SourceStore(archive), persons(all)).results());
  }

  /** Where markers stand and what they are. */
  GroundPlan places() {
    return part("places", () -> GroundPlan.withoutFamilies(archive, faces, persons, answers));
  }

  /** Where markers stand, the families and whose their footstones are: all of it, for readers. */
  GroundPlan plan() {
    return part("plan", () -> GroundPlan.of(archive, faces, persons, answers));
  }

  /** Whether words that somebody wrote name nobody who may not be told. */
  boolean mayTell(String words) {
    return part(
            "not told",
            () -> {
              Set<UUID> told = new HashSet<>();
              persons(false).forEach(person -> told.add(person.id()));
              return persons.stream()
                  .filter(person -> !told.contains(person.id()) && !person.isUnnamed())
                  .map(Person::called)
                  .collect(Collectors.toSet());
            })
        .stream()
        .noneMatch(called -> FoldedWords.begin(words, called));
  }

  /** Whether all that stands on a marker may be told, as far as it is read. */
  boolean mayTell(MarkerId marker) {
    return edition().why(marker).isEmpty()
        && part(
                "markers told",
                () -> {
                  Map<MarkerId, Integer> whole = new HashMap<>();
                  edition().faces().stream()
                      .filter(face -> !face.isTouched())
                      .forEach(face -> whole.merge(face.says().marker().id(), 1, Integer::sum));
                  faces.forEach(face -> whole.merge(face.marker().id(), -1, Integer::sum));
                  whole.values().removeIf(left -> left >= 0);
                  return whole.keySet();
                })
            .stream()
            .noneMatch(marker::equals);
  }

  /** Who may be one with whom, as soon as somebody has worked it out. */
  CompletableFuture<List<Linkage.Pair>> pairs() {
    return pairs;
  }

  /** Works out who may be one with whom, which may take long. */
  void pair() {
    if (!pairs.isDone()) {
      try {
        pairs.complete(people.proposals(new LinkStore(archive).belongings()));
      } catch (RuntimeException e) {
        pairs.completeExceptionally(e);
      }
    }
  }

  /** Those pairs of an earlier state of which nobody has decided by now. */
  List<Linkage.Pair> stillOpen(List<Linkage.Pair> earlier) {
    Set<Set<UUID>> two = parted();
    List<Linkage.Pair> open = new ArrayList<>();
    for (Linkage.Pair pair : earlier) {
      Optional<UUID> one = now(pair.one());
      Optional<UUID> other = now(pair.other());
      if (one.isPresent()
          && other.isPresent()
          && !one.equals(other)
          && !two.contains(Set.of(one.get(), other.get()))) {
        open.add(pair);
      }
    }
    return open;
  }

  private Optional<UUID> now(Mention mention) {
    return person(mention.id().personId(), true).map(Person::id);
  }

  @SuppressWarnings("unchecked") // Each name stands for one type.
  private <T> T part(String name, Supplier<T> made) {
    synchronized (parts) {
      Object known = parts.get(name);
      if (known == null) {
        known = made.get();
        parts.put(name, known);
      }
      return (T) known;
    }
  }
}
