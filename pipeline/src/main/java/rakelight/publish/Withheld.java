package rakelight.publish;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.UUID;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.inscription.SignId;
import rakelight.person.Detail;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.NotUnderstood;
import rakelight.person.Person;
import rakelight.person.Statement;
import rakelight.person.Statement.Kind;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;
import rakelight.publish.Withholding.Subject;

/**
 * What is withheld on a day, thing by thing, each by its own reasons; {@link Edition} says what
 * follows from one for another.
 *
 * <p>With a person go all letters from which anything is stated of him, and everything another is
 * said to be to him, and on a face that may tell of somebody living what isn't understood ({@link
 * NotUnderstood}). Under a rule for young burials a person for whom a stone was set up is withheld
 * by his own death, and a marker by the latest death known of anybody commemorated on it; where
 * that isn't known, both are withheld. A doubtful date counts as the last day it can be.
 */
final class Withheld {
  private final LocalDate day;
  private final OptionalInt toldAfterYears;
  private final Map<MentionId, List<Withholding>> named = new HashMap<>();
  private final Map<MarkerId, Set<Why>> markers = new HashMap<>();
  private final Map<FaceId, Set<Why>> faces = new HashMap<>();
  private final Map<PhotographId, Set<Why>> photographs = new HashMap<>();
  private final Map<UUID, Set<Why>> persons = new HashMap<>();
  private final Map<FaceId, Map<SignId, Set<Why>>> signs = new HashMap<>();

  /**
   * @param read the faces that were read
   * @param toldAfterYears how old a burial must be; empty where the ground has no such rule
   */
  Withheld(
      List<FaceStatements> read,
      List<Person> all,
      List<Withholding> decisions,
      OptionalInt toldAfterYears,
      LocalDate day) {
    this.day = day;
    this.toldAfterYears = toldAfterYears;
    decisions.forEach(this::take);
    Set<MentionId> found = new HashSet<>();
    Map<MarkerId, List<Person>> commemorated = new HashMap<>();
    for (Person person : all) {
      Set<Why> why = reasons(person);
      if (!why.isEmpty()) {
        persons.put(person.id(), why);
      }
      for (Mention mention : person.mentions()) {
        found.add(mention.id());
        if (!why.isEmpty()) {
          hide(mention, why);
        }
        if (!mention.isKinOnly()) {
          commemorated
              .computeIfAbsent(mention.source().marker().id(), id -> new ArrayList<>())
              .add(person);
        }
      }
    }
    named.forEach(
        (mention, withholdings) -> {
          if (!found.contains(mention)) {
            withholdings.forEach(w -> add(faces, mention.face(), new Why.NotFound(w)));
          }
        });
    commemorated.forEach(this::byLatestDeath);
    read.forEach(this::hideHeadings);
    read.forEach(this::hideWhatIsNotUnderstood);
  }

  Set<Why> of(MarkerId marker) {
    return markers.getOrDefault(marker, Set.of());
  }

  Set<Why> of(FaceId face) {
    return faces.getOrDefault(face, Set.of());
  }

  Set<Why> of(PhotographId photograph) {
    return photographs.getOrDefault(photograph, Set.of());
  }

  Set<Why> of(Person person) {
    return persons.getOrDefault(person.id(), Set.of());
  }

  /** The signs of a face that are withheld; of a face that is withheld whole, not all are in it. */
  Map<SignId, Set<Why>> signs(FaceId face) {
    return signs.getOrDefault(face, Map.of());
  }

  private static <K> void add(Map<K, Set<Why>> reasons, K thing, Why why) {
    reasons.computeIfAbsent(thing, key -> new LinkedHashSet<>()).add(why);
  }

  private void take(Withholding withholding) {
    Why why = new Why.Decided(withholding);
    if (withholding.subject() instanceof Subject.OfMarker marker) {
      add(markers, marker.id(), why);
    } else if (withholding.subject() instanceof Subject.OfFace face) {
      add(faces, face.id(), why);
    } else if (withholding.subject() instanceof Subject.OfPhotograph photograph) {
      add(photographs, photograph.id(), why);
    } else if (withholding.subject() instanceof Subject.OfPerson person) {
      named.computeIfAbsent(person.mention(), m -> new ArrayList<>()).add(withholding);
    }
  }

  /** Why a person isn't told, by himself and not by where he is named. */
  Set<Why> reasons(Person person) {
    Set<Why> why = new LinkedHashSet<>();
    if (Concluded.mayBeLiving(person, day)) {
      why.add(new Why.MayBeLiving());
    }
    person.mentions().stream()
        .flatMap(mention -> named.getOrDefault(mention.id(), List.of()).stream())
        .forEach(withholding -> why.add(new Why.Decided(withholding)));
    if (toldAfterYears.isPresent() && person.isCommemorated()) {
      byDeath(latestDeath(person)).ifPresent(why::add);
    }
    return why;
  }

  private void byLatestDeath(MarkerId marker, List<Person> commemorated) {
    if (toldAfterYears.isPresent()) {
      Optional<Day> latest =
          commemorated.stream().flatMap(person -> latestDeath(person).stream()).max(Day::compareTo);
      byDeath(latest).ifPresent(why -> add(markers, marker, why));
    }
  }

  /**
   * Whether the ground's rule keeps back somebody of whom no stone need tell.
   *
   * @param latest the last day on which he can have died, if anybody knows
   */
  boolean isYoung(Optional<Day> latest) {
    return toldAfterYears.isPresent() && byDeath(latest).isPresent();
  }

  private Optional<Why> byDeath(Optional<Day> death) {
    int years = toldAfterYears.orElseThrow();
    if (death.isEmpty()) {
      return Optional.of(new Why.DeathUnknown(years));
    }
    boolean young = death.get().compareTo(Day.of(day.minusYears(years))) > 0;
    return young ? Optional.of(new Why.YoungBurial(years, death.get())) : Optional.empty();
  }

  /** The last day on which the person can have died or been buried, by all stones. */
  private static Optional<Day> latestDeath(Person person) {
    List<Optional<Day>> deaths =
        person.mentions().stream()
            .filter(mention -> !mention.isKinOnly())
            .flatMap(mention -> mention.about().stream())
            .filter(s -> s.kind() == Kind.DEATH || s.kind() == Kind.BURIAL)
            .filter(s -> !s.value().isEmpty())
            .map(s -> Edtf.parse(s.value()).latest())
            .toList();
    return deaths.stream().anyMatch(Optional::isEmpty)
        ? Optional.empty()
        : deaths.stream().flatMap(Optional::stream).max(Day::compareTo);
  }

  private void hide(Mention mention, Set<Why> why) {
    FaceStatements source = mention.source();
    Map<SignId, Set<Why>> ofFace =
        signs.computeIfAbsent(source.face().id(), face -> new HashMap<>());
    for (Statement statement : source.statements()) {
      if (statement.kind() != Kind.FAMILY && speaksOf(statement, mention)) {
        statement.signs().forEach(sign -> why.forEach(reason -> add(ofFace, sign, reason)));
      }
    }
  }

  /** A surname over all is withheld with the last of those who bear it. */
  private void hideHeadings(FaceStatements face) {
    for (Statement heading : face.statements()) {
      if (heading.kind() != Kind.FAMILY) {
        continue;
      }
      List<Set<Why>> bearers =
          face.statements().stream()
              .filter(statement -> statement.kind() == Kind.NAME)
              .filter(name -> name.persons().stream().anyMatch(heading.persons()::contains))
              .map(name -> why(face, name))
              .toList();
      if (bearers.stream().noneMatch(Set::isEmpty)) {
        Map<SignId, Set<Why>> ofFace =
            signs.computeIfAbsent(face.face().id(), id -> new HashMap<>());
        bearers.forEach(
            why -> heading.signs().forEach(s -> why.forEach(reason -> add(ofFace, s, reason))));
      }
    }
  }

  private Set<Why> why(FaceStatements face, Statement statement) {
    Map<SignId, Set<Why>> ofFace = signs.getOrDefault(face.face().id(), Map.of());
    Set<Why> why = new LinkedHashSet<>();
    statement.signs().forEach(sign -> why.addAll(ofFace.getOrDefault(sign, Set.of())));
    return why;
  }

  private void hideWhatIsNotUnderstood(FaceStatements face) {
    Map<SignId, Set<Why>> ofFace = signs.computeIfAbsent(face.face().id(), id -> new HashMap<>());
    boolean namesLiving =
        ofFace.values().stream().anyMatch(why -> why.contains(new Why.MayBeLiving()));
    NotUnderstood.on(face, day, namesLiving)
        .forEach(sign -> add(ofFace, sign, new Why.NotUnderstood()));
  }

  /** Whether a statement is about somebody, or about another's kinship with him. */
  private static boolean speaksOf(Statement statement, Mention mention) {
    Optional<Detail.Kinship> kin = statement.detail(Detail.Kinship.class);
    boolean byNumber =
        mention.isKinOnly()
            ? mention.about().contains(statement)
            : statement.persons().contains(mention.number())
                || kin.filter(k -> k.persons().contains(mention.number())).isPresent();
    // "Their son" names, in its detail, also a father whom only the line before has named.
    return byNumber
        || kin.stream()
            .flatMap(k -> k.names().stream())
            .anyMatch(name -> isNamed(name, mention.name()));
  }

  private static boolean isNamed(String name, Detail.Name who) {
    String[] parts = name.split("\\|", -1);
    return !who.given().isEmpty()
        && parts[0].equalsIgnoreCase(who.given())
        && (parts.length < 2
            || parts[1].isEmpty()
            || who.surname().isEmpty()
            || parts[1].equalsIgnoreCase(who.surname()));
  }
}
