package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import rakelight.ground.FamilyPerson.Lies;
import rakelight.ground.FamilyPerson.NamedAt;
import rakelight.ground.FootstoneFinding.Reason;
import rakelight.ground.FootstoneFinding.Sort;
import rakelight.samples.plots.InventedLots;
import rakelight.samples.plots.InventedPlot;
import rakelight.samples.plots.InventedPlots;
import rakelight.samples.plots.PlotHabits;

class FootstoneModelTest {
  private static final Map<Character, Double> GONE = Map.of();

  private static FamilyPerson person(int order, String given, Integer age, Integer died) {
    return new FamilyPerson(
        given + " Harrow",
        List.of(given.split(" ")),
        List.of("Harrow"),
        given.equals("Ann") ? Set.of("MOTHER", "WIFE") : Set.of(),
        Optional.ofNullable(age),
        died == null ? Map.of() : Map.of(died, 1.0),
        Map.of(),
        List.of(new NamedAt("15", new Spot(0, 0), 0.5, Optional.of(90.0), false, order)),
        Lies.HERE_OR_UNKNOWN);
  }

  private static List<Map<Character, Double>> cut(String letters) {
    return letters.chars().mapToObj(c -> c == '?' ? GONE : Map.of((char) c, 1.0)).toList();
  }

  private static Footstone stone(String letters, double east, double north) {
    return new Footstone(
        "f" + letters, cut(letters), List.of(), new Spot(east, north), 0.5, Optional.empty());
  }

  private static FamilyPlot plot(List<FamilyPerson> persons, Footstone... stones) {
    return new FamilyPlot(persons, List.of(stones), Optional.of(90.0), Set.of(), Set.of());
  }

  private static final List<FamilyPerson> HARROWS =
      List.of(
          person(0, "William", 70, 1850),
          person(1, "Ann", 66, 1855),
          person(2, "Walter", 30, 1860),
          person(3, "Hannah", 5, 1841));

  @Test
  void twoStonesOfOneLetterPairGoToTheTwoWhoShareIt() {
    FootstoneModel.Answer answer =
        FootstoneModel.solve(plot(HARROWS, stone("WH", 2, 0), stone("WH", 2, 1)));
    List<Integer> best = answer.findings().stream().map(f -> f.best().orElse(-1)).toList();
    assertThat(best).containsExactlyInAnyOrder(0, 2);
    assertThat(answer.isExact()).isTrue();
  }

  @Test
  void whatIsConfirmedMovesTheOthersAtOnceAndWhatIsRefusedIsOut() {
    FamilyPlot open = plot(HARROWS, stone("WH", 2, 0), stone("W?", 2, 1));
    double before = FootstoneModel.solve(open).findings().get(1).probabilities().get(2);
    FamilyPlot said =
        new FamilyPlot(
            open.persons(),
            open.stones(),
            open.frontDegrees(),
            Set.of(new FamilyPlot.Tie(0, 0)),
            Set.of());
    FootstoneModel.Answer after = FootstoneModel.solve(said);
    assertThat(after.findings().get(0).probability()).isEqualTo(1);
    assertThat(after.findings().get(0).reasons())
        .extracting(Reason::sort)
        .containsExactly(Sort.CONFIRMED);
    assertThat(after.findings().get(1).probabilities().get(0)).isZero();
    assertThat(after.findings().get(1).probabilities().get(2)).isGreaterThan(before + 0.2);
    FamilyPlot refused =
        new FamilyPlot(
            open.persons(),
            open.stones(),
            open.frontDegrees(),
            Set.of(),
            Set.of(new FamilyPlot.Tie(1, 2)));
    assertThat(FootstoneModel.solve(refused).findings().get(1).probabilities().get(2)).isZero();
  }

  @Test
  void relationWordsSizeAndYearTellPersonsApart() {
    Footstone mother = stone("MOTHER", 2, 0);
    assertThat(FootstoneModel.solve(plot(HARROWS, mother)).findings().get(0).best()).contains(1);
    Footstone small =
        new Footstone("s", cut("?H"), List.of(), new Spot(2, 0), 0.5, Optional.of(0.15));
    Footstone wide =
        new Footstone("s", cut("?H"), List.of(), new Spot(2, 0), 0.5, Optional.of(0.31));
    double child =
        FootstoneModel.solve(plot(HARROWS, small)).findings().get(0).probabilities().get(3);
    double adult =
        FootstoneModel.solve(plot(HARROWS, wide)).findings().get(0).probabilities().get(3);
    assertThat(child).isGreaterThan(2 * adult);
    Footstone dated =
        new Footstone("d", cut("WH"), cut("18?0"), new Spot(2, 0), 0.5, Optional.empty());
    List<Double> byYear =
        FootstoneModel.solve(plot(HARROWS, dated)).findings().get(0).probabilities();
    assertThat(byYear.get(0) + byYear.get(2)).isGreaterThan(0.85);
  }

  @Test
  void aStoneFarFromTheFamilyWithOtherLettersIsNobodys() {
    FootstoneFinding far = FootstoneModel.solve(plot(HARROWS, stone("QZ", 9, 9))).findings().get(0);
    assertThat(far.best()).isEmpty();
    assertThat(far.probability()).isGreaterThan(0.8);
  }

  @Test
  void theDecibansSumToTheOdds() {
    for (InventedPlot invented : InventedPlots.of(11, 30, PlotHabits.usual(0.3))) {
      for (FootstoneFinding finding : FootstoneModel.solve(PlotScore.asked(invented)).findings()) {
        double share = finding.probabilities().get(finding.reasoned().orElseThrow());
        double sum = finding.reasons().stream().mapToDouble(Reason::decibans).sum();
        assertThat(sum)
            .isCloseTo(
                10 * Math.log10(Math.max(1e-9, share) / Math.max(1e-9, 1 - share)), within(1e-6));
      }
    }
  }

  @Test
  void probabilitiesAreThoseOfCountingEveryWayOneByOne() {
    for (InventedPlot invented : InventedPlots.of(12, 60, PlotHabits.usual(0.3))) {
      FamilyPlot plot = PlotScore.asked(invented);
      if (Math.min(plot.persons().size(), plot.stones().size()) > 4) {
        continue;
      }
      double[][] counted = PlotScore.enumeratedShares(plot);
      for (FootstoneFinding finding : FootstoneModel.solve(plot).findings()) {
        for (int p = 0; p < plot.persons().size(); p++) {
          assertThat(finding.probabilities().get(p))
              .isCloseTo(counted[finding.stone()][p], within(1e-5));
        }
      }
    }
  }

  @Test
  void moreThanCanBeSummedOverIsSampledAndSaidSo() {
    List<FamilyPerson> persons = new ArrayList<>();
    List<Footstone> stones = new ArrayList<>();
    for (int i = 0; i < 16; i++) {
      String given = "" + (char) ('A' + i) + (char) ('A' + (i * 7) % 26);
      persons.add(person(i, given.charAt(0) + " " + given.charAt(1), 50, 1800 + i));
      stones.add(stone(given + "H", 2, i - 8));
    }
    FootstoneModel.Answer answer =
        FootstoneModel.solve(plot(persons, stones.toArray(new Footstone[0])));
    assertThat(answer.isExact()).isFalse();
    assertThat(answer.samplingError()).isLessThan(0.02);
    for (FootstoneFinding finding : answer.findings()) {
      assertThat(finding.best()).contains(finding.stone());
    }
    assertThat(FootstoneModel.solve(plot(persons, stones.toArray(new Footstone[0]))))
        .as("the same seed")
        .isEqualTo(answer);
  }

  @Test
  void theLetterThatWouldDecideIsNamed() {
    FootstoneFinding worn =
        FootstoneModel.solve(plot(HARROWS, stone("?H", 2, 0))).findings().get(0);
    assertThat(worn.look().orElseThrow().words()).contains("letter 1 of footstone f?H");
    assertThat(worn.look().orElseThrow().bits()).isGreaterThan(0.5);
    assertThat(worn.wornAlone()).isTrue();
  }

  @Test
  void readingTheLetterForCertainTellsAsManyBitsAsWereReckoned() {
    FamilyPlot plot = plot(HARROWS, stone("?H", 2, 0));
    FootstoneFinding now = FootstoneModel.solve(plot).findings().get(0);
    double[][] says = LetterFit.places(plot.stones().get(0).letters());
    double expected = 0;
    double[] weights = new double[5];
    double[][] truths = new double[5][];
    double nobody = 1;
    for (int p = 0; p < 4; p++) {
      weights[p] = now.probabilities().get(p);
      nobody -= weights[p];
      truths[p] = LetterFit.letter(says, LetterFit.forms(HARROWS.get(p)), 0);
    }
    weights[4] = nobody;
    truths[4] = LetterFit.strangersLetter(says, 0);
    // Bayes: the entropy now, less that after each letter, by how likely the letter is.
    for (int t = 0; t < 26; t++) {
      double sum = 0;
      for (int i = 0; i < 5; i++) {
        sum += weights[i] * truths[i][t];
      }
      for (int i = 0; i < 5 && sum > 0; i++) {
        double after = weights[i] * truths[i][t] / sum;
        expected += after > 0 ? sum * after * Math.log(after) / Math.log(2) : 0;
      }
    }
    for (double weight : weights) {
      expected -= weight * Math.log(weight) / Math.log(2);
    }
    assertThat(now.look().orElseThrow().bits()).isCloseTo(expected, within(1e-9));
  }

  /** Bounds well below what docs/measurements.md gives for 1,000 plots. */
  @Test
  void onInventedPlotsItIsBetterThanNearestFirstAndAsGoodAsCountingEveryWay() {
    PlotScore score = new PlotScore();
    InventedPlots.of(21, 60, PlotHabits.usual(0.3)).forEach(score::add);
    assertThat(score.share(score.right)).isGreaterThan(score.share(score.greedy) + 0.1);
    assertThat(score.share(score.right)).isGreaterThan(score.share(score.initialsOnly));
    assertThat(score.rightWhereEnumerated).isCloseTo(score.enumeratedRight, within(1));
    assertThat(score.calibrationErrorOfAll()).isLessThan(0.02);
  }

  @Test
  void onLotsOfOtherRulesItIsBetterThanNearestFirstToo() {
    PlotScore score = new PlotScore();
    InventedLots.of(22, 60, 0.3).forEach(score::add);
    assertThat(score.share(score.right)).isGreaterThan(score.share(score.greedy) + 0.1);
    assertThat(score.share(score.right)).isGreaterThan(score.share(score.initialsOnly));
    assertThat(score.calibrationErrorOfAll()).isLessThan(0.02);
  }
}
