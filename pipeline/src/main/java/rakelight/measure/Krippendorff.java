package rakelight.measure;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * How far readers agree beyond chance: Krippendorff's alpha for names without order (K.
 * Krippendorff, Content Analysis, chapter 11). 1 is full agreement, 0 what chance alone would give,
 * below 0 less than that. Any number of readers, each of whom may have left units out.
 */
public final class Krippendorff {
  private final List<List<String>> units = new ArrayList<>();

  /**
   * Takes in one unit: what each reader who judged it says; with fewer than two it doesn't count.
   */
  public void add(List<String> values) {
    if (values.size() >= 2) {
      units.add(List.copyOf(values));
    }
  }

  /** How many units count. */
  public int units() {
    return units.size();
  }

  /** How many of the units all readers agree about, as a part of all, 0 to 1. */
  public OptionalDouble observed() {
    return units.isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(
            units.stream().filter(unit -> unit.stream().distinct().count() == 1).count()
                / (double) units.size());
  }

  /** Alpha; empty while there is nothing to disagree about: no unit, or only one value in all. */
  public OptionalDouble alpha() {
    Map<String, Double> totals = new HashMap<>();
    double n = 0;
    double disagreement = 0;
    for (List<String> unit : units) {
      Map<String, Integer> counts = new HashMap<>();
      unit.forEach(value -> counts.merge(value, 1, Integer::sum));
      int size = unit.size();
      n += size;
      for (Map.Entry<String, Integer> entry : counts.entrySet()) {
        int count = entry.getValue();
        totals.merge(entry.getKey(), (double) count, Double::sum);
        disagreement += count * (double) (size - count) / (size - 1);
      }
    }
    double byChance = 0;
    for (double total : totals.values()) {
      byChance += total * (n - total);
    }
    return byChance == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(1 - (n - 1) * disagreement / byChance);
  }
}
