package rakelight.index;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import rakelight.names.NameForms;

/**
 * One word of a reading with its doubt.
 *
 * @param shown as a hit shows it, with its doubt marks
 * @param ways the ways it can be taken, such as cut and expanded
 */
public record Word(String shown, List<Skeleton> ways) {
  /** So many texts of one word are told to those who ask for them; a search knows them all. */
  private static final int MOST_READINGS = 32;

  public Word {
    ways = List.copyOf(ways);
  }

  /**
   * A word from its places.
   *
   * @param ways the ways it can be taken, such as cut and expanded; one at least
   */
  public static Word of(String shown, List<List<Cell>> ways) {
    Set<Skeleton> all = new LinkedHashSet<>();
    ways.forEach(way -> all.addAll(Skeleton.of(folded(way))));
    return new Word(shown, List.copyOf(all));
  }

  /** A word that is sure. */
  public static Word sure(String text) {
    return of(text, List.of(Cell.sureLetters(text)));
  }

  /** Whether it can say anything at all. */
  public boolean isEmpty() {
    return ways.isEmpty();
  }

  /** Its likeliest folded texts with weights, where no letter is missing. */
  public Map<String, Double> readings() {
    Map<String, Double> readings = new HashMap<>();
    ways.forEach(
        way ->
            way.readings(MOST_READINGS)
                .forEach((text, weight) -> readings.merge(text, weight, Math::max)));
    return readings;
  }

  private static List<Cell> folded(List<Cell> cells) {
    List<Cell> folded = new ArrayList<>();
    for (Cell cell : cells) {
      if (cell instanceof Cell.OneOf oneOf) {
        Map<String, Double> texts = new TreeMap<>();
        oneOf
            .texts()
            .forEach((text, weight) -> texts.merge(NameForms.fold(text), weight, Double::sum));
        if (!texts.keySet().equals(Set.of(""))) {
          folded.add(new Cell.OneOf(texts));
        }
      } else {
        folded.add(cell);
      }
    }
    return folded;
  }
}
