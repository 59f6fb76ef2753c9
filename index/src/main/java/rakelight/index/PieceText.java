package rakelight.index;

import java.util.List;
import java.util.Set;

/**
 * The text of a piece, as it is written. A number is signs from # to ~ without the backslash: the
 * last is one of the first {@value #LAST}, worth 0 to 63; those before are of the other {@value
 * #MORE}, the lowest digit first. A share is three signs of all {@value #SIGNS}, the highest first:
 * its negative natural logarithm by {@value #A_NAT} to the nat, or the highest for none.
 */
final class PieceText {
  static final int SIGNS = 91;
  static final int LAST = 64;
  static final int MORE = SIGNS - LAST;
  static final int A_NAT = 12_559;
  private static final int HIGHEST = SIGNS * SIGNS * SIGNS - 1;

  private final StringBuilder out = new StringBuilder();

  private static char sign(int value) {
    return (char) (value < 57 ? '#' + value : '#' + value + 1);
  }

  void number(long value) {
    long rest = value;
    while (rest >= LAST) {
      out.append(sign((int) (LAST + rest % MORE)));
      rest /= MORE;
    }
    out.append(sign((int) rest));
  }

  void share(double share) {
    long level = share <= 0 ? HIGHEST : Math.round(-Math.log(share) * A_NAT);
    int kept = (int) Math.max(0, Math.min(HIGHEST, level));
    out.append(sign(kept / SIGNS / SIGNS))
        .append(sign(kept / SIGNS % SIGNS))
        .append(sign(kept % SIGNS));
  }

  /** A text that holds no space, and one behind it. */
  void text(String text) {
    out.append(text).append(' ');
  }

  void append(String text) {
    out.append(text);
  }

  void words(List<String> words) {
    number(words.size());
    words.forEach(this::text);
  }

  /** Numbers that rise, by their distances. */
  void rising(Set<Integer> numbers) {
    number(numbers.size());
    int last = 0;
    for (int each : numbers) {
      number(each - last);
      last = each;
    }
  }

  int length() {
    return out.length();
  }

  @Override
  public String toString() {
    return out.toString();
  }
}
