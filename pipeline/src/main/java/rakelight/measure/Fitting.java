package rakelight.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import rakelight.measure.Judged.JudgedWord;
import rakelight.reading.Heard;
import rakelight.reading.LineLattice;
import rakelight.reading.Odds;
import rakelight.reading.Slot;
import rakelight.reading.Weighing;

/**
 * Fits {@link Odds} on lines whose truth is known: the numbers under which what truly stands there
 * is least surprising (smallest negative log-likelihood). Weights and temperatures are fitted
 * together, each in turn made larger or smaller for as long as that helps (pattern search: Hooke
 * and Jeeves, J. ACM 8, 1961); last what is made of the odds of words, by logistic regression.
 */
public final class Fitting {
  private static final double SMALLEST_P = 1e-3;

  /** Factors by which numbers are made larger or smaller, coarse to fine. */
  private static final double[] FACTORS = {1.6, 1.25, 1.1, 1.04};

  private static final int MOST_ROUNDS = 8;

  /** A change must save this part of the whole, or it is left alone. */
  private static final double SMALLEST_SAVING = 1e-4;

  private static final int MOST_STEPS = 50;

  /** How little the last step of a regression moves. */
  private static final double SMALLEST_STEP = 1e-6;

  /** Keeps a regression from running off where every word is right. */
  private static final double RIDGE = 1e-3;

  private final List<Line> lines = new ArrayList<>();

  private record Line(String truth, Heard heard) {}

  /** Notes one line that was read on at least one picture. */
  public void add(String truth, Heard heard) {
    lines.add(new Line(truth, heard));
  }

  /** How many lines were noted. */
  public int size() {
    return lines.size();
  }

  /**
   * The odds under which these lines are least surprising.
   *
   * @param before where the search begins
   * @param fittedOn what the lines are, for the record
   */
  public Odds fitted(Odds before, String fittedOn) {
    List<String> voices = before.weighing().voices().keySet().stream().sorted().toList();
    double[] best = numbers(before, voices);
    List<LineLattice> merged = merged(weighing(best, voices));
    double least = surprise(merged, odds(best, voices, fittedOn));
    for (double factor : FACTORS) {
      boolean better = true;
      for (int round = 0; better && round < MOST_ROUNDS; round++) {
        better = false;
        for (int i = 1; i < best.length; i++) {
          for (double by : new double[] {factor, 1 / factor}) {
            double[] tried = best.clone();
            tried[i] *= by;
            Weighing weighing = weighing(tried, voices);
            List<LineLattice> now =
                weighing.equals(weighing(best, voices)) ? merged : merged(weighing);
            double surprise = surprise(now, odds(tried, voices, fittedOn));
            if (surprise < least * (1 - SMALLEST_SAVING)) {
              least = surprise;
              best = tried;
              merged = now;
              better = true;
            }
          }
        }
      }
    }
    return withWords(odds(best, voices, fittedOn));
  }

  /**
   * The same odds with those of words fitted anew: slope and shift of the log odds under which what
   * came true is least surprising (logistic regression by Newton's method).
   */
  public Odds withWords(Odds odds) {
    Odds plain = odds.withWords(1, 0);
    List<LineLattice> merged = merged(plain.weighing());
    List<JudgedWord> words =
        IntStream.range(0, lines.size())
            .boxed()
            .flatMap(
                i ->
                    Judged.words(lines.get(i).truth(), corrected(i, merged, plain), plain).stream())
            .toList();
    double slope = 1;
    double shift = 0;
    for (int step = 0; step < MOST_STEPS; step++) {
      double bySlope = -RIDGE * (slope - 1);
      double byShift = -RIDGE * shift;
      double slopes = RIDGE;
      double both = 0;
      double shifts = RIDGE;
      for (JudgedWord word : words) {
        double x = Odds.logit(word.word().p());
        double p = 1 / (1 + Math.exp(-(shift + slope * x)));
        double off = (word.right() ? 1 : 0) - p;
        double weight = p * (1 - p);
        bySlope += off * x;
        byShift += off;
        slopes += weight * x * x;
        both += weight * x;
        shifts += weight;
      }
      double determinant = slopes * shifts - both * both;
      double slopeStep = (shifts * bySlope - both * byShift) / determinant;
      double shiftStep = (slopes * byShift - both * bySlope) / determinant;
      slope += slopeStep;
      shift += shiftStep;
      if (Math.abs(slopeStep) + Math.abs(shiftStep) < SMALLEST_STEP) {
        break;
      }
    }
    return odds.withWords(Math.max(0.05, rounded(slope)), rounded(shift));
  }

  /** The voices' weights, of which the first stays, then everything else that is fitted. */
  private static double[] numbers(Odds odds, List<String> voices) {
    Weighing weighing = odds.weighing();
    double[] numbers = new double[voices.size() + 6];
    for (int i = 0; i < voices.size(); i++) {
      numbers[i] = weighing.voices().getOrDefault(voices.get(i), 1.0);
    }
    double[] others = {
      weighing.viewExponent(),
      weighing.unseenLetter(),
      weighing.unseenSpace(),
      odds.letterTemperature(),
      odds.inkTemperature(),
      odds.viewsExponent()
    };
    System.arraycopy(others, 0, numbers, voices.size(), others.length);
    // What only factors change can't leave nothing.
    return Arrays.stream(numbers).map(number -> Math.max(0.05, number)).toArray();
  }

  private static Weighing weighing(double[] numbers, List<String> voices) {
    Map<String, Double> weights = new LinkedHashMap<>();
    for (int i = 0; i < voices.size(); i++) {
      weights.put(voices.get(i), rounded(numbers[i]));
    }
    int at = voices.size();
    return new Weighing(
        weights,
        rounded(numbers[at]),
        rounded(Math.min(1, numbers[at + 1])),
        rounded(Math.min(1, numbers[at + 2])));
  }

  private static Odds odds(double[] numbers, List<String> voices, String on) {
    int at = voices.size() + 3;
    return new Odds(
        weighing(numbers, voices),
        rounded(numbers[at]),
        rounded(numbers[at + 1]),
        rounded(numbers[at + 2]),
        1,
        0,
        on);
  }

  private static double rounded(double number) {
    return Math.round(number * 1000) / 1000.0;
  }

  /**
   * How far these lines' stated probabilities are from what came true under some odds, by kind:
   * "letters", "words", "a letter at all".
   */
  public Map<String, Calibration> calibrations(Odds odds) {
    Reliability reliability = new Reliability(odds);
    List<LineLattice> merged = merged(odds.weighing());
    for (int i = 0; i < lines.size(); i++) {
      reliability.add(lines.get(i).truth(), corrected(i, merged, odds));
    }
    return reliability.byKind();
  }

  /** Letter error of these lines under some odds, case-blind, 0 or more. */
  public double letterError(Odds odds) {
    List<LineLattice> merged = merged(odds.weighing());
    ErrorRate errors = ErrorRate.NONE;
    for (int i = 0; i < lines.size(); i++) {
      errors =
          errors.plus(
              ErrorRate.ofLetters(
                  Tally.fold(lines.get(i).truth()), Tally.fold(merged.get(i).best())));
    }
    return errors.rate();
  }

  /** Mean surprise per letter of the truth under some odds, in bits. */
  public double surprise(Odds odds) {
    int letters = lines.stream().mapToInt(l -> Tally.foldedLetters(l.truth()).size()).sum();
    return surprise(merged(odds.weighing()), odds) / Math.log(2) / Math.max(1, letters);
  }

  private List<LineLattice> merged(Weighing weighing) {
    return lines.parallelStream().map(line -> line.heard().merged(weighing)).toList();
  }

  private LineLattice corrected(int line, List<LineLattice> merged, Odds odds) {
    return odds.corrected(merged.get(line), lines.get(line).heard().photographs());
  }

  private double surprise(List<LineLattice> merged, Odds odds) {
    return IntStream.range(0, lines.size())
        .mapToDouble(i -> surprise(lines.get(i).truth(), corrected(i, merged, odds)))
        .sum();
  }

  /**
   * Minus the logarithm of the probability of the truth, laid against the slots where that is
   * largest; a letter for which there is no slot is as surprising as can be.
   */
  static double surprise(String truth, LineLattice lattice) {
    List<String> letters = Tally.foldedLetters(truth);
    double[] before = new double[letters.size() + 1];
    for (int j = 1; j <= letters.size(); j++) {
      before[j] = before[j - 1] + surprise(0);
    }
    for (Slot slot : lattice.slots()) {
      Map<String, Double> odds = new LinkedHashMap<>();
      slot.alternatives().forEach(a -> odds.merge(Judged.folded(a.text()), a.p(), Double::sum));
      double nothing = surprise(odds.getOrDefault("", 0.0));
      double[] now = new double[before.length];
      now[0] = before[0] + nothing;
      for (int j = 1; j < now.length; j++) {
        double letter = surprise(odds.getOrDefault(letters.get(j - 1), 0.0));
        now[j] =
            Math.min(
                Math.min(before[j] + nothing, now[j - 1] + surprise(0)), before[j - 1] + letter);
      }
      before = now;
    }
    return before[letters.size()];
  }

  private static double surprise(double p) {
    return -Math.log(Math.max(SMALLEST_P, p));
  }
}
