package rakelight.ground;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import rakelight.ground.FamilyPerson.Lies;
import rakelight.ground.FootstoneFinding.Look;
import rakelight.ground.FootstoneFinding.Reason;
import rakelight.ground.FootstoneFinding.Sort;

/**
 * Whose footstones these are, as one question: each stone is of one of the persons or of somebody
 * who isn't named, no person has two, and how the stones lie in a row is asked at once. What each
 * pair weighs, and where it comes from, is told in docs/family-groups.md.
 *
 * <p>Where the fewer of stones and persons are no more than {@link MatchingSum#MOST}, the
 * probabilities are exact sums over all assignments and all rows; beyond, they are sampled from a
 * fixed seed, and {@link Answer#isExact} says so. It only proposes.
 */
public final class FootstoneModel {
  /** Raised when another answer may follow from the same question. */
  static final int VERSION = 2;

  /** Odds that somebody has a footstone among these, by share; choices, no source. */
  private static final double HAS_STONE = 0.62;

  private static final double CHILD_HAS_STONE = 0.5;
  private static final double ELSEWHERE_HAS_STONE = 0.04;
  private static final double CHILD_YEARS = 12;

  /** Strangers' footstones to be expected about a plot, and how far about it; choices. */
  private static final double STRANGERS = 0.6;

  private static final double ABOUT_METRES = 10;

  /** From a monument, and from a stone of one's own, each way; choices, no source. */
  private static final double FROM_MONUMENT_METRES = 3.2;

  private static final double FROM_OWN_METRES = 1.5;

  /** Who is named on a face lies to that side, of those who lie to one; a choice. */
  private static final double ON_SIDE = 0.6;

  /** Rows: how far from an even place, who keeps to no order, and what rows there may be. */
  private static final double UNEVEN_METRES = 0.5;

  private static final double KEEPS_NO_ORDER = 0.35;
  private static final double NO_ROW = 0.5;
  private static final double[] SPACINGS_METRES = {0.8, 1.1, 1.5};
  private static final double[] SPACING_SHARES = {0.25, 0.5, 0.25};
  private static final double OFFSET_STEP_METRES = 0.75;
  private static final int OFFSETS = 6;
  private static final double OFFSET_METRES = 2;

  /** With places farther off than this a row tells nothing. */
  private static final double BLUR_METRES = 2.5;

  /** Rows that together have less than this of the whole are left out. */
  private static final double NEGLECTED = 1e-6;

  /** Widths, as logarithms of metres: middle and spread; choices, no source. */
  private static final double[] ADULT_WIDTH = {Math.log(0.27), 0.22};

  private static final double[] CHILD_WIDTH = {Math.log(0.19), 0.25};
  private static final double CHILDREN = 0.25;

  /** A year on a footstone: of the death, of the birth, or another; choices. */
  private static final double YEAR_OF_DEATH = 0.8;

  private static final double YEAR_OF_BIRTH = 0.1;
  private static final int FIRST_YEAR = 1700;
  private static final int LAST_YEAR = 1950;
  private static final double FIGURE_MISREAD = 0.05;

  /** Less than this beside the letters, against the likeliest other, and they stand alone. */
  private static final double WORN_ALONE_DECIBANS = 3;

  private static final double LEAST_BITS = 0.02;

  private final FamilyPlot plot;
  private final int stones;
  private final int persons;
  private final List<Map<String, Double>> forms;
  private final List<double[][]> says;

  /** By stone and person, what each piece multiplies the odds by. */
  private final double[][] letters;

  private final double[][] custom;
  private final double[][] place;
  private final double[][] side;
  private final double[][] size;
  private final double[][] year;
  private final List<Row> rows = new ArrayList<>();
  private double[] posterior = new double[0];

  /**
   * A way in which the graves may lie, with what it multiplies the odds by, by stone and person.
   */
  private record Row(String order, double share, double[][] factor, double[] middle) {}

  /**
   * The whole answer.
   *
   * @param findings one for each stone, in their order
   * @param isExact whether all ways were summed over
   * @param samplingError the largest standard error of a probability, where they were sampled
   * @param row in words, in which order the graves seem to lie; empty where in none
   */
  public record Answer(
      List<FootstoneFinding> findings, boolean isExact, double samplingError, String row) {
    public Answer {
      findings = List.copyOf(findings);
    }

    /** The stone whose look would tell most of all, if any would. */
    public Optional<FootstoneFinding> mostTelling() {
      return findings.stream()
          .filter(finding -> finding.look().isPresent())
          .max(Comparator.comparingDouble(finding -> finding.look().map(Look::bits).orElse(0.0)));
    }
  }

  /**
   * @param without evidence that isn't looked at
   */
  private FootstoneModel(FamilyPlot plot, Set<Sort> without) {
    this.plot = plot;
    stones = plot.stones().size();
    persons = plot.persons().size();
    forms = plot.persons().stream().map(LetterFit::forms).toList();
    says = plot.stones().stream().map(stone -> LetterFit.places(stone.letters())).toList();
    letters = new double[stones][persons];
    custom = new double[stones][persons];
    place = new double[stones][persons];
    side = new double[stones][persons];
    size = new double[stones][persons];
    year = new double[stones][persons];
    for (int s = 0; s < stones; s++) {
      double stranger = LetterFit.stranger(says.get(s));
      for (int p = 0; p < persons; p++) {
        FamilyPerson person = plot.persons().get(p);
        Footstone stone = plot.stones().get(s);
        letters[s][p] = LetterFit.likelihood(says.get(s), forms.get(p)) / stranger;
        double has = hasStone(person);
        custom[s][p] = has / (1 - has) / STRANGERS;
        place(s, p, stone, person);
        size[s][p] = size(stone, person);
        year[s][p] = year(stone, person);
      }
    }
    Map<Sort, double[][]> pieces =
        Map.of(
            Sort.LETTERS,
            letters,
            Sort.CUSTOM,
            custom,
            Sort.PLACE,
            place,
            Sort.SIDE,
            side,
            Sort.SIZE,
            size,
            Sort.YEAR,
            year);
    pieces.forEach(
        (sort, piece) -> {
          if (without.contains(sort)) {
            Arrays.stream(piece).forEach(each -> Arrays.fill(each, 1));
          }
        });
    rows(!without.contains(Sort.ROW));
  }

  /** Solves it. */
  public static Answer solve(FamilyPlot plot) {
    return solve(plot, Set.of());
  }

  /** The same as if some evidence weren't there: to see what it adds. */
  static Answer solve(FamilyPlot plot, Set<Sort> without) {
    return new FootstoneModel(plot, without).solve();
  }

  /**
   * The weight of each pair, by stone and person, in each way the graves may lie, with the share of
   * that way: for a check by other means.
   */
  static List<Map.Entry<Double, double[][]>> weights(FamilyPlot plot) {
    FootstoneModel model = new FootstoneModel(plot, Set.of());
    return model.rows.stream()
        .map(
            row ->
                Map.entry(row.share(), model.weights(row, all(model.stones), all(model.persons))))
        .toList();
  }

  private static double hasStone(FamilyPerson person) {
    if (person.lies() != Lies.HERE_OR_UNKNOWN) {
      return ELSEWHERE_HAS_STONE;
    }
    return person.ageYears().filter(age -> age < CHILD_YEARS).isPresent()
        ? CHILD_HAS_STONE
        : HAS_STONE;
  }

  private void place(int s, int p, Footstone stone, FamilyPerson person) {
    double about = Math.PI * ABOUT_METRES * ABOUT_METRES;
    double near = 0;
    double sided = 0;
    for (FamilyPerson.NamedAt named : person.named()) {
      double error = Math.hypot(stone.errorMetres(), named.errorMetres());
      double spread = Math.hypot(error, named.own() ? FROM_OWN_METRES : FROM_MONUMENT_METRES);
      double density =
          Math.exp(-0.5 * Math.pow(stone.at().metresTo(named.at()) / spread, 2))
              / (2 * Math.PI * spread * spread);
      near += density;
      double toward = 1;
      if (!named.own() && named.faceDegrees().isPresent()) {
        double bearing = Math.toRadians(named.faceDegrees().get());
        double out =
            (stone.at().eastMetres() - named.at().eastMetres()) * Math.sin(bearing)
                + (stone.at().northMetres() - named.at().northMetres()) * Math.cos(bearing);
        double within = below(out / Math.hypot(error, UNEVEN_METRES));
        toward = 2 * (ON_SIDE * within + (1 - ON_SIDE) * (1 - within));
      }
      sided += density * toward;
    }
    // A stone from far away, as when it was moved, isn't impossible.
    double away = 1e-3 / about;
    double mean = near / person.named().size();
    place[s][p] = (mean + away) * about;
    side[s][p] = (sided / person.named().size() + away) / (mean + away);
  }

  private static double size(Footstone stone, FamilyPerson person) {
    if (stone.widthMetres().isEmpty()) {
      return 1;
    }
    double width = Math.log(stone.widthMetres().get());
    double adult = bell(width, ADULT_WIDTH[0], ADULT_WIDTH[1]);
    double child = bell(width, CHILD_WIDTH[0], CHILD_WIDTH[1]);
    double any = CHILDREN * child + (1 - CHILDREN) * adult;
    double own = person.ageYears().map(age -> age < CHILD_YEARS ? child : adult).orElse(any);
    // Stones were cut as people could afford.
    return 0.9 * own / any + 0.1;
  }

  private static double year(Footstone stone, FamilyPerson person) {
    if (stone.year().isEmpty() || person.deathYears().isEmpty()) {
      return 1;
    }
    double any = 0;
    for (int y = FIRST_YEAR; y <= LAST_YEAR; y++) {
      any += year(stone, y) / (LAST_YEAR - FIRST_YEAR + 1);
    }
    double birth = person.birthYears().isEmpty() ? 0 : YEAR_OF_BIRTH;
    double own = (1 - YEAR_OF_DEATH - birth) * any;
    for (Map.Entry<Integer, Double> died : person.deathYears().entrySet()) {
      own += YEAR_OF_DEATH * died.getValue() * year(stone, died.getKey());
    }
    for (Map.Entry<Integer, Double> born : person.birthYears().entrySet()) {
      own += birth * born.getValue() * year(stone, born.getKey());
    }
    return own / any;
  }

  private static double year(Footstone stone, int year) {
    String figures = String.valueOf(year);
    if (figures.length() != stone.year().size()) {
      return 1e-6;
    }
    double fit = 1;
    for (int k = 0; k < figures.length(); k++) {
      double named = 0;
      double right = 0;
      for (Map.Entry<Character, Double> read : stone.year().get(k).entrySet()) {
        named += read.getValue();
        right +=
            read.getValue()
                * (read.getKey() == figures.charAt(k) ? 1 - FIGURE_MISREAD : FIGURE_MISREAD / 9);
      }
      fit *= right + Math.max(0, 1 - named) / 10;
    }
    return fit;
  }

  private void rows(boolean asked) {
    double[][] none = new double[stones][persons];
    for (double[] each : none) {
      Arrays.fill(each, 1);
    }
    Optional<FamilyPerson.NamedAt> monument = monument();
    Optional<double[]> along = along();
    double blur =
        plot.stones().stream().mapToDouble(Footstone::errorMetres).average().orElse(0)
            + monument.map(FamilyPerson.NamedAt::errorMetres).orElse(0.0) / 2;
    if (!asked || monument.isEmpty() || along.isEmpty() || blur > BLUR_METRES || stones < 2) {
      rows.add(new Row("", 1, none, new double[persons]));
      return;
    }
    rows.add(new Row("", NO_ROW, none, new double[persons]));
    double[] where = new double[stones];
    double[] error = new double[stones];
    for (int s = 0; s < stones; s++) {
      Footstone stone = plot.stones().get(s);
      where[s] =
          (stone.at().eastMetres() - monument.get().at().eastMetres()) * along.get()[0]
              + (stone.at().northMetres() - monument.get().at().northMetres()) * along.get()[1];
      error[s] = Math.hypot(stone.errorMetres(), monument.get().errorMetres());
    }
    double offsets = 0;
    for (int o = -OFFSETS; o <= OFFSETS; o++) {
      offsets += bell(o * OFFSET_STEP_METRES, 0, OFFSET_METRES);
    }
    for (boolean byDeath : new boolean[] {false, true}) {
      double[] rank = ranks(monument.get().marker(), byDeath);
      for (int direction : new int[] {1, -1}) {
        for (int g = 0; g < SPACINGS_METRES.length; g++) {
          for (int o = -OFFSETS; o <= OFFSETS; o++) {
            double offset = o * OFFSET_STEP_METRES;
            double share =
                (1 - NO_ROW) / 4 * SPACING_SHARES[g] * bell(offset, 0, OFFSET_METRES) / offsets;
            double[] middle = new double[persons];
            for (int p = 0; p < persons; p++) {
              middle[p] = offset + direction * SPACINGS_METRES[g] * rank[p];
            }
            rows.add(
                new Row(
                    byDeath ? "of the deaths" : "of the names",
                    share,
                    factors(where, error, middle),
                    middle));
          }
        }
      }
    }
  }

  private double[][] factors(double[] where, double[] error, double[] middle) {
    double[][] factor = new double[stones][persons];
    for (int s = 0; s < stones; s++) {
      double free = bell(where[s], 0, Math.hypot(error[s], FROM_MONUMENT_METRES));
      double even = Math.hypot(error[s], UNEVEN_METRES);
      for (int p = 0; p < persons; p++) {
        factor[s][p] =
            Double.isNaN(middle[p])
                ? 1
                : KEEPS_NO_ORDER
                    + (1 - KEEPS_NO_ORDER) * bell(where[s], middle[p], even) / Math.max(free, 1e-9);
      }
    }
    return factor;
  }

  /** The stone that names most of them and isn't one's own. */
  private Optional<FamilyPerson.NamedAt> monument() {
    Map<String, List<FamilyPerson.NamedAt>> byMarker =
        plot.persons().stream()
            .flatMap(person -> person.named().stream())
            .filter(named -> !named.own())
            .collect(Collectors.groupingBy(FamilyPerson.NamedAt::marker));
    return byMarker.entrySet().stream()
        .max(
            Comparator.<Map.Entry<String, List<FamilyPerson.NamedAt>>>comparingInt(
                    entry -> entry.getValue().size())
                .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
        .map(entry -> entry.getValue().get(0));
  }

  /** Which way the row runs: across the front, else the way the stones are strung out. */
  private Optional<double[]> along() {
    if (plot.frontDegrees().isPresent()) {
      double front = Math.toRadians(plot.frontDegrees().get());
      return Optional.of(new double[] {Math.cos(front), -Math.sin(front)});
    }
    if (stones < 3) {
      return Optional.empty();
    }
    double east = plot.stones().stream().mapToDouble(s -> s.at().eastMetres()).average().orElse(0);
    double north =
        plot.stones().stream().mapToDouble(s -> s.at().northMetres()).average().orElse(0);
    double ee = 0;
    double en = 0;
    double nn = 0;
    for (Footstone stone : plot.stones()) {
      double e = stone.at().eastMetres() - east;
      double n = stone.at().northMetres() - north;
      ee += e * e;
      en += e * n;
      nn += n * n;
    }
    double turn = 0.5 * Math.atan2(2 * en, ee - nn);
    return Optional.of(new double[] {Math.cos(turn), Math.sin(turn)});
  }

  /** The place of each person in the order, the middle being 0; none for who lies elsewhere. */
  private double[] ranks(String monument, boolean byDeath) {
    double[] key = new double[persons];
    for (int p = 0; p < persons; p++) {
      FamilyPerson person = plot.persons().get(p);
      Optional<FamilyPerson.NamedAt> named =
          person.named().stream().filter(at -> at.marker().equals(monument)).findFirst();
      boolean apart = person.named().stream().anyMatch(FamilyPerson.NamedAt::own);
      key[p] =
          named.isEmpty() || apart || person.lies() != Lies.HERE_OR_UNKNOWN
              ? Double.NaN
              : byDeath ? mean(person.deathYears()) : named.get().order();
    }
    int[] ordered =
        IntStream.range(0, persons)
            .filter(p -> !Double.isNaN(key[p]))
            .boxed()
            .sorted(Comparator.comparingDouble(p -> key[p]))
            .mapToInt(Integer::intValue)
            .toArray();
    double[] rank = new double[persons];
    Arrays.fill(rank, Double.NaN);
    for (int i = 0; i < ordered.length; i++) {
      rank[ordered[i]] = i - (ordered.length - 1) / 2.0;
    }
    return rank;
  }

  private static double mean(Map<Integer, Double> years) {
    return years.isEmpty()
        ? Double.NaN
        : years.entrySet().stream().mapToDouble(e -> e.getKey() * e.getValue()).sum();
  }

  private static int[] all(int count) {
    return IntStream.range(0, count).toArray();
  }

  private double pair(int s, int p) {
    return letters[s][p] * custom[s][p] * place[s][p] * side[s][p] * size[s][p] * year[s][p];
  }

  private double[][] weights(Row row, int[] openStones, int[] openPersons) {
    double[][] weights = new double[openStones.length][openPersons.length];
    for (int i = 0; i < openStones.length; i++) {
      for (int j = 0; j < openPersons.length; j++) {
        int s = openStones[i];
        int p = openPersons[j];
        weights[i][j] =
            plot.refused().contains(new FamilyPlot.Tie(s, p)) ? 0 : pair(s, p) * row.factor()[s][p];
      }
    }
    return weights;
  }

  private Answer solve() {
    int[] openStones =
        IntStream.range(0, stones)
            .filter(s -> plot.confirmed().stream().noneMatch(tie -> tie.stone() == s))
            .toArray();
    int[] openPersons =
        IntStream.range(0, persons)
            .filter(p -> plot.confirmed().stream().noneMatch(tie -> tie.person() == p))
            .toArray();
    double[] known = new double[rows.size()];
    for (int r = 0; r < known.length; r++) {
      known[r] = rows.get(r).share();
      for (FamilyPlot.Tie tie : plot.confirmed()) {
        known[r] *= rows.get(r).factor()[tie.stone()][tie.person()];
      }
    }
    boolean exact = Math.min(openStones.length, openPersons.length) <= MatchingSum.MOST;
    double[][] open;
    double error = 0;
    if (exact) {
      open = exactly(openStones, openPersons, known);
    } else {
      List<double[][]> ofRows =
          rows.stream().map(row -> weights(row, openStones, openPersons)).toList();
      MatchingSampler.Sampled sampled = MatchingSampler.sample(ofRows, known);
      open = sampled.shares();
      error = sampled.largestError();
      posterior = sampled.rows();
    }
    double[][] shares = new double[stones][persons];
    for (int i = 0; i < openStones.length; i++) {
      for (int j = 0; j < openPersons.length; j++) {
        shares[openStones[i]][openPersons[j]] = open[i][j];
      }
    }
    plot.confirmed().forEach(tie -> shares[tie.stone()][tie.person()] = 1);
    int[] best = best(shares);
    List<FootstoneFinding> findings = new ArrayList<>();
    for (int s = 0; s < stones; s++) {
      findings.add(finding(s, shares[s], best[s]));
    }
    return new Answer(findings, exact, error, rowInWords());
  }

  private double[][] exactly(int[] openStones, int[] openPersons, double[] known) {
    double[] total = new double[rows.size()];
    double sum = 0;
    List<double[][]> weights = new ArrayList<>();
    for (int r = 0; r < total.length; r++) {
      double[][] own = weights(rows.get(r), openStones, openPersons);
      weights.add(own);
      total[r] = known[r] * MatchingSum.of(own).total();
      sum += total[r];
    }
    Integer[] likeliest = IntStream.range(0, total.length).boxed().toArray(Integer[]::new);
    Arrays.sort(likeliest, Comparator.comparingDouble(r -> -total[r]));
    double kept = 0;
    int count = 0;
    while (count < total.length && kept < sum * (1 - NEGLECTED)) {
      kept += total[likeliest[count++]];
    }
    posterior = new double[total.length];
    double[][] shares = new double[openStones.length][openPersons.length];
    for (int k = 0; k < count; k++) {
      int r = likeliest[k];
      posterior[r] = total[r] / kept;
      double[][] own = MatchingSum.of(weights.get(r)).shares();
      for (int i = 0; i < openStones.length; i++) {
        for (int j = 0; j < openPersons.length; j++) {
          shares[i][j] += posterior[r] * own[i][j];
        }
      }
    }
    return shares;
  }

  /** The assignment that is expected to have most stones right; -1 for nobody. */
  private int[] best(double[][] shares) {
    double[][] costs = new double[stones][persons + stones];
    for (int s = 0; s < stones; s++) {
      double nobody = 1 - Arrays.stream(shares[s]).sum();
      Arrays.fill(costs[s], persons, persons + stones, -nobody);
      for (int p = 0; p < persons; p++) {
        costs[s][p] = -shares[s][p];
      }
    }
    return Arrays.stream(CheapestPairs.cheapest(costs)).map(c -> c < persons ? c : -1).toArray();
  }

  private FootstoneFinding finding(int s, double[] shares, int best) {
    double nobody = Math.max(0, 1 - Arrays.stream(shares).sum());
    int next = -1;
    double nextShare = best == -1 ? -1 : nobody;
    int likeliest = -1;
    for (int p = 0; p < persons; p++) {
      if (p != best && shares[p] > nextShare) {
        next = p;
        nextShare = shares[p];
      }
      likeliest = likeliest < 0 || shares[p] > shares[likeliest] ? p : likeliest;
    }
    int reasoned = best >= 0 ? best : likeliest;
    List<Reason> reasons = reasoned < 0 ? List.of() : reasons(s, reasoned, shares[reasoned]);
    double besides = reasoned < 0 ? 0 : besides(s, reasoned) - (next < 0 ? 0 : besides(s, next));
    boolean confirmed = reasons.stream().anyMatch(r -> r.sort() == Sort.CONFIRMED);
    return new FootstoneFinding(
        s,
        best < 0 ? Optional.empty() : Optional.of(best),
        best < 0 ? nobody : shares[best],
        next < 0 ? Optional.empty() : Optional.of(next),
        Math.max(0, nextShare),
        Arrays.stream(shares).boxed().toList(),
        reasoned < 0 ? Optional.empty() : Optional.of(reasoned),
        reasons,
        !confirmed && plot.stones().get(s).isWorn() && besides < WORN_ALONE_DECIBANS,
        confirmed ? Optional.empty() : look(s, shares, nobody));
  }

  /** What speaks for a person beside the letters and how common footstones are, in decibans. */
  private double besides(int s, int p) {
    return decibans(place[s][p] * side[s][p] * size[s][p] * year[s][p] * row(s, p));
  }

  private double row(int s, int p) {
    double row = 0;
    for (int r = 0; r < posterior.length; r++) {
      row += posterior[r] * rows.get(r).factor()[s][p];
    }
    return row;
  }

  private static double decibans(double factor) {
    return 10 * Math.log10(Math.max(1e-12, factor));
  }

  private List<Reason> reasons(int s, int p, double share) {
    Footstone stone = plot.stones().get(s);
    FamilyPerson person = plot.persons().get(p);
    String who = person.called();
    if (plot.confirmed().contains(new FamilyPlot.Tie(s, p))) {
      return List.of(new Reason(Sort.CONFIRMED, "confirmed by people", 0));
    }
    List<Reason> reasons = new ArrayList<>();
    List<String> fitting = LetterFit.fitting(says.get(s), forms.get(p));
    boolean fits = letters[s][p] > 0.5 && !fitting.isEmpty();
    add(
        reasons,
        Sort.LETTERS,
        (stone.letters().isEmpty() ? "no letters" : stone.shown())
            + (fits ? " can be " + fitting.get(0) + " for " : " is hardly anything of ")
            + who,
        letters[s][p]);
    FamilyPerson.NamedAt near =
        person.named().stream()
            .min(Comparator.comparingDouble(at -> at.at().metresTo(stone.at())))
            .orElseThrow();
    add(
        reasons,
        Sort.PLACE,
        String.format(
            Locale.ROOT,
            "%.1f m from %s, which names %s (give or take %.1f m)",
            near.at().metresTo(stone.at()),
            near.marker(),
            who,
            Math.hypot(stone.errorMetres(), near.errorMetres())),
        place[s][p]);
    if (near.faceDegrees().isPresent() && !near.own()) {
      add(
          reasons,
          Sort.SIDE,
          (side[s][p] >= 1 ? "on the side" : "not on the side") + " of the face that names " + who,
          side[s][p]);
    }
    if (rows.size() > 1) {
      add(reasons, Sort.ROW, "its place in the row", row(s, p));
    }
    if (stone.widthMetres().isPresent()) {
      add(
          reasons,
          Sort.SIZE,
          String.format(Locale.ROOT, "%.0f cm wide, ", stone.widthMetres().get() * 100)
              + person.ageYears().map(a -> "age " + a).orElse("age not known"),
          size[s][p]);
    }
    if (!stone.year().isEmpty()) {
      add(reasons, Sort.YEAR, "its year beside those of " + who, year[s][p]);
    }
    add(reasons, Sort.CUSTOM, "how often such a person has a footstone", custom[s][p]);
    double odds = 10 * Math.log10(bounded(share) / bounded(1 - share));
    double told = reasons.stream().mapToDouble(Reason::decibans).sum();
    reasons.add(new Reason(Sort.OTHERS, "the other stones and persons", odds - told));
    return reasons;
  }

  private static double bounded(double share) {
    return Math.max(1e-9, share);
  }

  private static void add(List<Reason> reasons, Sort sort, String words, double factor) {
    reasons.add(new Reason(sort, words, decibans(factor)));
  }

  /** What would tell most of whose a stone is. */
  private Optional<Look> look(int s, double[] shares, double nobody) {
    Footstone stone = plot.stones().get(s);
    Look most = new Look(Sort.OTHERS, "", LEAST_BITS);
    for (int k = 0; k < stone.letters().size(); k++) {
      double[][] truths = new double[persons + 1][];
      double[] weights = Arrays.copyOf(shares, persons + 1);
      weights[persons] = nobody;
      for (int p = 0; p < persons; p++) {
        truths[p] = LetterFit.letter(says.get(s), forms.get(p), k);
      }
      truths[persons] = LetterFit.strangersLetter(says.get(s), k);
      double bits = told(weights, truths);
      if (bits > most.bits()) {
        most = new Look(Sort.LETTERS, letterToRead(stone, k, weights, truths), bits);
      }
    }
    double bits = rows.size() > 1 ? placeTells(s, shares, nobody) : 0;
    if (bits > most.bits()) {
      most =
          new Look(
              Sort.PLACE, "measure where footstone " + stone.number() + " stands by tape", bits);
    }
    return most.words().isEmpty() ? Optional.empty() : Optional.of(most);
  }

  private static String letterToRead(
      Footstone stone, int place, double[] weights, double[][] truths) {
    double[] letter = new double[26];
    for (int i = 0; i < weights.length; i++) {
      for (int t = 0; t < letter.length; t++) {
        letter[t] += weights[i] * truths[i][t];
      }
    }
    List<String> likely =
        IntStream.range(0, letter.length)
            .boxed()
            .sorted(Comparator.comparingDouble(t -> -letter[t]))
            .limit(2)
            .map(t -> String.valueOf((char) ('A' + t)))
            .toList();
    return "look at letter "
        + (place + 1)
        + " of footstone "
        + stone.number()
        + " again in raking light: "
        + String.join(" or ", likely)
        + "?";
  }

  /** Bits that an outcome tells of which of the causes it is: mutual information. */
  private static double told(double[] weights, double[][] outcomes) {
    double[] mixed = new double[outcomes[0].length];
    double sure = 0;
    for (int i = 0; i < weights.length; i++) {
      for (int t = 0; t < mixed.length; t++) {
        mixed[t] += weights[i] * outcomes[i][t];
      }
      sure += weights[i] * bits(outcomes[i]);
    }
    return Math.max(0, bits(mixed) - sure);
  }

  private static double bits(double[] shares) {
    double bits = 0;
    for (double share : shares) {
      bits -= share > 0 ? share * Math.log(share) / Math.log(2) : 0;
    }
    return bits;
  }

  /** What a tape would tell by the row: where the stone may truly be, for each person. */
  private double placeTells(int s, double[] shares, double nobody) {
    FamilyPerson.NamedAt monument = monument().orElseThrow();
    double[] along = along().orElseThrow();
    Footstone stone = plot.stones().get(s);
    double error = Math.hypot(stone.errorMetres(), monument.errorMetres());
    if (error < UNEVEN_METRES) {
      return 0;
    }
    double where =
        (stone.at().eastMetres() - monument.at().eastMetres()) * along[0]
            + (stone.at().northMetres() - monument.at().northMetres()) * along[1];
    int steps = 41;
    double[][] places = new double[persons + 1][steps];
    double[] weights = Arrays.copyOf(shares, persons + 1);
    weights[persons] = nobody;
    for (int i = 0; i <= persons; i++) {
      double sum = 0;
      for (int x = 0; x < steps; x++) {
        double at = where + (x - steps / 2) * 6 * error / steps;
        double free = bell(at, 0, FROM_MONUMENT_METRES);
        double prior = i == persons ? free : 0;
        for (int r = 0; r < posterior.length && i < persons; r++) {
          double middle = rows.get(r).middle()[i];
          prior +=
              posterior[r]
                  * (r == 0 || Double.isNaN(middle)
                      ? free
                      : KEEPS_NO_ORDER * free
                          + (1 - KEEPS_NO_ORDER) * bell(at, middle, UNEVEN_METRES));
        }
        places[i][x] = prior * bell(at, where, error);
        sum += places[i][x];
      }
      for (int x = 0; x < steps; x++) {
        places[i][x] /= sum;
      }
    }
    return told(weights, places);
  }

  private String rowInWords() {
    Map<String, Double> orders =
        IntStream.range(0, posterior.length)
            .boxed()
            .collect(
                Collectors.groupingBy(
                    r -> rows.get(r).order(), Collectors.summingDouble(r -> posterior[r])));
    return orders.entrySet().stream()
        .filter(entry -> !entry.getKey().isEmpty() && entry.getValue() > 0.6)
        .map(entry -> "in the order " + entry.getKey())
        .findFirst()
        .orElse("");
  }

  private static double bell(double x, double middle, double spread) {
    double z = (x - middle) / spread;
    return Math.exp(-0.5 * z * z) / (spread * Math.sqrt(2 * Math.PI));
  }

  /** The share of a bell below: a series about 0 (G. Marsaglia, J. Stat. Softw. 11 (2004), 4). */
  private static double below(double z) {
    if (Math.abs(z) > 7) {
      return z > 0 ? 1 : 0;
    }
    double term = z;
    double sum = z;
    for (int i = 3; Math.abs(term) > 1e-12 * Math.abs(sum); i += 2) {
      term *= z * z / i;
      sum += term;
    }
    return 0.5 + sum * Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  }
}
