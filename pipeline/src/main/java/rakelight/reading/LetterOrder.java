package rakelight.reading;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * How likely a letter follows the letters before it, counted in the {@link Lexicon}: there are no
 * weights to keep. Histories of up to five letters; what was rarely or never met falls back on
 * shorter ones (Witten and Bell, IEEE Trans. Information Theory 37, 1991, interpolated).
 *
 * <p>Knows capitals A to Z, the space, a figure ({@code 0} stands for all) and everything else
 * ({@code .}). Counting takes about a tenth of a second.
 */
final class LetterOrder {
  private static final int LONGEST_HISTORY = 5;
  private static final double SIGNS = 29;

  /** Counted once, when first asked for. */
  private static final class Standard {
    static final LetterOrder ORDER = new LetterOrder(Lexicon.standard());
  }

  private final Map<String, Double> counts = new HashMap<>();
  private final Map<String, double[]> followers = new HashMap<>();

  /** That of the lexicon in the jar. */
  static LetterOrder standard() {
    return Standard.ORDER;
  }

  /** Counts the entries of a lexicon; each stands between spaces. */
  LetterOrder(Lexicon lexicon) {
    List<Lexicon.Entry> entries = lexicon.entries();
    for (Lexicon.Entry entry : entries) {
      if (entry.kind().equals("syllable")) {
        for (Lexicon.Entry ending : entries) {
          if (ending.kind().equals("ending")) {
            // Places and surnames that may or may not exist.
            count(entry.text() + ending.text(), entry.weight());
          }
        }
      } else if (!entry.kind().equals("ending")) {
        count(entry.text(), entry.weight());
      }
    }
    counts.forEach(
        (gram, count) -> {
          double[] sums =
              followers.computeIfAbsent(gram.substring(0, gram.length() - 1), h -> new double[2]);
          sums[0] += count;
          sums[1]++;
        });
  }

  private void count(String text, double weight) {
    String padded = " " + signs(text) + " ";
    for (int end = 1; end < padded.length(); end++) {
      for (int from = Math.max(0, end - LONGEST_HISTORY); from <= end; from++) {
        counts.merge(padded.substring(from, end + 1), weight, Double::sum);
      }
    }
  }

  /**
   * The probability of a sign after a history.
   *
   * @param history signs as {@link #signs} gives them
   */
  double p(String history, char sign) {
    double p = 1 / SIGNS;
    int longest = Math.min(LONGEST_HISTORY, history.length());
    for (int length = 0; length <= longest; length++) {
      String tail = history.substring(history.length() - length);
      double[] sums = followers.get(tail);
      if (sums == null) {
        break;
      }
      double seen = counts.getOrDefault(tail + sign, 0.0);
      p = (seen + sums[1] * p) / (sums[0] + sums[1]);
    }
    return p;
  }

  /** The history after some more signs, no longer than is used. */
  static String after(String history, String signs) {
    String all = history + signs;
    return all.substring(Math.max(0, all.length() - LONGEST_HISTORY));
  }

  /** A text in the signs that are counted. */
  static String signs(String text) {
    StringBuilder signs = new StringBuilder();
    String folded = text.isBlank() ? text : Lexicon.folded(text);
    folded
        .codePoints()
        .forEach(
            c ->
                signs.append(
                    c == ' ' || (c >= 'A' && c <= 'Z')
                        ? (char) c
                        : Character.isDigit(c) ? '0' : '.'));
    return signs.toString();
  }
}
