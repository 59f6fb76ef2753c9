package rakelight.measure;

import java.text.Normalizer;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Errors of one way of reading over one slice of the truth. */
final class Tally {
  private ErrorRate letters = ErrorRate.NONE;
  private final Map<Integer, ErrorRate> caseBlind = new TreeMap<>();
  private ErrorRate fair = ErrorRate.NONE;
  private ErrorRate lettersAlone = ErrorRate.NONE;
  private final SignsRead signs = new SignsRead();
  private ErrorRate words = ErrorRate.NONE;
  private int lines;
  private int linesRead;
  private int strayLetters;
  private int lettersWanted;
  private int lettersAmongThree;

  /**
   * A line of the truth and what was read for it.
   *
   * @param face tells the faces apart
   * @param read empty if nothing was read
   */
  void add(int face, TruthLine line, String read) {
    String truth = line.text();
    fair = fair.plus(line.fairErrors(read));
    letters = letters.plus(ErrorRate.ofLetters(tidy(truth), tidy(read)));
    caseBlind.merge(face, ErrorRate.ofLetters(fold(truth), fold(read)), ErrorRate::plus);
    lettersAlone =
        lettersAlone.plus(
            ErrorRate.ofLetters(SignsRead.lettersOf(fold(truth)), SignsRead.lettersOf(fold(read))));
    signs.add(truth, read);
    words = words.plus(ErrorRate.ofWords(fold(truth), fold(read)));
    lines++;
    linesRead += read.isEmpty() ? 0 : 1;
  }

  /** Letters read in a line that answers none of the truth. */
  void addStray(String read) {
    strayLetters += (int) fold(read).chars().filter(c -> c != ' ').count();
  }

  /** How many letters of a line of the truth, and how many had it among the first three. */
  void addAmongThree(int wanted, int found) {
    lettersWanted += wanted;
    lettersAmongThree += found;
  }

  ErrorRate letters() {
    return letters;
  }

  ErrorRate caseBlind() {
    return together(List.copyOf(caseBlind.values()));
  }

  /** Between which rates it may lie, other faces of the same kind given. */
  Spread caseBlindSpread() {
    return Spread.of(List.copyOf(caseBlind.values()), faces -> together(faces).rate());
  }

  /** Case-blind errors as a part of those of another way of reading the same lines. */
  double ratioTo(Tally other) {
    return (double) caseBlind().errors() / other.caseBlind().errors();
  }

  /** Between which ratios it may lie, other faces of the same kind given. */
  Spread ratioSpread(Tally other) {
    return Spread.of(
        List.copyOf(caseBlind.keySet()),
        faces ->
            (double) together(faces.stream().map(caseBlind::get).toList()).errors()
                / together(faces.stream().map(other.caseBlind::get).toList()).errors());
  }

  private static ErrorRate together(List<ErrorRate> rates) {
    return rates.stream().reduce(ErrorRate.NONE, ErrorRate::plus);
  }

  /** Case-blind, see {@link TruthLine#fairErrors}. */
  ErrorRate fair() {
    return fair;
  }

  /** Case-blind, of letters, figures and spaces: other signs left out of both. */
  ErrorRate lettersAlone() {
    return lettersAlone;
  }

  SignsRead signs() {
    return signs;
  }

  ErrorRate words() {
    return words;
  }

  int lines() {
    return lines;
  }

  int linesRead() {
    return linesRead;
  }

  /** Letters read where the truth has no line, over the letters of the truth. */
  double strayRate() {
    int letters = caseBlind().referenceLength();
    return letters == 0 ? 0 : (double) strayLetters / letters;
  }

  /** Share of letters whose truth is among the first three alternatives; -1 if not asked. */
  double amongThree() {
    return lettersWanted == 0 ? -1 : (double) lettersAmongThree / lettersWanted;
  }

  /** Single spaces, composed letters, nothing else changed. */
  static String tidy(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFC).replaceAll("\\s+", " ").strip();
  }

  /**
   * Blind to case and to what a typeface decides: capitals and small letters, long s, raised
   * letters, ligatures, the shape of quotes and dashes.
   */
  static String fold(String text) {
    return Normalizer.normalize(tidy(text), Normalizer.Form.NFKC)
        .replace('ſ', 's')
        .replace("Æ", "AE")
        .replace("æ", "ae")
        .replaceAll("[‘’ʼ`´]", "'")
        .replaceAll("[“”„]", "\"")
        .replaceAll("[‐‑‒–—−]", "-")
        .toUpperCase(Locale.ROOT)
        .replaceAll("\\s+", " ")
        .strip();
  }

  static List<String> foldedLetters(String text) {
    return ErrorRate.letters(fold(text));
  }
}
