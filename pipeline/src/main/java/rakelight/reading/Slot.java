package rakelight.reading;

import com.fasterxml.jackson.annotation.JsonSetter;
import com.fasterxml.jackson.annotation.Nulls;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * One place of a line and what may stand there.
 *
 * @param alternatives likeliest first, each text once; their probabilities sum to one, and so do
 *     their leanings
 * @param from where it begins along the line's strip, 0 (left end) to 1 (right end)
 * @param to where it ends, 0 to 1
 * @param superior the probability that the letter, if one stands here, is cut small and high, 0 to
 *     1; 0 in proposals kept before it was looked for
 */
public record Slot(
    List<Alternative> alternatives,
    double from,
    double to,
    @JsonSetter(nulls = Nulls.AS_EMPTY) double superior) {
  private static final double TOLERANCE = 1e-6;

  public Slot {
    alternatives = List.copyOf(alternatives);
    if (!(superior >= 0 && superior <= 1)) {
      throw new IllegalArgumentException("A probability lies in 0 to 1, not at " + superior);
    }
    double sum = alternatives.stream().mapToDouble(Alternative::p).sum();
    if (Math.abs(sum - 1) > TOLERANCE) {
      throw new IllegalArgumentException("The alternatives of a slot sum to 1, not to " + sum);
    }
    double leant = alternatives.stream().mapToDouble(Alternative::leant).sum();
    if (Math.abs(leant - 1) > TOLERANCE) {
      throw new IllegalArgumentException("The leanings of a slot sum to 1, not to " + leant);
    }
    long texts = alternatives.stream().map(Alternative::text).distinct().count();
    if (texts != alternatives.size()) {
      throw new IllegalArgumentException("A slot names each alternative once: " + alternatives);
    }
    for (int i = 1; i < alternatives.size(); i++) {
      if (alternatives.get(i - 1).p() < alternatives.get(i).p()) {
        throw new IllegalArgumentException(
            "A slot's likeliest alternative comes first: " + alternatives);
      }
    }
  }

  /** A slot whose letter stands on the line. */
  public Slot(List<Alternative> alternatives, double from, double to) {
    this(alternatives, from, to, 0);
  }

  /** The same slot with another probability that its letter is cut small and high. */
  Slot withSuperior(double probability) {
    return new Slot(alternatives, from, to, probability);
  }

  /** Whether the likeliest text is a letter cut small and high. */
  public boolean cutHigh() {
    return superior > 0.5 && !best().isBlank();
  }

  /**
   * A slot from weights of any sum above zero; texts with less than {@code smallest} of the whole
   * are left out and the rest share what they had.
   */
  public static Slot ofWeights(
      Map<String, Double> weights, double smallest, double from, double to) {
    double whole = weights.values().stream().mapToDouble(Double::doubleValue).sum();
    if (!(whole > 0)) {
      throw new IllegalArgumentException("A slot needs some weight: " + weights);
    }
    double most = weights.values().stream().mapToDouble(Double::doubleValue).max().orElseThrow();
    Map<String, Double> kept = new LinkedHashMap<>();
    weights.forEach(
        (text, weight) -> {
          if (weight == most || weight / whole >= smallest) {
            kept.put(text, weight);
          }
        });
    double sum = kept.values().stream().mapToDouble(Double::doubleValue).sum();
    List<Alternative> alternatives = new ArrayList<>();
    kept.forEach((text, weight) -> alternatives.add(new Alternative(text, weight / sum)));
    alternatives.sort(
        Comparator.comparingDouble(Alternative::p).reversed().thenComparing(Alternative::text));
    return new Slot(alternatives, from, to);
  }

  /** The likeliest text; may be empty. */
  public String best() {
    return alternatives.get(0).text();
  }

  /** The text that language leans to; the likeliest where it leans to none. */
  public String leaning() {
    Alternative most = alternatives.get(0);
    for (Alternative alternative : alternatives) {
      if (alternative.leant() > most.leant()) {
        most = alternative;
      }
    }
    return most.text();
  }

  /** The probability of the likeliest text. */
  public double p() {
    return alternatives.get(0).p();
  }

  /** The probability of a text, 0 if the slot doesn't know it. */
  public double p(String text) {
    return alternatives.stream()
        .filter(a -> a.text().equals(text))
        .mapToDouble(Alternative::p)
        .findFirst()
        .orElse(0);
  }

  /** The probability that a letter stands here at all, neither a space nor nothing. */
  public double ink() {
    double ink =
        alternatives.stream().filter(a -> !a.text().isBlank()).mapToDouble(Alternative::p).sum();
    return Math.min(1, ink);
  }

  double centre() {
    return (from + to) / 2;
  }
}
