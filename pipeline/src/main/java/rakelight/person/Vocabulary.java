package rakelight.person;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import rakelight.names.GivenNames;

/**
 * The words that say what a clause of an inscription is, found through their doubt: {@code d?ed} is
 * died or dyed, {@code m??} March or May, {@code Dicd} died by one letter that is often taken for
 * another.
 *
 * <p>Limits: at least one letter in three must be known; one confusion a word, and none in words of
 * fewer than four letters; what is a word or a given name as it stands is left as it is.
 */
final class Vocabulary {
  /** Keywords of formulas, events, kin, ages; and months. */
  private static final Set<String> KEYWORDS =
      PersonWords.all(
          PersonWords.words(
              "died dyed departed deceased born buried interred married drowned killed aged age years year months "
                  + "month weeks days hours wife husband son daughter children widow relict consort infant mother "
                  + "father sister brother beloved sacred memory loving remembrance erected here lies lieth lyeth "
                  + "lyes body also who the his her their and of this life above said likewise obiit aetatis "
                  + "native late formerly with was in to for day at on remains affectionate departd"),
          PersonWords.words(
              "january february march april may june july august september october november december jan feb mar "
                  + "apr jun jul aug sept sep oct nov dec jany feby augt septr octr novr decr"));

  /**
   * Letters taken for each other on worn stone, in capitals and in small letters; from the kinds of
   * error that recognisers make, as a choice and not as a table measured.
   */
  private static final Set<String> CONFUSED =
      PersonWords.words(
          "ce ec il li it ti lt tl nu un oc co oe eo hb bh fs sf vy yv uv vu ij ji gq qg pf fp pr rp br rb dl ld "
              + "ao oa ae ea hn nh mn nm ef fe od do gc cg ft tf rn nr i1 1i l1 1l o0 0o s5 5s b8 8b g6 6g");

  /** In shorter words only letters are confused that nearly anybody confuses. */
  private static final Set<String> MOST_CONFUSED = PersonWords.words("ce ec il li it ti");

  private static final int SHORTEST_CONFUSED = 4;
  private static final int MOST_LIKELY = 12;

  private static final Map<Integer, List<String>> BY_LENGTH = new HashMap<>();

  static {
    for (String word : new TreeSet<>(KEYWORDS)) {
      BY_LENGTH.computeIfAbsent(word.length(), n -> new ArrayList<>()).add(word);
    }
  }

  private Vocabulary() {}

  /**
   * What a word may be.
   *
   * @param options its folded forms, {@code ?} for a letter nobody names, {@code …} for any number
   *     of them
   */
  static List<String> likely(List<String> options) {
    Set<String> likely = new TreeSet<>();
    for (String option : options) {
      if (options.size() > 1 && KEYWORDS.contains(option)) {
        likely.add(option);
      } else if (option.indexOf('?') >= 0 || option.indexOf('…') >= 0) {
        addMatching(option, likely);
      } else if (isConfusable(option)) {
        addConfused(option, likely);
      }
    }
    return likely.size() > MOST_LIKELY ? List.of() : List.copyOf(likely);
  }

  private static void addMatching(String option, Set<String> likely) {
    long known = option.chars().filter(Character::isLetter).count();
    boolean other = option.chars().anyMatch(c -> !Character.isLetter(c) && c != '?' && c != '…');
    if (known == 0 || other || known * 3 < option.length()) {
      return;
    }
    if (option.indexOf('…') < 0) {
      for (String word : BY_LENGTH.getOrDefault(option.length(), List.of())) {
        if (matches(option, word)) {
          likely.add(word);
        }
      }
    } else if (known >= 2) {
      Pattern pattern = Pattern.compile(option.replace('?', '.').replace("…", ".*"));
      KEYWORDS.stream().filter(word -> pattern.matcher(word).matches()).forEach(likely::add);
    }
  }

  private static boolean matches(String option, String word) {
    for (int i = 0; i < option.length(); i++) {
      if (option.charAt(i) != '?' && option.charAt(i) != word.charAt(i)) {
        return false;
      }
    }
    return true;
  }

  private static boolean isConfusable(String option) {
    return option.length() >= SHORTEST_CONFUSED
        && !KEYWORDS.contains(option)
        && !PersonWords.SPEECH.contains(option)
        && !PersonWords.COMFORT.contains(option)
        && !PersonWords.KIN.contains(option)
        && !PersonWords.FORMULA.contains(option)
        && !PersonWords.OCCUPATIONS.contains(option)
        && !GivenNames.known().isKnown(option);
  }

  private static void addConfused(String option, Set<String> likely) {
    for (String word : BY_LENGTH.getOrDefault(option.length(), List.of())) {
      int differ = 0;
      boolean confused = true;
      for (int i = 0; i < word.length() && differ <= 1; i++) {
        if (word.charAt(i) != option.charAt(i)) {
          differ++;
          Set<String> pairs = word.length() == SHORTEST_CONFUSED ? MOST_CONFUSED : CONFUSED;
          confused &= pairs.contains("" + option.charAt(i) + word.charAt(i));
        }
      }
      if (differ == 1 && confused) {
        likely.add(word);
      }
    }
  }
}
