package rakelight.person;

import java.time.LocalDate;
import java.time.Period;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import rakelight.person.CarvedLife.Filled;
import rakelight.person.CarvedLife.WornAge;
import rakelight.person.CarvedLife.WornDate;
import rakelight.person.calendar.Age;
import rakelight.person.calendar.AgeConvention;

/**
 * What the figures of one life on a stone can be, taken together. Birth, death, age and weekday
 * must agree; every way of reading worn figures that lets them agree is weighed by the figures' own
 * weights and by the convention of reckoning the age ({@link AgeConvention}). An age in years alone
 * is the years completed. Nothing is repaired: where no reading agrees, the stone contradicts
 * itself and the answer is empty.
 *
 * <p>Days are compared in the Gregorian calendar, whatever the stone's. A date carved without its
 * day may be any day of the month or year. Work grows with the product of open readings; ask {@link
 * #isTooOpen} first.
 */
public final class StoneArithmetic {
  static final int MOST_READINGS = 200_000;
  private static final int MOST_MONTHS = 11;
  private static final int MOST_DAYS = 31;

  /** How often the years after {@code aetatis} are those begun, to one; a choice, no source. */
  private static final double RUNNING = 0.25;

  /** By how many days conventions of reckoning an age may differ: {@link AgeConvention}. */
  private static final int CONVENTIONS_DIFFER_DAYS = 3;

  /** One way to read all figures. */
  public record Life(Optional<Filled> birth, Optional<Filled> death, Optional<Age> age) {
    /** The first and the last day on which the person may have been born, if anything tells. */
    Optional<LocalDate[]> bornWithin() {
      if (birth.isPresent()) {
        return Optional.of(new LocalDate[] {birth.get().from(), birth.get().to()});
      }
      return death.isPresent() && age.isPresent()
          ? Optional.of(birthWindow(death.get(), age.get()))
          : Optional.empty();
    }
  }

  /** A number on the stone. */
  public enum Number {
    BIRTH_YEAR,
    BIRTH_MONTH,
    BIRTH_DAY,
    DEATH_YEAR,
    DEATH_MONTH,
    DEATH_DAY,
    AGE_YEARS,
    AGE_MONTHS,
    AGE_DAYS
  }

  /**
   * What became of a worn figure.
   *
   * @param place from the left, 0 first
   * @param posterior the figures still possible, summing to one
   * @param impossible those that were candidates and can't be
   * @param by what rules the others out: {@code the age}, {@code the dates}, {@code the weekday},
   *     {@code the calendar}, {@code kin} or all {@code together}; empty when nothing is ruled out
   */
  public record Figure(
      Number number,
      int place,
      Map<Integer, Double> posterior,
      List<Integer> impossible,
      String by) {
    /** Whether only one figure is left. */
    public boolean isForced() {
      return posterior.size() == 1;
    }
  }

  private StoneArithmetic() {}

  /** Whether more figures are open than can be reckoned with. */
  public static boolean isTooOpen(CarvedLife stone) {
    long births = stone.birth().map(WornDate::open).orElse(1L);
    long deaths = stone.death().map(WornDate::open).orElse(1L);
    long ages = stone.age().map(WornAge::open).orElse(1L);
    return births * deaths > MOST_READINGS || ages * deaths > MOST_READINGS;
  }

  /**
   * The joint posterior: every reading that agrees, the weights summing to one. Empty when none
   * does.
   *
   * @throws IllegalArgumentException if too many figures are open
   */
  public static Map<Life, Double> solve(CarvedLife stone) {
    if (isTooOpen(stone)) {
      throw new IllegalArgumentException("too many figures are open to reckon with");
    }
    Map<Optional<Filled>, Double> births = readings(stone.birth());
    Map<Optional<Filled>, Double> deaths = readings(stone.death());
    stone
        .weekday()
        .ifPresent(
            day ->
                deaths
                    .keySet()
                    .removeIf(
                        d ->
                            d.filter(Filled::isDay)
                                .filter(f -> f.from().getDayOfWeek() != day)
                                .isPresent()));
    Map<Life, Double> lives = new HashMap<>();
    Map<Age, Double> ages = stone.age().map(StoneArithmetic::ages).orElse(Map.of());
    if (stone.age().isEmpty() || stone.birth().isEmpty() || stone.death().isEmpty()) {
      combine(births, deaths, stone.age().isEmpty() ? Optional.empty() : Optional.of(ages), lives);
    } else {
      reckonBack(births, deaths, ages, lives);
    }
    double total = lives.values().stream().mapToDouble(Double::doubleValue).sum();
    lives.replaceAll((life, weight) -> weight / total);
    return Map.copyOf(lives);
  }

  private static Map<Optional<Filled>, Double> readings(Optional<WornDate> date) {
    Map<Optional<Filled>, Double> readings = new HashMap<>();
    if (date.isEmpty()) {
      readings.put(Optional.empty(), 1.0);
    } else {
      date.get().readings().forEach((filled, weight) -> readings.put(Optional.of(filled), weight));
    }
    return readings;
  }

  private static Map<Age, Double> ages(WornAge worn) {
    Map<Age, Double> ages = new HashMap<>();
    Map<Integer, Double> none = Map.of(0, 1.0);
    Age.Unit finest =
        worn.days().isPresent()
            ? Age.Unit.DAYS
            : worn.months().isPresent() ? Age.Unit.MONTHS : Age.Unit.YEARS;
    worn.years()
        .values()
        .forEach(
            (y, yearWeight) ->
                worn.months()
                    .map(Worn::values)
                    .orElse(none)
                    .forEach(
                        (m, monthWeight) ->
                            worn.days()
                                .map(Worn::values)
                                .orElse(none)
                                .forEach(
                                    (d, dayWeight) -> {
                                      if (y <= Age.MOST_YEARS
                                          && m <= MOST_MONTHS
                                          && d <= MOST_DAYS) {
                                        double weight = yearWeight * monthWeight * dayWeight;
                                        ages.merge(
                                            new Age(y, m, 0, d, 0, finest), weight, Double::sum);
                                        if (worn.maybeRunning() && y > 0) {
                                          ages.merge(
                                              new Age(y - 1, m, 0, d, 0, finest),
                                              weight * RUNNING,
                                              Double::sum);
                                        }
                                      }
                                    })));
    return ages;
  }

  /** Where birth, death or age is missing, the others only have to be in order. */
  private static void combine(
      Map<Optional<Filled>, Double> births,
      Map<Optional<Filled>, Double> deaths,
      Optional<Map<Age, Double>> ages,
      Map<Life, Double> lives) {
    births.forEach(
        (birth, birthWeight) ->
            deaths.forEach(
                (death, deathWeight) -> {
                  if (birth.isPresent()
                      && death.isPresent()
                      && death.get().to().isBefore(birth.get().from())) {
                    return;
                  }
                  double weight = birthWeight * deathWeight;
                  if (ages.isEmpty()) {
                    lives.put(new Life(birth, death, Optional.empty()), weight);
                  } else {
                    ages.get()
                        .forEach(
                            (age, ageWeight) ->
                                lives.put(
                                    new Life(birth, death, Optional.of(age)), weight * ageWeight));
                  }
                }));
  }

  /** From each death and age to the births they allow. */
  private static void reckonBack(
      Map<Optional<Filled>, Double> births,
      Map<Optional<Filled>, Double> deaths,
      Map<Age, Double> ages,
      Map<Life, Double> lives) {
    TreeMap<LocalDate, List<Optional<Filled>>> byDay = new TreeMap<>();
    List<Optional<Filled>> spans = new ArrayList<>();
    for (Optional<Filled> birth : births.keySet()) {
      if (birth.orElseThrow().isDay()) {
        byDay.computeIfAbsent(birth.get().from(), day -> new ArrayList<>()).add(birth);
      } else {
        spans.add(birth);
      }
    }
    deaths.forEach(
        (death, deathWeight) ->
            ages.forEach(
                (age, ageWeight) -> {
                  Filled died = death.orElseThrow();
                  double weight = deathWeight * ageWeight;
                  LocalDate[] window = birthWindow(died, age);
                  byDay
                      .subMap(window[0], true, window[1], true)
                      .forEach(
                          (day, sameDay) -> {
                            double share = share(day, died, age);
                            for (Optional<Filled> birth : sameDay) {
                              put(
                                  lives,
                                  birth,
                                  death,
                                  age,
                                  births.getOrDefault(birth, 0.0) * weight * share);
                            }
                          });
                  for (Optional<Filled> birth : spans) {
                    Filled born = birth.orElseThrow();
                    boolean meets =
                        !born.from().isAfter(window[1])
                            && !born.to().isBefore(window[0])
                            && !born.from().isAfter(died.to());
                    put(
                        lives,
                        birth,
                        death,
                        age,
                        meets ? births.getOrDefault(birth, 0.0) * weight : 0);
                  }
                }));
  }

  private static void put(
      Map<Life, Double> lives,
      Optional<Filled> birth,
      Optional<Filled> death,
      Age age,
      double weight) {
    if (weight > 0) {
      lives.put(new Life(birth, death, Optional.of(age)), weight);
    }
  }

  /** The days of birth that an age may mean, wide enough for every convention. */
  private static LocalDate[] birthWindow(Filled death, Age age) {
    LocalDate from = death.from().minusYears(age.years()).minusMonths(age.months());
    LocalDate to = death.to().minusYears(age.years()).minusMonths(age.months());
    return switch (age.finest()) {
      case YEARS ->
          new LocalDate[] {death.from().minusYears(age.years() + 1).plusDays(1), plusLeap(to)};
      case MONTHS ->
          new LocalDate[] {
            from.minusMonths(1).minusDays(CONVENTIONS_DIFFER_DAYS),
            to.plusDays(CONVENTIONS_DIFFER_DAYS)
          };
      case WEEKS, DAYS, HOURS -> {
        int days = 7 * age.weeks() + age.days();
        yield new LocalDate[] {
          from.minusDays(days + CONVENTIONS_DIFFER_DAYS), to.minusDays(days).plusDays(4)
        };
      }
    };
  }

  /** Who died on 28 February may have been born on a 29th and be as old. */
  private static LocalDate plusLeap(LocalDate day) {
    return day.getMonthValue() == 2 && day.getDayOfMonth() == 28 ? day.plusDays(1) : day;
  }

  /** How many of the conventions, by weight, give this birth. */
  private static double share(LocalDate birth, Filled death, Age age) {
    if (birth.isAfter(death.to())) {
      return 0;
    }
    if (!death.isDay() || age.finest() == Age.Unit.MONTHS) {
      return 1;
    }
    if (age.finest() == Age.Unit.YEARS) {
      return Period.between(birth, death.from()).getYears() == age.years() ? 1 : 0;
    }
    double share = 0;
    for (AgeConvention convention : AgeConvention.values()) {
      if (convention.birth(death.from(), age).filter(birth::equals).isPresent()) {
        share += convention.weight();
      }
    }
    return share;
  }

  /**
   * What can be said of each figure that was open; empty when the stone contradicts itself, which
   * {@link #solve} tells.
   */
  public static List<Figure> figures(CarvedLife stone) {
    return figures(stone, solve(stone), Optional.empty());
  }

  /**
   * The same for lives that something beyond the one person has thinned out.
   *
   * @param lives what is left
   * @param beyond what thinned them out, in words
   */
  static List<Figure> figures(CarvedLife stone, Map<Life, Double> lives, Optional<String> beyond) {
    List<Figure> figures = new ArrayList<>();
    if (lives.isEmpty()) {
      return figures;
    }
    Map<Life, Double> alone = beyond.isPresent() ? solve(stone) : lives;
    Map<Life, Double> withoutAge =
        solve(new CarvedLife(stone.birth(), stone.death(), Optional.empty(), stone.weekday()));
    Map<Life, Double> withoutWeekday =
        solve(new CarvedLife(stone.birth(), stone.death(), stone.age(), Optional.empty()));
    for (Number number : Number.values()) {
      Optional<Worn> worn = worn(stone, number);
      for (int place = 0; worn.isPresent() && place < worn.get().figures().size(); place++) {
        Map<Integer, Double> open = worn.get().figures().get(place);
        if (open.size() > 1) {
          Map<Integer, Double> posterior = marginal(lives, worn.get(), number, place);
          boolean isAge = number.ordinal() >= Number.AGE_YEARS.ordinal();
          int leftAlone = marginal(alone, worn.get(), number, place).size();
          int leftWithoutAge =
              isAge ? open.size() : marginal(withoutAge, worn.get(), number, place).size();
          int leftWithoutWeekday = marginal(withoutWeekday, worn.get(), number, place).size();
          figures.add(
              new Figure(
                  number,
                  place,
                  posterior,
                  new TreeSet<>(open.keySet())
                      .stream().filter(f -> !posterior.containsKey(f)).toList(),
                  leftAlone > posterior.size()
                      ? beyond.orElse("")
                      : by(
                          open.size(),
                          posterior.size(),
                          leftWithoutAge,
                          leftWithoutWeekday,
                          isAge)));
        }
      }
    }
    return figures;
  }

  private static String by(
      int open, int left, int leftWithoutAge, int leftWithoutWeekday, boolean isAge) {
    if (left == open) {
      return "";
    }
    boolean age = leftWithoutAge > left;
    boolean weekday = leftWithoutWeekday > left;
    if (age && weekday) {
      return "together";
    }
    return age ? (isAge ? "the dates" : "the age") : weekday ? "the weekday" : "the calendar";
  }

  private static Map<Integer, Double> marginal(
      Map<Life, Double> lives, Worn worn, Number number, int place) {
    Map<Integer, Double> marginal = new TreeMap<>();
    lives.forEach(
        (life, weight) ->
            marginal.merge(worn.figureOf(value(life, number), place), weight, Double::sum));
    return marginal;
  }

  /** The figure that was read at a place, where one has at least this share of the weight. */
  static Optional<Integer> favoured(CarvedLife stone, Number number, int place, double share) {
    return worn(stone, number).stream()
        .flatMap(worn -> worn.figures().get(place).entrySet().stream())
        .filter(entry -> entry.getValue() >= share)
        .map(Map.Entry::getKey)
        .findFirst();
  }

  private static Optional<Worn> worn(CarvedLife stone, Number number) {
    return switch (number) {
      case BIRTH_YEAR -> stone.birth().map(WornDate::year);
      case BIRTH_MONTH -> stone.birth().flatMap(WornDate::month);
      case BIRTH_DAY -> stone.birth().flatMap(WornDate::day);
      case DEATH_YEAR -> stone.death().map(WornDate::year);
      case DEATH_MONTH -> stone.death().flatMap(WornDate::month);
      case DEATH_DAY -> stone.death().flatMap(WornDate::day);
      case AGE_YEARS -> stone.age().filter(age -> !age.maybeRunning()).map(WornAge::years);
      case AGE_MONTHS -> stone.age().flatMap(WornAge::months);
      case AGE_DAYS -> stone.age().flatMap(WornAge::days);
    };
  }

  private static int value(Life life, Number number) {
    return switch (number) {
      case BIRTH_YEAR -> life.birth().orElseThrow().year();
      case BIRTH_MONTH -> life.birth().orElseThrow().month();
      case BIRTH_DAY -> life.birth().orElseThrow().day();
      case DEATH_YEAR -> life.death().orElseThrow().year();
      case DEATH_MONTH -> life.death().orElseThrow().month();
      case DEATH_DAY -> life.death().orElseThrow().day();
      case AGE_YEARS -> life.age().orElseThrow().years();
      case AGE_MONTHS -> life.age().orElseThrow().months();
      case AGE_DAYS -> life.age().orElseThrow().days();
    };
  }
}
