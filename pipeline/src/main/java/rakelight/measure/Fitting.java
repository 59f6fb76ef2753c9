package rakelight.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import rakelight.reading.LineLattice;
import rakelight.reading.Odds;

/**
 * Fits {@link Odds} on lines whose truth is known: each number is the one under which what truly
 * stands there was least surprising (smallest mean negative log-likelihood), found on a grid.
 */
public final class Fitting {
  private static final double SMALLEST_P = 1e-3;
  private static final double SMALLEST_TRIED = 0.2;
  private static final double LARGEST_TRIED = 4;
  private static final double STEP = 1.02;

  private final List<Line> lines = new ArrayList<>();

  private record Line(String truth, LineLattice raw) {}

  /**
   * Notes one line.
   *
   * @param raw uncorrected, as merged
   */
  public void add(String truth, LineLattice raw) {
    lines.add(new Line(truth, raw));
  }

  /** How many lines were noted. */
  public int size() {
    return lines.size();
  }

  /**
   * The odds under which these lines are least surprising; voices and views count as before.
   *
   * @param fittedOn what the lines are, for the record
   */
  public Odds fitted(Odds before, String fittedOn) {
    double ink = best(t -> surpriseOfInk(with(before, 1, t, 1, fittedOn)));
    double letter = best(t -> surpriseOfLetters(with(before, t, ink, 1, fittedOn)));
    double word = best(g -> surpriseOfWords(with(before, letter, ink, g, fittedOn)));
    return with(before, letter, ink, word, fittedOn);
  }

  /**
   * How far these lines' stated probabilities are from what came true under some odds, by kind:
   * "letters", "words", "a letter at all".
   */
  public Map<String, Calibration> calibrations(Odds odds) {
    Reliability reliability = new Reliability(odds);
    lines.forEach(line -> reliability.add(line.truth(), odds.corrected(line.raw())));
    return reliability.byKind();
  }

  private static Odds with(Odds before, double letter, double ink, double word, String on) {
    return new Odds(before.voices(), before.viewExponent(), letter, ink, word, on);
  }

  private static double best(DoubleUnaryOperator surprise) {
    double best = 1;
    double least = Double.MAX_VALUE;
    for (double tried = SMALLEST_TRIED; tried <= LARGEST_TRIED; tried *= STEP) {
      double now = surprise.applyAsDouble(tried);
      if (now < least) {
        least = now;
        best = tried;
      }
    }
    return Math.round(best * 1000) / 1000.0;
  }

  private Stream<Judged> judged(Odds odds) {
    return lines.stream()
        .flatMap(line -> Judged.of(line.truth(), odds.corrected(line.raw())).stream());
  }

  private double surpriseOfInk(Odds odds) {
    return judged(odds)
        .mapToDouble(j -> surprise(j.ink() ? j.slot().ink() : 1 - j.slot().ink()))
        .sum();
  }

  private double surpriseOfLetters(Odds odds) {
    return judged(odds)
        .filter(j -> j.ink() && j.slot().ink() > 0)
        .mapToDouble(
            j ->
                surprise(
                    j.slot().alternatives().stream()
                            .filter(a -> Judged.folded(a.text()).equals(j.truth()))
                            .mapToDouble(a -> a.p())
                            .sum()
                        / j.slot().ink()))
        .sum();
  }

  private double surpriseOfWords(Odds odds) {
    return lines.stream()
        .flatMap(line -> Judged.words(line.truth(), odds.corrected(line.raw()), odds).stream())
        .mapToDouble(word -> surprise(word.right() ? word.word().p() : 1 - word.word().p()))
        .sum();
  }

  private static double surprise(double p) {
    return -Math.log(Math.max(SMALLEST_P, p));
  }
}
