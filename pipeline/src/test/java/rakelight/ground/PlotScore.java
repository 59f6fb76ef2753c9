package rakelight.ground;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import rakelight.samples.plots.InventedPlot;

/** What several ways of saying whose footstones are get right on invented plots. */
final class PlotScore {
  private static final int BINS = 10;

  private final Set<FootstoneFinding.Sort> without;
  int stones;
  int right;
  int greedy;
  int initialsOnly;
  int enumerated;
  int enumeratedRight;
  int rightWhereEnumerated;
  private final double[] said = new double[BINS];
  private final double[] came = new double[BINS];
  private final double[] count = new double[BINS];
  private final double[] saidOfAll = new double[BINS];
  private final double[] cameOfAll = new double[BINS];
  private final double[] countOfAll = new double[BINS];

  PlotScore() {
    this(Set.of());
  }

  /**
   * @param without evidence that the model isn't shown
   */
  PlotScore(Set<FootstoneFinding.Sort> without) {
    this.without = without;
  }

  static FamilyPlot asked(InventedPlot plot) {
    List<FamilyPerson> persons = new ArrayList<>();
    int order = 0;
    for (InventedPlot.Named named : plot.persons()) {
      List<FamilyPerson.NamedAt> at = new ArrayList<>();
      at.add(
          new FamilyPerson.NamedAt(
              "monument",
              spot(plot.monument()),
              plot.monument().errorMetres(),
              Optional.of(named.faceDegrees()),
              false,
              order++));
      named
          .ownStone()
          .ifPresent(
              own ->
                  at.add(
                      new FamilyPerson.NamedAt(
                          "headstone", spot(own), own.errorMetres(), Optional.empty(), true, 0)));
      List<String> surnames = new ArrayList<>(List.of(named.surname()));
      named.birthSurname().ifPresent(surnames::add);
      Set<String> relations = new TreeSet<>();
      for (InventedPlot.Role role : named.roles()) {
        if (role == InventedPlot.Role.INFANT) {
          relations.addAll(List.of("BABY", "BABE", "INFANT"));
        } else {
          relations.add(role.name());
        }
      }
      persons.add(
          new FamilyPerson(
              named.given() + " " + named.surname(),
              List.of(named.given().split(" ")),
              surnames,
              relations,
              named.ageYears(),
              named.deathYear().map(y -> Map.of(y, 1.0)).orElse(Map.of()),
              Map.of(),
              at,
              named.lostElsewhere()
                  ? FamilyPerson.Lies.ELSEWHERE
                  : FamilyPerson.Lies.HERE_OR_UNKNOWN));
    }
    List<Footstone> stones = new ArrayList<>();
    for (InventedPlot.Stone stone : plot.stones()) {
      stones.add(
          new Footstone(
              "f" + stones.size(),
              stone.letters(),
              stone
                  .year()
                  .map(
                      year ->
                          year.chars()
                              .mapToObj(
                                  c ->
                                      c == '?'
                                          ? Map.<Character, Double>of()
                                          : Map.of((char) c, 1.0))
                              .toList())
                  .orElse(List.of()),
              spot(stone.at()),
              stone.at().errorMetres(),
              stone.widthMetres()));
    }
    double front = plot.persons().get(0).faceDegrees();
    return new FamilyPlot(persons, stones, Optional.of(front), Set.of(), Set.of());
  }

  private static Spot spot(InventedPlot.Measured at) {
    return new Spot(at.eastMetres(), at.northMetres());
  }

  void add(InventedPlot invented) {
    FamilyPlot plot = asked(invented);
    FootstoneModel.Answer answer = FootstoneModel.solve(plot, without);
    int[] greedyOf = greedy(plot);
    int[] initialsOf = initialsOnly(plot);
    boolean small = without.isEmpty() && Math.min(plot.persons().size(), plot.stones().size()) <= 5;
    int[] enumeratedOf = small && enumerated < 400 ? enumerated(plot) : new int[0];
    for (FootstoneFinding finding : answer.findings()) {
      int s = finding.stone();
      int truth = invented.stones().get(s).person();
      int best = finding.best().orElse(-1);
      stones++;
      right += best == truth ? 1 : 0;
      greedy += greedyOf[s] == truth ? 1 : 0;
      initialsOnly += initialsOf[s] == truth ? 1 : 0;
      if (enumeratedOf.length > 0) {
        enumerated++;
        enumeratedRight += enumeratedOf[s] == truth ? 1 : 0;
        rightWhereEnumerated += best == truth ? 1 : 0;
      }
      bin(said, came, count, finding.probability(), best == truth);
      double nobody = 1;
      for (int p = 0; p < plot.persons().size(); p++) {
        double share = finding.probabilities().get(p);
        nobody -= share;
        bin(saidOfAll, cameOfAll, countOfAll, share, p == truth);
      }
      bin(saidOfAll, cameOfAll, countOfAll, nobody, truth == -1);
    }
  }

  private static void bin(
      double[] said, double[] came, double[] count, double share, boolean right) {
    int bin = Math.max(0, Math.min(BINS - 1, (int) Math.ceil(share * BINS) - 1));
    said[bin] += share;
    came[bin] += right ? 1 : 0;
    count[bin]++;
  }

  /** Guo, Pleiss, Sun and Weinberger, ICML 2017, eq. 3, over 10 bins of equal width. */
  double calibrationError() {
    return error(said, came, count);
  }

  double calibrationErrorOfAll() {
    return error(saidOfAll, cameOfAll, countOfAll);
  }

  private static double error(double[] said, double[] came, double[] count) {
    double all = 0;
    double sum = 0;
    for (int b = 0; b < BINS; b++) {
      all += count[b];
      sum += Math.abs(said[b] - came[b]);
    }
    return sum / all;
  }

  String curve() {
    StringBuilder curve = new StringBuilder();
    for (int b = 0; b < BINS; b++) {
      if (count[b] > 0) {
        curve.append(
            String.format("%.2f→%.2f (%.0f)  ", said[b] / count[b], came[b] / count[b], count[b]));
      }
    }
    return curve.toString();
  }

  double share(int count) {
    return count / (double) stones;
  }

  /** Nearest first, of those whose letters don't gainsay it, each person and stone once. */
  static int[] greedy(FamilyPlot plot) {
    record Pair(int stone, int person, double metres) {}
    List<Pair> pairs = new ArrayList<>();
    for (int s = 0; s < plot.stones().size(); s++) {
      for (int p = 0; p < plot.persons().size(); p++) {
        Spot at = plot.stones().get(s).at();
        double metres =
            plot.persons().get(p).named().stream()
                .mapToDouble(named -> named.at().metresTo(at))
                .min()
                .orElseThrow();
        if (agrees(plot.stones().get(s), plot.persons().get(p))) {
          pairs.add(new Pair(s, p, metres));
        }
      }
    }
    pairs.sort(Comparator.comparingDouble(Pair::metres));
    int[] of = new int[plot.stones().size()];
    java.util.Arrays.fill(of, -1);
    Set<Integer> taken = new HashSet<>();
    for (Pair pair : pairs) {
      if (of[pair.stone()] < 0 && taken.add(pair.person())) {
        of[pair.stone()] = pair.person();
      }
    }
    return of;
  }

  private static boolean agrees(Footstone stone, FamilyPerson person) {
    return LetterFit.forms(person).keySet().stream()
        .anyMatch(
            form -> {
              if (form.length() != stone.letters().size()) {
                return false;
              }
              for (int k = 0; k < form.length(); k++) {
                Map<Character, Double> place = stone.letters().get(k);
                if (!place.isEmpty() && !place.containsKey(form.charAt(k))) {
                  return false;
                }
              }
              return true;
            });
  }

  /** Whoever's initials fit best, whoever else may want the stone. */
  static int[] initialsOnly(FamilyPlot plot) {
    int[] of = new int[plot.stones().size()];
    for (int s = 0; s < of.length; s++) {
      double[][] says = LetterFit.places(plot.stones().get(s).letters());
      double most = LetterFit.stranger(says);
      of[s] = -1;
      for (int p = 0; p < plot.persons().size(); p++) {
        double fit = LetterFit.likelihood(says, LetterFit.forms(plot.persons().get(p)));
        if (fit > most) {
          most = fit;
          of[s] = p;
        }
      }
    }
    return of;
  }

  /** Every way, one after the other; the same question by plain counting. */
  static int[] enumerated(FamilyPlot plot) {
    double[][] shares = enumeratedShares(plot);
    int stones = plot.stones().size();
    int persons = plot.persons().size();
    int[] best = new int[stones];
    double[] most = {-1};
    search(0, new int[stones], new boolean[persons], 0, shares, best, most);
    return best;
  }

  private static void search(
      int s, int[] of, boolean[] taken, double sum, double[][] shares, int[] best, double[] most) {
    if (s == of.length) {
      if (sum > most[0]) {
        most[0] = sum;
        System.arraycopy(of, 0, best, 0, of.length);
      }
      return;
    }
    double nobody = 1 - java.util.Arrays.stream(shares[s]).sum();
    of[s] = -1;
    search(s + 1, of, taken, sum + nobody, shares, best, most);
    for (int p = 0; p < taken.length; p++) {
      if (!taken[p]) {
        taken[p] = true;
        of[s] = p;
        search(s + 1, of, taken, sum + shares[s][p], shares, best, most);
        taken[p] = false;
      }
    }
  }

  static double[][] enumeratedShares(FamilyPlot plot) {
    int stones = plot.stones().size();
    int persons = plot.persons().size();
    double[][] shares = new double[stones][persons];
    double[] total = {0};
    for (Map.Entry<Double, double[][]> row : FootstoneModel.weights(plot)) {
      count(0, new int[stones], new boolean[persons], row.getKey(), row.getValue(), shares, total);
    }
    for (double[] each : shares) {
      for (int p = 0; p < persons; p++) {
        each[p] /= total[0];
      }
    }
    return shares;
  }

  private static void count(
      int s,
      int[] of,
      boolean[] taken,
      double product,
      double[][] weights,
      double[][] shares,
      double[] total) {
    if (s == of.length) {
      total[0] += product;
      for (int i = 0; i < of.length; i++) {
        if (of[i] >= 0) {
          shares[i][of[i]] += product;
        }
      }
      return;
    }
    of[s] = -1;
    count(s + 1, of, taken, product, weights, shares, total);
    for (int p = 0; p < taken.length; p++) {
      if (!taken[p]) {
        taken[p] = true;
        of[s] = p;
        count(s + 1, of, taken, product * weights[s][p], weights, shares, total);
        taken[p] = false;
      }
    }
  }
}
