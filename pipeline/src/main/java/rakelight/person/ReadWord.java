package rakelight.person;

import java.util.List;
import rakelight.inscription.Inscription;
import rakelight.inscription.SignId;

/**
 * One word of a reading, as people choose it to say how it is to be taken.
 *
 * @param line from 1
 * @param shown as carved, {@code ?} for each letter nobody can name
 */
public record ReadWord(int line, String shown, String folded, List<SignId> signs) {
  public ReadWord {
    signs = List.copyOf(signs);
  }

  /** All words of a reading, in its order. */
  public static List<ReadWord> of(Inscription inscription) {
    return CarvedWord.of(inscription).stream()
        .map(word -> new ReadWord(word.line(), word.shown(), word.folded(), word.signs()))
        .toList();
  }
}
