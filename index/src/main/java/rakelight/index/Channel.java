package rakelight.index;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import rakelight.names.GivenNames;
import rakelight.names.NameForms;

/**
 * How a word changes on its way from one writer to the next: what a reader makes of what was cut,
 * or what somebody who searches types for what he means. Probabilities of one letter each.
 *
 * @param letters of each letter meant, how likely each is written; without those that aren't a to z
 *     or a figure
 * @param wrong another letter in its place, on average
 * @param added a letter too many
 * @param dropped a letter left out
 * @param swapped two neighbours in the wrong order
 * @param reading whether it is reading: then a letter that nobody can name says nothing
 */
record Channel(
    double[][] letters,
    double wrong,
    double added,
    double dropped,
    double swapped,
    boolean reading) {
  private static final int SIGNS = 36;

  /** The part of what is misread that goes as the confusions say; the rest may be any letter. */
  private static final double AS_MEASURED = 0.6;

  /** A word so many times as common as one that differs in a letter may be what that one was. */
  private static final int TIMES_AS_COMMON = 10;

  /** So many bearers of a word at least show how its letters are misread. */
  private static final int LEAST_COMMON = 20;

  /** So many letters are held to be read as the table says before the ground itself has a say. */
  private static final double TABLE_COUNTS = 300;

  private static final double[][] TAKEN_FOR = takenFor();

  /** Nothing changes. */
  static final Channel NONE = new Channel(alike(0), 0, 0, 0, 0, true);

  /**
   * The slips of somebody who searches; about one word of thirty has one, any letter for any. A
   * choice: nobody has measured how people search here.
   */
  static final Channel SEARCHER = new Channel(alike(0.002), 0.002, 0.0015, 0.002, 0.0015, false);

  /** How likely it is that {@code written} stands where {@code meant} was. */
  double letter(int meant, int written) {
    int from = LetterShares.place(meant);
    int to = LetterShares.place(written);
    return from >= 0 && to >= 0 ? letters[from][to] : meant == written ? 1 - wrong : wrong / SIGNS;
  }

  /**
   * A reader, as the words of a ground show him: of a word that differs in one letter from one that
   * is far more common, and that no table of names knows, most are that one misread. Until there
   * are enough, letters are taken for others as {@link Confusables} says.
   *
   * @param words plainly read, with how often
   * @param wrong share of letters held to be misread before the ground has a say
   */
  static Channel reader(Map<String, Double> words, double wrong) {
    double[][] seen = new double[SIGNS][SIGNS];
    double[] of = new double[SIGNS];
    for (Map.Entry<String, Double> each : words.entrySet()) {
      if (each.getValue() >= LEAST_COMMON) {
        count(each.getKey(), each.getValue(), words, seen, of);
      }
    }
    double[][] letters = new double[SIGNS][SIGNS];
    double sum = 0;
    double all = 0;
    for (int from = 0; from < SIGNS; from++) {
      double misread = 0;
      for (int to = 0; to < SIGNS; to++) {
        if (to != from) {
          double expected =
              wrong * (AS_MEASURED * TAKEN_FOR[from][to] + (1 - AS_MEASURED) / (SIGNS - 1));
          letters[from][to] =
              (seen[from][to] + TABLE_COUNTS * expected) / (of[from] + TABLE_COUNTS);
          misread += letters[from][to];
        }
      }
      letters[from][from] = Math.max(0.01, 1 - misread);
      sum += misread * (of[from] + 1);
      all += of[from] + 1;
    }
    double mean = Math.min(0.3, sum / all);
    return new Channel(letters, mean, mean / 20, mean / 20, mean / 200, true);
  }

  /** How often each word that is met is expected to be a far more common one misread. */
  Map<String, Double> misreadings(Map<String, Double> words) {
    Map<String, Double> misread = new HashMap<>();
    for (Map.Entry<String, Double> each : words.entrySet()) {
      if (each.getValue() < LEAST_COMMON) {
        continue;
      }
      others(
          each.getKey(),
          each.getValue(),
          words,
          (from, to, other) ->
              misread.merge(
                  other,
                  each.getValue() * letters[from][to] / Math.max(0.01, letters[from][from]),
                  Double::sum));
    }
    return misread;
  }

  private static void count(
      String word, double often, Map<String, Double> words, double[][] seen, double[] of) {
    for (char letter : word.toCharArray()) {
      int place = LetterShares.place(letter);
      if (place >= 0) {
        of[place] += often;
      }
    }
    others(
        word,
        often,
        words,
        (from, to, other) -> {
          double count = words.getOrDefault(other, 0.0);
          seen[from][to] += count;
          of[from] += count;
        });
  }

  /** A word that is held to be another with one letter misread. */
  private interface Other {
    void is(int from, int to, String other);
  }

  private static void others(String word, double often, Map<String, Double> words, Other doing) {
    GivenNames names = GivenNames.known();
    char[] letters = word.toCharArray();
    for (int i = 0; i < letters.length; i++) {
      int from = LetterShares.place(letters[i]);
      char right = letters[i];
      for (int to = 0; from >= 0 && to < SIGNS; to++) {
        if (to == from) {
          continue;
        }
        letters[i] = LetterShares.letter(to);
        String other = new String(letters);
        double count = words.getOrDefault(other, 0.0);
        if (count > 0 && count * TIMES_AS_COMMON < often && !names.isKnown(other)) {
          doing.is(from, to, other);
        }
      }
      letters[i] = right;
    }
  }

  private static double[][] alike(double wrong) {
    double[][] letters = new double[SIGNS][SIGNS];
    for (int from = 0; from < SIGNS; from++) {
      java.util.Arrays.fill(letters[from], wrong / (SIGNS - 1));
      letters[from][from] = 1 - wrong;
    }
    return letters;
  }

  /** By letter meant and letter read, shares that sum to one for each letter meant. */
  private static double[][] takenFor() {
    double[][] taken = new double[SIGNS][SIGNS];
    for (int read = 0; read < SIGNS; read++) {
      int to = read;
      Confusables.of(String.valueOf(LetterShares.letter(read)).toUpperCase(Locale.ROOT))
          .forEach(
              (truth, share) -> {
                String folded = NameForms.fold(truth);
                int from = folded.length() == 1 ? LetterShares.place(folded.charAt(0)) : -1;
                if (from >= 0 && from != to) {
                  taken[from][to] += share;
                }
              });
    }
    for (double[] row : taken) {
      double sum = java.util.Arrays.stream(row).sum();
      for (int to = 0; to < SIGNS; to++) {
        row[to] = sum > 0 ? row[to] / sum : 1.0 / SIGNS;
      }
    }
    return taken;
  }
}
