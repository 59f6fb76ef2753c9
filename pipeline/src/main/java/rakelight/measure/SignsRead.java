package rakelight.measure;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What is cut kind by kind, letters among them: how many were read, and read where none is. */
public final class SignsRead {
  private static final Map<String, String> KINDS =
      Map.of(
          " ", "spaces",
          ".", "points",
          ",", "commas",
          ":", "colons and semicolons",
          ";", "colons and semicolons",
          "-", "dashes",
          "'", "quotes",
          "\"", "quotes",
          "·", "raised points",
          "&", "&");

  private final Map<String, Kind> kinds = new TreeMap<>();

  /**
   * One kind of sign.
   *
   * @param cut in the truth
   * @param read of these, rightly
   * @param strays read where another sign or none is
   */
  public record Kind(String name, int cut, int read, int strays) {
    private Kind plus(int moreCut, int moreRead, int moreStrays) {
      return new Kind(name, cut + moreCut, read + moreRead, strays + moreStrays);
    }
  }

  /** Notes a line and what was read for it, blind to case and typeface. */
  void add(String truth, String read) {
    List<String> cut = Tally.foldedLetters(truth);
    List<String> said = Tally.foldedLetters(read);
    for (Alignment.Step step : Alignment.of(cut, said).steps()) {
      boolean right = step.kind() == Alignment.Kind.MATCH;
      if (step.referenceIndex() >= 0) {
        note(cut.get(step.referenceIndex()), 1, right ? 1 : 0, 0);
      }
      if (step.hypothesisIndex() >= 0 && !right) {
        note(said.get(step.hypothesisIndex()), 0, 0, 1);
      }
    }
  }

  private void note(String sign, int cut, int read, int strays) {
    kinds.compute(
        kind(sign),
        (name, kind) -> (kind == null ? new Kind(name, 0, 0, 0) : kind).plus(cut, read, strays));
  }

  private static String kind(String sign) {
    return Character.isLetterOrDigit(sign.codePointAt(0))
        ? "letters and figures"
        : KINDS.getOrDefault(sign, "other signs");
  }

  /** The kinds that were cut or read, by name. */
  List<Kind> kinds() {
    return List.copyOf(kinds.values());
  }

  /** The text without signs other than letters, figures and spaces. */
  static String lettersOf(String folded) {
    return folded.replaceAll("[^\\p{L}\\p{N} ]", "").replaceAll(" +", " ").strip();
  }
}
