package rakelight.person;

import org.jspecify.annotations.Nullable;

/**
 * A folded word of a name as far as its letters are known: {@code ?} stands for one that is lost,
 * {@code …} for any number of them; an initial is its letter and {@code …}.
 */
final class NamePattern {
  private static final char ONE = '?';
  private static final char ANY = '…';

  private final String letters;
  private final boolean whole;
  private final boolean saysSomething;

  private NamePattern(String letters) {
    this.letters = letters;
    this.whole = letters.indexOf(ONE) < 0 && letters.indexOf(ANY) < 0;
    this.saysSomething = letters.codePoints().anyMatch(Character::isLetterOrDigit);
  }

  /** Of a folded word; a single letter is an initial. */
  static NamePattern of(String word) {
    boolean initial = word.length() == 1 && Character.isLetter(word.charAt(0));
    return new NamePattern(initial ? word + ANY : word);
  }

  String letters() {
    return letters;
  }

  /** Whether every letter is known. */
  boolean isWhole() {
    return whole;
  }

  boolean isInitial() {
    return letters.length() == 2 && letters.charAt(1) == ANY && letters.charAt(0) != ONE;
  }

  /** Whether a letter is known at all. */
  boolean saysSomething() {
    return saysSomething;
  }

  /** Whether one name can be behind both. */
  boolean fits(NamePattern other) {
    return whole && other.whole ? letters.equals(other.letters) : fit(letters, 0, other.letters, 0);
  }

  private static boolean fit(String a, int i, String b, int j) {
    if (i < a.length() && a.charAt(i) == ANY) {
      return fit(a, i + 1, b, j) || (j < b.length() && fit(a, i, b, j + 1));
    }
    if (j < b.length() && b.charAt(j) == ANY) {
      return fit(a, i, b, j + 1) || (i < a.length() && fit(a, i + 1, b, j));
    }
    if (i == a.length() || j == b.length()) {
      return i == a.length() && j == b.length();
    }
    char one = a.charAt(i);
    char other = b.charAt(j);
    return (one == other || one == ONE || other == ONE) && fit(a, i + 1, b, j + 1);
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof NamePattern pattern && letters.equals(pattern.letters);
  }

  @Override
  public int hashCode() {
    return letters.hashCode();
  }

  @Override
  public String toString() {
    return letters;
  }
}
