package rakelight.inscription;

import java.util.List;

/**
 * Readings as text in Leiden signs, after Krummrey and Panciera 1980 as the EpiDoc Guidelines list
 * them, with notes of our own for what has no sign there. The text form is lossless: for every
 * reading, parsing what was printed gives it back, save for the ids of signs, which parsing counts
 * from one. The signs are described in docs/leiden.md.
 */
public final class Leiden {
  private Leiden() {}

  /**
   * Parses a face. A line begins at a line end, at {@code |}, or at {@code /} between spaces; a
   * {@code |} with no space beside it says that a word runs on.
   *
   * @throws LeidenException naming the place, what was found and what was expected
   */
  public static Inscription parse(String text) throws LeidenException {
    return new LeidenParser(text, false).parse();
  }

  /**
   * Parses what the ledger holds. Some texts that {@link #parse} refuses today, because they can
   * hardly be meant, were taken once and are read as they were then.
   */
  static Inscription parseKept(String text) throws LeidenException {
    return new LeidenParser(text, true).parse();
  }

  /** The face in one running line, lines parted by {@code |}. */
  public static String print(Inscription inscription) {
    return new LeidenPrinter(inscription, true).print();
  }

  /**
   * The face line by line. Brackets are closed at the end of each line and opened again, as is
   * usual when lines stand below each other; a line on which a word runs on begins with {@code |}.
   * Joined with line ends they parse to the same reading.
   */
  public static List<String> printLines(Inscription inscription) {
    return List.of(new LeidenPrinter(inscription, false).print().split("\n", -1));
  }
}
