package rakelight.cli;

/** How many, in words that agree with the number. */
final class Counted {
  private Counted() {}

  /** "1 photograph", "2 photographs". */
  static String of(long count, String one) {
    return count + " " + one + (count == 1 ? "" : "s");
  }
}
