package rakelight.marker;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * How a ground numbers its markers: patterns parted by spaces, of which a number must follow one.
 * {@code #} stands for a run of figures, {@code @} for one letter, everything else for itself, so
 * {@code @-# #} lets A-12 and 12 through. Case and spaces don't count. Where a pattern begins with
 * signs of its own, they may be left out: with {@code OG-#} the number 12 is OG-12.
 */
public final class NumberPattern {
  private final String words;
  private final List<One> patterns;

  private record One(String prefix, Pattern pattern) {}

  private NumberPattern(String words, List<One> patterns) {
    this.words = words;
    this.patterns = List.copyOf(patterns);
  }

  /**
   * @throws IllegalArgumentException if there is no pattern in it
   */
  public static NumberPattern of(String words) {
    if (words.isBlank()) {
      throw new IllegalArgumentException(
          "a pattern of numbers needs a sign, such as # for figures");
    }
    List<One> patterns = new ArrayList<>();
    for (String word : words.strip().split("\\s+")) {
      StringBuilder regex = new StringBuilder();
      word.codePoints()
          .forEach(
              sign ->
                  regex.append(
                      switch (sign) {
                        case '#' -> "[0-9]+";
                        case '@' -> "\\p{L}";
                        default -> Pattern.quote(Character.toString(sign));
                      }));
      patterns.add(
          new One(
              word.split("[#@]", 2)[0],
              Pattern.compile(regex.toString(), Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE)));
    }
    return new NumberPattern(words.strip(), patterns);
  }

  /** The number as the ground writes it; empty if it follows none of the patterns. */
  Optional<String> follow(String number) {
    String bare = number.replaceAll("\\s", "");
    if (patterns.stream().anyMatch(one -> one.pattern().matcher(bare).matches())) {
      return Optional.of(number);
    }
    List<String> completed =
        patterns.stream()
            .filter(one -> one.pattern().matcher(one.prefix() + bare).matches())
            .map(one -> one.prefix() + number)
            .distinct()
            .toList();
    return completed.size() == 1 ? Optional.of(completed.get(0)) : Optional.empty();
  }

  /** Why a number can't be given. */
  String refusal(String number) {
    return number
        + " isn't how markers are numbered here ("
        + String.join(" or ", Arrays.asList(words.split("\\s+")))
        + "). If it is no slip of the hand, add it to the patterns: `ground --numbers \""
        + words
        + " "
        + number.replace(" ", "")
        + "\"`.";
  }
}
