package rakelight.relief;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;

/**
 * How alike the letters of one face are cut to those of others. Three things count: how well each
 * letter lies over the same letter there, against how well it lies over other faces'; whether each
 * letter has its bars and joints at the same height, when all of them together may be higher; and
 * whether they lean alike. Each is taken by how far it is from what is usual among the faces
 * compared, since wear, light and grain take from all.
 */
public final class HandsCompared {
  /** With fewer letters in common two faces aren't compared. */
  public static final int LEAST_SHARED = 5;

  /** What is usual is reckoned from so many faces. */
  private static final int ENOUGH = 5;

  /** Where there are fewer: as on rendered stones of one typeface, by all hands. */
  private static final Usual LETTER = new Usual(0.63, 0.12);

  private static final Usual WAIST = new Usual(0.075, 0.02);
  private static final Usual SLANT = new Usual(0.045, 0.03);

  /** Bars tell most. Tried: 1 to 2. */
  private static final double WAIST_WEIGHT = 2;

  /** Added to the spread of a letter, lest one on which all agree decide alone. */
  private static final double LEAST_SPREAD = 0.02;

  private HandsCompared() {}

  /**
   * @param likeness by how many spreads the two are more alike than faces usually are; above 0 for
   *     more
   * @param shared letters that both have, the most alike first
   */
  public record Compared(double likeness, List<LetterPairs.Pair> shared) {
    public Compared {
      shared = List.copyOf(shared);
    }
  }

  /** What is usual among faces. */
  private record Usual(double mean, double spread) {
    double away(double value) {
      return (value - mean) / spread;
    }
  }

  /**
   * Compares one with others.
   *
   * @param own its letters, see {@link LetteringLook#byLetter}
   * @return one for each of the others; empty where too few letters are on both
   */
  public static List<Optional<Compared>> of(
      Map<String, List<LetterShape>> own, List<Map<String, List<LetterShape>>> others) {
    List<List<LetterPairs.Pair>> all = new ArrayList<>();
    for (Map<String, List<LetterShape>> other : others) {
      List<LetterPairs.Pair> pairs = pairs(own, other);
      all.add(pairs.size() < LEAST_SHARED ? List.of() : pairs);
    }
    List<List<LetterPairs.Pair>> enough = all.stream().filter(one -> !one.isEmpty()).toList();
    Map<String, Usual> letters = letters(enough);
    Usual whole = usual(enough, pairs -> lies(pairs, letters), new Usual(0, 0.6));
    Usual waist = usual(enough, HandsCompared::waist, WAIST);
    Usual slant = usual(enough, HandsCompared::slant, SLANT);
    List<Optional<Compared>> compared = new ArrayList<>();
    for (List<LetterPairs.Pair> pairs : all) {
      compared.add(
          pairs.isEmpty()
              ? Optional.empty()
              : Optional.of(
                  new Compared(
                      (whole.away(lies(pairs, letters))
                              - WAIST_WEIGHT * waist.away(waist(pairs))
                              - slant.away(slant(pairs)))
                          / (2 + WAIST_WEIGHT),
                      pairs)));
    }
    return compared;
  }

  private static Usual usual(
      List<List<LetterPairs.Pair>> faces,
      ToDoubleFunction<List<LetterPairs.Pair>> of,
      Usual otherwise) {
    double[] values = faces.stream().mapToDouble(of).toArray();
    return values.length < ENOUGH ? otherwise : usual(values, 1e-6);
  }

  private static Usual usual(double[] values, double more) {
    double mean = Arrays.stream(values).average().orElse(0);
    double squares = Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum();
    return new Usual(mean, Math.sqrt(squares / Math.max(1, values.length)) + more);
  }

  /** How well each letter usually lies over others. */
  private static Map<String, Usual> letters(List<List<LetterPairs.Pair>> faces) {
    Map<String, List<Double>> found = new TreeMap<>();
    for (List<LetterPairs.Pair> pairs : faces) {
      for (LetterPairs.Pair pair : pairs) {
        found.computeIfAbsent(pair.letter(), letter -> new ArrayList<>()).add(pair.likeness());
      }
    }
    Map<String, Usual> usual = new HashMap<>();
    found.forEach(
        (letter, likes) ->
            usual.put(
                letter,
                likes.size() < ENOUGH
                    ? LETTER
                    : usual(
                        likes.stream().mapToDouble(Double::doubleValue).toArray(), LEAST_SPREAD)));
    return usual;
  }

  private static double lies(List<LetterPairs.Pair> pairs, Map<String, Usual> letters) {
    return pairs.stream()
        .mapToDouble(pair -> letters.getOrDefault(pair.letter(), LETTER).away(pair.likeness()))
        .average()
        .orElse(0);
  }

  /** How far bars and joints are from where the whole lettering would have them. */
  private static double waist(List<LetterPairs.Pair> pairs) {
    double middle = median(pairs.stream().mapToDouble(pair -> pair.laid().waist()).toArray());
    return pairs.stream()
        .mapToDouble(pair -> Math.abs(pair.laid().waist() - middle))
        .average()
        .orElse(0);
  }

  private static double slant(List<LetterPairs.Pair> pairs) {
    return Math.abs(median(pairs.stream().mapToDouble(pair -> pair.laid().slant()).toArray()));
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int middle = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
  }

  /** For each letter that both have, how it lies over the other, with two that show it. */
  private static List<LetterPairs.Pair> pairs(
      Map<String, List<LetterShape>> one, Map<String, List<LetterShape>> other) {
    List<LetterPairs.Pair> pairs = new ArrayList<>();
    one.forEach(
        (letter, own) -> {
          List<LetterShape> theirs = other.getOrDefault(letter, List.of());
          if (!theirs.isEmpty()) {
            pairs.add(pair(own, theirs));
          }
        });
    pairs.sort(Comparator.comparingDouble((LetterPairs.Pair pair) -> -pair.likeness()));
    return pairs;
  }

  /**
   * Each finds the one that it lies over best: a face may be lettered in two typefaces. Habits are
   * the median of the better half.
   */
  private static LetterPairs.Pair pair(List<LetterShape> one, List<LetterShape> other) {
    List<LetterPairs.Pair> all = new ArrayList<>();
    double[] here = new double[one.size()];
    double[] there = new double[other.size()];
    Arrays.fill(here, -1);
    Arrays.fill(there, -1);
    for (int i = 0; i < one.size(); i++) {
      for (int k = 0; k < other.size(); k++) {
        LetterShape.Laid laid = one.get(i).laid(other.get(k));
        here[i] = Math.max(here[i], laid.likeness());
        there[k] = Math.max(there[k], laid.likeness());
        all.add(new LetterPairs.Pair(one.get(i), other.get(k), laid));
      }
    }
    all.sort(Comparator.comparingDouble((LetterPairs.Pair pair) -> -pair.likeness()));
    List<LetterPairs.Pair> better = all.subList(0, (all.size() + 1) / 2);
    double likeness =
        (Arrays.stream(here).average().orElse(0) + Arrays.stream(there).average().orElse(0)) / 2;
    return new LetterPairs.Pair(
        all.get(0).above(),
        all.get(0).below(),
        new LetterShape.Laid(
            likeness,
            median(better.stream().mapToDouble(pair -> pair.laid().waist()).toArray()),
            median(better.stream().mapToDouble(pair -> pair.laid().slant()).toArray())));
  }
}
