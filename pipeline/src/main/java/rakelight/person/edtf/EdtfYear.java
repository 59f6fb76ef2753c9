package rakelight.person.edtf;

import java.util.Locale;
import java.util.stream.LongStream;

/**
 * A year: four figures, any of them unspecified ({@code X}), or after a {@code Y} five and more, or
 * figures with an exponent; all but masked ones may state how many figures are significant.
 *
 * @param digits without sign and letters
 * @param lettered written with {@code Y}
 * @param exponent of ten; -1 when none is written
 * @param significantDigits 0 when not stated
 */
public record EdtfYear(
    boolean lettered,
    boolean negative,
    String digits,
    int exponent,
    int significantDigits,
    Qualifier qualifier) {

  /** Figures a year may have in all; keeps arithmetic within a long. */
  static final int MOST_DIGITS = 15;

  public EdtfYear {
    int length = digits.length() + Math.max(0, exponent);
    if (length > MOST_DIGITS) {
      throw new IllegalArgumentException("a year has " + MOST_DIGITS + " figures at most");
    }
    if (lettered ? !digits.matches("[0-9]+") : !digits.matches("[0-9X]{4}")) {
      throw new IllegalArgumentException("a year has four figures, or Y and more");
    }
    if (lettered && exponent < 0 && (digits.length() < 5 || digits.startsWith("0"))) {
      throw new IllegalArgumentException("Y is for years of more than four figures");
    }
    if (lettered && exponent >= 0 && digits.startsWith("0")) {
      throw new IllegalArgumentException("a year with an exponent begins with 1 to 9");
    }
    if (negative && digits.matches("0+")) {
      throw new IllegalArgumentException("there is no year -0000");
    }
    if (significantDigits < 0
        || significantDigits > length
        || (significantDigits > 0 && digits.contains("X"))) {
      throw new IllegalArgumentException("significant figures don't fit the year");
    }
  }

  static EdtfYear of(long year) {
    String digits = String.format(Locale.ROOT, "%04d", Math.abs(year));
    return new EdtfYear(digits.length() > 4, year < 0, digits, -1, 0, Qualifier.NONE);
  }

  EdtfYear withQualifier(Qualifier other) {
    return new EdtfYear(lettered, negative, digits, exponent, significantDigits, other);
  }

  /** Takes a month: four figures, none declared insignificant. */
  boolean isFourFigures() {
    return !lettered && significantDigits == 0;
  }

  boolean isMasked() {
    return digits.contains("X");
  }

  boolean isMaskedAtEndOnly() {
    return digits.matches("[0-9]{2}[0-9X]X");
  }

  int level() {
    if (exponent >= 0 || significantDigits > 0) {
      return 2;
    }
    return lettered || negative ? 1 : 0;
  }

  /** First year it can be. */
  public long earliest() {
    return negative ? -largest() : smallest();
  }

  /** Last year it can be. */
  public long latest() {
    return negative ? -Math.max(1, smallest()) : largest();
  }

  boolean admits(long year) {
    if (year < earliest() || year > latest()) {
      return false;
    }
    return !isMasked() || matches(Math.abs(year));
  }

  LongStream candidates() {
    return LongStream.rangeClosed(earliest(), latest()).filter(this::admits);
  }

  LongStream candidatesDescending() {
    return LongStream.rangeClosed(-latest(), -earliest()).map(y -> -y).filter(this::admits);
  }

  String digitsText() {
    return (lettered ? "Y" : "")
        + (negative ? "-" : "")
        + digits
        + (exponent >= 0 ? "E" + exponent : "")
        + (significantDigits > 0 ? "S" + significantDigits : "");
  }

  private long smallest() {
    long value = Long.parseLong(digits.replace('X', '0')) * power(Math.max(0, exponent));
    return value - (significantDigits > 0 ? value % roundedTo() : 0);
  }

  private long largest() {
    long value = Long.parseLong(digits.replace('X', '9')) * power(Math.max(0, exponent));
    return significantDigits > 0 ? value - value % roundedTo() + roundedTo() - 1 : value;
  }

  private long roundedTo() {
    return power(digits.length() + Math.max(0, exponent) - significantDigits);
  }

  private static long power(int exponent) {
    long value = 1;
    for (int i = 0; i < exponent; i++) {
      value *= 10;
    }
    return value;
  }

  private boolean matches(long value) {
    long rest = value;
    for (int i = digits.length() - 1; i >= 0; i--) {
      char digit = digits.charAt(i);
      if (digit != 'X' && digit - '0' != rest % 10) {
        return false;
      }
      rest /= 10;
    }
    return true;
  }
}
