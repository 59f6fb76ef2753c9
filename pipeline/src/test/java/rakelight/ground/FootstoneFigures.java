package rakelight.ground;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import rakelight.samples.plots.InventedLots;
import rakelight.samples.plots.InventedPlot;
import rakelight.samples.plots.InventedPlots;
import rakelight.samples.plots.PlotHabits;

/** Prints the figures of docs/measurements.md on footstones: arguments are seed and plots. */
final class FootstoneFigures {
  private FootstoneFigures() {}

  public static void main(String[] args) {
    long seed = args.length > 0 ? Long.parseLong(args[0]) : 1;
    int plots = args.length > 1 ? Integer.parseInt(args[1]) : 1000;
    for (double worn : new double[] {0, 0.1, 0.3, 0.5}) {
      print("lots, worn " + worn, InventedLots.of(seed, plots, worn));
    }
    for (double worn : new double[] {0, 0.1, 0.3, 0.5}) {
      print("worn " + worn, seed, plots, PlotHabits.usual(worn));
    }
    PlotHabits usual = PlotHabits.usual(0.3);
    print("worn 0.3, spacing 1.6 m", seed, plots, usual.spaced(1.6));
    print("worn 0.3, other stones", seed, plots, usual.stones(0.45, 0.8));
    print("worn 0.3, error x2", seed, plots, usual.off(2));
    print("worn 0.3, all three", seed, plots, PlotHabits.other(0.3));
    leaveOut("lots, worn 0.3", InventedLots.of(seed, plots, 0.3));
    leaveOut("worn 0.3", InventedPlots.of(seed, plots, usual));
    time(seed);
  }

  /** What each piece of evidence adds: the share that is right without it. */
  private static void leaveOut(String what, List<InventedPlot> plots) {
    for (FootstoneFinding.Sort sort : FootstoneFinding.Sort.values()) {
      if (sort != FootstoneFinding.Sort.CONFIRMED && sort != FootstoneFinding.Sort.OTHERS) {
        PlotScore score = new PlotScore(Set.of(sort));
        plots.forEach(score::add);
        System.out.printf(
            Locale.ROOT,
            "%s, without %s: model %.3f, calibration error %.3f%n",
            what,
            sort.label(),
            score.share(score.right),
            score.calibrationError());
      }
    }
  }

  static PlotScore print(String what, long seed, int plots, PlotHabits habits) {
    return print(what, InventedPlots.of(seed, plots, habits));
  }

  static PlotScore print(String what, List<InventedPlot> plots) {
    PlotScore score = new PlotScore();
    plots.forEach(score::add);
    System.out.printf(
        Locale.ROOT,
        "%-24s stones %d  model %.3f  greedy %.3f  initials %.3f  where enumerated (%d): model %.3f"
            + " enumeration %.3f  calibration error %.3f, of all %.4f%n   %s%n",
        what,
        score.stones,
        score.share(score.right),
        score.share(score.greedy),
        score.share(score.initialsOnly),
        score.enumerated,
        score.rightWhereEnumerated / (double) Math.max(1, score.enumerated),
        score.enumeratedRight / (double) Math.max(1, score.enumerated),
        score.calibrationError(),
        score.calibrationErrorOfAll(),
        score.curve());
    return score;
  }

  /** Twelve persons, ten footstones. */
  static FamilyPlot twelveByTen(long seed) {
    for (long i = seed; ; i++) {
      InventedPlot plot = InventedPlots.of(i, 12, 12, PlotHabits.usual(0.3).stones(0.95, 0.95));
      FamilyPlot asked = PlotScore.asked(plot);
      if (asked.persons().size() == 12 && asked.stones().size() >= 10) {
        return new FamilyPlot(
            asked.persons(),
            List.copyOf(asked.stones().subList(0, 10)),
            Optional.of(0.0),
            Set.of(),
            Set.of());
      }
    }
  }

  private static void time(long seed) {
    FamilyPlot plot = twelveByTen(seed);
    double least = Double.MAX_VALUE;
    double first = 0;
    for (int i = 0; i < 30; i++) {
      long start = System.nanoTime();
      FootstoneModel.solve(plot);
      double ms = (System.nanoTime() - start) / 1e6;
      first = i == 0 ? ms : first;
      least = Math.min(least, ms);
    }
    System.out.printf(
        Locale.ROOT,
        "12 persons, 10 footstones: %.0f ms, the best of 30 (the first %.0f)%n",
        least,
        first);
  }
}
