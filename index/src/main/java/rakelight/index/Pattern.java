package rakelight.index;

import java.util.ArrayList;
import java.util.List;

/**
 * What a word with missing letters may say: places in a row, each a letter out of some, or a run of
 * any letters. Written {@code wr??}, {@code [38]1*}, {@code han{2,4}}. Matching takes time in
 * proportion to pattern times word, whatever the doubt.
 *
 * @param text the written form, which is also the term in the index
 */
public record Pattern(String text) {

  /**
   * The patterns of a word. Where a run has no sure length a word may end and another begin in it,
   * so its two sides also stand by themselves.
   */
  static List<Pattern> of(List<Cell> cells) {
    List<Pattern> patterns = new ArrayList<>();
    patterns.add(new Pattern(written(cells)));
    for (int i = 0; i < cells.size(); i++) {
      boolean unsureLength =
          cells.get(i) instanceof Cell.Unknown run && run.atMost() > run.atLeast();
      if (unsureLength) {
        addSide(patterns, cells.subList(0, i + 1));
        addSide(patterns, cells.subList(i, cells.size()));
      }
    }
    return patterns;
  }

  private static void addSide(List<Pattern> patterns, List<Cell> side) {
    List<Cell> loose = new ArrayList<>();
    for (Cell cell : side) {
      boolean unsureLength = cell instanceof Cell.Unknown run && run.atMost() > run.atLeast();
      loose.add(unsureLength ? new Cell.Unknown(0, Cell.MANY) : cell);
    }
    Pattern pattern = new Pattern(written(loose));
    if (!patterns.contains(pattern)) {
      patterns.add(pattern);
    }
  }

  private static String written(List<Cell> cells) {
    StringBuilder written = new StringBuilder();
    for (Cell cell : cells) {
      if (cell instanceof Cell.Unknown run) {
        if (run.atLeast() == run.atMost()) {
          written.append("?".repeat(run.atLeast()));
        } else if (run.atMost() >= Cell.MANY) {
          written.append("?".repeat(run.atLeast())).append('*');
        } else {
          written.append('{').append(run.atLeast()).append(',').append(run.atMost()).append('}');
        }
      } else if (cell instanceof Cell.OneOf oneOf) {
        List<String> texts = List.copyOf(oneOf.texts().keySet());
        written.append(texts.size() == 1 ? texts.get(0) : "[" + String.join("|", texts) + "]");
      }
    }
    return written.toString().replaceAll("\\*+", "*");
  }

  /** Whether at least one letter of it is known. */
  public boolean hasLetters() {
    return text.replaceAll("\\{[0-9]+,[0-9]+\\}", "")
        .codePoints()
        .anyMatch(Character::isLetterOrDigit);
  }

  /** Whether the folded word is one of those it may say. */
  public boolean matches(String word) {
    return known(word) >= 0;
  }

  /**
   * How much of the word is known by the pattern, 0 to 1: places with one letter count whole,
   * places with several by their number, others not at all. -1 if it doesn't match.
   */
  public double known(String word) {
    if (!word.isEmpty()
        && !text.isEmpty()
        && Character.isLetterOrDigit(text.charAt(0))
        && text.charAt(0) != word.charAt(0)) {
      return -1;
    }
    int[] letters = word.codePoints().toArray();
    double[] reached = new double[letters.length + 1];
    java.util.Arrays.fill(reached, -1);
    reached[0] = 0;
    int at = 0;
    while (at < text.length()) {
      char sign = text.charAt(at);
      double[] next = new double[letters.length + 1];
      java.util.Arrays.fill(next, -1);
      if (sign == '*' || sign == '{' || sign == '?') {
        int end = sign == '{' ? text.indexOf('}', at) : at;
        String[] bounds = sign == '{' ? text.substring(at + 1, end).split(",", -1) : new String[0];
        int atLeast = sign == '{' ? Integer.parseInt(bounds[0]) : sign == '?' ? 1 : 0;
        int atMost = sign == '{' ? Integer.parseInt(bounds[1]) : sign == '?' ? 1 : letters.length;
        for (int i = 0; i <= letters.length; i++) {
          for (int n = atLeast; reached[i] >= 0 && n <= atMost && i + n <= letters.length; n++) {
            next[i + n] = Math.max(next[i + n], reached[i]);
          }
        }
        at = end + 1;
      } else {
        int end =
            sign == '[' ? text.indexOf(']', at) : at + Character.charCount(text.codePointAt(at));
        String[] texts =
            sign == '['
                ? text.substring(at + 1, end).split("\\|", -1)
                : new String[] {text.substring(at, end)};
        for (int i = 0; i <= letters.length; i++) {
          for (String choice : texts) {
            int[] chosen = choice.codePoints().toArray();
            if (reached[i] >= 0 && stands(letters, i, chosen)) {
              int to = i + chosen.length;
              next[to] = Math.max(next[to], reached[i] + (double) chosen.length / texts.length);
            }
          }
        }
        at = sign == '[' ? end + 1 : end;
      }
      reached = next;
    }
    double end = reached[letters.length];
    return end < 0 || letters.length == 0 ? end : end / letters.length;
  }

  private static boolean stands(int[] letters, int at, int[] expected) {
    return at + expected.length <= letters.length
        && java.util.Arrays.equals(letters, at, at + expected.length, expected, 0, expected.length);
  }
}
