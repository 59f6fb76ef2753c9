package rakelight.person;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import rakelight.person.Statement.Kind;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;

/**
 * Days and weeks with many deaths: a fever in one house, a lost ship. Pointed out and not
 * explained.
 *
 * <p>At least {@value #FEWEST} deaths within {@value #DAYS} days, and so many that at the pace of
 * the ten years around fewer than one such week in {@value #YEARS} years would come about by chance
 * (deaths at random, Poisson). The numbers are choices, no source.
 */
public final class Deaths {
  static final int FEWEST = 3;
  static final int DAYS = 7;
  static final int YEARS = 50;
  private static final int AROUND_YEARS = 5;

  /** Deaths close together, in the order of their days. */
  public record Cluster(LocalDate first, LocalDate last, List<Person> persons) {
    public Cluster {
      persons = List.copyOf(persons);
    }
  }

  private record Death(LocalDate day, Person person) {}

  private Deaths() {}

  /** The clusters among persons whose day of death is known, the earliest first. */
  public static List<Cluster> of(List<Person> persons) {
    List<Death> deaths = new ArrayList<>();
    persons.forEach(person -> day(person, deaths));
    deaths.sort(Comparator.comparing(Death::day));
    List<Cluster> clusters = new ArrayList<>();
    int from = 0;
    while (from < deaths.size()) {
      int to = from + 1;
      while (to < deaths.size()
          && ChronoUnit.DAYS.between(deaths.get(from).day(), deaths.get(to).day()) < DAYS) {
        to++;
      }
      if (to - from >= FEWEST && isRare(deaths, from, to)) {
        clusters.add(
            new Cluster(
                deaths.get(from).day(),
                deaths.get(to - 1).day(),
                deaths.subList(from, to).stream().map(Death::person).toList()));
        from = to;
      } else {
        from++;
      }
    }
    return List.copyOf(clusters);
  }

  private static void day(Person person, List<Death> deaths) {
    List<String> values = person.values(Kind.DEATH);
    if (values.size() != 1) {
      return;
    }
    Edtf date = Edtf.parse(values.get(0));
    if (date.earliest().isPresent() && date.earliest().equals(date.latest())) {
      Day day = date.earliest().get();
      deaths.add(new Death(day.toLocalDate(), person));
    }
  }

  private static boolean isRare(List<Death> deaths, int from, int to) {
    LocalDate middle = deaths.get(from).day();
    long around = 0;
    for (int i = 0; i < deaths.size(); i++) {
      LocalDate day = deaths.get(i).day();
      boolean near =
          day.isAfter(middle.minusYears(AROUND_YEARS))
              && day.isBefore(middle.plusYears(AROUND_YEARS));
      around += near && (i < from || i >= to) ? 1 : 0;
    }
    double weeks = 2 * AROUND_YEARS * 365.25 / DAYS;
    double expected = around / weeks;
    return weeks / (2 * AROUND_YEARS) * YEARS * atLeast(to - from, expected) < 1;
  }

  /** The chance of so many events where this many are expected. */
  static double atLeast(int count, double expected) {
    double term = Math.exp(-expected);
    double below = 0;
    for (int k = 0; k < count; k++) {
      below += term;
      term *= expected / (k + 1);
    }
    return Math.max(0, 1 - below);
  }
}
