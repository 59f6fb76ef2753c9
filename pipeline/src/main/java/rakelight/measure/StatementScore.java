package rakelight.measure;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import rakelight.measure.KnownStone.Fact;
import rakelight.measure.KnownStone.Kind;
import rakelight.measure.KnownStone.Person;
import rakelight.measure.KnownStone.Role;
import rakelight.person.Detail;
import rakelight.person.KinAgreement;
import rakelight.person.Statement;
import rakelight.person.Statements;

/**
 * What statements get right of inscriptions whose sense is known.
 *
 * <p>First each person said is given at most one known person, so that as much as possible agrees:
 * they share a word of the given name, or, where either has none, the surname or a date, age or
 * kinship. Where the surnames differ, something else must agree. A person said to whom nobody
 * answers is a <em>phantom</em>. Then each thing said of a person is held against what is known of
 * the one given to him ({@link Sameness}); what isn't right and yet is known of somebody else on
 * the stone is <em>on a wrong person</em>. A thing said twice counts once. A name of somebody only
 * named as kin or mourner may be said and needn't.
 */
public final class StatementScore {
  /**
   * How one kind fares.
   *
   * @param kind empty for all of them together
   * @param known how many there are
   * @param said how many were said, without those that may be said and needn't
   * @param right how many of these are right
   */
  public record Row(Optional<Kind> kind, int known, int said, int right) {
    /** Share of what was said that is right; NaN where nothing was. */
    public double precision() {
      return said == 0 ? Double.NaN : (double) right / said;
    }

    /** Share of what is known that was said; NaN where nothing is. */
    public double recall() {
      return known == 0 ? Double.NaN : (double) right / known;
    }
  }

  // Likeness of a person said to a known one; only their order matters (our choice).
  private static final int GIVEN = 100;
  private static final int SHARES_GIVEN = 40;
  private static final int SURNAME = 30;
  private static final int NOTHING_BUT_SURNAME = 60;
  private static final int FACT = 10;

  /** Bars of the calibration; the error depends on how many there are. */
  public static final int BINS = 10;

  private static final String NOBODY = "nobody";

  private final Map<Kind, int[]> counts = new EnumMap<>(Kind.class);
  private final List<String> faults = new ArrayList<>();
  private final Calibration odds = new Calibration(BINS);
  private int stones;
  private int whollyRight;
  private int persons;
  private int personsFound;
  private int phantoms;
  private int onWrongPerson;

  /** Reads a stone by the rules as they are, and counts. */
  public void add(KnownStone stone) {
    add(stone, Statements.of(stone.inscription(), stone.calendar()));
  }

  /** Counts what these statements get right of the stone. */
  public void add(KnownStone stone, List<Statement> statements) {
    new OneStone(stone, statements).count();
  }

  /** How each kind fares, those neither known nor said left out. */
  public List<Row> rows() {
    return counts.entrySet().stream()
        .map(
            e ->
                new Row(Optional.of(e.getKey()), e.getValue()[0], e.getValue()[1], e.getValue()[2]))
        .filter(row -> row.known() + row.said() > 0)
        .toList();
  }

  /** Everything said of persons, and makers, together: neither verse nor contradictions. */
  public Row together() {
    int[] sum = new int[3];
    counts.forEach(
        (kind, count) -> {
          if (kind != Kind.VERSE && kind != Kind.CONTRADICTION) {
            for (int i = 0; i < sum.length; i++) {
              sum[i] += count[i];
            }
          }
        });
    return new Row(Optional.empty(), sum[0], sum[1], sum[2]);
  }

  /** Stones counted. */
  public int stones() {
    return stones;
  }

  /** Stones of which everything was said and nothing else. */
  public int whollyRight() {
    return whollyRight;
  }

  /** Persons commemorated. */
  public int persons() {
    return persons;
  }

  /** Those of them to whom a person said answers. */
  public int personsFound() {
    return personsFound;
  }

  /** Persons said whom nobody on the stone answers. */
  public int phantoms() {
    return phantoms;
  }

  /** Things said of one person that are known of another on the stone. */
  public int onWrongPerson() {
    return onWrongPerson;
  }

  /** The odds of what was said as fact of persons and makers, and whether it was right. */
  public Calibration odds() {
    return odds;
  }

  /** Everything that isn't right, in words, stone by stone. */
  public List<String> faults() {
    return List.copyOf(faults);
  }

  /** How many are known, said and right. */
  private int[] tally(Kind kind) {
    return counts.computeIfAbsent(kind, k -> new int[3]);
  }

  /** A stone while it is looked at. */
  private final class OneStone {
    private final KnownStone stone;
    private final List<Statement> statements;
    private final Map<Integer, List<SaidFact>> said = new TreeMap<>();
    private final Map<Integer, String> answers = new HashMap<>();
    private final Set<String> named = new HashSet<>();
    // Equal facts of two persons are two facts.
    private final Set<Fact> claimed = Collections.newSetFromMap(new IdentityHashMap<>());
    private boolean faultless = true;

    OneStone(KnownStone stone, List<Statement> statements) {
      this.stone = stone;
      this.statements = statements;
      for (Statement statement : statements) {
        SaidFact.of(statement)
            .forEach(fact -> said.computeIfAbsent(fact.person(), p -> new ArrayList<>()).add(fact));
      }
    }

    void count() {
      stones++;
      answer();
      said.forEach((number, facts) -> facts.forEach(fact -> weigh(number, fact)));
      stone.persons().forEach(this::ranksInTitles);
      stone.persons().forEach(this::missing);
      stone.makers().forEach(maker -> missing("maker", maker));
      verse();
      contradiction();
      whollyRight += faultless ? 1 : 0;
    }

    private void answer() {
      List<Integer> numbers = said.keySet().stream().filter(number -> number > 0).toList();
      List<String> keys = List.copyOf(stone.persons().keySet());
      double[][] cost = new double[numbers.size()][keys.size() + numbers.size()];
      for (int row = 0; row < numbers.size(); row++) {
        for (int column = 0; column < keys.size(); column++) {
          cost[row][column] = -likeness(numbers.get(row), keys.get(column));
        }
      }
      int[] columns = Assignment.columns(cost);
      for (int row = 0; row < columns.length; row++) {
        if (columns[row] < keys.size() && cost[row][columns[row]] < 0) {
          answers.put(numbers.get(row), keys.get(columns[row]));
        } else {
          phantoms++;
          fault("nobody is " + inWords(numbers.get(row)));
        }
      }
    }

    private int likeness(int number, String key) {
      Person known = known(key);
      int agreeing = (int) facts(number).filter(fact -> agrees(fact, key)).count();
      boolean knownGiven = known.given().stream().anyMatch(given -> !given.isEmpty());
      List<Detail.Name> names = names(number).toList();
      List<Detail.Name> withGiven = names.stream().filter(n -> !n.given().isEmpty()).toList();
      boolean surname =
          names.stream()
              .anyMatch(
                  n ->
                      !n.surname().isEmpty()
                          && (Sameness.name(n.surname(), known.surname())
                              || Sameness.name(n.surname(), known.maiden())));
      int score = agreeing * FACT + (known.role() == Role.COMMEMORATED ? 1 : 0);
      if (knownGiven && !withGiven.isEmpty()) {
        if (withGiven.stream().noneMatch(n -> Sameness.sharesGiven(n.given(), known.given()))) {
          return 0;
        }
        boolean differ =
            !surname
                && !known.surname().isEmpty()
                && !known.surname().contains("")
                && withGiven.stream().noneMatch(n -> n.surname().isEmpty());
        if (differ && agreeing == 0) {
          return 0;
        }
        boolean whole = withGiven.stream().anyMatch(n -> Sameness.name(n.given(), known.given()));
        return score + (whole ? GIVEN : SHARES_GIVEN) + (surname ? SURNAME : 0);
      }
      if (!knownGiven && withGiven.isEmpty() && surname) {
        return score + NOTHING_BUT_SURNAME;
      }
      return agreeing == 0 ? 0 : score;
    }

    /** Whether a date, an age or a kinship said is known of the person, whoever the sayer meant. */
    private boolean agrees(SaidFact fact, String key) {
      return switch (fact.kind()) {
        case BIRTH, MARRIAGE, DEATH, BURIAL, AGE -> find(fact, key).isPresent();
        case KIN -> fact.name().isPresent() && find(fact, key).isPresent();
        default -> false;
      };
    }

    private void weigh(int number, SaidFact fact) {
      if (fact.kind() == Kind.MAKER) {
        claim(
            fact,
            "maker",
            stone.makers().stream().filter(m -> Sameness.value(fact, m)).findFirst());
        return;
      }
      Optional<String> key = Optional.ofNullable(answers.get(number));
      if (fact.kind() == Kind.NAME) {
        weighName(fact, key);
        return;
      }
      if (fact.kind() == Kind.KIN && namedToo(fact)) {
        return;
      }
      Optional<Fact> found = key.flatMap(one -> find(fact, one));
      claim(fact, key.orElse(NOBODY), found);
      if (found.isEmpty()
          && fact.kind() != Kind.MAIDEN
          && stone.persons().keySet().stream()
              .filter(other -> !key.equals(Optional.of(other)))
              .anyMatch(other -> find(fact, other).isPresent())) {
        onWrongPerson++;
        fault("on a wrong person, " + inWords(number) + ": " + inWords(fact));
      }
    }

    private void weighName(SaidFact fact, Optional<String> key) {
      Detail.Name name = fact.name().orElseThrow();
      if (name.given().isEmpty() && name.surname().isEmpty()) {
        return;
      }
      Optional<String> right = key.filter(one -> Sameness.named(name, known(one)));
      if (right.isEmpty()) {
        weighed(fact, false);
        fault("said of " + key.orElse(NOBODY) + ": " + inWords(fact));
      } else if (known(right.get()).role() == Role.COMMEMORATED && named.add(right.get())) {
        weighed(fact, true);
      }
    }

    private void weighed(SaidFact fact, boolean right) {
      int[] of = tally(fact.kind());
      of[1]++;
      of[2] += right ? 1 : 0;
      odds.add(fact.statement().odds(), right);
    }

    private void claim(SaidFact fact, String whom, Optional<Fact> found) {
      if (found.isEmpty()) {
        weighed(fact, false);
        fault("said of " + whom + ": " + inWords(fact));
      } else if (!found.get().optional() && claimed.add(found.get())) {
        weighed(fact, true);
      }
    }

    /** Kinship to a number whose name the same words hold is said by that name. */
    private boolean namedToo(SaidFact fact) {
      return fact.of() > 0
          && fact.statement().detail(Detail.Kinship.class).orElseThrow().names().stream()
              .map(name -> name.split("\\|", -1)[0])
              .anyMatch(
                  given ->
                      names(fact.of())
                          .anyMatch(n -> Sameness.fold(n.given()).equals(Sameness.fold(given))));
    }

    /** What is known of a person that is the same, those not yet said first. */
    private Optional<Fact> find(SaidFact fact, String key) {
      List<Fact> same =
          switch (fact.kind()) {
            case KIN -> kin(fact, key);
            case MAIDEN ->
                known(key).maiden().isEmpty()
                    ? List.of()
                    : Stream.of(maiden(key)).filter(m -> Sameness.value(fact, m)).toList();
            default -> known(key).facts().stream().filter(f -> Sameness.value(fact, f)).toList();
          };
      return same.stream()
          .filter(one -> !one.optional() && !claimed.contains(one))
          .findFirst()
          .or(() -> same.stream().findFirst());
    }

    private List<Fact> kin(SaidFact fact, String key) {
      List<Fact> same = new ArrayList<>();
      for (Fact known : known(key).facts()) {
        if (known.kind() == Kind.KIN
            && Sameness.relation(fact.value(), known.values())
            && isOther(fact, known.of())) {
          same.add(known);
        }
      }
      stone
          .persons()
          .forEach(
              (other, person) -> {
                for (Fact known : person.facts()) {
                  if (known.kind() == Kind.KIN
                      && known.of().equals(key)
                      && Sameness.inverse(fact.value(), known.values())
                      && isOther(fact, other)) {
                    same.add(known);
                  }
                }
              });
      return same;
    }

    private boolean isOther(SaidFact fact, String key) {
      return fact.name().isPresent()
          ? Sameness.mayBeNamed(fact.name().get(), known(key))
          : key.equals(answers.get(fact.of()));
    }

    /** A rank carved as a title counts, whether it is said as service or as a title. */
    private void ranksInTitles(String key, Person person) {
      for (Fact rank : person.facts()) {
        if (rank.kind() == Kind.RANK
            && !claimed.contains(rank)
            && answers.entrySet().stream()
                .filter(answer -> answer.getValue().equals(key))
                .flatMap(answer -> names(answer.getKey()))
                .flatMap(name -> name.titles().stream())
                .anyMatch(title -> Sameness.name(title, rank.values()))
            && !rank.optional()) {
          claimed.add(rank);
          tally(Kind.RANK)[1]++;
          tally(Kind.RANK)[2]++;
        }
      }
    }

    private void missing(String key, Person person) {
      boolean hasName =
          Stream.concat(person.given().stream(), person.surname().stream())
              .anyMatch(part -> !part.isEmpty());
      if (person.role() == Role.COMMEMORATED) {
        persons++;
        personsFound += answers.containsValue(key) ? 1 : 0;
        if (hasName) {
          tally(Kind.NAME)[0]++;
          if (!named.contains(key)) {
            fault("not said of " + key + ": name " + person.given() + " " + person.surname());
          }
        }
      }
      if (!person.maiden().isEmpty()) {
        missing(key, maiden(key));
      }
      person.facts().forEach(fact -> missing(key, fact));
    }

    private void missing(String key, Fact fact) {
      if (fact.optional()) {
        return;
      }
      tally(fact.kind())[0]++;
      if (!claimed.contains(fact)) {
        fault(
            "not said of "
                + key
                + ": "
                + word(fact.kind())
                + " "
                + String.join(" / ", fact.values())
                + (fact.of().isEmpty() ? "" : " of " + fact.of()));
      }
    }

    private void verse() {
      Set<Integer> lines = new TreeSet<>();
      for (Statement statement : statements) {
        if (statement.kind() == Statement.Kind.VERSE
            || statement.kind() == Statement.Kind.SCRIPTURE) {
          for (int line = statement.firstLine(); line <= statement.lastLine(); line++) {
            lines.add(line);
          }
        }
      }
      int[] of = tally(Kind.VERSE);
      of[0] += stone.verse().size();
      for (int line : lines) {
        if (stone.verse().contains(line)) {
          of[1]++;
          of[2]++;
        } else if (!stone.either().contains(line)) {
          of[1]++;
          fault("no verse: line " + line);
        }
      }
      stone.verse().stream()
          .filter(line -> !lines.contains(line))
          .forEach(line -> fault("not said to be verse: line " + line));
    }

    private void contradiction() {
      boolean found =
          KinAgreement.of(statements).stream().anyMatch(KinAgreement.Finding::contradiction);
      int[] of = tally(Kind.CONTRADICTION);
      of[0] += stone.contradicts() ? 1 : 0;
      of[1] += found ? 1 : 0;
      of[2] += found && stone.contradicts() ? 1 : 0;
      if (found != stone.contradicts()) {
        fault(found ? "said to contradict itself" : "not said to contradict itself");
      }
    }

    private final Map<String, Fact> maidens = new HashMap<>();

    private Fact maiden(String key) {
      return maidens.computeIfAbsent(
          key,
          k -> {
            List<String> maiden = known(k).maiden();
            return new Fact(Kind.MAIDEN, maiden, "", maiden.contains(""), false);
          });
    }

    private Person known(String key) {
      return Optional.ofNullable(stone.persons().get(key)).orElseThrow();
    }

    private Stream<SaidFact> facts(int number) {
      return said.getOrDefault(number, List.of()).stream();
    }

    private Stream<Detail.Name> names(int number) {
      return facts(number)
          .filter(fact -> fact.kind() == Kind.NAME)
          .flatMap(fact -> fact.name().stream());
    }

    private String inWords(int number) {
      return number
          + " "
          + names(number).findFirst().map(n -> n.given() + " " + n.surname()).orElse("(no name)");
    }

    private String inWords(SaidFact fact) {
      String of =
          fact.kind() != Kind.KIN
              ? ""
              : " of "
                  + fact.name()
                      .map(n -> n.given() + " " + n.surname())
                      .orElse(Integer.toString(fact.of()));
      return word(fact.kind()) + " " + fact.value() + of;
    }

    private static String word(Kind kind) {
      return kind.name().toLowerCase(Locale.ROOT);
    }

    private void fault(String words) {
      faultless = false;
      faults.add(stone.id() + ": " + words);
    }
  }
}
