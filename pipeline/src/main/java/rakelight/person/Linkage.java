package rakelight.person;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import rakelight.archive.MarkerId;
import rakelight.names.GivenNames;
import rakelight.names.Likeness;
import rakelight.person.LinkageCandidates.Comparability;
import rakelight.person.LinkageCandidates.Taker;
import rakelight.person.Traits.Sex;
import rakelight.person.edtf.Day;
import rakelight.photo.Position;

/**
 * Who on different faces may be one person: I. P. Fellegi and A. B. Sunter, "A Theory for Record
 * Linkage", JASA 64 (1969), 1183-1210. Each field of a pair adds log2(m/u), where m is how often
 * its outcome comes up among mentions of one person and u among any two.
 *
 * <p>For what agrees, u is how common that very name is on this ground, or all names that the
 * letters left allow, and how many of its dates fall on that day or within those years (W. E.
 * Winkler's refinement, from memory). What families share anyway, a place and kin, is held against
 * others of the same surname, and kin against those close by, so that a family isn't taken for one
 * person; these u, and how rare matches are, come from the ground by expectation and maximisation
 * (A. P. Dempster, N. M. Laird and D. B. Rubin, JRSS B 39 (1977), 1-38). The m were counted on
 * invented grounds, the same for every ground; docs/measurements.md says how.
 *
 * <p>Two who can't both be one with a third, since they are named on one face or people said that
 * they are two, share the odds. Whom people said to be one is compared as one, with all that is
 * said of him.
 *
 * <p>It only proposes. On a small ground all pairs are compared; on a larger one those that {@link
 * LinkageCandidates} finds. What it gives depends on nothing but what it is given, so that one
 * state of the journal always has one answer.
 */
public final class Linkage {
  /** Pairs at least this likely are proposed. */
  public static final double PROPOSED = 0.3;

  /** Less likely ones don't take odds from their rivals. */
  private static final double RIVAL = 0.02;

  /** How many made-up pairs the stated values of u and of how rare matches are count as. */
  private static final double HELD = 30;

  /** How many partners somebody is taken to have, to begin with. */
  private static final double PARTNERS = 0.5;

  /**
   * Fields aren't independent, so that odds are too bold at the ends; what they mean was fitted on
   * invented grounds of one setting (logistic regression on the logarithm of the odds).
   */
  private static final double CALIBRATION_OFFSET = 0.97;

  private static final double CALIBRATION_SLOPE = 0.90;

  private static final int ROUNDS = 15;
  private static final double ALIKE = 0.92;
  private static final double NEAR_METRES = 10;
  private static final double FAR_METRES = 25;

  private static final double SURNAMES_HELD = 10;
  private static final double SURNAME_LEAST = 0.002;
  private static final double GIVEN_HELD = 60;
  private static final double GIVEN_LEAST = 0.00005;

  /** Of one family, how many die on one day, or in one year, by one cause; choices, no source. */
  private static final double ONE_DAY = 0.0025;

  private static final double ONE_YEAR = 0.02;

  private static final int NEARLY_DAYS = 12;
  private static final int NEARLY_YEARS = 1;
  private static final int NEARLY_BIRTH_YEARS = 2;

  /**
   * What is compared, with the outcomes in order and how often each is taken to come up among
   * mentions of one person (m) and, before anything is counted, of any two (u).
   */
  public enum Field {
    SURNAME(
        "surname",
        List.of("same", "alike", "the other’s at birth", "another, of a woman", "different"),
        p(.93, .05, .005, .01, .005),
        p(.02, .01, .001, .4, .569)),
    SURNAME_LETTERS("letters of the surname", List.of("fit", "don’t fit"), p(.98, .02), p(.1, .9)),
    GIVEN(
        "given name",
        List.of("same", "a short form or pet name", "alike", "different", "of the other sex"),
        p(.94, .05, .004, .005, .001),
        p(.03, .02, .02, .43, .5)),
    GIVEN_LETTERS("letters of the given name", List.of("fit", "don’t fit"), p(.98, .02), p(.1, .9)),
    DEATH_DAY(
        "death",
        List.of("the same day", "nearly the same day", "the same year", "different"),
        p(.86, .11, .01, .02),
        p(.0001, .002, .01, .9879)),
    DEATH(
        "death",
        List.of("the same as far as it is known", "a year apart", "different"),
        p(.97, .02, .01),
        p(.05, .02, .93)),
    BIRTH(
        "birth",
        List.of("the same as far as it is known", "a year or two apart", "different"),
        p(.95, .04, .01),
        p(.05, .05, .90)),
    SPOUSE("husband or wife", List.of("same", "different"), p(.95, .05), p(.03, .97)),
    PARENTS("parents", List.of("same", "different"), p(.97, .03), p(.05, .95)),
    CHILDREN("a child", List.of("same", "others"), p(.25, .75), p(.02, .98)),
    PLACE(
        "place",
        List.of("the same marker", "close by", "not far", "elsewhere"),
        p(.10, .57, .18, .15),
        p(.02, .10, .20, .68)),
    STONE(
        "stone",
        List.of("his, as people confirmed", "another’s, as people confirmed"),
        p(.95, .05),
        p(.05, .95));

    private final String words;
    private final List<String> outcomes;
    private final double[] m;
    private final double[] u;

    Field(String words, List<String> outcomes, double[] m, double[] u) {
      this.words = words;
      this.outcomes = outcomes;
      this.m = m;
      this.u = u;
    }

    private static double[] p(double... shares) {
      return shares;
    }

    /** Whether families share it, so that it is held against others of one surname. */
    private boolean isOfFamilies() {
      return this == PLACE || isKin();
    }

    private boolean isKin() {
      return this == SPOUSE || this == PARENTS || this == CHILDREN;
    }
  }

  /**
   * What one field adds.
   *
   * @param bits log2(m/u); above 0 speaks for one person
   */
  public record Reason(Field field, String outcome, double bits) {
    /** In words, with its weight. */
    public String words() {
      return String.format(Locale.ROOT, "%s %s %+.1f", field.words, outcome, bits);
    }
  }

  /**
   * Two mentions that may be of one person, each the fullest of what people brought together.
   *
   * @param bits the sum of the weights, without how rare pairs are and without rivals
   * @param probability that they are, by the model
   */
  public record Pair(
      Mention one, Mention other, double bits, double probability, List<Reason> reasons) {
    public Pair {
      reasons = List.copyOf(reasons);
    }

    /** Such as {@code 19 to 1}. */
    public String odds() {
      return Linkage.odds(probability);
    }
  }

  /** A person sought with somebody on the stones who may be he. */
  public record Match(Sought sought, Person person, double probability, List<Reason> reasons) {
    public Match {
      reasons = List.copyOf(reasons);
    }

    /** The fullest mention of that person. */
    public Mention mention() {
      return person.fullest().orElseThrow();
    }
  }

  /** A probability as people say it: {@code 19 to 1}. */
  public static String odds(double probability) {
    double odds = probability / Math.max(1e-12, 1 - probability);
    return odds >= 1
        ? (odds > 9999 ? "over 9999" : String.format(Locale.ROOT, "%.0f", odds)) + " to 1"
        : String.format(Locale.ROOT, "1 to %.0f", 1 / Math.max(1e-12, odds));
  }

  /** The weight of an outcome: log2(m/u). */
  static double weight(double m, double u) {
    return Math.log(m / u) / Math.log(2);
  }

  private static final int MISSING = -1;

  /** What sort of pair it is: matches aren't as rare among all of them. */
  private enum Sort {
    BOTH_NAMED,
    INITIALS_ALONE,
    ONE_AS_KIN,
    BOTH_AS_KIN
  }

  /** Whom two are held against: any two, two of one surname, or two of one surname close by. */
  private enum Against {
    ANY,
    SURNAME,
    CLOSE_BY
  }

  /**
   * How a pair comes out.
   *
   * @param outcomes by field; {@link #MISSING} where there is nothing to compare
   * @param byChance by field, how often what agrees does so by chance; 0 where that is counted over
   *     all pairs
   */
  private record Compared(
      int one, int other, Sort sort, Against against, int[] outcomes, double[] byChance) {

    double chance(Field field, double[][][] u) {
      int at = field.ordinal();
      return byChance[at] > 0 ? byChance[at] : u[against(field)][at][outcomes[at]];
    }

    private int against(Field field) {
      int place = field.isOfFamilies() ? against.ordinal() : 0;
      return field.isKin() ? place : Math.min(place, Against.SURNAME.ordinal());
    }

    /** The odds that the fields give that families share, or that the others give. */
    double ratio(boolean ofFamilies, double[][][] u) {
      double ratio = 1;
      for (Field field : Field.values()) {
        int outcome = outcomes[field.ordinal()];
        if (outcome != MISSING && field.isOfFamilies() == ofFamilies) {
          ratio *= field.m[outcome] / chance(field, u);
        }
      }
      return ratio;
    }

    List<Reason> reasons(double[][][] u) {
      List<Reason> reasons = new ArrayList<>();
      for (Field field : Field.values()) {
        int outcome = outcomes[field.ordinal()];
        if (outcome != MISSING) {
          double bits = weight(field.m[outcome], chance(field, u));
          reasons.add(new Reason(field, field.outcomes.get(outcome), bits));
        }
      }
      return reasons;
    }
  }

  /** A pair with what the model makes of it. */
  private record Scored(Compared pair, double probability, List<Reason> reasons) {}

  private final List<Traits> traits;
  private final Map<MarkerId, Position> places;
  private final NameShares surnames;
  private final NameShares givens;
  private final SpanShares deaths;
  private final SpanShares births;
  private final Map<String, Map<String, Boolean>> alike = new HashMap<>();
  private final Map<String, Map<String, Integer>> givenOutcomes = new HashMap<>();

  /** By marker, the places in the list of those to whom people confirmed that it belongs. */
  private final Map<MarkerId, Set<Integer>> owners = new HashMap<>();

  private Linkage(List<Traits> traits, Map<MarkerId, Position> places) {
    this.traits = traits;
    this.places = places;
    surnames =
        new NameShares(
            traits.stream().map(Traits::surname).filter(NamePattern::saysSomething).toList(),
            Map.of(),
            SURNAMES_HELD,
            SURNAME_LEAST);
    givens =
        new NameShares(
            traits.stream().flatMap(own -> own.given().stream()).toList(),
            GivenNames.known().shares(),
            GIVEN_HELD,
            GIVEN_LEAST);
    Stream<Traits> named = traits.stream().filter(own -> !own.kinOnly());
    List<Traits> forThemselves = named.toList();
    deaths = new SpanShares(forThemselves.stream().flatMap(own -> own.died().stream()).toList());
    births = new SpanShares(forThemselves.stream().flatMap(own -> own.born().stream()).toList());
  }

  /**
   * Every pair that is at least as likely as {@link #PROPOSED}, the likeliest first.
   *
   * @param persons as people brought them together
   * @param twoPersons pairs of mentions that people said are of two persons
   * @param belongings what people confirmed of stones
   * @param places where markers stand, as far as known
   */
  static List<Pair> propose(
      List<Person> persons,
      Set<Set<MentionId>> twoPersons,
      List<Belonging> belongings,
      Map<MarkerId, Position> places) {
    List<Person> named = persons.stream().filter(p -> !p.mentions().isEmpty()).toList();
    Map<MentionId, Integer> placeOf = new HashMap<>();
    for (int i = 0; i < named.size(); i++) {
      for (Mention mention : named.get(i).mentions()) {
        placeOf.put(mention.id(), i);
      }
    }
    Linkage linkage = of(named, places);
    List<Traits> traits = linkage.traits;
    Set<Long> two = new HashSet<>();
    for (Set<MentionId> both : twoPersons) {
      int[] at = both.stream().mapToInt(id -> placeOf.getOrDefault(id, MISSING)).sorted().toArray();
      if (at.length == 2 && at[0] != MISSING) {
        two.add(key(at[0], at[1]));
      }
    }
    linkage.own(belongings, placeOf);
    int[] all = IntStream.range(0, traits.size()).filter(i -> traits.get(i).isNamed()).toArray();
    LinkageCandidates candidates =
        new LinkageCandidates(
            traits,
            places,
            linkage.surnames,
            all,
            all,
            (i, j) ->
                i < j
                    && !two.contains(key(i, j))
                    && traits.get(i).faces().stream().noneMatch(traits.get(j).faces()::contains));
    return linkage.score(candidates).stream()
        .map(
            s ->
                new Pair(
                    named.get(s.pair().one()).fullest().orElseThrow(),
                    named.get(s.pair().other()).fullest().orElseThrow(),
                    s.reasons().stream().mapToDouble(Reason::bits).sum(),
                    s.probability(),
                    s.reasons()))
        .sorted(
            Comparator.comparingDouble(Pair::probability)
                .reversed()
                .thenComparing(p -> p.one().label())
                .thenComparing(p -> p.other().label()))
        .toList();
  }

  private static Linkage of(List<Person> persons, Map<MarkerId, Position> places) {
    Map<Traits.Anchor, Mention> anchors = new HashMap<>();
    for (Person person : persons) {
      for (Mention mention : person.mentions()) {
        if (!mention.isKinOnly()) {
          anchors.put(Traits.Anchor.of(mention), mention);
        }
      }
    }
    return new Linkage(persons.stream().map(p -> Traits.of(p, anchors)).toList(), places);
  }

  private static long key(int one, int other) {
    return ((long) one << 32) | other;
  }

  private void own(List<Belonging> belongings, Map<MentionId, Integer> placeOf) {
    for (Belonging belonging : belongings) {
      Set<Integer> own = owners.computeIfAbsent(belonging.stone(), stone -> new HashSet<>());
      belonging.person().map(placeOf::get).ifPresent(own::add);
      for (int i = 0; i < traits.size() && belonging.marker().isPresent(); i++) {
        if (!traits.get(i).kinOnly()
            && traits.get(i).markers().contains(belonging.marker().get())) {
          own.add(i);
        }
      }
    }
    owners.values().removeIf(Set::isEmpty);
  }

  /** Persons sought with those of the stones that may be theirs, the likeliest first. */
  public static List<Match> match(List<Sought> sought, List<Person> persons) {
    List<Person> named = persons.stream().filter(p -> !p.mentions().isEmpty()).toList();
    List<Traits> traits = new ArrayList<>();
    sought.forEach(s -> traits.add(Traits.of(s)));
    named.forEach(person -> traits.add(Traits.of(person, Map.of())));
    Linkage linkage = new Linkage(traits, Map.of());
    int[] ones = IntStream.range(0, sought.size()).toArray();
    int[] others =
        IntStream.range(sought.size(), traits.size())
            .filter(j -> !traits.get(j).kinOnly() && traits.get(j).isNamed())
            .toArray();
    LinkageCandidates candidates =
        new LinkageCandidates(traits, Map.of(), linkage.surnames, ones, others, (i, j) -> true);
    return linkage.score(candidates).stream()
        .map(
            s ->
                new Match(
                    sought.get(s.pair().one()),
                    named.get(s.pair().other() - sought.size()),
                    s.probability(),
                    s.reasons()))
        .sorted(
            Comparator.comparingDouble(Match::probability)
                .reversed()
                .thenComparing(m -> m.mention().label()))
        .toList();
  }

  /**
   * How often each outcome of each field comes up among pairs known to be of one person: what m is
   * counted with.
   */
  static double[][] outcomes(
      List<Person> persons, Map<MarkerId, Position> places, Comparability known) {
    Linkage linkage = of(persons, places);
    double[][] counted = new double[Field.values().length][];
    Arrays.setAll(counted, field -> new double[Field.values()[field].outcomes.size()]);
    for (int i = 0; i < persons.size(); i++) {
      for (int j = i + 1; j < persons.size(); j++) {
        if (known.test(i, j)) {
          count(linkage.compare(i, j), counted, 1);
        }
      }
    }
    return counted;
  }

  private List<Scored> score(LinkageCandidates candidates) {
    double[][][] u = new double[Against.values().length][Field.values().length][];
    double[][] counted = counts();
    double[] pairs = new double[Sort.values().length];
    List<Compared> compared = new ArrayList<>();
    candidates.scored((i, j) -> compared.add(compare(i, j)));
    Taker counting =
        (i, j) -> {
          Compared pair = compare(i, j);
          count(pair, counted, 1);
          pairs[pair.sort().ordinal()]++;
        };
    candidates.sample(counting);
    double drawn = Math.max(1, Arrays.stream(pairs).sum());
    double[] share = new double[pairs.length];
    for (Sort sort : Sort.values()) {
      pairs[sort.ordinal()] *= candidates.all() / drawn;
      share[sort.ordinal()] =
          Math.min(0.1, PARTNERS * candidates.size() / Math.max(1.0, candidates.all()));
    }
    for (double[][] against : u) {
      System.arraycopy(shares(counted), 0, against, 0, against.length);
    }
    double[] ratios = compared.stream().mapToDouble(pair -> pair.ratio(false, u)).toArray();
    for (int round = 0; round < ROUNDS; round++) {
      maximise(compared, ratios, pairs, u, share);
    }
    return shared(compared, ratios, u, share);
  }

  private static double[][] counts() {
    return Arrays.stream(Field.values())
        .map(field -> Arrays.stream(field.u).map(p -> p * HELD).toArray())
        .toArray(double[][]::new);
  }

  private static void count(Compared pair, double[][] into, double weight) {
    for (Field field : Field.values()) {
      int outcome = pair.outcomes()[field.ordinal()];
      if (outcome != MISSING) {
        into[field.ordinal()][outcome] += weight;
      }
    }
  }

  private static double[][] shares(double[][] counts) {
    return Arrays.stream(counts)
        .map(
            own -> {
              double sum = Arrays.stream(own).sum();
              return Arrays.stream(own).map(count -> count / sum).toArray();
            })
        .toArray(double[][]::new);
  }

  /** One round: how likely each pair is a match, then what families share and how rare they are. */
  private static void maximise(
      List<Compared> compared, double[] ratios, double[] pairs, double[][][] u, double[] share) {
    double[][][] counts = {counts(), counts(), counts()};
    double[] matches = Arrays.stream(share).map(s -> s * HELD).toArray();
    for (int i = 0; i < ratios.length; i++) {
      Compared pair = compared.get(i);
      double p = probability(ratios[i] * pair.ratio(true, u), share[pair.sort().ordinal()]);
      matches[pair.sort().ordinal()] += p;
      for (int against = 1; against <= pair.against().ordinal(); against++) {
        count(pair, counts[against], 1 - p);
      }
    }
    for (int against = 1; against < u.length; against++) {
      System.arraycopy(shares(counts[against]), 0, u[against], 0, u[against].length);
    }
    for (int sort = 0; sort < share.length; sort++) {
      share[sort] = Math.min(0.1, matches[sort] / (pairs[sort] + HELD));
    }
  }

  private static double probability(double ratio, double share) {
    double odds = ratio * share / (1 - share);
    return odds / (1 + odds);
  }

  /**
   * The pairs that stay likely once those who can't all be one with somebody share the odds: of two
   * rivals only one can be right.
   */
  private List<Scored> shared(
      List<Compared> compared, double[] ratios, double[][][] u, double[] share) {
    List<Compared> likely = new ArrayList<>();
    Map<Long, Double> probabilities = new HashMap<>();
    Map<Integer, List<Integer>> partners = new HashMap<>();
    for (int i = 0; i < ratios.length; i++) {
      Compared pair = compared.get(i);
      double p = probability(ratios[i] * pair.ratio(true, u), share[pair.sort().ordinal()]);
      if (p >= RIVAL) {
        likely.add(pair);
        probabilities.put(key(pair.one(), pair.other()), Math.min(p, 1 - 1e-12));
        partners.computeIfAbsent(pair.one(), whom -> new ArrayList<>()).add(pair.other());
        partners.computeIfAbsent(pair.other(), whom -> new ArrayList<>()).add(pair.one());
      }
    }
    List<Scored> scored = new ArrayList<>();
    for (Compared pair : likely) {
      double p = of(probabilities, pair.one(), pair.other());
      double odds = p / (1 - p);
      double rivals =
          Math.max(
              rivals(pair.one(), pair.other(), partners, probabilities),
              rivals(pair.other(), pair.one(), partners, probabilities));
      double left = calibrated(odds / (1 + rivals));
      if (left >= PROPOSED) {
        scored.add(new Scored(pair, left, pair.reasons(u)));
      }
    }
    return scored;
  }

  /** The probability that odds of the model have turned out to mean. */
  private static double calibrated(double odds) {
    double right = Math.exp(CALIBRATION_OFFSET) * Math.pow(odds, CALIBRATION_SLOPE);
    return right / (1 + right);
  }

  /** The odds of those who would be one with somebody instead of this one and can't be he. */
  private static double rivals(
      int of, int instead, Map<Integer, List<Integer>> partners, Map<Long, Double> probabilities) {
    double sum = 0;
    for (int rival : partners.getOrDefault(of, List.of())) {
      if (rival != instead && of(probabilities, rival, instead) == 0) {
        double p = of(probabilities, of, rival);
        sum += p / (1 - p);
      }
    }
    return sum;
  }

  private static double of(Map<Long, Double> probabilities, int one, int other) {
    return probabilities.getOrDefault(key(Math.min(one, other), Math.max(one, other)), 0.0);
  }

  private static Sort sort(Traits a, Traits b) {
    if (a.initialsAlone() || b.initialsAlone()) {
      return Sort.INITIALS_ALONE;
    }
    return a.kinOnly() && b.kinOnly()
        ? Sort.BOTH_AS_KIN
        : a.kinOnly() || b.kinOnly() ? Sort.ONE_AS_KIN : Sort.BOTH_NAMED;
  }

  private Compared compare(int i, int j) {
    Traits a = traits.get(i);
    Traits b = traits.get(j);
    int[] outcomes = new int[Field.values().length];
    double[] byChance = new double[outcomes.length];
    Arrays.fill(outcomes, MISSING);
    surname(a, b, outcomes, byChance);
    given(a, b, outcomes, byChance);
    int place = place(a, b);
    outcomes[Field.PLACE.ordinal()] = place;
    boolean oneSurname =
        outcomes[Field.SURNAME.ordinal()] == 0
            || outcomes[Field.SURNAME.ordinal()] == 1
            || outcomes[Field.SURNAME_LETTERS.ordinal()] == 0;
    dates(a, b, oneSurname, outcomes, byChance);
    outcomes[Field.SPOUSE.ordinal()] = kin(a.spouses(), b.spouses());
    outcomes[Field.PARENTS.ordinal()] = kin(a.parents(), b.parents());
    outcomes[Field.CHILDREN.ordinal()] = kin(a.children(), b.children());
    stone(i, j, outcomes, byChance);
    stone(j, i, outcomes, byChance);
    Against against =
        !oneSurname ? Against.ANY : place == 0 || place == 1 ? Against.CLOSE_BY : Against.SURNAME;
    return new Compared(i, j, sort(a, b), against, outcomes, byChance);
  }

  private void surname(Traits a, Traits b, int[] outcomes, double[] byChance) {
    NamePattern one = a.surname();
    NamePattern other = b.surname();
    if (!one.saysSomething() || !other.saysSomething()) {
      return;
    }
    if (!one.isWhole() || !other.isWhole()) {
      boolean fit = one.fits(other);
      outcomes[Field.SURNAME_LETTERS.ordinal()] = fit ? 0 : 1;
      byChance[Field.SURNAME_LETTERS.ordinal()] =
          fit ? Math.max(surnames.of(one), surnames.of(other)) : 0;
      return;
    }
    if (one.equals(other)) {
      outcomes[Field.SURNAME.ordinal()] = 0;
      byChance[Field.SURNAME.ordinal()] = surnames.of(one);
      return;
    }
    boolean birthName =
        one.letters().equals(b.birthSurname()) || other.letters().equals(a.birthSurname());
    outcomes[Field.SURNAME.ordinal()] =
        birthName
            ? 2
            : alike(one.letters(), other.letters())
                ? 1
                : a.sex() == Sex.WOMAN && b.sex() == Sex.WOMAN ? 3 : 4;
  }

  private boolean alike(String one, String other) {
    return alike
        .computeIfAbsent(one, name -> new HashMap<>())
        .computeIfAbsent(other, name -> areAlike(one, name));
  }

  private static boolean areAlike(String one, String other) {
    return Likeness.jaroWinkler(one, other) >= ALIKE;
  }

  private void given(Traits a, Traits b, int[] outcomes, double[] byChance) {
    int words = Math.min(a.given().size(), b.given().size());
    int worst = 0;
    double chance = 1;
    boolean whole = true;
    int compared = 0;
    for (int k = 0; k < words; k++) {
      NamePattern one = a.given().get(k);
      NamePattern other = b.given().get(k);
      if (!one.saysSomething() || !other.saysSomething()) {
        continue;
      }
      compared++;
      if (k == 0) {
        whole = one.isWhole() && other.isWhole();
      }
      if (one.isWhole() && other.isWhole()) {
        int outcome = knownGivenOutcome(one.letters(), other.letters());
        worst = Math.max(worst, outcome);
        chance *= outcome == 1 ? shortForms(one, other) : givens.of(one);
      } else {
        worst = Math.max(worst, one.fits(other) ? 0 : 3);
        chance *= Math.max(givens.of(one), givens.of(other));
      }
    }
    if (compared == 0) {
      return;
    }
    boolean otherSex =
        worst >= 2 && a.sex() != b.sex() && a.sex() != Sex.UNKNOWN && b.sex() != Sex.UNKNOWN;
    Field field = whole ? Field.GIVEN : Field.GIVEN_LETTERS;
    outcomes[field.ordinal()] = whole ? otherSex ? 4 : worst : worst < 3 ? 0 : 1;
    byChance[field.ordinal()] = worst < 2 ? chance : 0;
  }

  /** How common the names are that one of them may stand for. */
  private double shortForms(NamePattern one, NamePattern other) {
    return Math.max(all(one), all(other));
  }

  private double all(NamePattern name) {
    Set<String> forms = new HashSet<>(GivenNames.known().nicknamesOf(name.letters()));
    forms.addAll(GivenNames.known().abbreviationsOf(name.letters()));
    forms.add(name.letters());
    return Math.min(1, forms.stream().mapToDouble(f -> givens.of(NamePattern.of(f))).sum());
  }

  private int knownGivenOutcome(String one, String other) {
    return givenOutcomes
        .computeIfAbsent(one, name -> new HashMap<>())
        .computeIfAbsent(other, name -> givenOutcome(one, name));
  }

  static int givenOutcome(String one, String other) {
    if (one.equals(other)) {
      return 0;
    }
    boolean shortForm =
        GivenNames.known().nicknamesOf(one).contains(other)
            || GivenNames.known().abbreviationsOf(one).contains(other);
    return shortForm ? 1 : areAlike(one, other) ? 2 : 3;
  }

  private void dates(Traits a, Traits b, boolean oneSurname, int[] outcomes, double[] byChance) {
    if (a.died().isPresent() && b.died().isPresent()) {
      Day[] one = a.died().get();
      Day[] other = b.died().get();
      boolean days = one[0].equals(one[1]) && other[0].equals(other[1]);
      Field field = days ? Field.DEATH_DAY : Field.DEATH;
      int outcome = days ? days(one[0], other[0]) : spans(one, other, NEARLY_YEARS);
      outcomes[field.ordinal()] = outcome;
      byChance[field.ordinal()] =
          outcome == 0
              ? Math.max(deaths.of(one), deaths.of(other))
                  + (!oneSurname ? 0 : days ? ONE_DAY : ONE_YEAR)
              : 0;
    }
    if (a.born().isPresent() && b.born().isPresent()) {
      Day[] one = a.born().get();
      Day[] other = b.born().get();
      int outcome = spans(one, other, NEARLY_BIRTH_YEARS);
      outcomes[Field.BIRTH.ordinal()] = outcome;
      byChance[Field.BIRTH.ordinal()] =
          outcome == 0 ? Math.max(births.of(one), births.of(other)) : 0;
    }
  }

  /** As people and cutters go wrong: by some days, or by a year or a month on the same day. */
  private static int days(Day one, Day other) {
    if (one.equals(other)) {
      return 0;
    }
    boolean close = Math.abs(SpanShares.number(one) - SpanShares.number(other)) <= NEARLY_DAYS;
    boolean onePart =
        one.day() == other.day()
            && (one.month() == other.month()
                ? Math.abs(one.year() - other.year()) <= NEARLY_YEARS
                : one.year() == other.year());
    return close || onePart ? 1 : one.year() == other.year() ? 2 : 3;
  }

  private static int spans(Day[] one, Day[] other, int nearlyYears) {
    if (one[0].compareTo(other[1]) <= 0 && other[0].compareTo(one[1]) <= 0) {
      return 0;
    }
    long apart =
        one[0].compareTo(other[1]) > 0
            ? SpanShares.number(one[0]) - SpanShares.number(other[1])
            : SpanShares.number(other[0]) - SpanShares.number(one[1]);
    return apart <= 366L * nearlyYears ? 1 : 2;
  }

  /** Whether they have a relative of one sort in common, or such relatives with other names. */
  private int kin(List<Traits.Relative> ones, List<Traits.Relative> others) {
    if (ones.isEmpty() || others.isEmpty()) {
      return MISSING;
    }
    for (Traits.Relative one : ones) {
      for (Traits.Relative other : others) {
        if (sameName(one, other)) {
          return 0;
        }
      }
    }
    return 1;
  }

  private boolean sameName(Traits.Relative one, Traits.Relative other) {
    if (one.given().isEmpty() || other.given().isEmpty()) {
      return false;
    }
    NamePattern first = one.given().get(0);
    NamePattern second = other.given().get(0);
    boolean given =
        first.isWhole() && second.isWhole()
            ? knownGivenOutcome(first.letters(), second.letters()) < 3
            : first.fits(second);
    NamePattern surnameA = one.surname();
    NamePattern surnameB = other.surname();
    return given
        && (!surnameA.saysSomething()
            || !surnameB.saysSomething()
            || surnameA.fits(surnameB)
            || alike(surnameA.letters(), surnameB.letters()));
  }

  private int place(Traits a, Traits b) {
    if (a.markers().isEmpty() || b.markers().isEmpty()) {
      return MISSING;
    }
    if (a.markers().stream().anyMatch(b.markers()::contains)) {
      return 0;
    }
    double metres = Double.MAX_VALUE;
    for (MarkerId one : a.markers()) {
      for (MarkerId other : b.markers()) {
        Position from = places.get(one);
        Position to = places.get(other);
        metres = from == null || to == null ? metres : Math.min(metres, from.metresTo(to));
      }
    }
    return metres == Double.MAX_VALUE
        ? MISSING
        : metres <= NEAR_METRES ? 1 : metres <= FAR_METRES ? 2 : 3;
  }

  /**
   * Whether one is on a stone that people confirmed to belong to the other, or to somebody else.
   */
  private void stone(int i, int j, int[] outcomes, double[] byChance) {
    if (owners.isEmpty() || traits.get(i).kinOnly() || traits.get(j).kinOnly()) {
      return;
    }
    for (MarkerId marker : traits.get(i).markers()) {
      Set<Integer> own = owners.getOrDefault(marker, Set.of());
      if (own.contains(j)) {
        outcomes[Field.STONE.ordinal()] = 0;
        byChance[Field.STONE.ordinal()] = own.size() / (double) Math.max(1, traits.size());
      } else if (!own.isEmpty() && outcomes[Field.STONE.ordinal()] == MISSING) {
        outcomes[Field.STONE.ordinal()] = 1;
      }
    }
  }
}
