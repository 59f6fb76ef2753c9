package rakelight.index;

import java.util.Arrays;

/**
 * What the writer of a piece and its reader have both seen so far: for each choice of one bit how
 * likely it is set, in 65,536ths, and out of how many; and the shares met last. A choice belongs to
 * what is written (letters by the letter before, numbers by their kind) and the bits before it.
 */
final class PieceModel {
  /** Whose letters they are: each hand has its own. */
  static final int NAMES = 0;

  static final int TEXTS = 1;
  static final int ENDS = 2;

  /** Signs of letters; the last stands for all others. */
  static final int SIGNS = 128;

  static final int LATELY = 15;

  private static final int HANDS = 3;
  private static final int HALF = 0x8000;
  private static final int FULL = 0xFFFF;

  /** A choice met more often is learnt as slowly. Tried 15 to 255. */
  private static final int MOST_MET = 30;

  /** How many bits a number has, then its first three. */
  private static final int A_KIND = 32 + 32 * 8;

  private static final int KINDS = 48;
  private static final int NUMBERS = HANDS * SIGNS * SIGNS;
  private static final int SHARES = NUMBERS + KINDS * A_KIND;
  private static final int LATELY_AT = SHARES + 1024;

  private final char[] chances;
  private final byte[] met;
  private final int[] lately;

  private PieceModel(char[] chances, byte[] met, int[] lately) {
    this.chances = chances;
    this.met = met;
    this.lately = lately;
  }

  /** Nothing seen. */
  static PieceModel blank() {
    char[] chances = new char[LATELY_AT + LATELY + 1];
    Arrays.fill(chances, (char) HALF);
    int[] lately = new int[LATELY];
    Arrays.fill(lately, -1);
    return new PieceModel(chances, new byte[chances.length], lately);
  }

  PieceModel copy() {
    return new PieceModel(chances.clone(), met.clone(), lately.clone());
  }

  static int letters(int hand, int before) {
    return (hand * SIGNS + before) * SIGNS;
  }

  static int size(int kind) {
    return NUMBERS + kind * A_KIND;
  }

  static int first(int kind, int bits) {
    return NUMBERS + kind * A_KIND + 32 + bits * 8;
  }

  static int shares() {
    return SHARES;
  }

  static int latelyAt() {
    return LATELY_AT;
  }

  /** How likely the bit is set, in 4,096ths, above none. */
  int chance(int choice) {
    return Math.max(1, chances[choice] >> 4);
  }

  void learn(int choice, boolean set) {
    int chance = chances[choice];
    int times = met[choice] + 2;
    chances[choice] = (char) (set ? chance + (FULL - chance) / times : chance - chance / times);
    if (met[choice] < MOST_MET) {
      met[choice]++;
    }
  }

  /** Where among the shares met last this one is, the last at 0; -1 if it isn't. Now it is. */
  int met(int level) {
    int at = 0;
    while (at < LATELY && lately[at] != level) {
      at++;
    }
    System.arraycopy(lately, 0, lately, 1, Math.min(at, LATELY - 1));
    lately[0] = level;
    return at == LATELY ? -1 : at;
  }
}
