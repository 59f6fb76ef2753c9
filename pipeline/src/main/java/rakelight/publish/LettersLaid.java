package rakelight.publish;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.inscription.Letter;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.reading.ProposedLine;
import rakelight.reading.Slot;

/**
 * Lays the letters of a line that people read along the slots in which a machine saw letters: the
 * cheapest way to pair them in their order, a letter that a slot knows being nearly as good as the
 * one it favours. Letters without a slot share the room between their neighbours; at the ends of a
 * line they have no place. Where fewer than half of the letters are known to their slots none is
 * laid: it may be another line. Costs are choices.
 */
final class LettersLaid {
  private static final double OTHER_LETTER = 1;
  private static final double KNOWN_TO_SLOT = 0.4;
  private static final double NO_SLOT = 0.9;
  private static final double NO_LETTER = 0.7;
  private static final double LEAST_KNOWN = 0.5;

  private final ProposedLine line;
  private final List<Letter> letters = new ArrayList<>();
  private final List<Slot> slots;

  private LettersLaid(List<Sign> signs, ProposedLine line) {
    this.line = line;
    for (Sign sign : signs) {
      if (sign instanceof Letter letter) {
        letters.add(letter);
      }
    }
    slots = line.lattice().slots().stream().filter(slot -> !slot.best().isBlank()).toList();
  }

  /**
   * By letter, from where to where along the line's strip it stands, 0 to 1.
   *
   * @param signs of one line of the reading
   */
  static Map<SignId, double[]> along(List<Sign> signs, ProposedLine line) {
    return new LettersLaid(signs, line).along();
  }

  private Map<SignId, double[]> along() {
    List<Optional<double[]>> stretches = new ArrayList<>();
    int known = 0;
    int[] paired = paired();
    for (int i = 0; i < paired.length; i++) {
      known += paired[i] >= 0 && cost(letters.get(i), slots.get(paired[i])) < OTHER_LETTER ? 1 : 0;
    }
    if (known < LEAST_KNOWN * letters.size()) {
      return Map.of();
    }
    for (int slot : paired) {
      stretches.add(
          slot < 0
              ? Optional.empty()
              : Optional.of(new double[] {line.from(slots.get(slot)), line.to(slots.get(slot))}));
    }
    between(stretches);
    Map<SignId, double[]> along = new LinkedHashMap<>();
    for (int i = 0; i < letters.size(); i++) {
      SignId id = letters.get(i).id();
      stretches.get(i).filter(s -> s[1] > s[0]).ifPresent(s -> along.put(id, s));
    }
    return along;
  }

  /** By letter, its slot; -1 for none. */
  private int[] paired() {
    int n = letters.size();
    int m = slots.size();
    double[][] cost = new double[n + 1][m + 1];
    for (int i = 0; i <= n; i++) {
      for (int j = 0; j <= m; j++) {
        if (i == 0 || j == 0) {
          cost[i][j] = i * NO_SLOT + j * NO_LETTER;
          continue;
        }
        double paired = cost[i - 1][j - 1] + cost(letters.get(i - 1), slots.get(j - 1));
        double alone = Math.min(cost[i - 1][j] + NO_SLOT, cost[i][j - 1] + NO_LETTER);
        cost[i][j] = Math.min(paired, alone);
      }
    }
    int[] paired = new int[n];
    java.util.Arrays.fill(paired, -1);
    int i = n;
    int j = m;
    while (i > 0 && j > 0) {
      if (cost[i][j] == cost[i - 1][j - 1] + cost(letters.get(i - 1), slots.get(j - 1))) {
        paired[--i] = --j;
      } else if (cost[i][j] == cost[i - 1][j] + NO_SLOT) {
        i--;
      } else {
        j--;
      }
    }
    return paired;
  }

  private static double cost(Letter letter, Slot slot) {
    if (slot.best().equalsIgnoreCase(letter.text())) {
      return 0;
    }
    return slot.alternatives().stream().anyMatch(a -> a.text().equalsIgnoreCase(letter.text()))
        ? KNOWN_TO_SLOT
        : OTHER_LETTER;
  }

  /** Letters without a slot share what their neighbours leave. */
  private static void between(List<Optional<double[]>> stretches) {
    int i = 0;
    while (i < stretches.size()) {
      if (stretches.get(i).isPresent()) {
        i++;
        continue;
      }
      int end = i;
      while (end < stretches.size() && stretches.get(end).isEmpty()) {
        end++;
      }
      if (i > 0 && end < stretches.size()) {
        double from = stretches.get(i - 1).orElseThrow()[1];
        double to = stretches.get(end).orElseThrow()[0];
        double each = (to - from) / (end - i);
        for (int k = i; k < end && each > 0; k++) {
          stretches.set(
              k, Optional.of(new double[] {from + (k - i) * each, from + (k - i + 1) * each}));
        }
      }
      i = end;
    }
  }
}
