package rakelight.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import rakelight.marker.Description;
import rakelight.marker.DescriptionWords;

/**
 * Spans beside known years: 500 invented markers whose fashions, delays and replacements follow
 * other curves than the model's (logistic and normal ones, with dates of their own).
 */
class GeneratedMarkersMadeTest {
  private static final int COUNT = 500;

  private record Invented(int year, int death, boolean replaced, Making.Known known) {}

  @Test
  void fourSpansInFiveHoldTheYearAndReplacementsAreNoticed() {
    Random random = new Random(20261130);
    List<Invented> all = new ArrayList<>();
    for (int i = 0; i < COUNT; i++) {
      all.add(invented(random));
    }
    List<Making.Dated> ground = all.stream().map(GeneratedMarkersMadeTest::dated).toList();
    Making making = new Making(DatingClue.of(List.of("new-england")), ground);
    int inside = 0;
    int noticed = 0;
    int wrongly = 0;
    int replaced = 0;
    int datesRight = 0;
    List<Integer> widths = new ArrayList<>();
    for (int i = 0; i < COUNT; i++) {
      Invented one = all.get(i);
      Making.Made made = making.of(one.known(), Optional.of(dated(one))).orElseThrow();
      inside += one.year() >= made.from() && one.year() <= made.to() ? 1 : 0;
      datesRight += Math.abs(one.year() - one.death()) <= 2 ? 1 : 0;
      widths.add(made.to() - made.from() + 1);
      boolean flagged = made.later().orElse(0.0) >= 0.5;
      replaced += one.replaced() ? 1 : 0;
      noticed += one.replaced() && flagged ? 1 : 0;
      wrongly += !one.replaced() && flagged ? 1 : 0;
    }
    widths.sort(null);
    System.out.printf(
        "inside %.3f, median width %d years, ninth decile %d; the date it bears within 2 years %.3f;"
            + " replaced %d, noticed %d, wrongly %d%n",
        inside / (double) COUNT,
        widths.get(COUNT / 2),
        widths.get(COUNT * 9 / 10),
        datesRight / (double) COUNT,
        replaced,
        noticed,
        wrongly);
    assertThat(inside / (double) COUNT).isBetween(0.76, 0.88);
    assertThat(wrongly).isLessThan(noticed);
  }

  private static Making.Dated dated(Invented one) {
    return new Making.Dated(one.known().description().material().orElse(""), one.death());
  }

  private static Invented invented(Random random) {
    double grown = Math.log(1 + random.nextDouble() * (Math.exp(2.2) - 1)) / 2.2;
    int year = 1690 + (int) (260 * grown);
    boolean replaced = random.nextDouble() < 0.12;
    int death =
        replaced
            ? Math.max(1660, year - 12 - random.nextInt(110))
            : year - (int) Math.round(Math.exp(-0.2 + 0.9 * random.nextGaussian()));
    String material;
    if (year > 1876 && year < 1912 && random.nextDouble() < 0.06) {
      material = "zinc";
    } else if (random.nextDouble() > logistic(year, 1812, 9)) {
      material = "slate";
    } else {
      material = random.nextDouble() > logistic(year, 1888, 11) ? "marble" : "granite";
    }
    List<String> emblems = new ArrayList<>();
    emblem("winged death's head", year, 1735, 28, random).ifPresent(emblems::add);
    emblem("winged face", year, 1783, 17, random).ifPresent(emblems::add);
    emblem("willow", year, 1814, 19, random).ifPresent(emblems::add);
    List<Integer> deaths = new ArrayList<>(List.of(death));
    while (random.nextDouble() < 0.4) {
      deaths.add(death + random.nextInt(45));
    }
    return new Invented(
        year,
        death,
        replaced,
        new Making.Known(
            new DescriptionWords(Map.of("material", material)).over(Description.NONE),
            emblems,
            deaths,
            OptionalInt.empty()));
  }

  private static double logistic(int year, double middle, double years) {
    return 1 / (1 + Math.exp(-(year - middle) / years));
  }

  private static Optional<String> emblem(
      String name, int year, double middle, double spread, Random random) {
    double away = (year - middle) / spread;
    return random.nextDouble() < 0.5 * Math.exp(-away * away / 2)
        ? Optional.of(name)
        : Optional.empty();
  }

  /** That the figure moves when the model does: spans cut in half hold far fewer. */
  @Test
  void halfASpanHoldsFewer() {
    Random random = new Random(7);
    int whole = 0;
    int half = 0;
    for (int i = 0; i < COUNT; i++) {
      Invented one = invented(random);
      Making.Made made =
          new Making(DatingClue.of(List.of("new-england")), List.of())
              .of(one.known())
              .orElseThrow();
      int cut = (made.to() - made.from()) / 2;
      whole += one.year() >= made.from() && one.year() <= made.to() ? 1 : 0;
      half += one.year() >= made.from() && one.year() <= made.to() - cut - 1 ? 1 : 0;
    }
    assertThat(half).isLessThan(whole - COUNT / 20);
    assertThat(Arrays.asList(whole, half)).allMatch(count -> count > 0);
  }
}
