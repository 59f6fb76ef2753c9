package rakelight.index;

/**
 * How often each letter or figure stands in words, for places of which nothing is known.
 *
 * @param shares of a to z, then 0 to 9
 * @param other of any other sign
 */
record LetterShares(double[] shares, double other) {
  private static final int LETTERS = 26;

  /** All alike. */
  static final LetterShares ALIKE = alike();

  LetterShares {
    shares = shares.clone();
  }

  private static LetterShares alike() {
    double[] shares = new double[LETTERS + 10];
    java.util.Arrays.fill(shares, 1.0 / shares.length);
    return new LetterShares(shares, 1.0 / shares.length);
  }

  static int place(int letter) {
    return letter >= 'a' && letter <= 'z'
        ? letter - 'a'
        : letter >= '0' && letter <= '9' ? LETTERS + letter - '0' : -1;
  }

  /** The letter or figure of a place. */
  static char letter(int place) {
    return (char) (place < LETTERS ? 'a' + place : '0' + place - LETTERS);
  }

  double of(int letter) {
    int place = place(letter);
    return place < 0 ? other : shares[place];
  }
}
