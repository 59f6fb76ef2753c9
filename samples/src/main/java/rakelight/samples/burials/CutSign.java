package rakelight.samples.burials;

/** What is left of one letter, as a reader set it down. */
public sealed interface CutSign {
  /** Read as this letter, rightly or not. */
  record Read(char letter) implements CutSign {}

  /**
   * Left open between two letters.
   *
   * @param likelier to which the reader gives six of ten
   */
  record Open(char likelier, char other) implements CutSign {}

  /** Nobody knows the letter, but that there is one. */
  record Lost() implements CutSign {}

  /** Letters are gone, nobody knows how many. */
  record Gone() implements CutSign {}
}
