package rakelight.reading;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/*
 * Why decoding is more than taking the best letter of each step.
 *
 * A recogniser slides along a line and says at each step how likely each letter is, or that no new
 * letter is seen here ("blank", written "-"). Many ways through the steps spell the same letters:
 * repeated letters without a blank between them are one letter, and blanks vanish. A letter's
 * probability is shared out among all these ways, and only their sum counts.
 *
 * Take two steps that know only A and blank:
 *
 *            step 1   step 2
 *       A      .4       .4
 *       -      .6       .6
 *
 * The best single way is "--", nothing at all, with .6 x .6 = .36. But A is spelt by three ways: AA
 * .16, A- .24, -A .24, together .64. The reading is A.
 *
 * The search for the best reading goes through the steps and keeps the likeliest beginnings
 * ("prefixes"), each with two sums: of the ways that end in a blank and of those that end in its last
 * letter. The two must be kept apart because a letter that follows itself is a new letter only after a
 * blank:
 *
 *            step 1   step 2   step 3
 *       A      .9       .3       .9        AA needs A-A: .9 x .7 x .9 = .567
 *       -      .1       .7       .1        A has every other way: .426 (and "" .007)
 *
 * Then, for every letter of the best reading, how likely is each other letter in its place, or none
 * at all? For that the whole line is weighed again with just this letter exchanged. All ways of all
 * beginnings up to a letter ("forward") and of all endings after it ("backward") are summed once, so
 * that one exchange costs one pass over the steps:
 *
 *       step 1:  8 .5   3 .4   - .1        8 .5, 3 .4, nothing .1
 *
 * These are probabilities of whole lines that differ in one place, so they sum to one over the
 * alternatives of a slot, which is what the lattice promises. Letters that may have been overlooked
 * are weighed the same way, by putting one between two neighbours.
 */

/**
 * Turns the letter probabilities of a network trained with connectionist temporal classification
 * (Graves, Fernández, Gomez and Schmidhuber, ICML 2006) into a {@link LineLattice}: the best
 * reading by prefix beam search, the alternatives of each letter by the forward and backward sums.
 *
 * <p>Limits: alternatives are one letter away from the best reading; two letters that may be one (H
 * or LI) show only as a doubtful letter beside a doubtful nothing.
 */
final class CtcDecoder {
  /**
   * Prefixes kept per step. With 10 the likeliest reading of five steps of two letters was lost 112
   * times in 100,001 drawings, with 14 three times, with 16 never; lines of stones read the same.
   */
  private static final int BEAM_WIDTH = 16;

  /** Letters less likely than this at a step don't lengthen a prefix there. */
  private static final double SMALLEST_STEP_P = 1e-3;

  /** A letter must reach this at some step near a slot to be weighed as its alternative. */
  private static final double SMALLEST_CANDIDATE_P = 0.004;

  /** Alternatives with less than this of a slot are left out. */
  private static final double SMALLEST_ALTERNATIVE_P = 0.003;

  /** A place between two letters becomes a slot if something stands there with at least this. */
  private static final double SMALLEST_OVERLOOKED_P = 0.08;

  private final List<String> letters;
  private final List<Integer> classOfSuperior;

  /**
   * @param letters what class i + 1 stands for; class 0 is the blank
   */
  CtcDecoder(List<String> letters) {
    this(letters, List.of());
  }

  /**
   * @param letters what class i + 1 stands for; class 0 is the blank
   * @param superiors what the classes after these stand for: letters cut small and high, each one
   *     of {@code letters}
   */
  CtcDecoder(List<String> letters, List<String> superiors) {
    this.letters = List.copyOf(letters);
    classOfSuperior = superiors.stream().map(letter -> 1 + letters.indexOf(letter)).toList();
    if (classOfSuperior.contains(0)) {
      throw new IllegalArgumentException("Superiors are letters with a class: " + superiors);
    }
  }

  /**
   * Decodes one line.
   *
   * @param steps probabilities by step and class, each step summing to one
   */
  LineLattice decode(float[][] steps) {
    float[][] plain = classOfSuperior.isEmpty() ? steps : onTheLine(steps);
    return lattice(steps, plain, bestReading(plain));
  }

  /** Which letter it is and how it is set are two questions: superiors count as their letters. */
  private float[][] onTheLine(float[][] steps) {
    int classes = 1 + letters.size();
    float[][] plain = new float[steps.length][];
    for (int t = 0; t < steps.length; t++) {
      plain[t] = Arrays.copyOf(steps[t], classes);
      for (int k = 0; k < classOfSuperior.size(); k++) {
        plain[t][classOfSuperior.get(k)] += steps[t][classes + k];
      }
    }
    return plain;
  }

  /** How much of a letter's probability between two places is that of the letter set high. */
  private double superior(float[][] steps, int letter, double from, double to) {
    int k = classOfSuperior.indexOf(letter);
    if (k < 0) {
      return 0;
    }
    double high = 0;
    double low = 1e-9;
    for (int t = (int) Math.max(0, from); t < Math.min(steps.length, Math.ceil(to)); t++) {
      high += steps[t][1 + letters.size() + k];
      low += steps[t][letter];
    }
    return high / (high + low);
  }

  /** The likeliest classes, blanks left out. */
  int[] bestReading(float[][] steps) {
    Map<Prefix, double[]> beam = new HashMap<>();
    beam.put(Prefix.EMPTY, new double[] {1, 0});
    for (float[] step : steps) {
      Map<Prefix, double[]> next = new HashMap<>();
      for (Map.Entry<Prefix, double[]> entry : beam.entrySet()) {
        Prefix prefix = entry.getKey();
        double afterBlank = entry.getValue()[0];
        double afterLetter = entry.getValue()[1];
        double[] same = next.computeIfAbsent(prefix, p -> new double[2]);
        same[0] += (afterBlank + afterLetter) * step[0];
        if (prefix.last() != 0) {
          same[1] += afterLetter * step[prefix.last()];
        }
        for (int c = 1; c < step.length; c++) {
          if (step[c] < SMALLEST_STEP_P) {
            continue;
          }
          double from = c == prefix.last() ? afterBlank : afterBlank + afterLetter;
          if (from > 0) {
            next.computeIfAbsent(prefix.with(c), p -> new double[2])[1] += from * step[c];
          }
        }
      }
      beam = narrowed(next);
    }
    return beam.entrySet().stream()
        .max(Comparator.comparingDouble(e -> e.getValue()[0] + e.getValue()[1]))
        .orElseThrow()
        .getKey()
        .classes();
  }

  /** The best prefixes, scaled so that long lines don't sink to zero. */
  private static Map<Prefix, double[]> narrowed(Map<Prefix, double[]> beam) {
    List<Map.Entry<Prefix, double[]>> entries = new ArrayList<>(beam.entrySet());
    entries.sort(Comparator.comparingDouble(e -> -(e.getValue()[0] + e.getValue()[1])));
    double most =
        Math.max(Double.MIN_NORMAL, entries.get(0).getValue()[0] + entries.get(0).getValue()[1]);
    Map<Prefix, double[]> kept = new HashMap<>();
    for (Map.Entry<Prefix, double[]> entry :
        entries.subList(0, Math.min(BEAM_WIDTH, entries.size()))) {
      kept.put(
          entry.getKey(), new double[] {entry.getValue()[0] / most, entry.getValue()[1] / most});
    }
    return kept;
  }

  private LineLattice lattice(float[][] all, float[][] steps, int[] best) {
    if (best.length == 0) {
      return new LineLattice(List.of());
    }
    Sums sums = new Sums(steps, best);
    double[] centres = sums.centres();
    int n = best.length;
    double[] edges = new double[n + 1];
    edges[0] = Math.max(0, n > 1 ? centres[0] - (centres[1] - centres[0]) / 2 : centres[0] - 2);
    edges[n] =
        Math.min(
            steps.length,
            n > 1 ? centres[n - 1] + (centres[n - 1] - centres[n - 2]) / 2 : centres[0] + 2);
    for (int i = 1; i < n; i++) {
      edges[i] = (centres[i - 1] + centres[i]) / 2;
    }
    double whole = sums.weight(0, 0, 0);
    List<Slot> slots = new ArrayList<>();
    for (int i = 0; i <= n; i++) {
      double left = i == 0 ? 0 : centres[i - 1];
      double right = i == n ? steps.length : centres[i];
      overlooked(steps, sums, i, left, right, whole).ifPresent(slots::add);
      if (i < n) {
        double before = i == 0 ? edges[0] : centres[i - 1];
        double after = i == n - 1 ? edges[n] : centres[i + 1];
        Map<String, Double> weights = new LinkedHashMap<>();
        weights.put(letters.get(best[i] - 1), whole);
        weights.merge("", sums.weight(i, 0, i + 1), Double::sum);
        for (int c : candidates(steps, before, after)) {
          if (c != best[i]) {
            weights.merge(letters.get(c - 1), sums.weight(i, c, i + 1), Double::sum);
          }
        }
        slots.add(
            Slot.ofWeights(
                    weights,
                    SMALLEST_ALTERNATIVE_P,
                    edges[i] / steps.length,
                    edges[i + 1] / steps.length)
                .withSuperior(superior(all, best[i], edges[i], edges[i + 1])));
      }
    }
    return new LineLattice(slots);
  }

  private java.util.Optional<Slot> overlooked(
      float[][] steps, Sums sums, int at, double left, double right, double whole) {
    Map<String, Double> weights = new LinkedHashMap<>();
    weights.put("", whole);
    double inserted = 0;
    for (int c : candidates(steps, left, right)) {
      double weight = sums.weight(at, c, at);
      weights.merge(letters.get(c - 1), weight, Double::sum);
      inserted += weight;
    }
    if (inserted < SMALLEST_OVERLOOKED_P * (inserted + whole)) {
      return java.util.Optional.empty();
    }
    double middle = (left + right) / 2 / steps.length;
    return java.util.Optional.of(Slot.ofWeights(weights, SMALLEST_ALTERNATIVE_P, middle, middle));
  }

  private static int[] candidates(float[][] steps, double from, double to) {
    int first = Math.max(0, (int) Math.floor(from));
    int last = Math.min(steps.length - 1, (int) Math.ceil(to));
    int classes = steps[0].length;
    int[] found = new int[classes];
    int n = 0;
    for (int c = 1; c < classes; c++) {
      for (int t = first; t <= last; t++) {
        if (steps[t][c] >= SMALLEST_CANDIDATE_P) {
          found[n++] = c;
          break;
        }
      }
    }
    return Arrays.copyOf(found, n);
  }

  /**
   * The sums over all ways to spell the beginnings and the endings of one reading. Every step is
   * divided by its share of the reading's best single way, which leaves ratios alone and keeps long
   * lines within a double.
   */
  private static final class Sums {
    private final double[][] q;
    private final int[] reading;
    private final int[] bestWay;

    /**
     * Ways that have spelt the first i letters after step t, ending in a blank or in the letter.
     */
    private final double[][] afterBlank;

    private final double[][] afterLetter;

    /** Ways that begin letter j at step t and spell it and all that follow. */
    private final double[][] fromStart;

    Sums(float[][] steps, int[] reading) {
      this.reading = reading;
      this.bestWay = bestWay(steps, reading);
      int length = steps.length;
      q = new double[length][];
      for (int t = 0; t < length; t++) {
        double scale = 1 / Math.max(1e-12, steps[t][bestWay[t] < 0 ? 0 : reading[bestWay[t]]]);
        q[t] = new double[steps[t].length];
        for (int c = 0; c < q[t].length; c++) {
          q[t][c] = steps[t][c] * scale;
        }
      }
      int n = reading.length;
      afterBlank = new double[n + 1][length];
      afterLetter = new double[n + 1][length];
      double blank = 1;
      for (int t = 0; t < length; t++) {
        blank *= q[t][0];
        afterBlank[0][t] = blank;
      }
      for (int i = 1; i <= n; i++) {
        for (int t = 0; t < length; t++) {
          double stay = t == 0 ? 0 : afterLetter[i][t - 1];
          afterLetter[i][t] = q[t][reading[i - 1]] * (stay + into(i - 1, reading[i - 1], t));
          afterBlank[i][t] = t == 0 ? 0 : q[t][0] * (afterBlank[i][t - 1] + afterLetter[i][t - 1]);
        }
      }
      fromStart = new double[n][length];
      double[] letterThenRest = new double[length];
      for (int j = n - 1; j >= 0; j--) {
        double[] letter = new double[length];
        double[] rest = new double[length];
        for (int t = length - 1; t >= 0; t--) {
          boolean last = t == length - 1;
          if (j == n - 1) {
            rest[t] = last ? 1 : q[t + 1][0] * rest[t + 1];
            letter[t] = last ? 1 : q[t + 1][reading[j]] * letter[t + 1] + q[t + 1][0] * rest[t + 1];
          } else {
            double next = last ? 0 : q[t + 1][reading[j + 1]] * letterThenRest[t + 1];
            double wait = last ? 0 : q[t + 1][0] * rest[t + 1];
            rest[t] = wait + next;
            letter[t] =
                (last ? 0 : q[t + 1][reading[j]] * letter[t + 1])
                    + wait
                    + (reading[j] == reading[j + 1] ? 0 : next);
          }
          fromStart[j][t] = q[t][reading[j]] * letter[t];
        }
        letterThenRest = letter;
      }
    }

    /** Ways that have spelt i letters just before step t and may begin letter c there. */
    private double into(int i, int c, int t) {
      if (t == 0) {
        return i == 0 ? 1 : 0;
      }
      boolean repeats = i > 0 && reading[i - 1] == c;
      return afterBlank[i][t - 1] + (i == 0 || repeats ? 0 : afterLetter[i][t - 1]);
    }

    /** All ways that spell the first i letters, then c (0: nothing), then the letters from j on. */
    double weight(int i, int c, int j) {
      int length = q.length;
      boolean ends = j == reading.length;
      if (c == 0) {
        if (ends) {
          return afterBlank[i][length - 1] + (i == 0 ? 0 : afterLetter[i][length - 1]);
        }
        double sum = 0;
        for (int t = 0; t < length; t++) {
          sum += into(i, reading[j], t) * fromStart[j][t];
        }
        return sum;
      }
      boolean repeats = !ends && reading[j] == c;
      double letter = 0;
      double blank = 0;
      double sum = 0;
      for (int t = 0; t < length; t++) {
        if (!ends) {
          sum += (blank + (repeats ? 0 : letter)) * fromStart[j][t];
        }
        double wasLetter = letter;
        letter = q[t][c] * (letter + into(i, c, t));
        blank = q[t][0] * (blank + wasLetter);
      }
      return ends ? letter + blank : sum;
    }

    /** The middle of each letter's steps on the best way, in steps. */
    double[] centres() {
      double[] centres = new double[reading.length];
      double[] counts = new double[reading.length];
      for (int t = 0; t < bestWay.length; t++) {
        if (bestWay[t] >= 0) {
          double weight = 1e-6 + q[t][reading[bestWay[t]]];
          centres[bestWay[t]] += weight * (t + 0.5);
          counts[bestWay[t]] += weight;
        }
      }
      for (int i = 0; i < centres.length; i++) {
        centres[i] /= Math.max(1e-12, counts[i]);
      }
      return centres;
    }

    /** The best single way to spell the reading: per step the letter's number, or -1 for blank. */
    private static int[] bestWay(float[][] steps, int[] reading) {
      int states = 2 * reading.length + 1;
      int length = steps.length;
      double[][] score = new double[length][states];
      int[][] from = new int[length][states];
      for (int t = 0; t < length; t++) {
        for (int s = 0; s < states; s++) {
          int c = s % 2 == 0 ? 0 : reading[s / 2];
          double best = Double.NEGATIVE_INFINITY;
          int bestFrom = s;
          if (t == 0) {
            best = s < 2 ? 0 : Double.NEGATIVE_INFINITY;
          } else {
            for (int back = 0; back <= 2 && back <= s; back++) {
              if (back == 2 && (c == 0 || c == reading[s / 2 - 1])) {
                break;
              }
              if (score[t - 1][s - back] > best) {
                best = score[t - 1][s - back];
                bestFrom = s - back;
              }
            }
          }
          score[t][s] = best + Math.log(Math.max(1e-30, steps[t][c]));
          from[t][s] = bestFrom;
        }
      }
      int state =
          reading.length > 0 && score[length - 1][states - 2] > score[length - 1][states - 1]
              ? states - 2
              : states - 1;
      int[] way = new int[length];
      for (int t = length - 1; t >= 0; t--) {
        way[t] = state % 2 == 0 ? -1 : state / 2;
        state = from[t][state];
      }
      return way;
    }
  }

  /** The beginning of a reading, sharing what it has in common with shorter ones. */
  private record Prefix(
      @org.jspecify.annotations.Nullable Prefix before, int last, int length, int hash) {
    static final Prefix EMPTY = new Prefix(null, 0, 0, 1);

    Prefix with(int c) {
      return new Prefix(this, c, length + 1, 31 * hash + c);
    }

    int[] classes() {
      int[] classes = new int[length];
      Prefix p = this;
      for (int i = length - 1; i >= 0; i--) {
        classes[i] = p.last;
        p = Objects.requireNonNull(p.before);
      }
      return classes;
    }

    @Override
    public int hashCode() {
      return hash;
    }

    @Override
    public boolean equals(@org.jspecify.annotations.Nullable Object other) {
      if (!(other instanceof Prefix that) || hash != that.hash || length != that.length) {
        return false;
      }
      Prefix a = this;
      Prefix b = that;
      while (a != b) {
        if (a.last != b.last) {
          return false;
        }
        a = Objects.requireNonNull(a.before);
        b = Objects.requireNonNull(b.before);
      }
      return true;
    }
  }
}
