package rakelight.survey;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.IntToDoubleFunction;
import rakelight.marker.Description;

/**
 * When a marker was made, by what it is and by the dates it bears.
 *
 * <p>Every year from {@value #FIRST} to {@value #LAST} is weighed: fashion says nothing within a
 * clue's years and less and less away from them; a strict clue, such as a patent, all but rules out
 * what comes before it. The dates it bears speak for the years just after the first death, for a
 * stone set up later less, and little for one that was there before. A government's stone is
 * reckoned from the first death or from when its kind was first furnished. Weights are choices of
 * this project; years and their sources are those of {@link DatingClue}.
 */
public final class Making {
  static final int FIRST = 1600;
  static final int LAST = 2030;

  /** Of a span: so much of the probability is in it, as nearly as whole years allow. */
  public static final double SHARE = 0.8;

  /** What is left of a year far from a clue's. */
  private static final double FASHION_FLOOR = 0.03;

  private static final double STRICT_FLOOR = 1e-4;
  private static final double FASHION_FADES_YEARS = 8;
  private static final double CENTIMETRES_ALIKE = 1.5;

  /** Of its time: so soon after the first death. */
  private static final int OF_ITS_TIME_YEARS = 5;

  private static final double OF_ITS_TIME = 0.84;
  private static final double SET_UP_LATER = 0.14;

  /**
   * Of a government's stones, and in how many years their number falls by a factor e. Chosen on
   * grounds that tests invent, among .4 to .8, 1 to 4 and 20 to 45 years; see measurements.md.
   */
  private static final double FURNISHED_SOON = 0.65;

  private static final double FURNISHED_BEFORE = 0.02;
  private static final double SOON_FADES_YEARS = 4;
  private static final double ASKED_FADES_YEARS = 30;

  private static final double LATER_FADES_YEARS = 45;
  private static final double THERE_BEFORE_FADES_YEARS = 20;
  private static final double KERNEL_YEARS = 12;
  private static final double KERNEL_PRIOR = 2;

  /** With fewer markers of a material it isn't said what was usual; a choice. */
  private static final int LEAST_ALIKE = 3;

  private static final double[] KERNEL = kernel();

  /**
   * What is known that bears on it.
   *
   * @param emblems by their names in the glossary
   * @param deaths the years it bears, in any order
   * @param opened when the ground was, if that is known
   */
  public record Known(
      Description description, List<String> emblems, List<Integer> deaths, OptionalInt opened) {
    public Known {
      emblems = List.copyOf(emblems);
      deaths = deaths.stream().sorted().toList();
    }
  }

  /**
   * One piece of evidence.
   *
   * @param words what it is and who says so
   * @param bits how much it changes what the others say, 0 for nothing
   */
  public record Evidence(String words, double bits) {
    /** Its weight in words. */
    public String weight() {
      return bits < 0.05
          ? "adds nothing"
          : bits < 0.4 ? "leans" : bits < 1.5 ? "speaks for it" : "speaks strongly";
    }
  }

  /**
   * The answer.
   *
   * @param from the first year of the shortest span that has {@link #SHARE} of the probability, as
   *     nearly as whole years allow
   * @param to its last year
   * @param likeliest the likeliest year
   * @param ofItsTime the probability that it was made within {@value #OF_ITS_TIME_YEARS} years
   *     after the first death it bears; empty where it bears none
   * @param later that it was set up later or replaces another
   * @param before that it was there before the first death it bears
   * @param olderThanGround that it is older than its ground, so was moved; empty where nobody knows
   *     when that was opened
   * @param conflict what evidence can't be true together, in words
   */
  public record Made(
      int from,
      int to,
      int likeliest,
      List<Evidence> evidence,
      Optional<Double> ofItsTime,
      Optional<Double> later,
      Optional<Double> before,
      Optional<Double> olderThanGround,
      Optional<String> conflict) {
    public Made {
      evidence = List.copyOf(evidence);
    }
  }

  /** What one piece of evidence gives each year. */
  private record Likelihood(String words, double[] years, boolean isDates) {}

  /** Other markers of the ground that bear a date: what they are of, and when. */
  public record Dated(String material, int firstDeath) {}

  private final List<DatingClue> clues;
  private final Map<String, Curve> ground = new HashMap<>();
  private final Curve whole = new Curve();

  /** How many of some markers are near each year, and how many there are. */
  private static final class Curve {
    private final double[] near = new double[LAST - FIRST + 1];
    private int markers;

    void add(int year) {
      markers++;
      for (int i = 0; i < near.length; i++) {
        near[i] += weight(FIRST + i - year);
      }
    }

    private static double weight(int years) {
      int away = Math.abs(years);
      return away < KERNEL.length ? KERNEL[away] : 0;
    }
  }

  /**
   * @param ground the ground's dated markers, for what was usual there
   */
  public Making(List<DatingClue> clues, List<Dated> ground) {
    this.clues = List.copyOf(clues);
    for (Dated one : ground) {
      this.ground.computeIfAbsent(one.material(), material -> new Curve()).add(one.firstDeath());
      whole.add(one.firstDeath());
    }
  }

  /** The span of a marker that isn't one of the ground's dated; empty where nothing bears on it. */
  public Optional<Made> of(Known known) {
    return of(known, Optional.empty());
  }

  /**
   * The span of one marker; empty where nothing bears on it.
   *
   * @param itself as it is among the ground's dated markers, so that it isn't its own evidence
   */
  public Optional<Made> of(Known known, Optional<Dated> itself) {
    List<Likelihood> all = new ArrayList<>();
    for (DatingClue clue : clues) {
      if (fits(clue, known)) {
        all.add(
            new Likelihood(
                clue.clue() + ": " + told(clue) + " (" + clue.source() + ")", years(clue), false));
      }
    }
    usual(known, itself).ifPresent(all::add);
    if (!known.deaths().isEmpty()) {
      all.add(isFurnished(known.description()) ? furnished(known) : dates(known));
    }
    if (all.isEmpty()) {
      return Optional.empty();
    }
    double[] posterior = posterior(all);
    List<Evidence> evidence = new ArrayList<>();
    for (Likelihood one : all) {
      double[] others = posterior(all.stream().filter(other -> other != one).toList());
      evidence.add(new Evidence(one.words(), divergence(posterior, others)));
    }
    evidence.sort((a, b) -> Double.compare(b.bits(), a.bits()));
    int[] span = nearest(posterior);
    OptionalInt first =
        known.deaths().isEmpty() ? OptionalInt.empty() : OptionalInt.of(known.deaths().get(0));
    return Optional.of(
        new Made(
            FIRST + span[0],
            FIRST + span[1],
            FIRST + likeliest(posterior),
            evidence,
            mass(posterior, first, 0, OF_ITS_TIME_YEARS),
            mass(posterior, first, OF_ITS_TIME_YEARS + 1, LAST),
            mass(posterior, first, -LAST, -1),
            mass(posterior, known.opened(), -LAST, -1),
            conflict(all, known)));
  }

  private static Optional<Double> mass(double[] years, OptionalInt from, int first, int last) {
    if (from.isEmpty()) {
      return Optional.empty();
    }
    double sum = 0;
    for (int i = 0; i < years.length; i++) {
      int after = FIRST + i - from.getAsInt();
      sum += after >= first && after <= last ? years[i] : 0;
    }
    return Optional.of(sum);
  }

  private static boolean fits(DatingClue clue, Known known) {
    Description said = known.description();
    return switch (clue.of()) {
      case "kind" -> said.kind().filter(clue.clue()::equals).isPresent();
      case "form" -> said.form().filter(clue.clue()::equals).isPresent() && isGovernment(said);
      case "material" -> said.material().filter(clue.clue()::equals).isPresent();
      case "lettering" -> said.lettering().contains(clue.clue());
      case "emblem" -> known.emblems().contains(clue.clue());
      case "size" -> isGovernment(said) && hasSize(said, clue.clue());
      default -> false;
    };
  }

  private static boolean isGovernment(Description said) {
    return said.kind().filter("government-furnished headstone"::equals).isPresent();
  }

  /** Whether an office supplied it, by one pattern for all. */
  private static boolean isFurnished(Description said) {
    return isGovernment(said) || said.kind().filter("war-grave headstone"::equals).isPresent();
  }

  private static boolean hasSize(Description said, String size) {
    String[] sides = size.split(" x ", -1);
    return said.widthCm().filter(w -> alike(w, sides[0])).isPresent()
        && said.thicknessCm().filter(t -> alike(t, sides[1])).isPresent();
  }

  private static boolean alike(double cm, String other) {
    return Math.abs(cm - Double.parseDouble(other)) <= CENTIMETRES_ALIKE;
  }

  private static String told(DatingClue clue) {
    String from = clue.strict() ? "not before " + clue.from() : "from about " + clue.from();
    return clue.to() >= DatingClue.STILL ? from : from + " to about " + clue.to();
  }

  private static double[] years(DatingClue clue) {
    double[] years = new double[LAST - FIRST + 1];
    for (int i = 0; i < years.length; i++) {
      int year = FIRST + i;
      int away = Math.max(clue.from() - year, year - clue.to());
      boolean ruledOut = clue.strict() && year < clue.from();
      years[i] =
          away <= 0
              ? 1
              : ruledOut
                  ? STRICT_FLOOR
                  : Math.max(FASHION_FLOOR, Math.exp(-away / FASHION_FADES_YEARS));
    }
    return years;
  }

  /** How usual its material was on the ground, year by year, by the others that bear dates. */
  private Optional<Likelihood> usual(Known known, Optional<Dated> itself) {
    Optional<String> material = known.description().material();
    Optional<Curve> alike = material.flatMap(one -> Optional.ofNullable(ground.get(one)));
    if (alike.isEmpty()) {
      return Optional.empty();
    }
    int ofIt = alike.get().markers - (itself.isPresent() ? 1 : 0);
    int ofAll = whole.markers - (itself.isPresent() ? 1 : 0);
    if (ofIt < LEAST_ALIKE || ofIt == ofAll) {
      return Optional.empty();
    }
    double prior = KERNEL_PRIOR * ofIt / ofAll;
    double[] years = new double[LAST - FIRST + 1];
    for (int i = 0; i < years.length; i++) {
      int year = FIRST + i;
      double own = itself.map(one -> Curve.weight(year - one.firstDeath())).orElse(0.0);
      years[i] =
          (Math.max(0, alike.get().near[i] - own) + prior)
              / (Math.max(0, whole.near[i] - own) + KERNEL_PRIOR);
    }
    return Optional.of(
        new Likelihood(
            material.get() + " on this ground: by " + ofAll + " of its markers with dates",
            years,
            false));
  }

  /** What a date so many years away counts, from 0. */
  private static double[] kernel() {
    double[] weights = new double[(int) (6 * KERNEL_YEARS)];
    for (int i = 0; i < weights.length; i++) {
      double away = i / KERNEL_YEARS;
      weights[i] = Math.exp(-away * away / 2);
    }
    return weights;
  }

  private static Likelihood dates(Known known) {
    int first = known.deaths().get(0);
    return new Likelihood(
        borne(known),
        since(
            first,
            1 - OF_ITS_TIME - SET_UP_LATER,
            lag -> OF_ITS_TIME * geometric(lag) + SET_UP_LATER * fading(lag, LATER_FADES_YEARS)),
        true);
  }

  /**
   * Of a stone that an office supplied, which was set soon after somebody died or its kind was
   * first furnished, whichever came last, or when somebody asked for it much later.
   */
  private Likelihood furnished(Known known) {
    int first =
        clues.stream()
            .filter(clue -> clue.strict() && fits(clue, known))
            .mapToInt(DatingClue::from)
            .reduce(known.deaths().get(0), Math::max);
    return new Likelihood(
        borne(known) + ", which of a stone that an office supplied says little",
        since(
            first,
            FURNISHED_BEFORE,
            lag ->
                FURNISHED_SOON * fading(lag, SOON_FADES_YEARS)
                    + (1 - FURNISHED_SOON - FURNISHED_BEFORE) * fading(lag, ASKED_FADES_YEARS)),
        true);
  }

  /** The years from one on by how long after it they are, and those before it. */
  private static double[] since(int first, double before, IntToDoubleFunction after) {
    double[] years = new double[LAST - FIRST + 1];
    for (int i = 0; i < years.length; i++) {
      int lag = FIRST + i - first;
      years[i] =
          lag < 0 ? before * fading(-lag, THERE_BEFORE_FADES_YEARS) : after.applyAsDouble(lag);
    }
    return years;
  }

  private static double fading(int years, double byE) {
    return Math.exp(-years / byE) / byE;
  }

  private static String borne(Known known) {
    int deaths = known.deaths().size();
    int first = known.deaths().get(0);
    return deaths == 1
        ? "it bears the death of " + first
        : "the first of " + deaths + " deaths it bears is of " + first;
  }

  /** Of the stones of their time half in the year of the death, half of the rest each year on. */
  private static double geometric(int lag) {
    return 0.5 * Math.pow(0.5, lag);
  }

  private static double[] posterior(List<Likelihood> all) {
    double[] years = new double[LAST - FIRST + 1];
    Arrays.fill(years, 1);
    for (Likelihood one : all) {
      for (int i = 0; i < years.length; i++) {
        years[i] *= one.years()[i];
      }
    }
    double sum = Arrays.stream(years).sum();
    for (int i = 0; i < years.length; i++) {
      years[i] /= sum;
    }
    return years;
  }

  /** Kullback-Leibler, in bits. */
  private static double divergence(double[] with, double[] without) {
    double sum = 0;
    for (int i = 0; i < with.length; i++) {
      sum += with[i] > 0 && without[i] > 0 ? with[i] * Math.log(with[i] / without[i]) : 0;
    }
    return Math.max(0, sum / Math.log(2));
  }

  private static int likeliest(double[] years) {
    int best = 0;
    for (int i = 1; i < years.length; i++) {
      best = years[i] > years[best] ? i : best;
    }
    return best;
  }

  /**
   * Of the spans that no span of the same length beats, the one whose probability is nearest {@link
   * #SHARE}. A year more or less is often a tenth of it, so that spans which must have all of it
   * would have much more.
   */
  private static int[] nearest(double[] years) {
    double[] sums = new double[years.length + 1];
    for (int i = 0; i < years.length; i++) {
      sums[i + 1] = sums[i] + years[i];
    }
    int[] before = {0, 0};
    double had = 0;
    for (int length = 1; length <= years.length; length++) {
      int best = 0;
      for (int from = 1; from + length <= years.length; from++) {
        best = sums[from + length] - sums[from] > sums[best + length] - sums[best] ? from : best;
      }
      double has = sums[best + length] - sums[best];
      if (has >= SHARE) {
        return length > 1 && SHARE - had < has - SHARE
            ? before
            : new int[] {best, best + length - 1};
      }
      before = new int[] {best, best + length - 1};
      had = has;
    }
    return before;
  }

  /** Whether what it is rules out the years that its dates ask for. */
  private static Optional<String> conflict(List<Likelihood> all, Known known) {
    Optional<Likelihood> dates = all.stream().filter(Likelihood::isDates).findFirst();
    if (dates.isEmpty()) {
      return Optional.empty();
    }
    int first = known.deaths().get(0);
    return all.stream()
        .filter(one -> !one.isDates())
        .filter(one -> most(one.years(), first, first + OF_ITS_TIME_YEARS) < 0.25)
        .findFirst()
        .map(
            one ->
                String.format(
                    Locale.ROOT,
                    "%s, but %s: set up later, replaces another, or one of the two is wrong",
                    dates.get().words(),
                    one.words()));
  }

  private static double most(double[] years, int from, int to) {
    double most = 0;
    double highest = Arrays.stream(years).max().orElse(1);
    for (int year = Math.max(FIRST, from); year <= Math.min(LAST, to); year++) {
      most = Math.max(most, years[year - FIRST] / highest);
    }
    return most;
  }
}
