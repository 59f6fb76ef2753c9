package rakelight.index;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import rakelight.names.NameForms;

/**
 * One word of a reading with its doubt: what it may say, each with a weight, and a pattern where
 * the list couldn't hold all it may say.
 *
 * @param shown as a hit shows it, with its doubt marks
 * @param readings folded texts with weights, at most {@value #MOST_READINGS} of each way the word
 *     can be taken, the likeliest kept
 * @param patterns what is matched instead where letters are missing or the readings are too many;
 *     see {@link Pattern}
 */
public record Word(String shown, Map<String, Double> readings, List<Pattern> patterns) {
  /**
   * Readings indexed for one word. 32 find 98.6 per cent of doubtful names (32 per cent of letters
   * doubtful, synthetic); the pattern finds the rest.
   */
  static final int MOST_READINGS = 32;

  public Word {
    readings = java.util.Collections.unmodifiableMap(new TreeMap<>(readings));
    patterns = List.copyOf(patterns);
  }

  /**
   * A word from its places.
   *
   * @param ways the ways it can be taken, such as cut and expanded; one at least
   */
  public static Word of(String shown, List<List<Cell>> ways) {
    Map<String, Double> readings = new HashMap<>();
    List<Pattern> patterns = new ArrayList<>();
    for (List<Cell> way : ways) {
      List<Cell> cells = folded(way);
      boolean missing = cells.stream().anyMatch(Cell.Unknown.class::isInstance);
      double ofAll = 1;
      for (Cell cell : cells) {
        ofAll *= cell instanceof Cell.OneOf oneOf ? oneOf.texts().size() : 1;
      }
      if (missing || ofAll > MOST_READINGS) {
        Pattern.of(cells).forEach(pattern -> addIfNew(patterns, pattern));
      }
      if (!missing) {
        best(cells).forEach((text, weight) -> readings.merge(text, weight, Math::max));
      }
    }
    readings.remove("");
    return new Word(shown, readings, patterns);
  }

  /** A word that is sure. */
  public static Word sure(String text) {
    return of(text, List.of(Cell.sureLetters(text)));
  }

  /** Whether it can say anything at all. */
  public boolean isEmpty() {
    return readings.isEmpty() && patterns.isEmpty();
  }

  private static void addIfNew(List<Pattern> patterns, Pattern pattern) {
    if (!patterns.contains(pattern)) {
      patterns.add(pattern);
    }
  }

  private static List<Cell> folded(List<Cell> cells) {
    List<Cell> folded = new ArrayList<>();
    for (Cell cell : cells) {
      if (cell instanceof Cell.OneOf oneOf) {
        Map<String, Double> texts = new TreeMap<>();
        oneOf
            .texts()
            .forEach((text, weight) -> texts.merge(NameForms.fold(text), weight, Double::sum));
        folded.add(new Cell.OneOf(texts));
      } else {
        folded.add(cell);
      }
    }
    return folded;
  }

  /** The likeliest readings: places are independent, so the best beginnings make the best words. */
  private static Map<String, Double> best(List<Cell> cells) {
    Map<String, Double> best = new LinkedHashMap<>(Map.of("", 1.0));
    for (Cell cell : cells) {
      Map<String, Double> longer = new TreeMap<>();
      if (cell instanceof Cell.OneOf oneOf) {
        best.forEach(
            (text, weight) ->
                oneOf
                    .texts()
                    .forEach(
                        (next, share) -> longer.merge(text + next, weight * share, Double::sum)));
      }
      best = new LinkedHashMap<>();
      List<Map.Entry<String, Double>> ordered =
          longer.entrySet().stream()
              .sorted(
                  Map.Entry.<String, Double>comparingByValue(Comparator.reverseOrder())
                      .thenComparing(Map.Entry.comparingByKey()))
              .limit(MOST_READINGS)
              .toList();
      for (Map.Entry<String, Double> entry : ordered) {
        best.put(entry.getKey(), entry.getValue());
      }
    }
    return best;
  }
}
