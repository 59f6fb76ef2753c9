package rakelight.index;

import java.util.Collection;

/**
 * The text of a piece, as it is written: choices of one bit, each by how likely {@link PieceModel}
 * holds it, put together by arithmetic coding (I. H. Witten, R. M. Neal, J. G. Cleary, "Arithmetic
 * coding for data compression", Communications of the ACM 30 (1987), 520-540; from memory). The
 * interval has 39 bits; whenever its ends agree in the highest 13 these are written as two signs of
 * {@value #SIGNS}, from # to ~ without the backslash. Behind the end a reader reads noughts.
 *
 * <p>A number is how many bits it has with one added, then those below the highest, of which the
 * first three are learnt and the others taken as they come. A share is its negative natural
 * logarithm by {@value #A_NAT} to the nat.
 */
final class PieceText {
  static final int SIGNS = 91;
  static final int A_NAT = 1 << 20;

  /** Of a share that is none. */
  static final int NONE = 0x3FFFFFF;

  private static final int UNIT = 13;
  private static final int UNITS = 2 * UNIT;
  private static final long UNIT_BITS = (1L << UNIT) - 1;
  private static final long ALL = (1L << 3 * UNIT) - 1;
  private static final int EVEN = 2048;
  private static final int LEARNT = 3;
  private static final int OTHER = PieceModel.SIGNS - 1;
  private static final int END = ' ';

  private final PieceModel model;
  private final StringBuilder out = new StringBuilder();
  private long low = 0;
  private long high = ALL;

  /**
   * @param model learns as it goes
   */
  PieceText(PieceModel model) {
    this.model = model;
  }

  private void code(boolean set, int chance) {
    long middle = low + (high - low >>> 12) * chance;
    if (set) {
      high = middle;
    } else {
      low = middle + 1;
    }
    while (low >>> UNITS == high >>> UNITS) {
      put(high >>> UNITS);
      low = low << UNIT & ALL;
      high = high << UNIT & ALL | UNIT_BITS;
    }
  }

  private void put(long unit) {
    out.append(sign((int) unit / SIGNS)).append(sign((int) unit % SIGNS));
  }

  private static char sign(int value) {
    return (char) (value < 57 ? '#' + value : '#' + value + 1);
  }

  private void bit(int choice, boolean set) {
    code(set, model.chance(choice));
    model.learn(choice, set);
  }

  /** The lowest bits of a value, the highest of them first, each by those before. */
  private void tree(int from, int bits, long value) {
    int node = 1;
    for (int i = bits - 1; i >= 0; i--) {
      boolean set = (value >>> i & 1) == 1;
      bit(from + node, set);
      node = node * 2 + (set ? 1 : 0);
    }
  }

  private void even(int bits, long value) {
    for (int i = bits - 1; i >= 0; i--) {
      code((value >>> i & 1) == 1, EVEN);
    }
  }

  /**
   * @param value from 0 to 2^31 - 2
   */
  void number(Kind kind, long value) {
    number(kind.ordinal(), value);
  }

  private void number(int kind, long value) {
    int bits = 63 - Long.numberOfLeadingZeros(value + 1);
    tree(PieceModel.size(kind), 5, bits);
    int learnt = Math.min(LEARNT, bits);
    tree(PieceModel.first(kind, bits), learnt, value + 1 >>> bits - learnt);
    even(bits - learnt, value + 1);
  }

  void share(double share) {
    int level =
        share <= 0
            ? NONE
            : (int) Math.max(0, Math.min(NONE - 1, Math.round(-Math.log(share) * A_NAT)));
    int lately = model.met(level);
    tree(PieceModel.latelyAt(), 4, lately < 0 ? PieceModel.LATELY : lately);
    if (lately < 0) {
      tree(PieceModel.shares(), 10, level >>> 16);
      even(16, level);
    }
  }

  /**
   * A text that holds no space.
   *
   * @param before one that may begin alike
   */
  void text(int hand, String text, String before) {
    int alike = 0;
    while (alike < Math.min(text.length(), before.length())
        && text.charAt(alike) == before.charAt(alike)) {
      alike++;
    }
    number(Kind.ALIKE, alike);
    int last = alike == 0 ? 0 : sort(text.charAt(alike - 1));
    for (int i = alike; i < text.length(); i++) {
      char letter = text.charAt(i);
      int sort = sort(letter);
      tree(PieceModel.letters(hand, last), 7, sort);
      if (sort == OTHER) {
        even(16, letter);
      }
      last = sort;
    }
    tree(PieceModel.letters(hand, last), 7, END);
  }

  private static int sort(char letter) {
    return Math.min(OTHER, letter);
  }

  void words(int hand, Collection<String> words) {
    number(Kind.COUNT, words.size());
    String before = "";
    for (String word : words) {
      text(hand, word, before);
      before = word;
    }
  }

  /** Numbers that rise, by their distances. */
  void rising(Collection<Integer> numbers) {
    number(Kind.COUNT, numbers.size());
    int last = 0;
    for (int each : numbers) {
      gap(numbers.size(), each - last);
      last = each;
    }
  }

  /** A distance among so many. */
  void gap(int count, int distance) {
    number(
        Kind.values().length + Math.min(15, 31 - Integer.numberOfLeadingZeros(Math.max(1, count))),
        distance);
  }

  /** What was written, whole. */
  String end() {
    put(high >>> UNITS);
    return out.toString();
  }

  /** What a number tells, in the order in which the script names them. */
  enum Kind {
    COUNT,
    ALIKE,
    ENTRIES,
    FREQUENT,
    PERSONS,
    PLACE_IN_NAME,
    PLACE_IN_TEXT,
    LEAF,
    EVENT,
    YEAR,
    SPAN,
    WEIGHT,
    AGE,
    KNOWN,
    PLACE
  }
}
