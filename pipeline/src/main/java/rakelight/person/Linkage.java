package rakelight.person;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
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
 * <p>It only proposes. Work grows with the square of the number of mentions.
 */
public final class Linkage {
  /** Pairs at least this likely are proposed. */
  public static final double PROPOSED = 0.3;

  /** How many made-up pairs the stated values of m count as. */
  private static final double HELD = 30;

  private static final double SMOOTHING = 0.5;

  /** How many of the mentions are taken to have a partner, to begin with. */
  private static final double WITH_PARTNER = 0.5;

  private static final int ROUNDS = 40;
  private static final double ALIKE = 0.92;
  private static final double NEAR_METRES = 10;
  private static final double FAR_METRES = 25;

  /** What is compared, with the outcomes in order and what m is taken to be. */
  public enum Field {
    SURNAME("surname", List.of("same", "alike", "different"), 0.93, 0.04, 0.03),
    SURNAME_INITIAL("surname's initial", List.of("same", "different"), 0.97, 0.03),
    GIVEN(
        "given name",
        List.of("same", "a short form or pet name", "alike", "different"),
        0.80,
        0.13,
        0.05,
        0.02),
    GIVEN_INITIALS("initials", List.of("same", "different"), 0.97, 0.03),
    DEATH("death", List.of("same day", "may be the same", "different"), 0.62, 0.35, 0.03),
    BIRTH(
        "birth", List.of("within a year or two", "may be the same", "different"), 0.75, 0.20, 0.05),
    KIN("kin", List.of("same", "different"), 0.70, 0.30),
    AS_KIN("named as kin", List.of("of one who is the other's kin", "of somebody else"), 0.6, 0.4),
    MARKER("marker", List.of("the same", "another"), 0.40, 0.60),
    PLACE("place", List.of("close by", "not far", "elsewhere"), 0.70, 0.15, 0.15),
    FORM("form", List.of("one stone bears initials alone", "as usual"), 0.40, 0.60);

    private final String words;
    private final List<String> outcomes;
    private final double[] stated;

    Field(String words, List<String> outcomes, double... stated) {
      this.words = words;
      this.outcomes = outcomes;
      this.stated = stated;
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
      double odds = probability / Math.max(1e-12, 1 - probability);
      return odds >= 1
          ? (odds > 9999 ? "over 9999" : String.format(Locale.ROOT, "%.0f", odds)) + " to 1"
          : String.format(Locale.ROOT, "1 to %.0f", 1 / Math.max(1e-12, odds));
    }
  }

  private static final int MISSING = -1;

  /** What is compared of a mention, made ready once. */
  private record Features(
      Mention mention,
      String surname,
      String birthSurname,
      List<String> given,
      String initials,
      Optional<Day[]> died,
      Optional<Day[]> born,
      boolean bearsInitialsAlone) {
    static Features of(Mention mention) {
      List<String> given = words(mention.goesBy());
      StringBuilder initials = new StringBuilder();
      given.forEach(word -> initials.append(word.charAt(0)));
      return new Features(
          mention,
          NameForms.fold(mention.name().surname()),
          NameForms.fold(mention.name().birthSurname()),
          given,
          initials.toString(),
          mention.died(),
          mention.born(),
          Linkage.bearsInitialsAlone(mention));
    }
  }

  private final List<Mention> mentions;
  private final List<Features> features = new ArrayList<>();
  private final Map<MarkerId, Position> places;

  /** How many mentions bear a surname, a given name, an initial or a run of initials. */
  private final Map<String, Integer> surnames = new HashMap<>();

  private final Map<String, Integer> givens = new HashMap<>();
  private final Map<String, Integer> surnameInitials = new HashMap<>();
  private final Map<String, Integer> givenInitials = new HashMap<>();

  private Linkage(List<Mention> mentions, Map<MarkerId, Position> places) {
    this.mentions = mentions;
    this.places = places;
    for (Mention mention : mentions) {
      Features own = Features.of(mention);
      features.add(own);
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

  /**
   * Every pair that is at least as likely as {@link #PROPOSED}, the likeliest first.
   *
   * @param places where markers stand, as far as known
   */
  public static List<Pair> propose(List<Mention> mentions, Map<MarkerId, Position> places) {
    return new Linkage(mentions, places).pairs(PROPOSED);
  }

  private List<Pair> pairs(double least) {
    List<Compared> all = compareAll();
    double[][] u = u(all);
    double[][] m = new double[Field.values().length][];
    for (Field field : Field.values()) {
      m[field.ordinal()] = field.stated.clone();
    }
    double share =
        Math.min(0.1, WITH_PARTNER * mentions.size() / 2 / Math.max(1, (double) all.size()));
    for (int round = 0; round < ROUNDS; round++) {
      share = maximise(all, m, u, share);
    }
    List<Pair> pairs = new ArrayList<>();
    for (Compared pair : all) {
      double probability = probability(pair, m, u, share);
      if (probability >= least) {
        pairs.add(pair(pair, m, u, probability));
      }
    }
    pairs.sort(
        Comparator.comparingDouble(Pair::probability)
            .reversed()
            .thenComparing(p -> p.one().label())
            .thenComparing(p -> p.other().label()));
    return List.copyOf(pairs);
  }

  private List<Compared> compareAll() {
    List<Compared> all = new ArrayList<>();
    for (int i = 0; i < mentions.size(); i++) {
      for (int j = i + 1; j < mentions.size(); j++) {
        Mention a = mentions.get(i);
        Mention b = mentions.get(j);
        boolean sameFace = a.id().face().equals(b.id().face());
        if (!sameFace && a.isNamed() && b.isNamed()) {
          all.add(compare(i, j));
        }
      }
    }
    return all;
  }

  private double[][] u(List<Compared> all) {
    double[][] u = new double[Field.values().length][];
    for (Field field : Field.values()) {
      double[] counts = new double[field.outcomes.size()];
      Arrays.fill(counts, SMOOTHING);
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
  private static double maximise(List<Compared> all, double[][] m, double[][] u, double share) {
    double[][] counts = new double[m.length][];
    for (Field field : Field.values()) {
      counts[field.ordinal()] = Arrays.stream(field.stated).map(p -> p * HELD).toArray();
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
    return matches / (all.size() + HELD);
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

  private Pair pair(Compared compared, double[][] m, double[][] u, double probability) {
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
    return new Pair(
        mentions.get(compared.one()), mentions.get(compared.other()), sum, probability, reasons);
  }

  private Compared compare(int i, int j) {
    Features a = features.get(i);
    Features b = features.get(j);
    int[] outcomes = new int[Field.values().length];
    Arrays.fill(outcomes, MISSING);
    surname(a, b, outcomes);
    given(a, b, outcomes);
    MarkerId one = a.mention().source().marker().id();
    MarkerId other = b.mention().source().marker().id();
    outcomes[Field.DEATH.ordinal()] = dates(a.died(), b.died(), 0);
    outcomes[Field.BIRTH.ordinal()] = dates(a.born(), b.born(), 2);
    outcomes[Field.KIN.ordinal()] = kin(a.mention(), b.mention());
    outcomes[Field.AS_KIN.ordinal()] = asKin(a.mention(), b.mention());
    outcomes[Field.MARKER.ordinal()] = one.equals(other) ? 0 : 1;
    outcomes[Field.PLACE.ordinal()] = one.equals(other) ? MISSING : place(one, other);
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
    return (counts.getOrDefault(name, 0) + SMOOTHING) / (mentions.size() + 1);
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
  private static int kin(Mention a, Mention b) {
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
  private static int asKin(Mention a, Mention b) {
    if (a.isKinOnly() == b.isKinOnly()) {
      return MISSING;
    }
    Mention kinOnly = a.isKinOnly() ? a : b;
    Mention own = a.isKinOnly() ? b : a;
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
