package rakelight.person;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rakelight.person.Statement.Kind;
import rakelight.person.calendar.Age;
import rakelight.person.calendar.AgeConvention;
import rakelight.person.edtf.Edtf;

/**
 * When somebody was born whose stone gives death and age and no birth: worked out, not carved. An
 * age in years leaves a year, one in months a month; one in days leaves the days that the ways of
 * reckoning ages give.
 */
final class ReckonedBirth {
  private ReckonedBirth() {}

  /** The births of all whose face gives one death and one age of them and no birth. */
  static List<Statement> of(List<Statement> facts) {
    List<Statement> births = new ArrayList<>();
    for (Statement death : facts) {
      if (death.kind() == Kind.DEATH && death.persons().size() == 1) {
        Optional<Statement> only = only(facts, Kind.DEATH, death.person());
        Optional<Statement> age = only(facts, Kind.AGE, death.person());
        boolean carved =
            facts.stream()
                .anyMatch(s -> s.kind() == Kind.BIRTH && s.persons().contains(death.person()));
        if (!carved && only.filter(death::equals).isPresent()) {
          age.flatMap(own -> birth(death, own)).ifPresent(births::add);
        }
      }
    }
    return births;
  }

  /** The one that stands for a person, the reckoned one where figures are lost. */
  private static Optional<Statement> only(List<Statement> facts, Kind kind, int person) {
    List<Statement> own =
        facts.stream().filter(s -> s.kind() == kind && s.persons().contains(person)).toList();
    boolean reckoned = own.stream().anyMatch(Statement::isReckoned);
    List<Statement> fullest = own.stream().filter(s -> !reckoned || s.isReckoned()).toList();
    return fullest.size() == 1 ? Optional.of(fullest.get(0)) : Optional.empty();
  }

  private static Optional<Statement> birth(Statement death, Statement age) {
    Optional<Age> completed = Age.parse(age.value());
    if (completed.isEmpty() || death.value().isEmpty() || death.value().indexOf('X') >= 0) {
      return Optional.empty();
    }
    Edtf died = Edtf.parse(death.value());
    if (died.earliest().isEmpty() || died.latest().isEmpty()) {
      return Optional.empty();
    }
    LocalDate first = died.earliest().get().toLocalDate();
    LocalDate last = died.latest().get().toLocalDate();
    boolean running =
        age.detail(Detail.Aged.class).filter(own -> own.worn().maybeRunning()).isPresent();
    return Optional.of(
        death.reckonedBirth(
            age,
            first.equals(last)
                ? ofDay(first, completed.get(), running)
                : years(first, last, completed.get(), running)));
  }

  private static String ofDay(LocalDate died, Age age, boolean running) {
    boolean inDays =
        switch (age.finest()) {
          case YEARS, MONTHS -> false;
          case WEEKS, DAYS, HOURS -> true;
        };
    if (inDays) {
      TreeSet<LocalDate> births =
          Arrays.stream(AgeConvention.values())
              .flatMap(convention -> convention.birth(died, age).stream())
              .collect(Collectors.toCollection(TreeSet::new));
      return births.size() == 1
          ? births.first().toString()
          : births.stream().map(LocalDate::toString).collect(Collectors.joining(",", "[", "]"));
    }
    LocalDate latest = died.minusYears(age.years()).minusMonths(age.months());
    LocalDate before =
        age.finest() == Age.Unit.YEARS ? latest.minusYears(1) : latest.minusMonths(1);
    return "[" + before.plusDays(1) + ".." + (running ? latest.plusYears(1) : latest) + "]";
  }

  /** Where the day of death isn't known, a birth is known by its year. */
  private static String years(LocalDate first, LocalDate last, Age age, boolean running) {
    LocalDate earliest = first.minusYears(age.years()).minusMonths(age.months());
    int from =
        (age.finest() == Age.Unit.YEARS ? earliest.minusYears(1).plusDays(1) : earliest).getYear();
    int to = last.minusYears(age.years()).minusMonths(age.months()).getYear() + (running ? 1 : 0);
    return from == to
        ? String.format(Locale.ROOT, "%04d", from)
        : Stream.of(from, to)
            .map(year -> String.format(Locale.ROOT, "%04d", year))
            .collect(Collectors.joining("..", "[", "]"));
  }
}
