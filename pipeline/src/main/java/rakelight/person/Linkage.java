package rakelight.person;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.names.GivenNames;
import rakelight.names.Likeness;
import rakelight.names.NameForms;
import rakelight.person.edtf.Day;
import rakelight.photo.Position;

/**
 * Which mentions on different faces may be of one person: I. P. Fellegi and A. B. Sunter, "A Theory
 * for Record Linkage", JASA 64 (1969), 1183-1210. Each field of a pair adds log2(m/u), where m is
 * how often its outcome comes up among mentions of one person and u among any two.
 *
 * <p>u is counted over all pairs, nearly all of which are of different persons, and for a name that
 * is the same it is how common that very name is here (W. E. Winkler's two refinements, from
 * memory). m is found by expectation and maximisation (A. P. Dempster, N. M. Laird and D. B. Rubin,
 * JRSS B 39 (1977), 1-38), started from and held to stated values, since a small ground has few
 * pairs to learn from: those values and their strength are choices, no source. Fields are taken to
 * be independent, which kin and surname aren't quite, so that the odds are somewhat too bold.
 *
 * <p>It only proposes. Work grows with the square of the number of mentions; from some 600 mentions
 * on, pairs whose initials differ are passed over.
 */
public final class Linkage {
  /** Pairs at least this likely are proposed. */
  public static final double PROPOSED = 0.3;

  /** How many made-up pairs the stated values of m and u count as. */
  private static final double HELD = 30;

  /**
   * How common a name is taken to be before any is counted, and as how many mentions that counts.
   */
  private static final double NAME_COMMON = 0.01;

  private static final double NAMES_HELD = 20;

  /** How many of the mentions are taken to have a partner, to begin with. */
  private static final double WITH_PARTNER = 0.5;

  private static final int ROUNDS = 40;
  private static final double ALIKE = 0.92;
  private static final double NEAR_METRES = 10;
  private static final double FAR_METRES = 25;

  /**
   * What is compared, with the outcomes in order and how often each is taken to come up among
   * mentions of one person (m) and of any two (u) before anything is counted.
   */
  public enum Field {
    SURNAME("surname", List.of("same", "alike", "different"), p(.93, .04, .03), p(.01, .01, .98)),
    SURNAME_INITIAL("surname's initial", List.of("same", "different"), p(.97, .03), p(.08, .92)),
    GIVEN(
        "given name",
        List.of("same", "a short form or pet name", "alike", "different"),
        p(.80, .13, .05, .02),
        p(.03, .02, .02, .93)),
    GIVEN_INITIALS("initials", List.of("same", "different"), p(.97, .03), p(.08, .92)),
    DEATH(
        "death",
        List.of("same day", "may be the same", "different"),
        p(.62, .35, .03),
        p(.002, .02, .978)),
    BIRTH(
        "birth",
        List.of("within a year or two", "may be the same", "different"),
        p(.75, .20, .05),
        p(.03, .07, .90)),
    KIN("kin", List.of("same", "different"), p(.70, .30), p(.05, .95)),
    AS_KIN(
        "named as kin",
        List.of("of one who is the other's kin", "of somebody else"),
        p(.60, .40),
        p(.05, .95)),
    MARKER("marker", List.of("the same", "another"), p(.40, .60), p(.03, .97)),
    PLACE("place", List.of("close by", "not far", "elsewhere"), p(.70, .15, .15), p(.10, .30, .60)),
    FORM("form", List.of("one stone bears initials alone", "as usual"), p(.40, .60), p(.15, .85));

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
   * Two mentions that may be of one person.
   *
   * @param bits the sum of the weights, without how rare pairs are
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

  /** A person sought with a mention that may be of that person. */
  public record Match(Sought sought, Mention mention, double probability, List<Reason> reasons) {
    public Match {
      reasons = List.copyOf(reasons);
    }
  }

  /** A probability as people say it: {@code 19 to 1}. */
  public static String odds(double probability) {
    double odds = probability / Math.max(1e-12, 1 - probability);
    return odds >= 1
        ? (odds > 9999 ? "over 9999" : String.format(Locale.ROOT, "%.0f", odds)) + " to 1"
        : String.format(Locale.ROOT, "1 to %.0f", 1 / Math.max(1e-12, odds));
  }

  private static final int MISSING = -1;

  /** What is compared of a mention or a person sought, made ready once. */
  private record Features(
      Optional<FaceId> face,
      Optional<MarkerId> marker,
      boolean isKinOnly,
      List<Mention.Kin> kin,
      String surname,
      String birthSurname,
      List<String> given,
      String initials,
      Optional<Day[]> died,
      Optional<Day[]> born,
      boolean bearsInitialsAlone) {
    static Features of(Mention mention) {
      List<String> given = words(mention.goesBy());
      return new Features(
          Optional.of(mention.id().face()),
          Optional.of(mention.source().marker().id()),
          mention.isKinOnly(),
          mention.kin(),
          NameForms.fold(mention.name().surname()),
          NameForms.fold(mention.name().birthSurname()),
          given,
          initials(given),
          mention.died(),
          mention.born(),
          Linkage.bearsInitialsAlone(mention));
    }

    static Features of(Sought sought) {
      List<String> given = words(sought.row().given());
      return new Features(
          Optional.empty(),
          Optional.empty(),
          false,
          List.of(),
          NameForms.fold(sought.row().surname()),
          "",
          given,
          initials(given),
          sought.died(),
          sought.born(),
          false);
    }

    private static String initials(List<String> given) {
      StringBuilder initials = new StringBuilder();
      given.forEach(word -> initials.append(word.charAt(0)));
      return initials.toString();
    }

    boolean isNamed() {
      return !surname.isEmpty() || !given.isEmpty();
    }
  }

  private final List<Features> features;
  private final Map<MarkerId, Position> places;

  /** How many mentions bear a surname, a given name, an initial or a run of initials. */
  private final Map<String, Integer> surnames = new HashMap<>();

  private final Map<String, Integer> givens = new HashMap<>();
  private final Map<String, Integer> surnameInitials = new HashMap<>();
  private final Map<String, Integer> givenInitials = new HashMap<>();

  private Linkage(List<Features> features, Map<MarkerId, Position> places) {
    this.features = features;
    this.places = places;
    for (Features own : features) {
      surnames.merge(own.surname(), 1, Integer::sum);
      givens.merge(String.join(" ", own.given()), 1, Integer::sum);
      if (!own.surname().isEmpty()) {
        surnameInitials.merge(own.surname().substring(0, 1), 1, Integer::sum);
      }
      for (int count = 1; count <= own.initials().length(); count++) {
        givenInitials.merge(own.initials().substring(0, count), 1, Integer::sum);
      }
    }
  }

  /** The outcomes of a pair, one for each field. */
  private record Compared(int one, int other, int[] outcomes, double[] sameByChance) {}

  /** A pair by the places of its two in the list, with what the model makes of it. */
  private record Scored(
      int one, int other, double bits, double probability, List<Reason> reasons) {}

  /**
   * Every pair that is at least as likely as {@link #PROPOSED}, the likeliest first.
   *
   * @param places where markers stand, as far as known
   */
  public static List<Pair> propose(List<Mention> mentions, Map<MarkerId, Position> places) {
    List<Features> features = mentions.stream().map(Features::of).toList();
    Candidates candidates =
        Candidates.of(features, features.size(), 0, (i, j) -> i < j && mayBeOne(features, i, j));
    double partners = WITH_PARTNER * mentions.size() / 2;
    return new Linkage(features, places)
        .score(candidates, partners).stream()
            .map(
                s ->
                    new Pair(
                        mentions.get(s.one()),
                        mentions.get(s.other()),
                        s.bits(),
                        s.probability(),
                        s.reasons()))
            .sorted(
                Comparator.comparingDouble(Pair::probability)
                    .reversed()
                    .thenComparing(p -> p.one().label())
                    .thenComparing(p -> p.other().label()))
            .toList();
  }

  /** Persons sought with those of the stones that may be theirs, the likeliest first. */
  static List<Match> match(List<Sought> sought, List<Mention> mentions) {
    List<Features> features = new ArrayList<>();
    sought.forEach(s -> features.add(Features.of(s)));
    mentions.forEach(m -> features.add(Features.of(m)));
    Candidates candidates =
        Candidates.of(
            features,
            sought.size(),
            sought.size(),
            (i, j) -> !features.get(j).isKinOnly() && features.get(j).isNamed());
    return new Linkage(features, Map.of())
        .score(candidates, WITH_PARTNER * sought.size()).stream()
            .map(
                s ->
                    new Match(
                        sought.get(s.one()),
                        mentions.get(s.other() - sought.size()),
                        s.probability(),
                        s.reasons()))
            .sorted(
                Comparator.comparingDouble(Match::probability)
                    .reversed()
                    .thenComparing(m -> m.mention().label()))
            .toList();
  }

  private static boolean mayBeOne(List<Features> features, int i, int j) {
    Features a = features.get(i);
    Features b = features.get(j);
    return !a.face().equals(b.face()) && a.isNamed() && b.isNamed();
  }

  /** Whether a pair may be compared at all. */
  private interface Comparability {
    boolean test(int i, int j);
  }

  /**
   * Which pairs to look at. Of a large ground only those are scored whose initials don't rule them
   * out, and u is counted over a sample; the others count as no matches.
   *
   * @param sample pairs drawn from all
   * @param scored pairs to score
   * @param all how many there are
   */
  private record Candidates(List<int[]> sample, List<int[]> scored, long all) {
    private static final int MOST = 200_000;
    private static final long SEED = 1969;

    static Candidates of(List<Features> features, int firsts, int from, Comparability comparable) {
      long all = 0;
      List<int[]> every = new ArrayList<>();
      List<int[]> alike = new ArrayList<>();
      List<int[]> sample = new ArrayList<>();
      Random random = new Random(SEED);
      for (int i = 0; i < firsts; i++) {
        for (int j = from; j < features.size(); j++) {
          if (!comparable.test(i, j)) {
            continue;
          }
          all++;
          int[] pair = {i, j};
          if (every.size() < MOST) {
            every.add(pair);
          }
          if (mayAgree(features.get(i), features.get(j))) {
            alike.add(pair);
          }
          // Reservoir sampling: every pair is as likely to stay.
          if (sample.size() < MOST) {
            sample.add(pair);
          } else {
            long place = (long) (random.nextDouble() * all);
            if (place < MOST) {
              sample.set((int) place, pair);
            }
          }
        }
      }
      return all <= MOST ? new Candidates(every, every, all) : new Candidates(sample, alike, all);
    }

    /** Whether all pairs are both the sample and scored. */
    boolean isWhole() {
      return all <= MOST;
    }

    private static boolean mayAgree(Features a, Features b) {
      boolean surname =
          a.surname().isEmpty()
              || b.surname().isEmpty()
              || a.surname().charAt(0) == b.surname().charAt(0);
      boolean given =
          a.given().isEmpty()
              || b.given().isEmpty()
              || a.initials().charAt(0) == b.initials().charAt(0)
              || givenOutcome(a.given().get(0), b.given().get(0)) < 3;
      return surname && given;
    }
  }

  /**
   * @param partners how many of the candidates are taken to be matches, to begin with
   */
  private List<Scored> score(Candidates candidates, double partners) {
    List<Compared> sample = candidates.sample().stream().map(c -> compare(c[0], c[1])).toList();
    List<Compared> all =
        candidates.isWhole()
            ? sample
            : candidates.scored().stream().map(c -> compare(c[0], c[1])).toList();
    double[][] u = u(sample);
    double[][] m = new double[Field.values().length][];
    for (Field field : Field.values()) {
      m[field.ordinal()] = field.m.clone();
    }
    double share = Math.min(0.1, partners / Math.max(1, (double) candidates.all()));
    for (int round = 0; round < ROUNDS; round++) {
      share = maximise(all, candidates.all(), m, u, share);
    }
    List<Scored> scored = new ArrayList<>();
    for (Compared pair : all) {
      double probability = probability(pair, m, u, share);
      if (probability >= PROPOSED) {
        scored.add(scored(pair, m, u, probability));
      }
    }
    return scored;
  }

  private double[][] u(List<Compared> all) {
    double[][] u = new double[Field.values().length][];
    for (Field field : Field.values()) {
      double[] counts = Arrays.stream(field.u).map(p -> p * HELD).toArray();
      all.stream()
          .mapToInt(pair -> pair.outcomes()[field.ordinal()])
          .filter(outcome -> outcome != MISSING)
          .forEach(outcome -> counts[outcome]++);
      double sum = Arrays.stream(counts).sum();
      u[field.ordinal()] = Arrays.stream(counts).map(count -> count / sum).toArray();
    }
    return u;
  }

  /** One round: how likely each pair is a match, then m and the share of matches anew. */
  private static double maximise(
      List<Compared> all, long pairs, double[][] m, double[][] u, double share) {
    double[][] counts = new double[m.length][];
    for (Field field : Field.values()) {
      counts[field.ordinal()] = Arrays.stream(field.m).map(p -> p * HELD).toArray();
    }
    double matches = share * HELD;
    for (Compared pair : all) {
      double p = probability(pair, m, u, share);
      matches += p;
      for (int f = 0; f < m.length; f++) {
        if (pair.outcomes()[f] != MISSING) {
          counts[f][pair.outcomes()[f]] += p;
        }
      }
    }
    for (int f = 0; f < m.length; f++) {
      double sum = Arrays.stream(counts[f]).sum();
      m[f] = Arrays.stream(counts[f]).map(count -> count / sum).toArray();
    }
    return matches / (pairs + HELD);
  }

  private static double probability(Compared pair, double[][] m, double[][] u, double share) {
    double ratio = share / (1 - share);
    for (Field field : Field.values()) {
      ratio *= Math.exp(bits(pair, field, m, u) * Math.log(2));
    }
    return ratio / (1 + ratio);
  }

  private static double bits(Compared pair, Field field, double[][] m, double[][] u) {
    int outcome = pair.outcomes()[field.ordinal()];
    if (outcome == MISSING) {
      return 0;
    }
    boolean ofThisName = outcome == 0 && pair.sameByChance()[field.ordinal()] > 0;
    double byChance =
        ofThisName ? pair.sameByChance()[field.ordinal()] : u[field.ordinal()][outcome];
    return weight(m[field.ordinal()][outcome], byChance);
  }

  /** The weight of an outcome: log2(m/u). */
  static double weight(double m, double u) {
    return Math.log(m / u) / Math.log(2);
  }

  private static Scored scored(Compared compared, double[][] m, double[][] u, double probability) {
    List<Reason> reasons = new ArrayList<>();
    double sum = 0;
    for (Field field : Field.values()) {
      int outcome = compared.outcomes()[field.ordinal()];
      if (outcome != MISSING) {
        double bits = bits(compared, field, m, u);
        sum += bits;
        reasons.add(new Reason(field, field.outcomes.get(outcome), bits));
      }
    }
    return new Scored(compared.one(), compared.other(), sum, probability, reasons);
  }

  private Compared compare(int i, int j) {
    Features a = features.get(i);
    Features b = features.get(j);
    int[] outcomes = new int[Field.values().length];
    Arrays.fill(outcomes, MISSING);
    surname(a, b, outcomes);
    given(a, b, outcomes);
    outcomes[Field.DEATH.ordinal()] = dates(a.died(), b.died(), 0);
    outcomes[Field.BIRTH.ordinal()] = dates(a.born(), b.born(), 2);
    outcomes[Field.KIN.ordinal()] = kin(a, b);
    outcomes[Field.AS_KIN.ordinal()] = asKin(a, b);
    if (a.marker().isPresent() && b.marker().isPresent()) {
      boolean sameMarker = a.marker().equals(b.marker());
      outcomes[Field.MARKER.ordinal()] = sameMarker ? 0 : 1;
      outcomes[Field.PLACE.ordinal()] =
          sameMarker ? MISSING : place(a.marker().get(), b.marker().get());
    }
    outcomes[Field.FORM.ordinal()] = a.bearsInitialsAlone() != b.bearsInitialsAlone() ? 0 : 1;
    return new Compared(i, j, outcomes, sameByChance(a, b));
  }

  /** How common the names and initials that the two share are here; 0 where they share none. */
  private double[] sameByChance(Features a, Features b) {
    double[] byChance = new double[Field.values().length];
    byChance[Field.SURNAME.ordinal()] = share(surnames, a.surname());
    byChance[Field.GIVEN.ordinal()] = share(givens, String.join(" ", a.given()));
    if (!a.surname().isEmpty()) {
      byChance[Field.SURNAME_INITIAL.ordinal()] =
          share(surnameInitials, a.surname().substring(0, 1));
    }
    int shared = Math.min(a.initials().length(), b.initials().length());
    if (shared > 0) {
      byChance[Field.GIVEN_INITIALS.ordinal()] =
          share(givenInitials, a.initials().substring(0, shared));
    }
    return byChance;
  }

  private double share(Map<String, Integer> counts, String name) {
    return (counts.getOrDefault(name, 0) + NAME_COMMON * NAMES_HELD)
        / (features.size() + NAMES_HELD);
  }

  private static boolean bearsInitialsAlone(Mention mention) {
    String name = mention.name().given() + " " + mention.name().surname();
    boolean initials = name.strip().matches("(\\p{L}\\.? ?)+") && mention.number() == 1;
    return initials
        && !mention.isKinOnly()
        && mention.source().statements().stream()
            .filter(Statement::isFact)
            .allMatch(s -> s.kind() == Statement.Kind.NAME || s.value().matches("[0-9X]{4}"));
  }

  private static void surname(Features a, Features b, int[] outcomes) {
    String one = a.surname();
    String other = b.surname();
    if (isUnknown(one) || isUnknown(other)) {
      return;
    }
    if (one.length() == 1 || other.length() == 1) {
      outcomes[Field.SURNAME_INITIAL.ordinal()] = one.charAt(0) == other.charAt(0) ? 0 : 1;
      return;
    }
    boolean birthName = one.equals(b.birthSurname()) || other.equals(a.birthSurname());
    outcomes[Field.SURNAME.ordinal()] =
        one.equals(other) ? 0 : birthName || alike(one, other) ? 1 : 2;
  }

  private static boolean isUnknown(String folded) {
    return folded.replace("?", "").isEmpty();
  }

  private static boolean alike(String one, String other) {
    return Likeness.jaroWinkler(one, other) >= ALIKE;
  }

  private static void given(Features a, Features b, int[] outcomes) {
    List<String> one = a.given();
    List<String> other = b.given();
    if (one.isEmpty() || other.isEmpty()) {
      return;
    }
    int worst = 0;
    boolean initials = false;
    boolean initialsAgree = true;
    for (int k = 0; k < Math.min(one.size(), other.size()); k++) {
      if (one.get(k).length() == 1 || other.get(k).length() == 1) {
        initials = true;
        initialsAgree &= one.get(k).charAt(0) == other.get(k).charAt(0);
      } else {
        worst = Math.max(worst, givenOutcome(one.get(k), other.get(k)));
      }
    }
    if (initials) {
      outcomes[Field.GIVEN_INITIALS.ordinal()] = initialsAgree && worst < 3 ? 0 : 1;
    } else {
      outcomes[Field.GIVEN.ordinal()] = worst;
    }
  }

  private static int givenOutcome(String one, String other) {
    if (one.equals(other)) {
      return 0;
    }
    boolean shortForm =
        GivenNames.known().nicknamesOf(one).contains(other)
            || GivenNames.known().abbreviationsOf(one).contains(other);
    return shortForm ? 1 : alike(one, other) ? 2 : 3;
  }

  private static List<String> words(String given) {
    return Arrays.stream(given.split("[ .]+", -1))
        .map(NameForms::fold)
        .filter(word -> !word.isEmpty())
        .toList();
  }

  /** Both known to {@code closeYears} and the same; or they may be the same; or they can't. */
  private static int dates(Optional<Day[]> one, Optional<Day[]> other, int closeYears) {
    if (one.isEmpty() || other.isEmpty()) {
      return MISSING;
    }
    Day[] a = one.get();
    Day[] b = other.get();
    boolean meet = a[0].compareTo(b[1]) <= 0 && b[0].compareTo(a[1]) <= 0;
    if (!meet) {
      return 2;
    }
    boolean close =
        closeYears == 0
            ? a[0].equals(a[1]) && b[0].equals(b[1])
            : a[1].year() - a[0].year() <= closeYears && b[1].year() - b[0].year() <= closeYears;
    return close ? 0 : 1;
  }

  /** Whether they have a relative in common, or relatives of one sort with other names. */
  private static int kin(Features a, Features b) {
    int outcome = MISSING;
    if (a.isKinOnly() != b.isKinOnly()) {
      return outcome;
    }
    for (Mention.Kin one : a.kin()) {
      for (Mention.Kin other : b.kin()) {
        if (one.relation().equals(other.relation()) && !one.relation().equals("other")) {
          boolean same = sameName(one.name(), other.name());
          if (same) {
            return 0;
          }
          outcome = one.relation().equals("child") ? outcome : 1;
        }
      }
    }
    return outcome;
  }

  /**
   * For somebody who is named as kin of a person: whether the other mention has a relative of the
   * fitting sort who bears that person's name. A mother of nine may be named with one of them.
   */
  private static int asKin(Features a, Features b) {
    if (a.isKinOnly() == b.isKinOnly()) {
      return MISSING;
    }
    Features kinOnly = a.isKinOnly() ? a : b;
    Features own = a.isKinOnly() ? b : a;
    if (own.kin().isEmpty()) {
      return MISSING;
    }
    for (Mention.Kin one : kinOnly.kin()) {
      for (Mention.Kin other : own.kin()) {
        if (one.relation().equals(other.relation()) && sameName(one.name(), other.name())) {
          return 0;
        }
      }
    }
    return 1;
  }

  private static boolean sameName(String one, String other) {
    String[] a = one.split("\\|", -1);
    String[] b = other.split("\\|", -1);
    List<String> givenA = words(a[0]);
    List<String> givenB = words(b[0]);
    if (givenA.isEmpty() || givenB.isEmpty()) {
      return false;
    }
    String first = givenA.get(0);
    String second = givenB.get(0);
    boolean given =
        first.length() == 1 || second.length() == 1
            ? first.charAt(0) == second.charAt(0)
            : givenOutcome(first, second) < 3;
    String surnameA = NameForms.fold(a[1]);
    String surnameB = NameForms.fold(b[1]);
    return given
        && (surnameA.isEmpty()
            || surnameB.isEmpty()
            || surnameA.equals(surnameB)
            || alike(surnameA, surnameB));
  }

  private int place(MarkerId a, MarkerId b) {
    Position one = places.get(a);
    Position other = places.get(b);
    if (one == null || other == null) {
      return MISSING;
    }
    double metres = one.metresTo(other);
    return metres <= NEAR_METRES ? 0 : metres <= FAR_METRES ? 1 : 2;
  }
}
