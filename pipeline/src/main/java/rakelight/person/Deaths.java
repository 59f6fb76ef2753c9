package rakelight.person;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import rakelight.names.NameForms;
import rakelight.person.Statement.Kind;
import rakelight.person.edtf.Day;

/**
 * Weeks and months with many deaths: a fever in one house, a lost ship. Pointed out and not
 * explained; that deaths come together isn't a cause.
 *
 * <p>{@link DeathScan} finds them among deaths whose day is known. Who is named alike and died on
 * one day counts once, though people haven't said yet that two stones speak of one person.
 */
public final class Deaths {
  /** What chance may bring in one ground of twenty; the usual level, no source. */
  public static final double AT_MOST = 0.05;

  /**
   * Deaths close together.
   *
   * @param persons in the order of their days
   * @param about those of whom no more is known than that they may have died in these days, by a
   *     month that is carved without a day
   * @param count how many deaths; persons who may be one count once
   * @param expected how many at the ground's own rate
   * @param probability that chance alone brings as much together anywhere in such a ground; answers
   *     for all stretches at once
   */
  public record Cluster(
      LocalDate first,
      LocalDate last,
      List<Person> persons,
      List<Person> about,
      int count,
      double expected,
      double probability) {
    public Cluster {
      persons = List.copyOf(persons);
      about = List.copyOf(about);
    }

    /** How many days it lasts. */
    public long days() {
      return last.toEpochDay() - first.toEpochDay() + 1;
    }
  }

  private record Death(LocalDate day, Person person) {
    String whose() {
      String name =
          person
              .fullest()
              .map(m -> m.name().surname() + "|" + m.name().given().replaceFirst("[ .].*", ""))
              .map(whole -> NameForms.fold(whole))
              .orElse("");
      return day + "|" + (person.isUnnamed() ? person.id() : name);
    }
  }

  private Deaths() {}

  /** The clusters among persons whose day of death is known, the earliest first. */
  public static List<Cluster> of(List<Person> persons) {
    List<Death> deaths = new ArrayList<>();
    for (Person person : persons) {
      span(person)
          .filter(span -> span[0].equals(span[1]))
          .ifPresent(span -> deaths.add(new Death(span[0].toLocalDate(), person)));
    }
    deaths.sort(Comparator.comparing(Death::day));
    List<Death> apart = new ArrayList<>();
    Set<String> counted = new HashSet<>();
    deaths.stream().filter(death -> counted.add(death.whose())).forEach(apart::add);
    long[] days = apart.stream().mapToLong(death -> death.day().toEpochDay()).toArray();
    return DeathScan.of(days, AT_MOST).stream()
        .map(
            window -> {
              LocalDate first = apart.get(window.from()).day();
              LocalDate last = apart.get(window.to() - 1).day();
              return new Cluster(
                  first,
                  last,
                  deaths.stream()
                      .filter(d -> !d.day().isBefore(first) && !d.day().isAfter(last))
                      .map(Death::person)
                      .toList(),
                  persons.stream().filter(person -> mayHaveDied(person, first, last)).toList(),
                  window.count(),
                  window.expected(),
                  window.probability());
            })
        .toList();
  }

  private static Optional<Day[]> span(Person person) {
    List<String> values = person.values(Kind.DEATH);
    return values.size() == 1
        ? person.mentions().stream().flatMap(mention -> mention.died().stream()).findFirst()
        : Optional.empty();
  }

  /** Whether a month, and no day of it, is known, in which these days lie or begin. */
  private static boolean mayHaveDied(Person person, LocalDate first, LocalDate last) {
    return span(person)
        .filter(span -> !span[0].equals(span[1]))
        .filter(
            span ->
                span[1].toLocalDate().toEpochDay() - span[0].toLocalDate().toEpochDay()
                    <= DeathScan.LONGEST_DAYS / 2)
        .filter(
            span -> !span[0].toLocalDate().isAfter(last) && !span[1].toLocalDate().isBefore(first))
        .isPresent();
  }
}
