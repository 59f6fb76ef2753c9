package rakelight.person;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;
import rakelight.names.GivenNames;
import rakelight.person.calendar.MonthName;

/**
 * How often one word of inscriptions follows another, counted on invented stones that are whole.
 * Words that are not of the trade count by their class: a given name, another name, a year.
 *
 * <p>{@code word-pairs.tsv} holds the counts; docs/persons.md has the command that makes it.
 */
final class WordPairs {
  static final String START = "^";
  static final String GIVEN = "@given";
  static final String NAME = "@name";
  static final String SMALL = "@word";
  static final String NUMBER = "@number";
  static final String YEAR = "@year";

  /** So many pairs what a word's neighbours teach counts for beside how common the next one is. */
  private static final double OF_ALL = 6;

  /** What a word of the lists that was never met counts as. */
  private static final double NEVER_MET = 0.3;

  private static final Pattern LIKE_A_YEAR = Pattern.compile("1[5-9?][0-9?]{2}|20[0-9?]{2}");

  private static final WordPairs KNOWN = load();

  private final Map<String, Map<String, Double>> pairs = new HashMap<>();
  private final Map<String, Double> before = new HashMap<>();
  private final Map<String, Double> words = new HashMap<>();
  private final Map<Integer, List<String>> byLength = new HashMap<>();
  private double all;

  static WordPairs known() {
    return KNOWN;
  }

  private static WordPairs load() {
    WordPairs pairs = new WordPairs();
    InputStream table = WordPairs.class.getResourceAsStream("word-pairs.tsv");
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(
                Objects.requireNonNull(table, "word-pairs.tsv"), StandardCharsets.UTF_8))) {
      lines
          .lines()
          .filter(line -> !line.startsWith("#"))
          .map(line -> line.split("\t", -1))
          .forEach(cells -> pairs.add(cells[0], cells[1], Double.parseDouble(cells[2])));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    for (String word : PersonWords.OF_INSCRIPTIONS) {
      pairs.words.merge(word, NEVER_MET, Double::sum);
      pairs.all += NEVER_MET;
    }
    pairs.words.keySet().stream()
        .filter(word -> !word.startsWith("@"))
        .sorted()
        .forEach(
            word ->
                pairs.byLength.computeIfAbsent(word.length(), n -> new ArrayList<>()).add(word));
    return pairs;
  }

  private void add(String first, String second, double count) {
    pairs.computeIfAbsent(first, f -> new HashMap<>()).merge(second, count, Double::sum);
    before.merge(first, count, Double::sum);
    words.merge(second, count, Double::sum);
    all += count;
  }

  boolean isWord(String folded) {
    return words.containsKey(folded);
  }

  /** The words of so many letters. */
  List<String> ofLength(int letters) {
    return byLength.getOrDefault(letters, List.of());
  }

  Set<Integer> lengths() {
    return byLength.keySet();
  }

  /** The logarithm of how likely a word or class follows another. */
  double follows(String first, String second) {
    double alone = words.getOrDefault(second, NEVER_MET) / all;
    double met = pairs.getOrDefault(first, Map.of()).getOrDefault(second, 0.0);
    return Math.log((met + OF_ALL * alone) / (before.getOrDefault(first, 0.0) + OF_ALL));
  }

  /** What a word that is whole counts as: itself, or its class. */
  static String classOf(List<CarvedWord> words, int i, Set<String> known) {
    CarvedWord word = words.get(i);
    String folded = word.folded();
    if (word.hasFigure()) {
      return LIKE_A_YEAR.matcher(folded).matches() ? YEAR : NUMBER;
    }
    boolean figures =
        (i > 0 && words.get(i - 1).hasFigure())
            || (i + 1 < words.size() && words.get(i + 1).hasFigure());
    if (figures && MonthName.parse(folded).isPresent()) {
      return folded;
    }
    boolean given = GivenNames.known().isKnown(folded) && word.isCapitalised();
    if (known.contains(folded) && (!given || PersonWords.NEVER_A_NAME.contains(folded))) {
      return folded;
    }
    return given ? GIVEN : word.isCapitalised() ? NAME : SMALL;
  }
}
