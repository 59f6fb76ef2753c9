package rakelight.reading;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/*
 * Two readings of one line, letter by letter:
 *
 *     first    D   I   E   D      1   8 .9   4
 *                                     3 .1
 *     second   D   I   E   D          8 .6   4
 *                                     3 .4
 *
 * They are laid against each other as in a spelling comparison: a pair of slots costs what they
 * disagree (one minus the probability that both hold the same letter) and a little for standing at
 * different places of the strip; a slot that has no partner costs the probability that it isn't empty.
 * The cheapest way to pair them all is found by dynamic programming (Wagner and Fischer, J. ACM 21,
 * 1974; for recognisers: Fiscus, "ROVER", IEEE ASRU 1997).
 *
 * Then each slot's alternatives are averaged. A recogniser counts by its weight times how sure it is of
 * this slot, so that one that sees a clear letter outvotes one that guesses. With weights 0.7 and 0.3:
 *
 *     8   (.7 x .9 x .9 + .3 x .6 x .6) / (.7 x .9 + .3 x .6)  =  .83
 *     3   (.7 x .9 x .1 + .3 x .6 x .4) / (.7 x .9 + .3 x .6)  =  .17
 *
 * The 1 that only the first has, stands against nothing at all in the second.
 *
 * The voices may be recognisers of one strip, or one recogniser on several photographs of the same
 * line: all strips of a line are cut along the same ribbon, so a place means the same in all of them.
 */

/** Merges lattices of one line into one, slot by slot. Alternatives still sum to one. */
final class LatticeMerger {
  /** Cost of standing one letter's width apart; set by judgement. */
  private static final double PLACE_COST = 0.2;

  /** Slots further apart than this many letters' widths are never paired. */
  private static final double LARGEST_DISTANCE = 2.5;

  private static final double SMALLEST_ALTERNATIVE_P = 0.003;

  /** A slot that most probably holds nothing is kept if something stands there with this. */
  private static final double SMALLEST_OVERLOOKED_P = 0.08;

  private LatticeMerger() {}

  /**
   * One reading of a line and how much it counts.
   *
   * @param weight above 0; only ratios matter
   */
  record Voice(LineLattice lattice, double weight) {}

  /** Merges readings of the same strip; the first leads the alignment. */
  static LineLattice merged(List<Voice> voices, Weighing weighing) {
    List<Voice> speaking = voices.stream().filter(v -> !v.lattice().slots().isEmpty()).toList();
    if (speaking.isEmpty()) {
      return new LineLattice(List.of());
    }
    List<Column> columns = new ArrayList<>();
    for (Slot slot : speaking.get(0).lattice().slots()) {
      columns.add(Column.of(slot, speaking.get(0).weight()));
    }
    double weightSoFar = speaking.get(0).weight();
    for (Voice voice : speaking.subList(1, speaking.size())) {
      columns = joined(columns, voice, weightSoFar, weighing);
      weightSoFar += voice.weight();
    }
    List<Slot> slots = new ArrayList<>();
    for (Column column : columns) {
      Slot slot = column.slot();
      if (!slot.best().isEmpty() || 1 - slot.p() >= SMALLEST_OVERLOOKED_P) {
        slots.add(slot);
      }
    }
    return new LineLattice(slots);
  }

  private static List<Column> joined(
      List<Column> columns, Voice voice, double weightSoFar, Weighing weighing) {
    List<Slot> others = voice.lattice().slots();
    List<Slot> here = columns.stream().map(Column::slot).toList();
    double pitch = Math.max(pitch(here), pitch(others));
    int n = columns.size();
    int m = others.size();
    double[][] cost = new double[n + 1][m + 1];
    for (int i = 0; i <= n; i++) {
      for (int j = 0; j <= m; j++) {
        if (i == 0 && j == 0) {
          continue;
        }
        double best = Double.MAX_VALUE;
        if (i > 0) {
          best = Math.min(best, cost[i - 1][j] + alone(here.get(i - 1)));
        }
        if (j > 0) {
          best = Math.min(best, cost[i][j - 1] + alone(others.get(j - 1)));
        }
        if (i > 0 && j > 0) {
          best =
              Math.min(best, cost[i - 1][j - 1] + pair(here.get(i - 1), others.get(j - 1), pitch));
        }
        cost[i][j] = best;
      }
    }
    List<Column> reversed = new ArrayList<>();
    int i = n;
    int j = m;
    while (i > 0 || j > 0) {
      if (i > 0
          && j > 0
          && cost[i][j] == cost[i - 1][j - 1] + pair(here.get(i - 1), others.get(j - 1), pitch)) {
        reversed.add(columns.get(--i).and(others.get(--j), voice.weight()));
      } else if (i > 0 && cost[i][j] == cost[i - 1][j] + alone(here.get(i - 1))) {
        reversed.add(columns.get(--i).andNothing(voice.weight(), weighing));
      } else {
        reversed.add(Column.of(others.get(--j), voice.weight()).andNothing(weightSoFar, weighing));
      }
    }
    java.util.Collections.reverse(reversed);
    return reversed;
  }

  private static double alone(Slot slot) {
    return 0.55 * (1 - slot.p("")) + 1e-3;
  }

  /** The width of a letter as a part of the strip. */
  private static double pitch(List<Slot> slots) {
    return (slots.get(slots.size() - 1).to() - slots.get(0).from()) / slots.size();
  }

  private static double pair(Slot a, Slot b, double pitch) {
    double distance = Math.abs(a.centre() - b.centre()) / Math.max(1e-6, pitch);
    if (distance > LARGEST_DISTANCE) {
      return Double.MAX_VALUE / 4;
    }
    double same = 0;
    for (Alternative x : a.alternatives()) {
      for (Alternative y : b.alternatives()) {
        if (x.text().equals(y.text())) {
          same += x.p() * y.p();
        } else if (x.text().equalsIgnoreCase(y.text())) {
          same += 0.8 * x.p() * y.p();
        }
      }
    }
    boolean spaceAgainstLetter = a.best().equals(" ") != b.best().equals(" ");
    return 1 - same + PLACE_COST * distance + (spaceAgainstLetter ? 0.5 : 0);
  }

  /**
   * The votes for one place.
   *
   * @param superior the votes for a letter cut small and high
   * @param letter all votes of those who see a letter
   */
  private record Column(
      Map<String, Double> votes, double from, double to, double superior, double letter) {
    static Column of(Slot slot, double weight) {
      return new Column(Map.of(), slot.from(), slot.to(), 0, 0).and(slot, weight);
    }

    private static Map<String, Double> votesOf(Slot slot, double weight) {
      Map<String, Double> votes = new LinkedHashMap<>();
      for (Alternative a : slot.alternatives()) {
        votes.put(a.text(), weight * slot.p() * a.p());
      }
      return votes;
    }

    Column and(Slot slot, double weight) {
      Map<String, Double> sum = new LinkedHashMap<>(votes);
      votesOf(slot, weight).forEach((text, vote) -> sum.merge(text, vote, Double::sum));
      double seen = weight * slot.p() * slot.ink();
      return new Column(sum, from, to, superior + seen * slot.superior(), letter + seen);
    }

    Column andNothing(double weight, Weighing weighing) {
      Map<String, Double> sum = new LinkedHashMap<>(votes);
      double counts = slot().best().equals(" ") ? weight * weighing.unseenSpace() : weight;
      sum.merge("", counts * weighing.unseenLetter(), Double::sum);
      return new Column(sum, from, to, superior, letter);
    }

    Slot slot() {
      return Slot.ofWeights(votes, SMALLEST_ALTERNATIVE_P, from, to)
          .withSuperior(letter > 0 ? Math.min(1, superior / letter) : 0);
    }
  }
}
