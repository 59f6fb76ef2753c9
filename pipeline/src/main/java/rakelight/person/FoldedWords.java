package rakelight.person;

import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.function.Predicate;
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

  /** Whether a text has all words of one of these names or more, as {@link #begin} compares. */
  public static Predicate<String> naming(Collection<String> names) {
    List<List<String>> asked =
        names.stream()
            .map(name -> words(name).stream().map(NameForms::fold).toList())
            .filter(words -> !words.isEmpty())
            .toList();
    return text -> {
      List<String> own = words(text);
      List<String> folded = own.stream().map(FoldedWords::told).toList();
      return asked.stream()
          .anyMatch(
              name ->
                  name.stream()
                      .allMatch(
                          word -> {
                            for (int i = 0; i < own.size(); i++) {
                              boolean lost = own.get(i).indexOf('?') > 0;
                              String one = folded.get(i);
                              if (lost ? word.startsWith(one) : one.startsWith(word)) {
                                return true;
                              }
                            }
                            return false;
                          }));
    };
  }

  /** A word of a text, folded: what stands before a lost letter, or all of it. */
  private static String told(String own) {
    int lost = own.indexOf('?');
    return NameForms.fold(lost > 0 ? own.substring(0, lost) : own);
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
