package rakelight.index;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Initials of names. */
final class Initials {
  private Initials() {}

  /** The first letters of the likeliest readings; empty where a word has none. */
  static String of(List<Word> words) {
    StringBuilder initials = new StringBuilder();
    for (Word word : words) {
      Optional<String> likeliest =
          word.readings().entrySet().stream()
              .min(
                  Map.Entry.<String, Double>comparingByValue(Comparator.reverseOrder())
                      .thenComparing(Map.Entry.comparingByKey()))
              .map(Map.Entry::getKey);
      if (likeliest.isEmpty()) {
        return "";
      }
      initials.appendCodePoint(likeliest.get().codePointAt(0));
    }
    return initials.toString();
  }

  /** As people write them. */
  static String shown(String initials) {
    StringBuilder shown = new StringBuilder();
    initials
        .codePoints()
        .forEach(
            letter ->
                shown
                    .append(shown.isEmpty() ? "" : " ")
                    .appendCodePoint(Character.toUpperCase(letter))
                    .append('.'));
    return shown.toString();
  }
}
