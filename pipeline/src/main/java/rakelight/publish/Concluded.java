package rakelight.publish;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import rakelight.archive.Archive;
import rakelight.inscription.Reading;
import rakelight.person.Evidence;
import rakelight.person.Evidence.FaceStatements;
import rakelight.person.LivingRule;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.Opinion;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.PersonStore;
import rakelight.person.Statements;
import rakelight.person.calendar.CalendarChange;

/**
 * What an archive concludes of its confirmed readings, complete: the one place where an edition
 * asks for statements, persons and who may be living.
 */
final class Concluded {
  private final CalendarChange change;
  private final List<Opinion> opinions;
  private final List<FaceStatements> faces;
  private final List<Person> persons;

  Concluded(Archive archive) {
    change = CalendarChange.of(archive.ground());
    opinions = new PersonStore(archive).opinions();
    faces = new Evidence(archive).confirmed();
    persons = People.of(faces, opinions, Map.of()).persons();
  }

  /** The faces with a confirmed reading, by marker number and face name. */
  List<FaceStatements> faces() {
    return faces;
  }

  List<Person> persons() {
    return persons;
  }

  /** Whom a mention is of. */
  Optional<Person> personOf(Mention mention) {
    return persons.stream()
        .filter(person -> person.mentions().stream().anyMatch(m -> m.id().equals(mention.id())))
        .findFirst();
  }

  static boolean mayBeLiving(Person person, LocalDate day) {
    return LivingRule.mayBeLiving(person, day);
  }

  /** Who is named by these statements alone, by place. */
  static Map<MentionId, Mention> mentions(List<FaceStatements> told) {
    Map<MentionId, Mention> mentions = new HashMap<>();
    People.of(told, List.of(), Map.of())
        .mentions()
        .forEach(mention -> mentions.put(mention.id(), mention));
    return mentions;
  }

  /** Whom an earlier reading of a face names where the present one names nobody. */
  List<Person> namedBefore(FaceStatements face, Reading earlier) {
    Set<MentionId> present = new HashSet<>(mentions(List.of(face)).keySet());
    FaceStatements then =
        new FaceStatements(
            face.marker(),
            face.face(),
            Optional.of(earlier),
            Optional.empty(),
            earlier.letters(),
            Statements.of(earlier.inscription(), change));
    return People.of(List.of(then), opinions, Map.of()).persons().stream()
        .filter(person -> !person.mentions().isEmpty())
        .filter(person -> person.mentions().stream().map(Mention::id).noneMatch(present::contains))
        .toList();
  }
}
