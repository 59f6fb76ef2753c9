package rakelight.measure;

import java.text.Normalizer;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import rakelight.measure.KnownStone.Fact;
import rakelight.measure.KnownStone.Person;
import rakelight.person.Detail;
import rakelight.person.edtf.Edtf;

/**
 * When what is said is what is known.
 *
 * <ul>
 *   <li>Names, word by word, blind to case, accents, long s and points; {@code ?} stands for any
 *       letter on either side.
 *   <li>Dates by their EDTF, unspecified months and days left out, sets whatever their order. Of a
 *       worn one also a date that the truth may be, unless nothing of the year is said.
 *   <li>Ages by their duration; of a worn one an X stands for any figure.
 *   <li>Words (trade, cause, unit ...) when the one has all words of the other in a row and isn't
 *       much longer.
 *   <li>Kinship by relation and the other's name: {@code wife} is {@code consort} and {@code
 *       spouse}, {@code widow} is {@code relict}, {@code child} is {@code son} or {@code daughter}.
 * </ul>
 */
final class Sameness {
  private static final List<Set<String>> RELATIONS =
      List.of(
          Set.of("wife", "consort", "spouse"),
          Set.of("husband", "spouse", "consort"),
          Set.of("widow", "relict"),
          Set.of("son", "child", "infant"),
          Set.of("daughter", "child", "infant"),
          Set.of("twin", "child"),
          Set.of("brother", "sibling"),
          Set.of("sister", "sibling"),
          Set.of("father", "parent"),
          Set.of("mother", "parent"));

  /** What the other is to the first. */
  private static final List<List<Set<String>>> INVERSES =
      List.of(
          List.of(
              Set.of("wife", "consort", "spouse", "widow", "relict"),
              Set.of("husband", "spouse", "consort")),
          List.of(
              Set.of("son", "daughter", "child", "infant", "twin"),
              Set.of("father", "mother", "parent")),
          List.of(Set.of("brother", "sister", "sibling"), Set.of("brother", "sister", "sibling")),
          List.of(
              Set.of("grandson", "granddaughter", "grandchild"),
              Set.of("grandfather", "grandmother")),
          List.of(Set.of("nephew", "niece"), Set.of("uncle", "aunt")));

  /** Words said beyond the known ones before they no longer count as the same. */
  private static final int WORDS_MORE = 3;

  private Sameness() {}

  static String fold(String text) {
    return Normalizer.normalize(
            text.replace('ſ', 's').toLowerCase(Locale.ROOT), Normalizer.Form.NFKD)
        .replace("æ", "ae")
        .replaceAll("[\\p{M}'’^]", "")
        .replaceAll("[^\\p{L}\\p{N}?&]+", " ")
        .replace("&", "and")
        .strip();
  }

  /** One name part against what may count as it. */
  static boolean name(String said, List<String> known) {
    String folded = fold(said);
    return known.isEmpty()
        ? folded.isEmpty()
        : known.stream().anyMatch(one -> letters(folded, fold(one)));
  }

  /** Whether they have a word of their given names in common. */
  static boolean sharesGiven(String said, List<String> known) {
    String[] words = fold(said).split(" ");
    return known.stream()
        .flatMap(one -> Arrays.stream(fold(one).split(" ")))
        .anyMatch(
            one ->
                !one.isEmpty()
                    && one.matches(".*\\p{L}.*")
                    && Arrays.stream(words).anyMatch(word -> letters(word, one)));
  }

  static boolean named(Detail.Name said, Person known) {
    return name(said.given(), known.given()) && name(said.surname(), known.surname());
  }

  /** Whether kin named so may be this person: an empty surname on either side rules nothing out. */
  static boolean mayBeNamed(Detail.Name said, Person known) {
    boolean surname =
        fold(said.surname()).isEmpty()
            || known.surname().isEmpty()
            || known.surname().contains("")
            || name(said.surname(), known.surname())
            || name(said.surname(), known.maiden());
    return surname && name(said.given(), known.given());
  }

  static boolean value(SaidFact said, Fact known) {
    if (said.kind() != known.kind()) {
      return false;
    }
    return known.values().stream()
        .anyMatch(
            value ->
                switch (known.kind()) {
                  case BIRTH, DEATH, MARRIAGE, BURIAL -> date(said.value(), value, known.worn());
                  case AGE -> age(said.value(), value, known.worn());
                  case MAIDEN -> letters(fold(said.value()), fold(value));
                  default -> words(said.value(), value);
                });
  }

  static boolean relation(String said, List<String> known) {
    return known.stream().anyMatch(one -> sameRelation(one(said), one(one)));
  }

  /** Whether saying that B is {@code said} of A is what is known when A is {@code known} of B. */
  static boolean inverse(String said, List<String> known) {
    return known.stream()
        .anyMatch(
            one ->
                INVERSES.stream()
                    .anyMatch(
                        pair ->
                            (pair.get(0).contains(one(one)) && pair.get(1).contains(one(said)))
                                || (pair.get(1).contains(one(one))
                                    && pair.get(0).contains(one(said)))));
  }

  private static boolean sameRelation(String said, String known) {
    return said.equals(known)
        || RELATIONS.stream().anyMatch(set -> set.contains(said) && set.contains(known));
  }

  /** The relation of one of them: {@code children} is {@code child}. */
  private static String one(String relation) {
    String word = fold(relation);
    word = word.substring(word.lastIndexOf(' ') + 1);
    return switch (word) {
      case "children" -> "child";
      case "wives" -> "wife";
      case "dau", "daur", "daught", "daughtr" -> "daughter";
      case "twins" -> "twin";
      default -> word.endsWith("s") ? word.substring(0, word.length() - 1) : word;
    };
  }

  private static boolean letters(String one, String other) {
    if (one.length() != other.length()) {
      return false;
    }
    for (int i = 0; i < one.length(); i++) {
      char a = one.charAt(i);
      char b = other.charAt(i);
      if (a != b && a != '?' && b != '?') {
        return false;
      }
    }
    return true;
  }

  private static boolean words(String said, String known) {
    String a = " " + fold(said) + " ";
    String b = " " + fold(known) + " ";
    int more = fold(said).split(" ").length - fold(known).split(" ").length;
    return letters(a, b)
        || (a.contains(b) && more <= WORDS_MORE)
        || (b.contains(a) && a.length() * 2 >= b.length());
  }

  private static boolean age(String said, String known, boolean worn) {
    String a = said.replace("~", "");
    String b = known.replace("~", "");
    return a.equals(b) || (worn && Pattern.matches(a.replace("X", "\\d"), b));
  }

  private static boolean date(String said, String known, boolean worn) {
    if (plain(said).equals(plain(known))) {
      return true;
    }
    if (!worn || said.startsWith("XXXX")) {
      return false;
    }
    Edtf a = Edtf.parse(said);
    Edtf b = Edtf.parse(known);
    return Optional.of(b)
        .filter(date -> date.earliest().isPresent() && date.latest().isPresent())
        .map(
            date ->
                date.earliest().equals(date.latest())
                    ? a.admits(date.earliest().orElseThrow())
                    : a.mayTouch(date.earliest().orElseThrow(), date.latest().orElseThrow()))
        .orElse(false);
  }

  private static String plain(String edtf) {
    String text = edtf.replace("[", "").replace("]", "");
    Set<String> members = new TreeSet<>();
    for (String member : text.split(",")) {
      members.add(member.strip().replaceAll("(-XX)+$", ""));
    }
    return String.join(",", members);
  }
}
