package rakelight.person;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import rakelight.inscription.SignId;
import rakelight.person.Statement.Kind;
import rakelight.person.edtf.Day;
import rakelight.person.edtf.Edtf;

/**
 * Who may still be living on a given day, and so is withheld from whatever is published: born
 * within {@value #LONGEST_LIFE_YEARS} years before it, or at a time nobody knows, and with no death
 * recorded. A blank left for a spouse's death counts as no death.
 *
 * <p>A death is recorded where a stone gives a day or year of death or burial, an age, or what
 * somebody died of (a date alone, or one that a dash leaves open, may be that of a birth); where
 * the name follows "in memory of" or "here lies"; where the kin named is called late or outlived;
 * or where a person has recorded evidence of it. A birth that isn't carved is bounded by kin:
 * nobody is a parent or spouse before twelve, or born of a mother who is dead.
 */
public final class LivingRule {
  static final int LONGEST_LIFE_YEARS = 110;

  /** A choice, no source. */
  private static final int GROWN_YEARS = 21;

  private static final Pattern YEARS = Pattern.compile("^P(\\d+)Y");
  private static final Pattern OF_AGE =
      Pattern.compile("(?i)\\b(ag\\w*|aet\\w*|\u00e6t\\w*|ae|old|year of|life)\\b");

  private static final Set<String> TIES = Set.of("to", "by", "from", "with", "for");

  private LivingRule() {}

  /** Whether a person may be living on a day. */
  public static boolean mayBeLiving(Person person, LocalDate asOf) {
    Day first = Day.of(asOf.minusYears(LONGEST_LIFE_YEARS));
    if (!person.died().isEmpty() || person.mentions().stream().anyMatch(m -> isDead(m, first))) {
      return false;
    }
    // Of somebody whose name is gone a carved birth still tells too much.
    boolean isTold =
        person.mentions().stream()
            .anyMatch(
                m ->
                    !m.name().given().isEmpty()
                        || m.about().stream().anyMatch(s -> s.kind() == Kind.BIRTH));
    boolean longAgo =
        person.mentions().stream()
            .flatMap(mention -> latestBirth(mention).stream())
            .anyMatch(day -> day.compareTo(first) < 0);
    return isTold && !longAgo;
  }

  private static boolean isDead(Mention mention, Day first) {
    if (mention.isKinOnly()) {
      return mention.about().stream()
          .anyMatch(
              s ->
                  s.detail(Detail.Kinship.class).filter(Detail.Kinship::isSurvivor).isPresent()
                      || s.text().toLowerCase(Locale.ROOT).matches(".*\\blate\\b.*"));
    }
    boolean told =
        !isNamedByAnother(mention)
            && mention.about().stream()
                .anyMatch(
                    s ->
                        switch (s.kind()) {
                          case DEATH -> tellsOfDeath(s, mention, first);
                          case AGE -> isAgeAtDeath(s, mention, first);
                          case BURIAL, CAUSE, REMOVAL, ORDER -> true;
                          default -> false;
                        });
    boolean outlived =
        mention.source().statements().stream()
            .flatMap(s -> s.detail(Detail.Kinship.class).stream())
            .anyMatch(kin -> kin.isSurvivor() && kin.persons().contains(mention.number()));
    return told || outlived || followsMemory(mention);
  }

  /**
   * Whether a date is that of a death of this person and can't be of a birth: not one that stands
   * before the name with words between them that nobody understands, not one that a dash leaves
   * open ("1942 –"), nor one by itself within the longest life, with neither a word for dying nor a
   * birth beside it.
   */
  private static boolean tellsOfDeath(Statement death, Mention mention, Day first) {
    if (BareDate.isLeftOpen(mention.source().inscription(), death)
        || NotUnderstood.isBetween(mention.source(), death, mention.nameSigns())) {
      return false;
    }
    return !BareDate.isBare(death)
        || mention.about().stream().anyMatch(s -> s.kind() == Kind.BIRTH)
        || (!death.value().isEmpty()
            && Edtf.parse(death.value()).latest().filter(d -> d.compareTo(first) < 0).isPresent());
  }

  /**
   * Whether an age is one at death. On a face of the longest life a child may be given its age who
   * was saved, planted a tree or sends its love; so there it must be said to be an age, and a grown
   * person's or an infant's, or follow the burial before it by "also". Common practice, no source.
   */
  private static boolean isAgeAtDeath(Statement age, Mention mention, Day first) {
    List<Day> dates =
        mention.source().statements().stream()
            .filter(s -> s.isDate() && !s.value().isEmpty())
            .flatMap(s -> Edtf.parse(s.value()).latest().stream())
            .toList();
    boolean isOld = !dates.isEmpty() && dates.stream().allMatch(day -> day.compareTo(first) < 0);
    if (isOld) {
      return true;
    }
    Matcher years = YEARS.matcher(age.value());
    // Nobody living is given an age in days.
    boolean grown = !years.find() || Integer.parseInt(years.group(1)) >= GROWN_YEARS;
    return OF_AGE.matcher(age.text()).find()
        && (grown || followsMemory(mention) || wordBefore(mention).equals("also"));
  }

  /**
   * Whether the name follows a word by which another is tied to somebody: "butcher to", or "twin
   * of", over a line's end.
   */
  private static boolean isNamedByAnother(Mention mention) {
    List<String> before = wordsBefore(mention);
    int last = before.size() - 1;
    boolean ofKin =
        last > 0
            && before.get(last).equals("of")
            && (PersonWords.KIN.contains(before.get(last - 1))
                || PersonWords.CONDITIONS.contains(before.get(last - 1)));
    return ofKin || TIES.contains(wordBefore(mention));
  }

  /** The word before the name, folded; empty at the beginning of the face. */
  private static String wordBefore(Mention mention) {
    List<String> before = wordsBefore(mention);
    return before.isEmpty() ? "" : before.get(before.size() - 1);
  }

  /** All words of the face before the name, folded. */
  private static List<String> wordsBefore(Mention mention) {
    Set<SignId> name = new HashSet<>(mention.nameSigns());
    List<String> before = new ArrayList<>();
    for (CarvedWord word : CarvedWord.of(mention.source().inscription())) {
      if (word.signs().stream().anyMatch(name::contains)) {
        return before;
      }
      before.add(word.folded());
    }
    return List.of();
  }

  /** Whether "in memory of" or "here lies" goes before the first name of the face. */
  private static boolean followsMemory(Mention mention) {
    if (mention.number() != 1) {
      return false;
    }
    Set<SignId> name = new HashSet<>(mention.nameSigns());
    for (CarvedWord word : CarvedWord.of(mention.source().inscription())) {
      if (word.signs().stream().anyMatch(name::contains)) {
        return false;
      }
      if (PersonWords.MEMORY.contains(word.folded()) || PersonWords.LYING.contains(word.folded())) {
        return true;
      }
    }
    return false;
  }

  /** The last day on which somebody can have been born, by the face alone. */
  private static Optional<Day> latestBirth(Mention mention) {
    if (!mention.isKinOnly() && mention.born().isPresent()) {
      return mention.born().map(span -> span[1]);
    }
    List<Day> bounds = new ArrayList<>();
    for (Statement statement : mention.source().statements()) {
      Optional<Detail.Kinship> kin = statement.detail(Detail.Kinship.class);
      if (kin.isEmpty()) {
        continue;
      }
      if (mention.isKinOnly()
          ? mention.about().contains(statement)
          : kin.get().persons().contains(mention.number())) {
        statement.persons().forEach(other -> bound(mention, kin.get(), other, true, bounds));
      } else if (!mention.isKinOnly() && statement.persons().contains(mention.number())) {
        kin.get().persons().forEach(other -> bound(mention, kin.get(), other, false, bounds));
      }
    }
    return bounds.stream().min(Day::compareTo);
  }

  /**
   * What a relative's dates say.
   *
   * @param of whether the other is the {@code relation} of this person; else this one is of the
   *     other
   */
  private static void bound(
      Mention mention, Detail.Kinship kin, int other, boolean of, List<Day> bounds) {
    Optional<Day> died = last(mention, other, Kind.DEATH);
    Optional<Day> born = last(mention, other, Kind.BIRTH);
    boolean isParent = of ? kin.isChild() : kin.isParent();
    boolean isChild = of ? kin.isParent() : kin.isChild();
    if (isParent) {
      born.or(() -> died)
          .ifPresent(day -> bounds.add(years(day, -KinAgreement.YOUNGEST_PARENT_YEARS)));
    } else if (kin.isMarriage()) {
      died.ifPresent(day -> bounds.add(years(day, -KinAgreement.YOUNGEST_PARENT_YEARS)));
    } else if (isChild) {
      died.ifPresent(day -> bounds.add(years(day, 1)));
    }
  }

  private static Optional<Day> last(Mention mention, int person, Kind kind) {
    return mention.source().statements().stream()
        .filter(s -> s.kind() == kind && s.persons().contains(person) && !s.value().isEmpty())
        .flatMap(s -> Edtf.parse(s.value()).latest().stream())
        .max(Day::compareTo);
  }

  private static Day years(Day day, int years) {
    return Day.of(day.toLocalDate().plusYears(years));
  }
}
