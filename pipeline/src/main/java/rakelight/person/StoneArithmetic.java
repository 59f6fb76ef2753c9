package rakelight.person;

import java.time.LocalDate;
import java.time.Period;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.person.calendar.Age;
import rakelight.person.calendar.AgeConvention;

/**
 * What the figures of a stone can be, taken together. Birth, death, age and weekday must agree;
 * every way of reading worn figures that lets them agree is weighed by the figures' own weights and
 * by the convention of reckoning the age ({@link AgeConvention}). An age in years alone is the
 * years completed. Nothing is repaired: where no reading agrees, the stone contradicts itself and
 * the answer is empty.
 *
 * <p>Days are proleptic Gregorian; days carved in another calendar are converted first. Work grows
 * with the product of open readings, refused above {@value #MOST_READINGS}.
 */
public final class StoneArithmetic {
  static final int MOST_READINGS = 4_000_000;
  private static final int MOST_MONTHS = 11;
  private static final int MOST_DAYS = 31;

  /** One way to read all figures. */
  public record Life(LocalDate birth, LocalDate death, Optional<Age> age) {}

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
   * @param by what rules the others out: {@code the age}, {@code the weekday}, {@code the
   *     calendar}, or all {@code together}; empty when nothing is ruled out
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

  /**
   * The joint posterior: every reading that agrees, the weights summing to one. Empty when none
   * does.
   */
  public static Map<Life, Double> solve(CarvedLife stone) {
    Map<LocalDate, Double> births = stone.birth().days();
    Map<LocalDate, Double> deaths = new TreeMap<>(stone.death().days());
    stone.weekday().ifPresent(day -> deaths.keySet().removeIf(d -> d.getDayOfWeek() != day));
    Map<Life, Double> lives = new HashMap<>();
    Optional<CarvedLife.MonthsAndDays> rest = stone.age().flatMap(CarvedLife.WornAge::rest);
    if (rest.isPresent()) {
      reckonBack(stone.age().get().years(), rest.get(), births, deaths, lives);
    } else {
      requireFewEnough((long) births.size() * deaths.size());
      Optional<Map<Integer, Double>> ages = stone.age().map(age -> age.years().values());
      births.forEach(
          (birth, birthWeight) ->
              deaths.forEach(
                  (death, deathWeight) ->
                      take(birth, death, ages, birthWeight * deathWeight, lives)));
    }
    double total = lives.values().stream().mapToDouble(Double::doubleValue).sum();
    lives.replaceAll((life, weight) -> weight / total);
    return Map.copyOf(lives);
  }

  private static void take(
      LocalDate birth,
      LocalDate death,
      Optional<Map<Integer, Double>> ages,
      double weight,
      Map<Life, Double> lives) {
    if (death.isBefore(birth)) {
      return;
    }
    if (ages.isEmpty()) {
      lives.put(new Life(birth, death, Optional.empty()), weight);
      return;
    }
    int years = Period.between(birth, death).getYears();
    double ageWeight = ages.get().getOrDefault(years, 0.0);
    if (ageWeight > 0 && years <= Age.MOST_YEARS) {
      lives.put(new Life(birth, death, Optional.of(Age.ofYears(years))), weight * ageWeight);
    }
  }

  /** From each death and age to the births that the conventions give. */
  private static void reckonBack(
      Worn years,
      CarvedLife.MonthsAndDays rest,
      Map<LocalDate, Double> births,
      Map<LocalDate, Double> deaths,
      Map<Life, Double> lives) {
    Map<Age, Double> ages = new HashMap<>();
    years
        .values()
        .forEach(
            (y, yearWeight) ->
                rest.months()
                    .values()
                    .forEach(
                        (m, monthWeight) ->
                            rest.days()
                                .values()
                                .forEach(
                                    (d, dayWeight) -> {
                                      if (y <= Age.MOST_YEARS
                                          && m <= MOST_MONTHS
                                          && d <= MOST_DAYS) {
                                        ages.put(
                                            Age.of(y, m, d), yearWeight * monthWeight * dayWeight);
                                      }
                                    })));
    requireFewEnough((long) ages.size() * deaths.size());
    deaths.forEach(
        (death, deathWeight) ->
            ages.forEach(
                (age, ageWeight) -> {
                  for (AgeConvention convention : AgeConvention.values()) {
                    Optional<LocalDate> birth = convention.birth(death, age);
                    double birthWeight = birth.map(b -> births.getOrDefault(b, 0.0)).orElse(0.0);
                    if (birthWeight > 0 && !birth.get().isAfter(death)) {
                      lives.merge(
                          new Life(birth.get(), death, Optional.of(age)),
                          birthWeight * deathWeight * ageWeight * convention.weight(),
                          Double::sum);
                    }
                  }
                }));
  }

  private static void requireFewEnough(long readings) {
    if (readings > MOST_READINGS) {
      throw new IllegalArgumentException(
          "too many figures are open to reckon with: "
              + readings
              + " readings, "
              + MOST_READINGS
              + " at most");
    }
  }

  /**
   * What can be said of each figure that was open; empty when the stone contradicts itself, which
   * {@link #solve} tells.
   */
  public static List<Figure> figures(CarvedLife stone) {
    Map<Life, Double> lives = solve(stone);
    List<Figure> figures = new ArrayList<>();
    if (lives.isEmpty()) {
      return figures;
    }
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
          int leftWithoutAge =
              isAge ? open.size() : marginal(withoutAge, worn.get(), number, place).size();
          int leftWithoutWeekday = marginal(withoutWeekday, worn.get(), number, place).size();
          figures.add(
              new Figure(
                  number,
                  place,
                  posterior,
                  open.keySet().stream().filter(f -> !posterior.containsKey(f)).sorted().toList(),
                  by(open.size(), posterior.size(), leftWithoutAge, leftWithoutWeekday, isAge)));
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

  private static Optional<Worn> worn(CarvedLife stone, Number number) {
    Optional<CarvedLife.MonthsAndDays> rest = stone.age().flatMap(CarvedLife.WornAge::rest);
    return switch (number) {
      case BIRTH_YEAR -> Optional.of(stone.birth().year());
      case BIRTH_MONTH -> Optional.of(stone.birth().month());
      case BIRTH_DAY -> Optional.of(stone.birth().day());
      case DEATH_YEAR -> Optional.of(stone.death().year());
      case DEATH_MONTH -> Optional.of(stone.death().month());
      case DEATH_DAY -> Optional.of(stone.death().day());
      case AGE_YEARS -> stone.age().map(CarvedLife.WornAge::years);
      case AGE_MONTHS -> rest.map(CarvedLife.MonthsAndDays::months);
      case AGE_DAYS -> rest.map(CarvedLife.MonthsAndDays::days);
    };
  }

  private static int value(Life life, Number number) {
    return switch (number) {
      case BIRTH_YEAR -> life.birth().getYear();
      case BIRTH_MONTH -> life.birth().getMonthValue();
      case BIRTH_DAY -> life.birth().getDayOfMonth();
      case DEATH_YEAR -> life.death().getYear();
      case DEATH_MONTH -> life.death().getMonthValue();
      case DEATH_DAY -> life.death().getDayOfMonth();
      case AGE_YEARS -> life.age().orElseThrow().years();
      case AGE_MONTHS -> life.age().orElseThrow().months();
      case AGE_DAYS -> life.age().orElseThrow().days();
    };
  }
}
