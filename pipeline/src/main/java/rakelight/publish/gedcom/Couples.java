package rakelight.publish.gedcom;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;
import rakelight.person.Detail;
import rakelight.person.Mention;
import rakelight.person.MentionId;
import rakelight.person.Person;
import rakelight.person.Statement;

/**
 * Who is whose wife, husband or child by what stones state, brought into couples and their
 * children. Nothing is inferred: a child of whom one parent is named has that parent alone, also
 * where a stone tells whom the parent married.
 */
final class Couples {
  private final Map<MentionId, Person> persons = new HashMap<>();
  private final Map<String, Couple> couples = new LinkedHashMap<>();

  /**
   * Parents, or a pair, and their children.
   *
   * @param husband the partner known to be a man, or put there for want of another place
   * @param told the statements it rests on, each with the mention that makes it
   */
  record Couple(
      Optional<Person> husband,
      Optional<Person> wife,
      Set<Person> children,
      List<StatedFact> told) {
    List<Person> partners() {
      List<Person> partners = new ArrayList<>();
      husband.ifPresent(partners::add);
      wife.ifPresent(partners::add);
      return partners;
    }
  }

  private Couples(List<Person> all) {
    all.forEach(person -> person.mentions().forEach(m -> persons.put(m.id(), person)));
    all.forEach(person -> person.mentions().forEach(mention -> take(person, mention)));
  }

  /** The couples among these persons, in the order in which stones tell of them. */
  static List<Couple> of(List<Person> persons) {
    return List.copyOf(new Couples(persons).couples.values());
  }

  private void take(Person person, Mention mention) {
    if (mention.isKinOnly()) {
      return;
    }
    for (Statement statement : mention.about()) {
      Optional<Detail.Kinship> kin = statement.detail(Detail.Kinship.class);
      if (kin.isEmpty() || !statement.persons().contains(mention.number())) {
        continue;
      }
      List<Person> others = meant(mention, statement, kin.get());
      others.remove(person);
      StatedFact told = new StatedFact(mention, statement);
      if (kin.get().isMarriage()) {
        others.forEach(other -> couple(List.of(person, other)).told().add(told));
      } else if (kin.get().isChild() && !others.isEmpty()) {
        Couple parents = couple(others.subList(0, Math.min(2, others.size())));
        parents.children().add(person);
        parents.told().add(told);
      } else if (kin.get().isParent() && !others.isEmpty()) {
        Couple parents = couple(List.of(person));
        parents.children().addAll(others);
        parents.told().add(told);
      }
    }
  }

  /** Those a kinship means: named in its words, or elsewhere on the face. */
  private List<Person> meant(Mention mention, Statement statement, Detail.Kinship kin) {
    Set<Person> meant = new LinkedHashSet<>();
    for (Map.Entry<MentionId, Person> one : persons.entrySet()) {
      MentionId id = one.getKey();
      if (!id.face().equals(mention.id().face())) {
        continue;
      }
      boolean named =
          id.place() > 0
              && id.sign() == statement.signs().get(0).number()
              && id.place() <= kin.names().size();
      boolean pointedAt =
          id.place() == 0
              && one.getValue().mentions().stream()
                  .anyMatch(m -> m.id().equals(id) && kin.persons().contains(m.number()));
      if (named || pointedAt) {
        meant.add(one.getValue());
      }
    }
    List<Person> ordered = new ArrayList<>(meant);
    ordered.sort(Comparator.comparing(Person::called).thenComparing(Person::id));
    return ordered;
  }

  private Couple couple(List<Person> partners) {
    List<UUID> ids = partners.stream().map(Person::id).sorted().toList();
    return couples.computeIfAbsent(ids.toString(), key -> seated(partners));
  }

  private static Couple seated(List<Person> partners) {
    Person first = partners.get(0);
    Optional<Person> second = partners.size() > 1 ? Optional.of(partners.get(1)) : Optional.empty();
    boolean turned = sex(first).equals("F") || second.filter(p -> sex(p).equals("M")).isPresent();
    return turned
        ? new Couple(second, Optional.of(first), new LinkedHashSet<>(), new ArrayList<>())
        : new Couple(Optional.of(first), second, new LinkedHashSet<>(), new ArrayList<>());
  }

  /** {@code M} or {@code F} by the given name, {@code U} where it doesn't tell. */
  static String sex(Person person) {
    String given = person.fullest().map(mention -> mention.name().given()).orElse("");
    String first = NameForms.fold(given.strip().split("\\s+")[0]);
    return GivenNames.known().isWomans(first) ? "F" : GivenNames.known().isMans(first) ? "M" : "U";
  }
}
