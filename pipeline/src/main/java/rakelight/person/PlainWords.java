package rakelight.person;

import java.text.Normalizer;
import java.util.Locale;
import java.util.Set;

/**
 * The words of inscriptions that are neither a name nor part of a date: "in", "memory", "wife".
 * Every other word may be either, so a letter of it needs a person's eye.
 */
public final class PlainWords {
  /** What an age is counted in; the numbers before them are another matter. */
  private static final Set<String> SPANS =
      Set.of("age", "year", "years", "yrs", "month", "months", "mos", "day", "days", "dys");

  private PlainWords() {}

  /** Whether a word is one of them, whatever its case and the points about it. */
  public static boolean contains(String word) {
    String folded =
        Normalizer.normalize(word, Normalizer.Form.NFD)
            .replaceAll("[^\\p{L}\\p{N}&]", "")
            .toLowerCase(Locale.ROOT);
    return folded.isEmpty()
        || PersonWords.NEVER_A_NAME.contains(folded)
        || SPANS.contains(folded)
        || PersonWords.KIN.contains(folded)
        || PersonWords.FORMULA_ENDS.contains(folded);
  }
}
