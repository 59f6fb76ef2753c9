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
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.names.GivenNames;
import rakelight.names.Likeness;
import rakelight.names.NameForms;
import rakelight.names.SoundCodes;
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
 * <p>It only proposes. On a small ground all pairs are compared. From some 600 mentions on only
 * those are whose names may agree and who have something besides in common (see {@link
 * Candidates}); the others count as no matches, and u is counted over a sample. What it gives
 * depends on nothing but what it is given, so that one state of the journal always has one answer.
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

  /** Somebody's kin, with his name made ready. */
  private record Relative(String relation, List<String> given, String surname) {
    static Relative of(Mention.Kin kin) {
      String[] parts = kin.name().split("\\|", -1);
      return new Relative(kin.relation(), words(parts[0]), NameForms.fold(parts[1]));
    }
  }

  /** What is compared of a mention or a person sought, made ready once. */
  private record Features(
      Optional<FaceId> face,
      Optional<MarkerId> marker,
      boolean isKinOnly,
      List<Relative> kin,
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
          mention.kin().stream().map(Relative::of).toList(),
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

  /**
   * How pairs come out that the model can't tell apart.
   *
   * @param outcomes of the fields, three bits each: 0 where a field is missing, else 1 and the
   *     outcome
   * @param surnameByChance how common the surname, or its initial, is that the two share; 0 where
   *     they share none
   * @param givenByChance the same for the given name, or the initials
   */
  private record Pattern(long outcomes, double surnameByChance, double givenByChance) {
    private static final int BITS = 3;

    int outcome(Field field) {
      return (int) (outcomes >>> BITS * field.ordinal() & (1 << BITS) - 1) - 1;
    }

    /** How often this outcome of a field comes up among any two. */
    double byChance(Field field, int outcome, double[][] u) {
      double ofThisName =
          outcome > 0
              ? 0
              : switch (field) {
                case SURNAME, SURNAME_INITIAL -> surnameByChance;
                case GIVEN, GIVEN_INITIALS -> givenByChance;
                default -> 0;
              };
      return ofThisName > 0 ? ofThisName : u[field.ordinal()][outcome];
    }
  }

  /** Compared pairs, by the places of their two in the list, gathered by pattern. */
  private static final class Compared {
    private final List<Pattern> patterns = new ArrayList<>();
    private final Map<Pattern, Integer> numbers = new HashMap<>();
    private int[] pairs = new int[3 * 1024];
    private int size;
    private int[] counts = new int[1024];

    void add(int one, int other, Pattern pattern) {
      int number = numbers.computeIfAbsent(pattern, p -> numbers.size());
      if (number == patterns.size()) {
        patterns.add(pattern);
      }
      if (number >= counts.length) {
        counts = Arrays.copyOf(counts, 2 * counts.length);
      }
      counts[number]++;
      if (3 * size == pairs.length) {
        pairs = Arrays.copyOf(pairs, 2 * pairs.length);
      }
      pairs[3 * size] = one;
      pairs[3 * size + 1] = other;
      pairs[3 * size + 2] = number;
      size++;
    }
  }

  /** A pair by the places of its two in the list, with what the model makes of it. */
  private record Scored(int one, int other, Weighed weighed) {}

  /** What the model makes of a pattern. */
  private record Weighed(double bits, double probability, List<Reason> reasons) {}

  /**
   * Every pair that is at least as likely as {@link #PROPOSED}, the likeliest first.
   *
   * @param places where markers stand, as far as known
   */
  public static List<Pair> propose(List<Mention> mentions, Map<MarkerId, Position> places) {
    List<Features> features = mentions.stream().map(Features::of).toList();
    int[] named = indices(0, features.size(), i -> features.get(i).isNamed());
    Candidates candidates =
        new Candidates(
            features,
            places,
            named,
            named,
            pairs(features, named),
            (i, j) -> i < j && !features.get(i).face().equals(features.get(j).face()));
    double partners = WITH_PARTNER * mentions.size() / 2;
    return new Linkage(features, places)
        .score(candidates, partners).stream()
            .map(
                s ->
                    new Pair(
                        mentions.get(s.one()),
                        mentions.get(s.other()),
                        s.weighed().bits(),
                        s.weighed().probability(),
                        s.weighed().reasons()))
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
    int[] named =
        indices(
            sought.size(),
            features.size(),
            j -> !features.get(j).isKinOnly() && features.get(j).isNamed());
    Candidates candidates =
        new Candidates(
            features,
            Map.of(),
            indices(0, sought.size(), i -> true),
            named,
            (long) sought.size() * named.length,
            (i, j) -> true);
    return new Linkage(features, Map.of())
        .score(candidates, WITH_PARTNER * sought.size()).stream()
            .map(
                s ->
                    new Match(
                        sought.get(s.one()),
                        mentions.get(s.other() - sought.size()),
                        s.weighed().probability(),
                        s.weighed().reasons()))
            .sorted(
                Comparator.comparingDouble(Match::probability)
                    .reversed()
                    .thenComparing(m -> m.mention().label()))
            .toList();
  }

  private static int[] indices(int from, int to, IntPredicate which) {
    return IntStream.range(from, to).filter(which).toArray();
  }

  /** How many pairs there are on different faces. */
  private static long pairs(List<Features> features, int[] named) {
    Map<Optional<FaceId>, Integer> onFace = new HashMap<>();
    for (int i : named) {
      onFace.merge(features.get(i).face(), 1, Integer::sum);
    }
    long onOneFace = onFace.values().stream().mapToLong(n -> n * (n - 1L) / 2).sum();
    return named.length * (named.length - 1L) / 2 - onOneFace;
  }

  /** Whether a pair may be compared at all. */
  private interface Comparability {
    boolean test(int i, int j);
  }

  /** Takes a pair by the places of its two in the list. */
  private interface Taker {
    void take(int i, int j);
  }

  /**
   * Which pairs to look at: all of them up to {@value #MOST}. Of more, those whose names may agree
   * (the first letters of surnames are the same or one is missing, and so with given names, or one
   * is a short form of the other) and who have besides one of these in common: the sound of the
   * surname, the marker, a place within some steps, the day of death.
   */
  private static final class Candidates {
    private static final int MOST = 200_000;
    private static final long SEED = 1969;
    private static final double METRES_PER_DEGREE = 111_195;

    private final List<Features> features;
    private final Map<MarkerId, Position> places;
    private final int[] ones;
    private final int[] others;
    private final Comparability comparable;
    private final Map<List<String>, Boolean> givenMayAgree = new HashMap<>();

    /** How many pairs may be compared. */
    private final long all;

    Candidates(
        List<Features> features,
        Map<MarkerId, Position> places,
        int[] ones,
        int[] others,
        long all,
        Comparability comparable) {
      this.features = features;
      this.places = places;
      this.ones = ones;
      this.others = others;
      this.all = all;
      this.comparable = comparable;
    }

    /** The pairs to score. */
    void scored(Taker taker) {
      if (isWhole()) {
        every(taker);
        return;
      }
      double southernmost =
          places.values().stream().mapToDouble(Position::latitudeDegrees).min().orElse(0);
      double metresEast = METRES_PER_DEGREE * Math.cos(Math.toRadians(southernmost));
      Map<Object, List<Integer>> blocks = new HashMap<>();
      for (int j : others) {
        keys(j, metresEast, 0)
            .forEach(key -> blocks.computeIfAbsent(key, k -> new ArrayList<>()).add(j));
      }
      int[] seenWith = new int[features.size()];
      Arrays.fill(seenWith, -1);
      for (int i : ones) {
        for (Object key : keys(i, metresEast, 1)) {
          for (int j : blocks.getOrDefault(key, List.of())) {
            if (seenWith[j] != i && comparable.test(i, j)) {
              seenWith[j] = i;
              if (mayAgree(features.get(i), features.get(j))) {
                taker.take(i, j);
              }
            }
          }
        }
      }
    }

    /** The pairs to count u over: all of them, or some drawn from all. */
    void sample(Taker taker) {
      if (isWhole()) {
        every(taker);
        return;
      }
      Random random = new Random(SEED);
      for (int drawn = 0; drawn < MOST; ) {
        int i = ones[random.nextInt(ones.length)];
        int j = others[random.nextInt(others.length)];
        if (comparable.test(i, j)) {
          taker.take(i, j);
          drawn++;
        }
      }
    }

    /** Whether all pairs are both the sample and scored. */
    private boolean isWhole() {
      return all <= MOST;
    }

    private void every(Taker taker) {
      for (int i : ones) {
        for (int j : others) {
          if (comparable.test(i, j)) {
            taker.take(i, j);
          }
        }
      }
    }

    private record Cell(long north, long east) {}

    /**
     * What somebody is looked for by.
     *
     * @param around how many cells to each side of his own to look in
     */
    private List<Object> keys(int i, double metresEast, int around) {
      Features own = features.get(i);
      List<Object> keys = new ArrayList<>();
      if (own.surname().length() > 1) {
        String sound = SoundCodes.soundex(own.surname());
        keys.add("sounds " + (sound.isEmpty() ? own.surname() : sound));
      }
      own.died()
          .filter(days -> days[0].equals(days[1]))
          .ifPresent(days -> keys.add("died " + days[0]));
      own.marker().ifPresent(keys::add);
      own.marker()
          .flatMap(marker -> Optional.ofNullable(places.get(marker)))
          .ifPresent(
              place -> {
                long north =
                    (long) Math.floor(place.latitudeDegrees() * METRES_PER_DEGREE / FAR_METRES);
                long east = (long) Math.floor(place.longitudeDegrees() * metresEast / FAR_METRES);
                for (int y = -around; y <= around; y++) {
                  for (int x = -around; x <= around; x++) {
                    keys.add(new Cell(north + y, east + x));
                  }
                }
              });
      return keys;
    }

    private boolean mayAgree(Features a, Features b) {
      boolean surname =
          a.surname().isEmpty()
              || b.surname().isEmpty()
              || a.surname().charAt(0) == b.surname().charAt(0);
      return surname
          && (a.given().isEmpty()
              || b.given().isEmpty()
              || a.initials().charAt(0) == b.initials().charAt(0)
              || givenMayAgree.computeIfAbsent(
                  List.of(a.given().get(0), b.given().get(0)),
                  two -> givenOutcome(two.get(0), two.get(1)) < 3));
    }
  }

  /**
   * @param partners how many of the candidates are taken to be matches, to begin with
   */
  private List<Scored> score(Candidates candidates, double partners) {
    double[][] u = u(candidates);
    double[][] m = new double[Field.values().length][];
    for (Field field : Field.values()) {
      m[field.ordinal()] = field.m.clone();
    }
    Compared compared = new Compared();
    candidates.scored((i, j) -> compared.add(i, j, compare(i, j)));
    double share = Math.min(0.1, partners / Math.max(1, (double) candidates.all));
    for (int round = 0; round < ROUNDS; round++) {
      share = maximise(compared, candidates.all, m, u, share);
    }
    List<Optional<Weighed>> weighed = new ArrayList<>();
    for (Pattern pattern : compared.patterns) {
      double probability = probability(pattern, m, u, share);
      weighed.add(
          probability >= PROPOSED
              ? Optional.of(weighed(pattern, m, u, probability))
              : Optional.empty());
    }
    List<Scored> scored = new ArrayList<>();
    for (int pair = 0; pair < compared.size; pair++) {
      int one = compared.pairs[3 * pair];
      int other = compared.pairs[3 * pair + 1];
      weighed
          .get(compared.pairs[3 * pair + 2])
          .ifPresent(weight -> scored.add(new Scored(one, other, weight)));
    }
    return scored;
  }

  private double[][] u(Candidates candidates) {
    double[][] counts = new double[Field.values().length][];
    for (Field field : Field.values()) {
      counts[field.ordinal()] = Arrays.stream(field.u).map(p -> p * HELD).toArray();
    }
    candidates.sample(
        (i, j) -> {
          Pattern pattern = compare(i, j);
          for (Field field : Field.values()) {
            int outcome = pattern.outcome(field);
            if (outcome != MISSING) {
              counts[field.ordinal()][outcome]++;
            }
          }
        });
    return shares(counts);
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

  /** One round: how likely each pair is a match, then m and the share of matches anew. */
  private static double maximise(
      Compared compared, long pairs, double[][] m, double[][] u, double share) {
    double[][] counts = new double[m.length][];
    for (Field field : Field.values()) {
      counts[field.ordinal()] = Arrays.stream(field.m).map(p -> p * HELD).toArray();
    }
    double matches = share * HELD;
    for (int i = 0; i < compared.patterns.size(); i++) {
      Pattern pattern = compared.patterns.get(i);
      double p = compared.counts[i] * probability(pattern, m, u, share);
      matches += p;
      for (Field field : Field.values()) {
        int outcome = pattern.outcome(field);
        if (outcome != MISSING) {
          counts[field.ordinal()][outcome] += p;
        }
      }
    }
    System.arraycopy(shares(counts), 0, m, 0, m.length);
    return matches / (pairs + HELD);
  }

  private static double probability(Pattern pattern, double[][] m, double[][] u, double share) {
    double ratio = share / (1 - share);
    for (Field field : Field.values()) {
      int outcome = pattern.outcome(field);
      if (outcome != MISSING) {
        ratio *= m[field.ordinal()][outcome] / pattern.byChance(field, outcome, u);
      }
    }
    return ratio / (1 + ratio);
  }

  /** The weight of an outcome: log2(m/u). */
  static double weight(double m, double u) {
    return Math.log(m / u) / Math.log(2);
  }

  private static Weighed weighed(Pattern pattern, double[][] m, double[][] u, double probability) {
    List<Reason> reasons = new ArrayList<>();
    double sum = 0;
    for (Field field : Field.values()) {
      int outcome = pattern.outcome(field);
      if (outcome != MISSING) {
        double bits = weight(m[field.ordinal()][outcome], pattern.byChance(field, outcome, u));
        sum += bits;
        reasons.add(new Reason(field, field.outcomes.get(outcome), bits));
      }
    }
    return new Weighed(sum, probability, reasons);
  }

  private Pattern compare(int i, int j) {
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
    long packed = 0;
    for (int field = 0; field < outcomes.length; field++) {
      packed |= (outcomes[field] + 1L) << Pattern.BITS * field;
    }
    return new Pattern(packed, surnameByChance(a, outcomes), givenByChance(a, b, outcomes));
  }

  /** How common the surname or initial that the two share is here; 0 where they share none. */
  private double surnameByChance(Features a, int[] outcomes) {
    if (outcomes[Field.SURNAME.ordinal()] == 0) {
      return share(surnames, a.surname());
    }
    return outcomes[Field.SURNAME_INITIAL.ordinal()] == 0
        ? share(surnameInitials, a.surname().substring(0, 1))
        : 0;
  }

  /** The same for the given name or the run of initials. */
  private double givenByChance(Features a, Features b, int[] outcomes) {
    if (outcomes[Field.GIVEN.ordinal()] == 0) {
      return share(givens, String.join(" ", a.given()));
    }
    int shared = Math.min(a.initials().length(), b.initials().length());
    return outcomes[Field.GIVEN_INITIALS.ordinal()] == 0
        ? share(givenInitials, a.initials().substring(0, shared))
        : 0;
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
    for (Relative one : a.kin()) {
      for (Relative other : b.kin()) {
        if (one.relation().equals(other.relation()) && !one.relation().equals("other")) {
          boolean same = sameName(one, other);
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
    for (Relative one : kinOnly.kin()) {
      for (Relative other : own.kin()) {
        if (one.relation().equals(other.relation()) && sameName(one, other)) {
          return 0;
        }
      }
    }
    return 1;
  }

  private static boolean sameName(Relative one, Relative other) {
    if (one.given().isEmpty() || other.given().isEmpty()) {
      return false;
    }
    String first = one.given().get(0);
    String second = other.given().get(0);
    boolean given =
        first.length() == 1 || second.length() == 1
            ? first.charAt(0) == second.charAt(0)
            : givenOutcome(first, second) < 3;
    String surnameA = one.surname();
    String surnameB = other.surname();
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
