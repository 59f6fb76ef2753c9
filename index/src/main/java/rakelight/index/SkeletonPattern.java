package rakelight.index;

/**
 * Accepts the {@link Skeleton} terms that may say a word, with up to so many letters wrong, added,
 * dropped or swapped besides what is doubtful or lost: at each place the letter or the sign for one
 * that isn't known, a loop where nobody knows how many are lost. Loss and slip are taken together.
 *
 * <p>What has been passed is the sets of letters passed with no, one and two slips, bits of three
 * numbers, and the halves of swaps; a step is a few shifts, as S. Wu and U. Manber, "Fast text
 * searching allowing errors", Communications of the ACM 35 (1992), 83-91, do it. No automaton is
 * made of it: a word is asked once, and to make one takes longer than to step.
 */
final class SkeletonPattern {
  /** In a word asked for, any letter. */
  static final char ANY = '?';

  /** Longer words aren't looked for. */
  static final int LONGEST = 60;

  private static final int BEYOND = 0x80;

  private final int[] word;
  private final int slips;
  private final boolean openEnd;
  private final long all;
  private final int letters;
  private final long[] standing = new long[BEYOND];

  private SkeletonPattern(String word, int slips, boolean openEnd) {
    this.word = word.codePoints().limit(LONGEST).toArray();
    this.slips = slips;
    this.openEnd = openEnd;
    this.all = (1L << (this.word.length + 1)) - 1;
    for (int letter = 0; letter < BEYOND; letter++) {
      standing[letter] = standing(letter);
    }
    int bits = 0;
    for (int letter : this.word) {
      bits |= letter == ANY ? -1 : bit(letter);
    }
    this.letters = bits;
  }

  /** A letter in a set of letters; those beyond z share the last. */
  static int bit(int letter) {
    return letter >= 'a' && letter <= 'z'
        ? 1 << letter - 'a'
        : letter >= '0' && letter <= '9' ? 1 << 26 + letter % 5 : 1 << 31;
  }

  /** Whether a term may be accepted that has these letters; quick. */
  boolean mayAccept(int known) {
    return Integer.bitCount(known & ~letters) <= slips;
  }

  /**
   * Whether a term may be accepted that has these letters and so many places; quick.
   *
   * @param length below 0 if it isn't sure
   */
  boolean mayAccept(int known, int length) {
    return mayAccept(known) && (length < 0 || Math.abs(length - word.length) <= slips);
  }

  /** Terms of fewer places aren't accepted. */
  int shortest() {
    return word.length - slips;
  }

  int longest() {
    return word.length + slips;
  }

  /**
   * @param word folded; {@value #ANY} for any letter
   * @param slips 0 to 2
   */
  static SkeletonPattern of(String word, int slips) {
    return new SkeletonPattern(word, slips, false);
  }

  /** Those that may begin with these letters. */
  static SkeletonPattern beginning(String letters) {
    return new SkeletonPattern(letters, 0, true);
  }

  boolean isOpenEnd() {
    return openEnd;
  }

  /** Before the first sign. */
  Passed begin(int deepest) {
    return new Passed(deepest);
  }

  /** Where in the word a letter stands. */
  private long standing(int letter) {
    long places = 0;
    for (int i = 0; i < word.length; i++) {
      places |= word[i] == letter || word[i] == ANY ? 1L << i : 0;
    }
    return places;
  }

  /**
   * What has been passed after each of a term's signs: bit i says that i letters of the word have;
   * {@code half} is of those passed when the second of two swapped ones was met.
   */
  final class Passed {
    private final long[] none;
    private final long[] one;
    private final long[] two;
    private final long[] half;

    private Passed(int deepest) {
      none = new long[deepest + 1];
      one = new long[deepest + 1];
      two = new long[deepest + 1];
      half = new long[deepest + 1];
      none[0] = 1;
    }

    /**
     * Takes the sign at a depth.
     *
     * @return whether anything can still be accepted
     */
    boolean step(int depth, int sign) {
      switch (sign) {
        case Skeleton.UNKNOWN, Skeleton.OPEN -> step(depth, all, true);
        case Skeleton.UNSURE -> same(depth);
        case Skeleton.SIDE -> {
          same(depth);
          return depth == 0;
        }
        case Skeleton.MAYBE -> run(depth, none[depth] | none[depth] << 1);
        case Skeleton.TEXTS ->
            run(depth, none[depth] | none[depth] << 1 | none[depth] << 2 | none[depth] << 3);
        case Skeleton.MANY -> run(depth, -Long.lowestOneBit(none[depth]));
        default -> step(depth, sign < BEYOND ? standing[sign] : standing(sign), false);
      }
      int at = depth + 1;
      return (none[at] | one[at] | two[at] | half[at]) != 0;
    }

    private void step(int depth, long places, boolean lost) {
      int at = depth + 1;
      long clean = none[depth];
      none[at] = (clean & places) << 1 & all;
      if (slips > 0) {
        long open = one[depth] | clean << 1;
        one[at] =
            ((open & places) << 1 | clean | clean << 1 | (lost ? 0 : (half[depth] & places) << 2))
                & all;
        half[at] = lost || slips > 1 ? 0 : clean & places >>> 1;
        two[at] =
            slips > 1 ? (((two[depth] | open << 1) & places) << 1 | open | open << 1) & all : 0;
      }
    }

    /** A sign that takes nothing. */
    void same(int depth) {
      none[depth + 1] = none[depth];
      one[depth + 1] = one[depth];
      two[depth + 1] = two[depth];
      half[depth + 1] = half[depth];
    }

    /** Letters that may be there or not; with slips that is left to the pattern without. */
    private void run(int depth, long spread) {
      none[depth + 1] = slips > 0 ? 0 : spread & all;
      one[depth + 1] = 0;
      two[depth + 1] = 0;
      half[depth + 1] = 0;
    }

    /** Whether a term that ends at a depth is accepted. */
    boolean accepts(int depth) {
      long ends = none[depth];
      ends |= slips > 0 ? one[depth] | none[depth] << 1 : 0;
      ends |= slips > 1 ? two[depth] | (one[depth] | none[depth] << 1) << 1 : 0;
      return (ends >>> word.length & 1) == 1;
    }
  }
}
