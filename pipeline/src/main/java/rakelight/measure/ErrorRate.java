package rakelight.measure;

import java.util.List;

/**
 * Errors of a hypothesis against a reference: (S + D + I) / N with N the length of the reference,
 * so that it can exceed one. Letters count spaces as letters.
 *
 * @param substitutions units read as another
 * @param deletions units not read
 * @param insertions units read that aren't there
 * @param referenceLength units in the reference
 */
public record ErrorRate(int substitutions, int deletions, int insertions, int referenceLength) {

  /** Nothing compared yet. */
  public static final ErrorRate NONE = new ErrorRate(0, 0, 0, 0);

  /** Errors per letter (one per code point). */
  public static ErrorRate ofLetters(String reference, String hypothesis) {
    return Alignment.of(letters(reference), letters(hypothesis)).errors();
  }

  /** Errors per word; words are what white space separates. */
  public static ErrorRate ofWords(String reference, String hypothesis) {
    return Alignment.of(words(reference), words(hypothesis)).errors();
  }

  /** The code points of a text as strings. */
  static List<String> letters(String text) {
    return text.codePoints().mapToObj(Character::toString).toList();
  }

  private static List<String> words(String text) {
    return text.isBlank() ? List.of() : List.of(text.strip().split("\\s+"));
  }

  /** Substitutions, deletions and insertions together. */
  public int errors() {
    return substitutions + deletions + insertions;
  }

  /**
   * Errors over reference length; 0 for nothing against nothing, infinite for something against
   * nothing.
   */
  public double rate() {
    if (referenceLength == 0) {
      return errors() == 0 ? 0 : Double.POSITIVE_INFINITY;
    }
    return (double) errors() / referenceLength;
  }

  /** Both counts together, as over one longer text. */
  public ErrorRate plus(ErrorRate other) {
    return new ErrorRate(
        substitutions + other.substitutions,
        deletions + other.deletions,
        insertions + other.insertions,
        referenceLength + other.referenceLength);
  }
}
