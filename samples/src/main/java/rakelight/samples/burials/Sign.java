package rakelight.samples.burials;

/** What is left of one letter, as a reader set it down. */
public sealed interface Sign {
  /** Read as this letter, rightly or not. */
  record Read(char letter) implements Sign {}

  /**
   * Left open between two letters.
   *
   * @param likelier to which the reader gives six of ten
   */
  record Open(char likelier, char other) implements Sign {}

  /** Nobody knows the letter, but that there is one. */
  record Lost() implements Sign {}

  /** Letters are gone, nobody knows how many. */
  record Gone() implements Sign {}
}
