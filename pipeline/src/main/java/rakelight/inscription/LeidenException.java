package rakelight.inscription;

/**
 * A text that isn't in the Leiden signs of docs/leiden.md: where, what was found, what is meant.
 */
public final class LeidenException extends Exception {
  private final int line;
  private final int column;

  LeidenException(int line, int column, String found, String expected) {
    super("column " + column + ": found " + found + "; expected " + expected);
    this.line = line;
    this.column = column;
  }

  /** The line of the text, from 1. */
  public int line() {
    return line;
  }

  /** The sign of that line at which reading stopped, counted in code points from 1. */
  public int column() {
    return column;
  }
}
