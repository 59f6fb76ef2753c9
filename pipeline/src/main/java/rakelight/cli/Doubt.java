package rakelight.cli;

import rakelight.reading.LineLattice;
import rakelight.reading.Slot;

/** A machine's line as text, with a dot under every letter that may be another. */
final class Doubt {
  /** Below this probability a letter is shown as doubtful. */
  private static final double SURE = 0.9;

  private static final char DOT_BELOW = '\u0323';

  private Doubt() {}

  static String dotted(LineLattice line) {
    StringBuilder text = new StringBuilder();
    for (Slot slot : line.slots()) {
      String best = slot.best();
      if (best.isBlank()) {
        if (!best.isEmpty() && text.length() > 0 && text.charAt(text.length() - 1) != ' ') {
          text.append(' ');
        }
      } else if (slot.p() >= SURE) {
        text.append(best);
      } else {
        best.codePoints().forEach(c -> text.appendCodePoint(c).append(DOT_BELOW));
      }
    }
    return text.toString().strip();
  }
}
