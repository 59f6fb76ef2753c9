package rakelight.person;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * A carved number with what each figure may be.
 *
 * @param figures from the left; for each the figures it may be, with weights above 0
 */
public record Worn(List<Map<Integer, Double>> figures) {
  private static final int MOST_FIGURES = 4;

  public Worn {
    List<Map<Integer, Double>> copies = new ArrayList<>();
    for (Map<Integer, Double> figure : figures) {
      boolean sound =
          !figure.isEmpty()
              && figure.entrySet().stream()
                  .allMatch(e -> e.getKey() >= 0 && e.getKey() <= 9 && e.getValue() > 0);
      if (!sound) {
        throw new IllegalArgumentException("a figure is 0 to 9 with a weight above 0: " + figure);
      }
      copies.add(Map.copyOf(figure));
    }
    if (copies.isEmpty() || copies.size() > MOST_FIGURES) {
      throw new IllegalArgumentException("a number has 1 to " + MOST_FIGURES + " figures");
    }
    figures = List.copyOf(copies);
  }

  /** Figures, {@code ?} for one that is lost: it may be any. */
  public static Worn of(String text) {
    List<Map<Integer, Double>> figures = new ArrayList<>();
    for (char sign : text.toCharArray()) {
      Map<Integer, Double> figure = new HashMap<>();
      if (sign == '?') {
        for (int value = 0; value <= 9; value++) {
          figure.put(value, 0.1);
        }
      } else {
        figure.put(Character.digit(sign, 10), 1.0);
      }
      figures.add(figure);
    }
    return new Worn(figures);
  }

  /** How many values it may have. */
  int open() {
    return figures.stream().mapToInt(Map::size).reduce(1, (a, b) -> a * b);
  }

  /** The values it may have, with their weights, in order. */
  Map<Integer, Double> values() {
    Map<Integer, Double> values = new TreeMap<>(Map.of(0, 1.0));
    for (Map<Integer, Double> figure : figures) {
      Map<Integer, Double> longer = new TreeMap<>();
      values.forEach(
          (value, weight) ->
              figure.forEach((next, share) -> longer.put(10 * value + next, weight * share)));
      values = longer;
    }
    return values;
  }

  /** The figure of a value at a place from the left. */
  int figureOf(int value, int place) {
    int rest = value;
    for (int i = figures.size() - 1; i > place; i--) {
      rest /= 10;
    }
    return rest % 10;
  }
}
