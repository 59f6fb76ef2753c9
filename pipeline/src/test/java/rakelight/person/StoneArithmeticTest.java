package rakelight.person;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.Period;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import rakelight.person.CarvedLife.Reckoning;
import rakelight.person.CarvedLife.WornAge;
import rakelight.person.CarvedLife.WornDate;
import rakelight.person.StoneArithmetic.Figure;
import rakelight.person.StoneArithmetic.Life;
import rakelight.person.calendar.Age;
import rakelight.person.calendar.AgeConvention;
import rakelight.person.calendar.CalendarChange;

class StoneArithmeticTest {
  private static final int STONES = 10_000;
  private static final long SEED = 1731;

  @Test
  void aLostFigureOfTheDeathIsForcedByTheAge() {
    List<Figure> figures =
        StoneArithmetic.figures(
            life("1806-10-02", "18?8-08-27", Optional.of("61"), Optional.empty()));
    assertThat(figures).hasSize(1);
    assertThat(figures.get(0).isForced()).isTrue();
    assertThat(figures.get(0).posterior()).containsOnlyKeys(6);
    assertThat(figures.get(0).by()).isEqualTo("the age");
  }

  /** Gregorian weekdays: java.time. 11 November was a Monday in 1912 and 1918 of that decade. */
  @Test
  void aCarvedWeekdayLeavesTheYearsOnWhichItFell() {
    CarvedLife stone =
        new CarvedLife(
            Optional.empty(),
            Optional.of(WornDate.of("191?-11-11")),
            Optional.empty(),
            Optional.of(DayOfWeek.MONDAY));
    Figure figure = StoneArithmetic.figures(stone).get(0);
    assertThat(figure.posterior()).containsOnlyKeys(2, 8);
    assertThat(figure.by()).isEqualTo("the weekday");
  }

  @Test
  void aStoneThatContradictsItselfHasNoReadingAndIsNotRepaired() {
    assertThat(
            StoneArithmetic.solve(
                life("1790-03-09", "1834-02-20", Optional.of("44"), Optional.empty())))
        .isEmpty();
  }

  @Test
  void aThreeThatMayBeAnEightKeepsItsWeights() {
    Worn year =
        new Worn(List.of(Map.of(1, 1.0), Map.of(8, 1.0), Map.of(6, 1.0), Map.of(3, 0.7, 8, 0.3)));
    CarvedLife stone =
        new CarvedLife(
            Optional.of(WornDate.of("1806-10-02")),
            Optional.of(
                new WornDate(
                    year,
                    Optional.of(Worn.of("08")),
                    Optional.of(Worn.of("27")),
                    false,
                    Reckoning.OF_THE_GROUND,
                    CalendarChange.BRITISH)),
            Optional.empty(),
            Optional.empty());
    Figure figure = StoneArithmetic.figures(stone).get(0);
    assertThat(figure.posterior().get(3)).isCloseTo(0.7, within(1e-12));
    assertThat(figure.impossible()).isEmpty();
  }

  /**
   * Against every way of filling in the lost figures, judged by java.time's calendar: for ages in
   * years by whole-number arithmetic on YYYYMMDD, else by each convention in turn.
   */
  @Test
  void theSolverFindsExactlyWhatTryingEveryFigureFindsOnTenThousandStones() {
    Random random = new Random(SEED);
    int lost = 0;
    int recovered = 0;
    int wrong = 0;
    for (int i = 0; i < STONES; i++) {
      String carved = carved(random);
      String worn = wear(carved, Math.min(random.nextInt(5), random.nextInt(5)), random);
      Map<Life, Double> lives = StoneArithmetic.solve(stone(worn));
      Set<String> expected = new HashSet<>();
      fill(worn.toCharArray(), 0, full -> addIfSound(full, expected));
      Set<String> found = new HashSet<>();
      lives.keySet().forEach(life -> found.add(text(life, worn)));
      assertThat(found).as("seed %d, stone %s worn to %s", SEED, carved, worn).isEqualTo(expected);
      assertThat(expected).contains(carved);
      assertThat(lives.values().stream().mapToDouble(Double::doubleValue).sum())
          .isCloseTo(1, within(1e-9));
      for (Figure figure : StoneArithmetic.figures(stone(worn))) {
        lost++;
        recovered += figure.isForced() ? 1 : 0;
      }
      for (int at = 0; at < worn.length(); at++) {
        int place = at;
        boolean forced =
            worn.charAt(at) == '?'
                && expected.stream().map(full -> full.charAt(place)).distinct().count() == 1;
        wrong += forced && expected.iterator().next().charAt(at) != carved.charAt(at) ? 1 : 0;
      }
    }
    assertThat(wrong).isZero();
    assertThat(recovered / (double) lost).as("share of lost figures forced").isGreaterThan(0.3);
  }

  /** Birth, death and age with fixed columns: {@code YYYY-MM-DD YYYY-MM-DD NN[-MM-DD]}. */
  private static String carved(Random random) {
    while (true) {
      LocalDate birth = LocalDate.of(1700, 1, 1).plusDays(random.nextInt(73_000));
      LocalDate death = birth.plusDays(random.nextInt(36_000));
      Period age = Period.between(birth, death);
      if (random.nextInt(4) > 0) {
        return String.format(Locale.ROOT, "%s %s %02d", birth, death, age.getYears());
      }
      Age full = Age.of(age.getYears(), age.getMonths(), age.getDays());
      if (reckoned(birth, death, full)) {
        return String.format(
            Locale.ROOT,
            "%s %s %02d-%02d-%02d",
            birth,
            death,
            age.getYears(),
            age.getMonths(),
            age.getDays());
      }
    }
  }

  private static boolean reckoned(LocalDate birth, LocalDate death, Age age) {
    for (AgeConvention convention : AgeConvention.values()) {
      if (convention.birth(death, age).equals(Optional.of(birth))) {
        return true;
      }
    }
    return false;
  }

  private static String wear(String carved, int times, Random random) {
    StringBuilder worn = new StringBuilder(carved);
    for (int k = 0; k < times; k++) {
      int at = random.nextInt(worn.length());
      if (Character.isDigit(worn.charAt(at))) {
        worn.setCharAt(at, '?');
      }
    }
    return worn.toString();
  }

  private static void fill(char[] text, int from, Consumer<String> each) {
    int at = from;
    while (at < text.length && text[at] != '?') {
      at++;
    }
    if (at == text.length) {
      each.accept(new String(text));
      return;
    }
    for (char figure = '0'; figure <= '9'; figure++) {
      text[at] = figure;
      fill(text, at + 1, each);
    }
    text[at] = '?';
  }

  private static void addIfSound(String full, Set<String> sound) {
    int birthNumber = number(full, 0);
    int deathNumber = number(full, 11);
    if (deathNumber < birthNumber) {
      return;
    }
    int years = Integer.parseInt(full.substring(22, 24));
    if (full.length() == 24 && (deathNumber - birthNumber) / 10000 != years) {
      return;
    }
    try {
      LocalDate birth = date(birthNumber);
      LocalDate death = date(deathNumber);
      if (full.length() == 24) {
        sound.add(full);
        return;
      }
      int months = Integer.parseInt(full.substring(25, 27));
      int days = Integer.parseInt(full.substring(28, 30));
      if (months <= 11 && days <= 31 && reckoned(birth, death, Age.of(years, months, days))) {
        sound.add(full);
      }
    } catch (DateTimeException noSuchDay) {
      return;
    }
  }

  private static LocalDate date(int number) {
    return LocalDate.of(number / 10000, number / 100 % 100, number % 100);
  }

  private static int number(String full, int from) {
    return Integer.parseInt(
        full.substring(from, from + 4)
            + full.substring(from + 5, from + 7)
            + full.substring(from + 8, from + 10));
  }

  private static CarvedLife stone(String worn) {
    Optional<String> rest = worn.length() > 24 ? Optional.of(worn.substring(25)) : Optional.empty();
    return life(
        worn.substring(0, 10), worn.substring(11, 21), Optional.of(worn.substring(22, 24)), rest);
  }

  private static CarvedLife life(
      String birth, String death, Optional<String> years, Optional<String> rest) {
    return new CarvedLife(
        Optional.of(WornDate.of(birth)),
        Optional.of(WornDate.of(death)),
        years.map(
            y ->
                new WornAge(
                    Worn.of(y),
                    rest.map(r -> Worn.of(r.substring(0, 2))),
                    rest.map(r -> Worn.of(r.substring(3))),
                    false)),
        Optional.empty());
  }

  private static String text(Life life, String worn) {
    Age age = life.age().orElseThrow();
    String years =
        String.format(
            Locale.ROOT,
            "%s %s %02d",
            life.birth().orElseThrow().from(),
            life.death().orElseThrow().from(),
            age.years());
    return worn.length() == 24
        ? years
        : years + String.format(Locale.ROOT, "-%02d-%02d", age.months(), age.days());
  }
}
