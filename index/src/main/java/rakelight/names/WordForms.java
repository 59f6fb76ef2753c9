package rakelight.names;

import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** Words other than given names that are cut short, and figures that count: 5th, 5. */
public final class WordForms {
  private static final WordForms KNOWN = new WordForms();

  private final Map<String, Set<String>> forms = Pairs.of("word-forms.tsv");

  private WordForms() {}

  public static WordForms known() {
    return KNOWN;
  }

  /** All folded words that have other forms, but for figures that count. */
  public Set<String> all() {
    return new TreeSet<>(forms.keySet());
  }

  /** The other folded forms of a folded word: cut short, in full, with or without its ending. */
  public Set<String> of(String folded) {
    Set<String> all = new TreeSet<>(forms.getOrDefault(folded, Set.of()));
    if (folded.matches("[0-9]{1,3}(st|nd|rd|th|d)")) {
      all.add(folded.replaceAll("[a-z]+", ""));
    } else if (folded.matches("[0-9]{1,3}")) {
      all.add(folded + ending(Integer.parseInt(folded)));
    }
    return all;
  }

  private static String ending(int number) {
    boolean teens = number / 10 % 10 == 1;
    return switch (teens ? 0 : number % 10) {
      case 1 -> "st";
      case 2 -> "nd";
      case 3 -> "rd";
      default -> "th";
    };
  }
}
