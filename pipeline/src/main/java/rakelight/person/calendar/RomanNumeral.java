package rakelight.person.calendar;

import java.util.Locale;
import java.util.OptionalInt;

/**
 * Roman numerals as carved, not as schools teach them: added up (XXIIII), taken off twice (XIIX), a
 * J for the last I, CIↃ and IↃ for a thousand and five hundred. Values 1 to 9999; points, raised
 * points and spaces within are passed over.
 */
public final class RomanNumeral {
  private static final int MOST = 9999;
  private static final int MOST_IN_A_RUN = 4;

  private RomanNumeral() {}

  /** The value, or empty when the text isn't a numeral. */
  public static OptionalInt parse(String text) {
    if (!mayBe(text)) {
      return OptionalInt.empty();
    }
    String signs =
        text.toUpperCase(Locale.ROOT)
            .replaceAll("[.·:\\s]", "")
            .replace("CIↃ", "M")
            .replace("ↀ", "M")
            .replace("IↃ", "D")
            .replaceAll("J$", "I");
    if (!signs.matches("[IVXLCDM]+")) {
      return OptionalInt.empty();
    }
    int total = 0;
    int at = 0;
    int lastAdded = Integer.MAX_VALUE;
    while (at < signs.length()) {
      int value = value(signs.charAt(at));
      int run = 1;
      while (at + run < signs.length() && signs.charAt(at + run) == signs.charAt(at)) {
        run++;
      }
      boolean half = isHalf(value);
      if (run > (half ? 1 : MOST_IN_A_RUN) || value > lastAdded) {
        return OptionalInt.empty();
      }
      boolean larger = at + run < signs.length() && value(signs.charAt(at + run)) > value;
      if (larger) {
        int minuend = value(signs.charAt(at + run));
        if (half || run > 2 || minuend > lastAdded || (minuend == lastAdded && isHalf(minuend))) {
          return OptionalInt.empty();
        }
        total += minuend - run * value;
        lastAdded = value - 1;
        at += run + 1;
      } else {
        total += run * value;
        lastAdded = value;
        at += run;
      }
    }
    return total <= MOST ? OptionalInt.of(total) : OptionalInt.empty();
  }

  /** Most words hold a letter or figure that no numeral has; they needn't be looked at further. */
  private static boolean mayBe(String text) {
    for (int i = 0; i < text.length(); i++) {
      char sign = text.charAt(i);
      if (sign < 128 && Character.isLetterOrDigit(sign) && "ivxlcdmjIVXLCDMJ".indexOf(sign) < 0) {
        return false;
      }
    }
    return true;
  }

  private static boolean isHalf(int value) {
    return value == 5 || value == 50 || value == 500;
  }

  private static int value(char sign) {
    return switch (sign) {
      case 'I' -> 1;
      case 'V' -> 5;
      case 'X' -> 10;
      case 'L' -> 50;
      case 'C' -> 100;
      case 'D' -> 500;
      default -> 1000;
    };
  }
}
