package rakelight.index;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;

/**
 * A word laid along the places of a {@link Skeleton}: how likely such a skeleton is if the word is
 * what stood there (the forward algorithm over all ways to lay it), and the likeliest way.
 *
 * <p>With one letter lost, {@code wr?n} of {@code wren}: w, r and n each stand where they were
 * plainly read, 1 - wrong each; the lost place takes e and says nothing, 1.
 */
final class LetterAlignment {
  /** A place that is none of the texts it is open between is still some letter. */
  private static final double NONE_OF_THEM = 0.01;

  private static final int LETTERS = 36;

  /** By which the likeliest way is told. */
  private static final Channel LAYING = Channel.reader(Map.of(), 0.03);

  private final Skeleton.Slot[] slots;
  private final int[] word;
  private final Channel channel;
  private final LetterShares shares;

  private LetterAlignment(Skeleton.Slot[] slots, int[] word, Channel channel, LetterShares shares) {
    this.slots = slots;
    this.word = word;
    this.channel = channel;
    this.shares = shares;
  }

  /** How a letter of the word stands on the stone. */
  record Step(int slot, int letter, boolean sure, boolean same) {}

  /** Whether the word is one of those the skeleton may say, nothing misread. */
  static boolean fits(Skeleton skeleton, String word) {
    return skeleton.fit(word) > 0;
  }

  /**
   * The probability of the skeleton, up to what is the same for each word, if this word was cut.
   */
  static double of(Places places, int[] word, Channel channel) {
    return new LetterAlignment(places.array(), word, channel, LetterShares.ALIKE).sum(places);
  }

  /** The probability that somebody types this word who means what the skeleton says. */
  static double typed(Places places, int[] word, Channel slips, LetterShares shares) {
    return new LetterAlignment(places.array(), word, slips, shares).sum(places);
  }

  private double sum(Places places) {
    int[] signs = places.signs();
    return places.fixed() && signs.length == word.length ? letterByLetter(signs) : forward(signs);
  }

  /**
   * Where each place is one letter and there are as many as the word has: a letter too many and one
   * too few at once are so rare that they aren't counted, two neighbours swapped are.
   */
  private double letterByLetter(int[] signs) {
    double all = 1;
    double swapped = 0;
    int last = -1;
    double lastShare = 1;
    for (int i = 0; i < signs.length; i++) {
      double here = letter(signs, i);
      if (last >= 0 && last == i - 1 && signs[i] == word[last] && signs[last] == word[i]) {
        swapped = all / lastShare * channel.swapped();
      } else {
        swapped *= here;
      }
      if (signs[i] >= 0 && signs[i] != word[i]) {
        last = i;
        lastShare = Math.max(Double.MIN_NORMAL, here);
      }
      all *= here;
    }
    return all + swapped;
  }

  private double letter(int[] signs, int i) {
    if (signs[i] >= 0) {
      return channel.letter(word[i], signs[i]);
    }
    if (signs[i] == Places.UNKNOWN) {
      return unknown(word[i]);
    }
    Skeleton.OneOf oneOf = (Skeleton.OneOf) slots[i];
    double sum = 0;
    double is = 0;
    for (int j = 0; j < oneOf.texts().length; j++) {
      double weight = oneOf.weights()[j];
      sum += weight;
      is += oneOf.texts()[j][0] == word[i] ? weight * (1 - channel.wrong()) : 0;
    }
    return channel == Channel.NONE ? is : is + (Math.max(0, 1 - sum) + NONE_OF_THEM) / LETTERS;
  }

  /** Row by row; a step reaches the next row or, of two swapped letters, the one after. */
  private double forward(int[] signs) {
    int n = word.length;
    double[] unknown = new double[n];
    for (int i = 0; i < n; i++) {
      unknown[i] = unknown(word[i]);
    }
    double[] row = new double[n + 1];
    double[] next = new double[n + 1];
    double[] second = new double[n + 1];
    double added = channel.added();
    double dropped = channel.dropped();
    row[0] = 1;
    for (int s = 0; s < signs.length; s++) {
      int sign = signs[s];
      boolean swaps = sign >= 0 && s + 1 < signs.length && signs[s + 1] >= 0;
      for (int i = 0; i <= n; i++) {
        double here = row[i];
        if (here == 0) {
          continue;
        }
        if (i < n) {
          row[i + 1] += here * (sign == Places.MANY ? unknown[i] : dropped);
        }
        if (sign >= 0) {
          next[i] += here * added;
          if (i < n) {
            next[i + 1] += here * channel.letter(word[i], sign);
          }
          if (swaps
              && i + 1 < n
              && sign == word[i + 1]
              && signs[s + 1] == word[i]
              && word[i] != word[i + 1]) {
            second[i + 2] += here * channel.swapped();
          }
        } else if (sign == Places.ONE_OF) {
          oneOf((Skeleton.OneOf) slots[s], i, here, next);
        } else if (sign == Places.MANY) {
          next[i] += here;
        } else {
          next[i] += here * (sign == Places.UNKNOWN ? added : 1);
          if (i < n) {
            next[i + 1] += here * unknown[i];
          }
        }
      }
      double[] passed = row;
      row = next;
      next = second;
      second = passed;
      Arrays.fill(second, 0);
    }
    for (int i = 0; i < n; i++) {
      row[i + 1] += row[i] * dropped;
    }
    return row[n];
  }

  private void oneOf(Skeleton.OneOf oneOf, int i, double here, double[] next) {
    double sum = 0;
    for (int j = 0; j < oneOf.texts().length; j++) {
      int[] text = oneOf.texts()[j];
      sum += oneOf.weights()[j];
      if (stands(text, i)) {
        next[i + text.length] += here * oneOf.weights()[j] * (1 - channel.wrong());
      }
    }
    if (i < word.length && channel != Channel.NONE) {
      next[i + 1] += here * (Math.max(0, 1 - sum) + NONE_OF_THEM) / LETTERS;
    }
    next[i] += here * channel.added();
  }

  private void step(double[][] at, int s, int i, double here) {
    int n = word.length;
    Skeleton.Slot slot = slots[s];
    if (slot instanceof Skeleton.Known known) {
      if (i < n) {
        at[s + 1][i + 1] += here * channel.letter(word[i], known.letter());
      }
      at[s + 1][i] += here * channel.added();
      if (i + 1 < n
          && s + 1 < slots.length
          && slots[s + 1] instanceof Skeleton.Known next
          && known.letter() == word[i + 1]
          && next.letter() == word[i]
          && word[i] != word[i + 1]) {
        at[s + 2][i + 2] += here * channel.swapped();
      }
    } else if (slot instanceof Skeleton.OneOf oneOf) {
      oneOf(oneOf, i, here, at[s + 1]);
    } else if (slot instanceof Skeleton.Unknown unknown) {
      if (i < n) {
        at[s + 1][i + 1] += here * unknown(word[i]);
      }
      at[s + 1][i] += here * (unknown.sure() ? channel.added() : 1);
    } else {
      at[s + 1][i] += here;
    }
  }

  private double unknown(int letter) {
    return channel.reading() ? 1 : shares.of(letter);
  }

  private boolean stands(int[] text, int i) {
    if (text.length == 1) {
      return i < word.length && text[0] == word[i];
    }
    return i + text.length <= word.length
        && Arrays.equals(text, 0, text.length, word, i, i + text.length);
  }

  /** The likeliest way to lay the word along the places: its letters that stand in one. */
  static List<Step> likeliest(List<Skeleton.Slot> slots, int[] word) {
    if (slots.size() == word.length && Fixed.isFixed(slots)) {
      List<Step> steps = new ArrayList<>();
      for (int i = 0; i < word.length; i++) {
        boolean known = slots.get(i) instanceof Skeleton.Known;
        boolean same = !known || ((Skeleton.Known) slots.get(i)).letter() == word[i];
        steps.add(new Step(i, i, known, same));
      }
      return steps;
    }
    LetterAlignment alignment =
        new LetterAlignment(slots.toArray(new Skeleton.Slot[0]), word, LAYING, LetterShares.ALIKE);
    return alignment.trace();
  }

  private List<Step> trace() {
    int n = word.length;
    double[][] best = new double[slots.length + 3][n + 1];
    int[][] from = new int[slots.length + 3][n + 1];
    best[0][0] = 1;
    for (int s = 0; s <= slots.length; s++) {
      for (int i = 0; i <= n; i++) {
        if (best[s][i] == 0) {
          continue;
        }
        double[][] reached = new double[slots.length + 3][];
        for (int k = s; k <= Math.min(slots.length, s + 2); k++) {
          reached[k] = new double[n + 1];
        }
        boolean many = s < slots.length && slots[s] instanceof Skeleton.Many;
        if (i < n) {
          reached[s][i + 1] = best[s][i] * (many ? 1 : channel.dropped());
        }
        if (s < slots.length) {
          step(reached, s, i, best[s][i]);
        }
        for (int k = s; k <= Math.min(slots.length, s + 2); k++) {
          for (int j = i; j <= n; j++) {
            if (reached[k][j] > best[k][j]) {
              best[k][j] = reached[k][j];
              from[k][j] = s * (n + 1) + i;
            }
          }
        }
      }
    }
    List<Step> steps = new ArrayList<>();
    int s = slots.length;
    int i = n;
    if (best[s][i] == 0) {
      return steps;
    }
    while (s > 0 || i > 0) {
      int before = from[s][i];
      int s0 = before / (n + 1);
      int i0 = before % (n + 1);
      for (int k = 0; k < i - i0; k++) {
        int slot = s - s0 == i - i0 ? s0 + k : s0;
        if (slot < slots.length && (s > s0 || slots[slot] instanceof Skeleton.Many)) {
          boolean known = slots[slot] instanceof Skeleton.Known;
          boolean same = !known || ((Skeleton.Known) slots[slot]).letter() == word[i0 + k];
          steps.add(new Step(slot, i0 + k, known, same));
        }
      }
      s = s0;
      i = i0;
    }
    steps.sort(java.util.Comparator.comparingInt(Step::letter));
    return Collections.unmodifiableList(steps);
  }
}
