package rakelight.person;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;
import rakelight.person.edtf.Day;

/**
 * What is compared of somebody, made ready once: a person whose mentions people have brought
 * together counts as one, with all that is said of him.
 *
 * @param kinOnly whether he is only named as another's kin
 * @param initialsAlone whether all that names him is initials on a stone that says no more than a
 *     year
 * @param surname may say nothing
 * @param birthSurname folded; may be empty
 * @param died the days between which he died; of somebody only named as kin, those that his kin's
 *     dates allow
 */
record Traits(
    Set<FaceId> faces,
    Set<MarkerId> markers,
    boolean kinOnly,
    boolean initialsAlone,
    NamePattern surname,
    String birthSurname,
    List<NamePattern> given,
    Optional<Day[]> died,
    Optional<Day[]> born,
    List<Relative> spouses,
    List<Relative> parents,
    List<Relative> children,
    Sex sex) {
  /** By the given name, as far as it is known. */
  enum Sex {
    MAN,
    WOMAN,
    UNKNOWN;

    static Sex of(List<NamePattern> given) {
      String first = given.isEmpty() ? "" : given.get(0).letters();
      return GivenNames.known().isWomans(first)
          ? WOMAN
          : GivenNames.known().isMans(first) ? MAN : UNKNOWN;
    }
  }

  private static final int YOUNGEST_PARENT_YEARS = 15;
  private static final int OLDEST_PARENT_YEARS = 60;
  private static final int LONGEST_LIFE_YEARS = 95;
  private static final int MOST_BETWEEN_SPOUSES_YEARS = 25;

  /** Somebody's kin, with his name made ready. */
  record Relative(String relation, List<NamePattern> given, NamePattern surname) {
    static Relative of(Mention.Kin kin) {
      String[] parts = kin.name().split("\\|", -1);
      return new Relative(kin.relation(), words(parts[0]), NamePattern.of(fold(parts[1])));
    }
  }

  /**
   * One of the persons of a face; those only named as kin have the number of whose kin they are.
   */
  record Anchor(FaceId face, int number) {
    static Anchor of(Mention mention) {
      return new Anchor(mention.id().face(), mention.number());
    }
  }

  /**
   * Of a person, from the mentions of him.
   *
   * @param anchors those named for themselves
   */
  static Traits of(Person person, Map<Anchor, Mention> anchors) {
    Mention fullest = person.fullest().orElseThrow();
    Set<FaceId> faces = new HashSet<>();
    Set<MarkerId> markers = new HashSet<>();
    Set<Relative> kin = new LinkedHashSet<>();
    String birthSurname = "";
    for (Mention mention : person.mentions()) {
      faces.add(mention.id().face());
      markers.add(mention.source().marker().id());
      mention.kin().forEach(one -> kin.add(Relative.of(one)));
      birthSurname =
          birthSurname.isEmpty() ? NameForms.fold(mention.name().birthSurname()) : birthSurname;
    }
    Optional<Day[]> died = narrowest(person.mentions().stream().flatMap(m -> m.died().stream()));
    Optional<Day[]> born = narrowest(person.mentions().stream().flatMap(m -> m.born().stream()));
    if (!person.isCommemorated()) {
      Optional<Mention> anchor = Optional.ofNullable(anchors.get(Anchor.of(fullest)));
      String relation = fullest.kin().isEmpty() ? "" : fullest.kin().get(0).relation();
      born = anchor.flatMap(Traits::bornWithin).flatMap(span -> bornAsKin(relation, span));
      died = anchor.flatMap(Traits::bornWithin).flatMap(span -> diedAsKin(relation, span));
    }
    List<NamePattern> given = words(fullest.goesBy());
    return new Traits(
        faces,
        markers,
        !person.isCommemorated(),
        person.mentions().stream().allMatch(Traits::bearsInitialsAlone),
        NamePattern.of(fold(fullest.name().surname())),
        birthSurname,
        given,
        died,
        born,
        kin(kin, "spouse"),
        kin(kin, "parent"),
        kin(kin, "child"),
        Sex.of(given));
  }

  static Traits of(Sought sought) {
    List<NamePattern> given = words(sought.row().given());
    return new Traits(
        Set.of(),
        Set.of(),
        false,
        false,
        NamePattern.of(fold(sought.row().surname())),
        "",
        given,
        sought.died(),
        sought.born(),
        List.of(),
        List.of(),
        List.of(),
        Sex.of(given));
  }

  boolean isNamed() {
    return surname.saysSomething() || given.stream().anyMatch(NamePattern::saysSomething);
  }

  private static List<Relative> kin(Set<Relative> all, String relation) {
    return all.stream().filter(one -> one.relation().equals(relation)).toList();
  }

  private static Optional<Day[]> narrowest(Stream<Day[]> spans) {
    return spans.min(
        Comparator.comparingLong(span -> SpanShares.number(span[1]) - SpanShares.number(span[0])));
  }

  /** Born as said, or within a life before the death. */
  private static Optional<Day[]> bornWithin(Mention mention) {
    return mention.born().or(() -> mention.died().map(died -> years(died, -LONGEST_LIFE_YEARS, 0)));
  }

  private static Optional<Day[]> bornAsKin(String relation, Day[] born) {
    return switch (relation) {
      case "child" -> Optional.of(years(born, -OLDEST_PARENT_YEARS, -YOUNGEST_PARENT_YEARS));
      case "parent" -> Optional.of(years(born, YOUNGEST_PARENT_YEARS, OLDEST_PARENT_YEARS));
      case "spouse" ->
          Optional.of(years(born, -MOST_BETWEEN_SPOUSES_YEARS, MOST_BETWEEN_SPOUSES_YEARS));
      default -> Optional.empty();
    };
  }

  private static Optional<Day[]> diedAsKin(String relation, Day[] born) {
    return switch (relation) {
      case "child" -> Optional.of(years(born, -1, LONGEST_LIFE_YEARS - YOUNGEST_PARENT_YEARS));
      case "spouse" ->
          Optional.of(
              years(born, YOUNGEST_PARENT_YEARS, LONGEST_LIFE_YEARS + MOST_BETWEEN_SPOUSES_YEARS));
      default -> Optional.empty();
    };
  }

  private static Day[] years(Day[] span, int first, int last) {
    LocalDate from = span[0].toLocalDate().plusYears(first);
    LocalDate to = span[1].toLocalDate().plusYears(last);
    return new Day[] {Day.of(from), Day.of(to)};
  }

  private static boolean bearsInitialsAlone(Mention mention) {
    boolean initials =
        words(mention.name().given() + " " + mention.name().surname()).stream()
            .allMatch(NamePattern::isInitial);
    return initials
        && !mention.isKinOnly()
        && mention.source().statements().stream()
            .filter(Statement::isFact)
            .allMatch(s -> s.kind() == Statement.Kind.NAME || s.value().matches("[0-9X]{4}"));
  }

  private static List<NamePattern> words(String name) {
    return Arrays.stream(name.split("[ .]+", -1))
        .map(Traits::fold)
        .filter(word -> !word.isEmpty())
        .map(NamePattern::of)
        .toList();
  }

  /** Folded, with the signs for lost letters left in. */
  private static String fold(String word) {
    StringBuilder folded = new StringBuilder();
    word.codePoints()
        .forEach(
            sign ->
                folded.append(
                    sign == '?' || sign == '…'
                        ? Character.toString(sign)
                        : NameForms.fold(Character.toString(sign))));
    return folded.toString();
  }
}
