package rakelight.reading;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Spaces that a recogniser left out, put back from the distances between its letters. */
final class Spaces {
  /**
   * From middle to middle, letters of a word stand one pitch apart, letters of two words about two.
   * Set by judgement.
   */
  private static final double SPACE_AT_PITCHES = 1.65;

  /** How quickly a wider gap becomes a surer space, in pitches. */
  private static final double SOFTNESS_PITCHES = 0.18;

  private static final double SMALLEST_P = 0.15;

  private Spaces() {}

  /** The same lattice with doubtful spaces where gaps are wide. */
  static LineLattice fromGaps(LineLattice lattice) {
    List<Slot> slots = lattice.slots();
    List<Double> gaps = new ArrayList<>();
    int before = -1;
    int[] previous = new int[slots.size()];
    Arrays.fill(previous, -1);
    for (int i = 0; i < slots.size(); i++) {
      if (slots.get(i).best().isBlank()) {
        if (!slots.get(i).best().isEmpty()) {
          before = -1; // A space that was seen: no gap to judge here.
        }
        continue;
      }
      if (before >= 0) {
        previous[i] = before;
        gaps.add(slots.get(i).centre() - slots.get(before).centre());
      }
      before = i;
    }
    if (gaps.size() < 3) {
      return lattice;
    }
    double pitch = gaps.stream().sorted().skip(gaps.size() / 2).findFirst().orElseThrow();
    List<Slot> spaced = new ArrayList<>();
    for (int i = 0; i < slots.size(); i++) {
      if (previous[i] >= 0) {
        Slot left = slots.get(previous[i]);
        double gap = slots.get(i).centre() - left.centre();
        double p = 1 / (1 + Math.exp(-(gap / pitch - SPACE_AT_PITCHES) / SOFTNESS_PITCHES));
        if (p >= SMALLEST_P) {
          Map<String, Double> weights = new LinkedHashMap<>();
          weights.put(" ", p);
          weights.put("", 1 - p);
          double middle = (slots.get(i).centre() + left.centre()) / 2;
          spaced.add(Slot.ofWeights(weights, 0, middle, middle));
        }
      }
      spaced.add(slots.get(i));
    }
    return new LineLattice(spaced);
  }
}
