package rakelight.person;

import static java.util.stream.Collectors.joining;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;
import rakelight.person.Statement.Kind;
import rakelight.person.StoneArithmetic.Figure;
import rakelight.person.StoneArithmetic.Life;

/**
 * Whether the dates and ages of the persons of a face agree, of each by himself ({@link
 * StoneArithmetic}) and with those of his kin, and what a worn figure must then be.
 *
 * <p>Between kin it only holds what can't be otherwise: a widow outlived her husband, a parent was
 * at least {@value #YOUNGEST_PARENT_YEARS} years old, a mother was alive at the birth and a father
 * within {@value #UNBORN_DAYS} days before it, of two burials in one grave that are numbered the
 * first came first. The age of the youngest parent is a choice, no source.
 */
public final class KinAgreement {
  static final int YOUNGEST_PARENT_YEARS = 12;
  static final int UNBORN_DAYS = 300;
  static final int MOST_RECKONED = 4;

  /** A figure that the reader marked as unclear is only spoken of where it can't be as read. */
  private static final double FAVOURED = 0.5;

  /**
   * A finding about one person of a face.
   *
   * @param contradiction whether the stone contradicts itself; else a worn figure is narrowed down
   * @param figure the figure narrowed down
   */
  public record Finding(int person, boolean contradiction, Optional<Figure> figure, String words) {}

  private final List<Statement> statements;
  private final Map<Integer, CarvedLife> stones = new TreeMap<>();
  private final Map<Integer, Map<Life, Double>> lives = new HashMap<>();
  private final Map<Integer, List<String>> beyond = new HashMap<>();
  private final List<Finding> findings = new ArrayList<>();

  private KinAgreement(List<Statement> statements) {
    this.statements = statements;
  }

  /** All findings, person by person. */
  public static List<Finding> of(List<Statement> statements) {
    KinAgreement agreement = new KinAgreement(statements);
    agreement.judgeDeaths();
    agreement.judgeEach();
    agreement.judgeKin();
    agreement.tellFigures();
    return List.copyOf(agreement.findings);
  }

  /**
   * What worn figures must be, as statements beside those read: of lost figures only, where at most
   * {@value #MOST_RECKONED} ways are left and fewer than before. Each says what it was reckoned
   * from.
   */
  static List<Statement> reckoned(List<Statement> statements) {
    if (statements.stream().noneMatch(s -> s.value().indexOf('X') >= 0)) {
      return List.of();
    }
    KinAgreement agreement = new KinAgreement(statements);
    agreement.judgeEach();
    agreement.judgeKin();
    agreement.tellFigures();
    List<Statement> reckoned = new ArrayList<>();
    for (Statement s : statements) {
      boolean lost = s.value().indexOf('X') >= 0 && s.persons().size() == 1;
      Map<Life, Double> left = agreement.lives.get(s.person());
      if (lost && left != null && agreement.only(s.person(), s.kind()).isPresent()) {
        agreement.reckon(s, left).ifPresent(reckoned::add);
      }
    }
    return reckoned;
  }

  private Optional<Statement> reckon(Statement read, Map<Life, Double> left) {
    Map<String, Double> values = new TreeMap<>();
    left.forEach(
        (life, weight) ->
            value(life, read.kind()).ifPresent(value -> values.merge(value, weight, Double::sum)));
    String by =
        findings.stream()
            .filter(f -> f.person() == read.person())
            .flatMap(f -> f.figure().stream())
            .filter(f -> isOf(f.number(), read.kind()))
            .map(Figure::by)
            .distinct()
            .collect(joining(" and "));
    if (values.isEmpty() || values.size() > MOST_RECKONED || by.isEmpty()) {
      return Optional.empty();
    }
    boolean age = read.kind() == Kind.AGE;
    if (age && values.size() > 1) {
      return Optional.empty();
    }
    String value =
        values.size() == 1
            ? values.keySet().iterator().next()
            : "[" + String.join(",", values.keySet()) + "]";
    return Optional.of(read.reckonedAs(value, by));
  }

  private static boolean isOf(StoneArithmetic.Number number, Kind kind) {
    return number.name().startsWith(kind.name());
  }

  private static Optional<String> value(Life life, Kind kind) {
    return switch (kind) {
      case BIRTH -> life.birth().map(KinAgreement::value);
      case DEATH -> life.death().map(KinAgreement::value);
      case AGE -> life.age().map(Object::toString);
      default -> Optional.empty();
    };
  }

  private static String value(CarvedLife.Filled date) {
    if (date.isDay()) {
      return date.from().toString();
    }
    return date.month() == 0
        ? String.format(Locale.ROOT, "%04d", date.year())
        : String.format(Locale.ROOT, "%04d-%02d", date.year(), date.month());
  }

  private void judgeEach() {
    int persons =
        statements.stream().flatMap(s -> s.persons().stream()).mapToInt(p -> p).max().orElse(0);
    for (int person = 1; person <= persons; person++) {
      CarvedLife stone = life(person);
      boolean tells = stone.birth().isPresent() || stone.death().isPresent();
      if (!tells || StoneArithmetic.isTooOpen(stone)) {
        continue;
      }
      Map<Life, Double> solved = StoneArithmetic.solve(stone);
      if (solved.isEmpty()) {
        findings.add(new Finding(person, true, Optional.empty(), contradiction(person, stone)));
      } else {
        stones.put(person, stone);
        lives.put(person, solved);
      }
    }
  }

  /** Two deaths of one person, and a death of which the face doesn't say whose it is. */
  private void judgeDeaths() {
    Map<Integer, List<String>> deaths = new TreeMap<>();
    for (Statement s : statements) {
      if (s.kind() == Kind.DEATH && !s.isReckoned()) {
        if (s.persons().isEmpty()) {
          findings.add(
              new Finding(
                  0, true, Optional.empty(), "“" + s.text() + "” is a death of nobody named"));
        }
        s.persons().forEach(p -> deaths.computeIfAbsent(p, n -> new ArrayList<>()).add(s.value()));
      } else if (s.kind() == Kind.VERSE && holdsNameAndDate(s)) {
        findings.add(
            new Finding(
                0,
                true,
                Optional.empty(),
                "verse that holds a name and a date: “" + s.text() + "”"));
      }
    }
    deaths.forEach(
        (person, values) -> {
          if (values.stream().anyMatch(v -> !areOne(v, values.get(0)))) {
            findings.add(
                new Finding(
                    person,
                    true,
                    Optional.empty(),
                    "two deaths are told of one person: " + String.join(" and ", values)));
          }
        });
  }

  /** Whether two dates are one, or one only says less than the other. */
  private static boolean areOne(String one, String other) {
    return one.startsWith(other) || other.startsWith(one);
  }

  private static boolean holdsNameAndDate(Statement verse) {
    List<String> words = List.of(verse.text().split("[ /]+", -1));
    return words.stream().anyMatch(w -> w.matches(".*\\b1[5-9][0-9]{2}\\b.*"))
        && words.stream()
            .anyMatch(
                w ->
                    !w.isEmpty()
                        && GivenNames.known().isKnown(NameForms.fold(w))
                        && w.length() > 2);
  }

  private String contradiction(int person, CarvedLife stone) {
    List<String> parts = new ArrayList<>();
    stone.birth().ifPresent(b -> parts.add("birth " + value(person, Kind.BIRTH)));
    stone.death().ifPresent(d -> parts.add("death " + value(person, Kind.DEATH)));
    stone.age().ifPresent(a -> parts.add("age " + value(person, Kind.AGE)));
    stone
        .weekday()
        .ifPresent(
            day ->
                parts.add(
                    "the "
                        + day.name().charAt(0)
                        + day.name().substring(1).toLowerCase(Locale.ROOT)));
    for (Kind kind : List.of(Kind.BIRTH, Kind.DEATH)) {
      Optional<CarvedLife.WornDate> date = kind == Kind.BIRTH ? stone.birth() : stone.death();
      if (date.filter(d -> d.readings().isEmpty()).isPresent()) {
        return only(person, kind).map(Statement::text).orElse("") + " is no day";
      }
    }
    if (parts.size() == 1) {
      return parts.get(0) + " is no day";
    }
    return String.join(", ", parts.subList(0, parts.size() - 1))
        + " and "
        + parts.get(parts.size() - 1)
        + " can't all be right";
  }

  /** What the stone gives of a person; nothing of a kind of which it gives two. */
  private CarvedLife life(int person) {
    Optional<Statement> birth = only(person, Kind.BIRTH);
    Optional<Statement> death = only(person, Kind.DEATH);
    Optional<Statement> age = only(person, Kind.AGE);
    return new CarvedLife(
        worn(birth),
        worn(death),
        age.flatMap(s -> s.detail(Detail.Aged.class)).map(Detail.Aged::worn),
        death.flatMap(s -> s.detail(Detail.Dated.class)).flatMap(Detail.Dated::weekday));
  }

  private static Optional<CarvedLife.WornDate> worn(Optional<Statement> date) {
    return date.filter(s -> s.supplied().isEmpty())
        .flatMap(s -> s.detail(Detail.Dated.class))
        .flatMap(Detail.Dated::worn);
  }

  private Optional<Statement> only(int person, Kind kind) {
    List<Statement> own =
        statements.stream()
            .filter(s -> s.kind() == kind && s.persons().contains(person) && !s.isReckoned())
            .toList();
    return own.size() == 1 ? Optional.of(own.get(0)) : Optional.empty();
  }

  private String value(int person, Kind kind) {
    return only(person, kind).map(Statement::valueInWords).orElse("");
  }

  /** Whether two lives may be those of two kin. */
  private interface Bond {
    boolean allows(Life first, Life second);
  }

  private void judgeKin() {
    for (Statement statement : statements) {
      Optional<Detail.Kinship> kin = statement.detail(Detail.Kinship.class);
      if (kin.isEmpty()) {
        continue;
      }
      for (int person : statement.persons()) {
        for (int other : kin.get().persons()) {
          bond(kin.get(), other, person);
        }
      }
    }
    List<Statement> numbered =
        statements.stream().filter(s -> s.kind() == Kind.ORDER && s.person() > 0).toList();
    for (Statement earlier : numbered) {
      for (Statement later : numbered) {
        if (earlier.value().compareTo(later.value()) < 0) {
          tie(earlier.person(), later.person(), KinAgreement::diedInOrder, "the order of burial");
        }
      }
    }
  }

  private void bond(Detail.Kinship kin, int other, int person) {
    if (other == person) {
      return;
    }
    if (kin.isSurvivor()) {
      tie(other, person, KinAgreement::diedInOrder, "the " + kin.relation() + "’s outliving");
    }
    if (kin.isMarriage()) {
      tie(other, person, KinAgreement::couldMarry, "the marriage");
    } else if (kin.isChild()) {
      tie(other, person, KinAgreement::couldBeParent, "the parent’s years");
    } else if (kin.isParent()) {
      tie(person, other, KinAgreement::couldBeParent, "the parent’s years");
    }
  }

  private static boolean diedInOrder(Life first, Life second) {
    return first.death().isEmpty()
        || second.death().isEmpty()
        || !first.death().get().from().isAfter(second.death().get().to());
  }

  private static boolean couldMarry(Life first, Life second) {
    return outlivedChildhoodOf(first, second) && outlivedChildhoodOf(second, first);
  }

  private static boolean outlivedChildhoodOf(Life one, Life other) {
    return one.death().isEmpty()
        || other
            .bornWithin()
            .filter(
                born -> born[0].plusYears(YOUNGEST_PARENT_YEARS).isAfter(one.death().get().to()))
            .isEmpty();
  }

  private static boolean couldBeParent(Life parent, Life child) {
    var born = child.bornWithin();
    if (born.isEmpty()) {
      return true;
    }
    boolean oldEnough =
        parent
            .bornWithin()
            .filter(p -> p[0].plusYears(YOUNGEST_PARENT_YEARS).isAfter(born.get()[1]))
            .isEmpty();
    boolean alive =
        parent.death().filter(d -> d.to().plusDays(UNBORN_DAYS).isBefore(born.get()[0])).isEmpty();
    return oldEnough && alive;
  }

  /** Leaves of both only the lives that go with one of the other's. */
  private void tie(int first, int second, Bond bond, String by) {
    Map<Life, Double> firsts = lives.get(first);
    Map<Life, Double> seconds = lives.get(second);
    if (firsts == null
        || seconds == null
        || (long) firsts.size() * seconds.size() > StoneArithmetic.MOST_READINGS) {
      return;
    }
    Map<Life, Double> firstLeft = new HashMap<>();
    Map<Life, Double> secondLeft = new HashMap<>();
    firsts.forEach(
        (one, oneWeight) ->
            seconds.forEach(
                (two, twoWeight) -> {
                  if (bond.allows(one, two)) {
                    firstLeft.merge(one, oneWeight * twoWeight, Double::sum);
                    secondLeft.merge(two, oneWeight * twoWeight, Double::sum);
                  }
                }));
    if (firstLeft.isEmpty()) {
      findings.add(
          new Finding(
              second,
              true,
              Optional.empty(),
              "the dates of persons " + first + " and " + second + " don’t allow " + by));
      return;
    }
    keep(first, firsts, firstLeft, by);
    keep(second, seconds, secondLeft, by);
  }

  private void keep(int person, Map<Life, Double> before, Map<Life, Double> left, String by) {
    double total = left.values().stream().mapToDouble(Double::doubleValue).sum();
    left.replaceAll((life, weight) -> weight / total);
    if (left.size() < before.size()) {
      beyond.computeIfAbsent(person, p -> new ArrayList<>()).add(by);
    }
    lives.put(person, left);
  }

  private void tellFigures() {
    stones.forEach(
        (person, stone) -> {
          Optional<String> by =
              Optional.ofNullable(beyond.get(person))
                  .map(list -> list.stream().distinct().collect(joining(" and ")));
          for (Figure figure :
              StoneArithmetic.figures(stone, lives.getOrDefault(person, Map.of()), by)) {
            if (!figure.impossible().isEmpty()) {
              findings.add(new Finding(person, false, Optional.of(figure), words(stone, figure)));
            }
          }
        });
  }

  private static String words(CarvedLife stone, Figure figure) {
    String left = figure.posterior().keySet().toString().replaceAll("[\\[\\]]", "");
    String place =
        figure.number().name().toLowerCase(Locale.ROOT).replace('_', ' ')
            + ", figure "
            + (figure.place() + 1);
    Optional<Integer> read =
        StoneArithmetic.favoured(stone, figure.number(), figure.place(), FAVOURED);
    boolean readWrong = read.filter(r -> !figure.posterior().containsKey(r)).isPresent();
    return place
        + (readWrong ? " can't be the " + read.get() + " read; it" : "")
        + (figure.isForced() ? " must be " : " can only be ")
        + left
        + " by "
        + figure.by();
  }
}
