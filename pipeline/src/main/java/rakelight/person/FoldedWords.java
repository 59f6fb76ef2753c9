package rakelight.person;

import java.util.Arrays;
import java.util.List;
import rakelight.names.NameForms;

/** Words compared without heed to case, accents and points, as lists are filtered. */
public final class FoldedWords {
  private FoldedWords() {}

  /**
   * Whether each word that is asked for begins one of a text. Of a word of the text with a lost
   * letter, written {@code ?}, what stands before it decides.
   */
  public static boolean begin(String text, String asked) {
    List<String> own = words(text);
    return words(asked).stream()
        .map(NameForms::fold)
        .allMatch(word -> own.stream().anyMatch(one -> begins(one, word)));
  }

  private static boolean begins(String own, String asked) {
    int lost = own.indexOf('?');
    return lost > 0
        ? asked.startsWith(NameForms.fold(own.substring(0, lost)))
        : NameForms.fold(own).startsWith(asked);
  }

  private static List<String> words(String text) {
    return Arrays.stream(text.split("[^\\p{L}\\p{M}\\p{N}?'’&]+", -1))
        .filter(word -> !NameForms.fold(word).isEmpty())
        .toList();
  }
}
