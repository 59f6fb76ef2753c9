package rakelight.marker;

import java.util.Locale;

/**
 * What is the same in numbers that differ only in how they are written: case, spaces (but for one
 * between figures, which parts two numbers), and zeros before figures. {@code a-005}, {@code A-5}
 * and {@code A - 5} are one.
 */
final class NumberForm {
  private NumberForm() {}

  static boolean areAlike(String one, String other) {
    return of(one).equals(of(other));
  }

  /** The same for all numbers that are alike. */
  static String of(String number) {
    return number
        .strip()
        .toLowerCase(Locale.ROOT)
        .replaceAll("\\s+", " ")
        .replaceAll("(?<![0-9]) | (?![0-9])", "")
        .replaceAll("(?<![0-9])0+(?=[0-9])", "");
  }
}
