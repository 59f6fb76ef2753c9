package rakelight.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import rakelight.reading.LineLattice;
import rakelight.reading.Odds;
import rakelight.reading.Slot;

/**
 * A slot of a read line and what truly stands there, case and typeface folded away.
 *
 * @param truth a letter, a space, or nothing (the empty string)
 */
record Judged(Slot slot, String truth) {
  /**
   * The slots of a line beside its truth. The likeliest letters are laid against the true ones at
   * the fewest errors; a slot that most probably holds nothing is judged by whether a true letter
   * was passed over there.
   */
  static List<Judged> of(String truth, LineLattice lattice) {
    List<Slot> slots = lattice.slots();
    List<Integer> shown = new ArrayList<>();
    for (int i = 0; i < slots.size(); i++) {
      if (!folded(slots.get(i).best()).isEmpty()) {
        shown.add(i);
      }
    }
    List<String> letters = Tally.foldedLetters(truth);
    String[] stands = new String[slots.size()];
    Arrays.fill(stands, "");
    int at = -1;
    for (Alignment.Step step :
        Alignment.of(letters, shown.stream().map(i -> folded(slots.get(i).best())).toList())
            .steps()) {
      if (step.hypothesisIndex() >= 0) {
        at = shown.get(step.hypothesisIndex());
        stands[at] = step.referenceIndex() >= 0 ? letters.get(step.referenceIndex()) : "";
      } else if (at + 1 < slots.size() && folded(slots.get(at + 1).best()).isEmpty()) {
        stands[++at] = letters.get(step.referenceIndex());
      }
    }
    List<Judged> judged = new ArrayList<>();
    for (int i = 0; i < stands.length; i++) {
      judged.add(new Judged(slots.get(i), stands[i]));
    }
    return judged;
  }

  /**
   * A word as read.
   *
   * @param right whether the truth has it, letter by letter, case and typeface folded away
   */
  record JudgedWord(Odds.Word word, boolean right) {}

  /** The words of a line beside its truth. */
  static List<JudgedWord> words(String truth, LineLattice lattice, Odds odds) {
    List<Odds.Word> words = odds.words(lattice);
    List<JudgedWord> judged = new ArrayList<>();
    Alignment.of(
            List.of(Tally.fold(truth).split(" ", -1)),
            words.stream().map(word -> Tally.fold(word.text())).toList())
        .steps()
        .forEach(
            step -> {
              if (step.hypothesisIndex() >= 0) {
                judged.add(
                    new JudgedWord(
                        words.get(step.hypothesisIndex()), step.kind() == Alignment.Kind.MATCH));
              }
            });
    return judged;
  }

  /** Whether a letter was read here, neither a space nor nothing. */
  boolean read() {
    return !slot.best().isBlank();
  }

  boolean right() {
    return folded(slot.best()).equals(truth);
  }

  /** Whether a letter truly stands here. */
  boolean ink() {
    return !truth.isBlank();
  }

  /** Whether the truth is among the likeliest so many. */
  boolean amongFirst(int alternatives) {
    return slot.alternatives().stream()
        .limit(alternatives)
        .anyMatch(a -> folded(a.text()).equals(truth));
  }

  static String folded(String text) {
    return text.isBlank() ? text : Tally.fold(text);
  }
}
