package rakelight.ground;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * A footstone with what is read on it and where it stands.
 *
 * @param number of its marker
 * @param letters as read, place by place: what each may be, in capitals, with shares that sum to at
 *     most one; a place where nothing is left is empty
 * @param year as read, figure by figure, in the same way; empty where it bears none
 * @param at where it stands
 * @param errorMetres standard error of that, east and north each
 * @param widthMetres if it was measured
 */
public record Footstone(
    String number,
    List<Map<Character, Double>> letters,
    List<Map<Character, Double>> year,
    Spot at,
    double errorMetres,
    Optional<Double> widthMetres) {
  /** Less than this of one letter, and a place counts as worn; a choice, no source. */
  private static final double SURE = 0.95;

  public Footstone {
    letters = letters.stream().map(Map::copyOf).toList();
    year = year.stream().map(Map::copyOf).toList();
    if (!(errorMetres > 0)) {
      throw new IllegalArgumentException("footstone " + number + " needs the error of its place");
    }
  }

  /** Whether a place of its letters is worn. */
  boolean isWorn(int place) {
    return isWorn(letters.get(place));
  }

  static boolean isWorn(Map<Character, Double> place) {
    return place.values().stream().noneMatch(share -> share >= SURE);
  }

  /** Whether any place of its letters is worn. */
  public boolean isWorn() {
    return letters.stream().anyMatch(Footstone::isWorn);
  }

  /** The letters as people write them, such as {@code W.(H/N).} or {@code W.?.}. */
  public String shown() {
    StringBuilder shown = new StringBuilder();
    boolean word = letters.size() > 3;
    for (Map<Character, Double> place : letters) {
      List<Character> likely =
          place.entrySet().stream()
              .sorted(
                  Map.Entry.<Character, Double>comparingByValue()
                      .reversed()
                      .thenComparing(Map.Entry.comparingByKey()))
              .map(Map.Entry::getKey)
              .toList();
      if (likely.isEmpty()) {
        shown.append('?');
      } else if (!isWorn(place)) {
        shown.append(likely.get(0));
      } else {
        shown.append('(');
        for (int i = 0; i < likely.size(); i++) {
          shown.append(i > 0 ? "/" : "").append(likely.get(i));
        }
        shown.append(')');
      }
      shown.append(word ? "" : ".");
    }
    return shown.toString().toUpperCase(Locale.ROOT);
  }
}
