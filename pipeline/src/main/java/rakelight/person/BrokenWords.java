package rakelight.person;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import rakelight.names.GivenNames;
import rakelight.person.calendar.MonthName;

/**
 * Words broken at the end of a line with nothing to show it, as cutters did who filled their lines:
 * {@code BO / DY}, {@code HEN / RY}, {@code 17 / 19}. Two pieces are one word where together they
 * are a known one and at least one of them alone is none. On a face that breaks words in this way,
 * pieces that are no words are put together, too, as names are, and so are figures.
 *
 * <p>Limits: a name broken into two words that both are known stays two, and so does one with a
 * lost letter beside the break.
 */
final class BrokenWords {
  /** Words of one or two letters that stand by themselves; others so short may be pieces. */
  private static final Set<String> SHORT =
      PersonWords.words(
          "a i o of in to by at on he be we my me is as an or no so up us am if it ye do al");

  private static final int SHORTEST = 3;

  private BrokenWords() {}

  /** The same words, those broken put together. */
  static List<CarvedWord> joined(List<CarvedWord> words) {
    Set<Integer> ends = new HashSet<>();
    for (int i = 0; i + 1 < words.size(); i++) {
      if (mayBreak(words, i) && isKnownWhole(words.get(i), words.get(i + 1))) {
        ends.add(i);
      }
    }
    if (ends.isEmpty()) {
      return words;
    }
    for (int i = 0; i + 1 < words.size(); i++) {
      if (mayBreak(words, i) && (areFigures(words, i) || arePieces(words, i, ends.size()))) {
        ends.add(i);
      }
    }
    List<CarvedWord> joined = new ArrayList<>();
    for (int i = 0; i < words.size(); i++) {
      CarvedWord word = words.get(i);
      while (ends.contains(i)) {
        i++;
        word = word.with(words.get(i));
      }
      joined.add(word);
    }
    return List.copyOf(joined);
  }

  private static boolean mayBreak(List<CarvedWord> words, int i) {
    CarvedWord first = words.get(i);
    CarvedWord second = words.get(i + 1);
    return second.line() == first.line() + 1
        && !first.isDoubtful()
        && !second.isDoubtful()
        && !first.folded().isEmpty()
        && Character.isLetterOrDigit(first.shown().charAt(first.shown().length() - 1))
        && Character.isLetterOrDigit(second.shown().charAt(0))
        && areOfOneCase(first, second);
  }

  /** Whether the second goes on in small letters, or in capitals behind capitals. */
  private static boolean areOfOneCase(CarvedWord first, CarvedWord second) {
    boolean capitals = isUpper(first.shown()) && isUpper(second.shown());
    return !second.isCapitalised() || capitals;
  }

  private static boolean isUpper(String shown) {
    return shown.chars().noneMatch(Character::isLowerCase);
  }

  private static boolean isKnownWhole(CarvedWord first, CarvedWord second) {
    String whole = first.folded() + second.folded();
    return whole.length() > SHORTEST
        && (isWord(whole) || MonthName.parse(whole).isPresent())
        && !(isWord(first.folded()) && isWord(second.folded()));
  }

  private static boolean isWord(String folded) {
    return folded.length() <= 2
        ? SHORT.contains(folded) || folded.matches("[a-z]")
        : PersonWords.OF_INSCRIPTIONS.contains(folded) || GivenNames.known().isKnown(folded);
  }

  private static boolean arePieces(List<CarvedWord> words, int i, int others) {
    CarvedWord first = words.get(i);
    CarvedWord second = words.get(i + 1);
    boolean letters = first.folded().matches("[a-z]+") && second.folded().matches("[a-z]+");
    boolean small = !second.isCapitalised();
    return letters
        && (small
            || others > 1
            || first.folded().length() < SHORTEST
            || second.folded().length() <= SHORTEST)
        && second.folded().length() > 1
        && !isWord(second.folded())
        && (!isWord(first.folded()) || first.folded().length() == 1);
  }

  private static boolean areFigures(List<CarvedWord> words, int i) {
    String whole = words.get(i).folded() + words.get(i + 1).folded();
    return whole.matches("1[5-9][0-9]{2}|[1-9][0-9]")
        && words.get(i).folded().length() < 4
        && words.get(i + 1).folded().length() < 4;
  }
}
