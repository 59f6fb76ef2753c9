package rakelight.ground.witness;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;

/**
 * The letters of a stone and of a list, one above the other, with the fewest differences
 * (Levenshtein's distance); case and points don't count. Under a gap of the stone any letters of
 * the list may lie at no cost: they are what only the list has.
 *
 * @param stone padded with {@code ·} where only the list has something
 * @param list likewise
 * @param marks a {@code ^} under each letter that differs, {@code +} under those that only the list
 *     has where the stone has a gap, else a space
 */
public record SideBySide(String stone, String list, String marks) {
  private static final String PAD = "·";

  /** What sort of difference it is, by what weighs most. */
  public enum Sort {
    /** Nothing differs. */
    SAME("same"),
    /** The list has letters where the stone has a gap. */
    LIST_HAS_MORE("letters only the list has"),
    /** Letters differ. */
    DIFFERS("letters differ");

    private final String words;

    Sort(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }

  /** Of differing letters and those that only the list has, which there are. */
  public Sort sort() {
    return marks.contains("^")
        ? Sort.DIFFERS
        : marks.contains("+") ? Sort.LIST_HAS_MORE : Sort.SAME;
  }

  /** How many letters differ. */
  public int differing() {
    return (int) marks.chars().filter(c -> c == '^').count();
  }

  /** Lays two texts side by side. */
  public static SideBySide of(String stone, String list) {
    List<String> a = signs(stone);
    List<String> b = signs(list);
    int[][] cost = new int[a.size() + 1][b.size() + 1];
    for (int i = a.size(); i >= 0; i--) {
      for (int j = b.size(); j >= 0; j--) {
        if (i == a.size() && j == b.size()) {
          continue;
        }
        int best = Integer.MAX_VALUE;
        if (i < a.size() && j < b.size()) {
          best = cost[i + 1][j + 1] + (same(a.get(i), b.get(j)) ? 0 : 3);
        }
        if (i < a.size()) {
          best = Math.min(best, cost[i + 1][j] + (isGap(a.get(i)) ? 0 : weight(a.get(i))));
        }
        if (j < b.size()) {
          boolean underGap = i < a.size() && isGap(a.get(i));
          best = Math.min(best, cost[i][j + 1] + (underGap ? 0 : weight(b.get(j))));
        }
        cost[i][j] = best;
      }
    }
    StringBuilder above = new StringBuilder();
    StringBuilder below = new StringBuilder();
    StringBuilder marks = new StringBuilder();
    int i = 0;
    int j = 0;
    while (i < a.size() || j < b.size()) {
      boolean underGap = i < a.size() && isGap(a.get(i));
      if (i < a.size()
          && j < b.size()
          && !underGap
          && cost[i][j] == cost[i + 1][j + 1] + (same(a.get(i), b.get(j)) ? 0 : 3)) {
        put(above, below, marks, a.get(i), b.get(j), same(a.get(i), b.get(j)) ? " " : "^");
        i++;
        j++;
      } else if (j < b.size() && cost[i][j] == cost[i][j + 1] + (underGap ? 0 : weight(b.get(j)))) {
        put(above, below, marks, PAD, b.get(j), underGap ? "+" : mark(b.get(j)));
        j++;
      } else {
        put(above, below, marks, a.get(i), PAD, isGap(a.get(i)) ? " " : mark(a.get(i)));
        i++;
      }
    }
    return new SideBySide(above.toString(), below.toString(), marks.toString());
  }

  private static void put(
      StringBuilder above, StringBuilder below, StringBuilder marks, String a, String b, String m) {
    above.append(a);
    below.append(b);
    marks.append(m);
  }

  private static String mark(String sign) {
    return weight(sign) == 2 ? "^" : " ";
  }

  /** Letters and figures count; points, spaces and dashes hardly do. */
  private static int weight(String sign) {
    return Character.isLetterOrDigit(sign.codePointAt(0)) ? 2 : 1;
  }

  private static boolean isGap(String sign) {
    return sign.charAt(0) == StoneLetters.GAP;
  }

  private static boolean same(String a, String b) {
    boolean bothPoints = weight(a) == 1 && weight(b) == 1 && !isGap(a) && !isGap(b);
    return bothPoints || a.toLowerCase(Locale.ROOT).equals(b.toLowerCase(Locale.ROOT));
  }

  private static List<String> signs(String text) {
    List<String> signs = new ArrayList<>();
    text.codePoints().forEach(c -> signs.add(Character.toString(c)));
    return Collections.unmodifiableList(signs);
  }
}
