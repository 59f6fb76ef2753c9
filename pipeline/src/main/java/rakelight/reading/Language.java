package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/*
 * What the pictures show and what language leans to:
 *
 *               seen                        leant
 *     W I     F .55  E .05  L .40    E     F .52  E .13  L .35
 *
 * A lean is no evidence. It shares anew what a slot's letters have among each other, and what a space
 * and nothing have among each other. The sum of the letters stays as it was seen: where nothing was
 * seen, no letter appears; what no picture offers, language can't offer. Figures and points keep
 * their probabilities to the last place: nobody's year of death is likelier than another's.
 *
 * All ways through a line are weighed together. Each way costs what its alternatives were seen with and
 * how usual its letters follow each other; the sum of the ways through an alternative is its lean.
 */

/** The lean of language on a line: letters in an order that inscriptions know. */
final class Language {
  /** How much the order of letters counts against what was seen. Tried: 0.3, 0.5, 0.7. */
  private static final double WEIGHT = 0.5;

  /** What one place costs that language has no say on: about what a known letter costs. */
  private static final double INDIFFERENT_P = 0.12;

  /** Language never rules a letter out: this much of what was seen stays. */
  private static final double UNLEANT_SHARE = 0.02;

  /** Ways kept after each slot, by their last letters. */
  private static final int BEAM_WIDTH = 40;

  private final LetterOrder order;

  Language(LetterOrder order) {
    this.order = order;
  }

  /** The same line with leanings; what was seen stays as it is. */
  LineLattice leant(LineLattice seen) {
    List<Slot> slots = seen.slots();
    List<Map<String, Double>> forward = new ArrayList<>();
    List<List<Edge>> edges = new ArrayList<>();
    forward.add(Map.of(" ", 1.0));
    for (Slot slot : slots) {
      Map<String, Double> next = new HashMap<>();
      List<Edge> out = new ArrayList<>();
      List<String> signs =
          slot.alternatives().stream().map(a -> LetterOrder.signs(a.text())).toList();
      for (Map.Entry<String, Double> way : forward.get(forward.size() - 1).entrySet()) {
        for (int a = 0; a < slot.alternatives().size(); a++) {
          double weight = slot.alternatives().get(a).p() * usual(way.getKey(), signs.get(a));
          String after = LetterOrder.after(way.getKey(), signs.get(a));
          out.add(new Edge(way.getKey(), after, a, weight));
          next.merge(after, way.getValue() * weight, Double::sum);
        }
      }
      edges.add(out);
      forward.add(narrowed(next));
    }
    List<Slot> leant = new ArrayList<>();
    Map<String, Double> backward = new HashMap<>();
    forward.get(slots.size()).keySet().forEach(way -> backward.put(way, 1.0));
    for (int i = slots.size() - 1; i >= 0; i--) {
      double[] sums = new double[slots.get(i).alternatives().size()];
      Map<String, Double> before = new HashMap<>();
      double most = 0;
      for (Edge edge : edges.get(i)) {
        double rest = edge.weight() * backward.getOrDefault(edge.to(), 0.0);
        sums[edge.alternative()] += forward.get(i).getOrDefault(edge.from(), 0.0) * rest;
        most = Math.max(most, before.merge(edge.from(), rest, Double::sum));
      }
      leant.add(0, shared(slots.get(i), sums));
      double scale = most > 0 ? 1 / most : 1;
      backward.clear();
      before.forEach((way, sum) -> backward.put(way, sum * scale));
    }
    return new LineLattice(leant);
  }

  private record Edge(String from, String to, int alternative, double weight) {}

  /** How usual signs are after a history, raised to the weight that language has. */
  private double usual(String history, String signs) {
    if (signs.isEmpty()) {
      return Math.pow(INDIFFERENT_P, WEIGHT);
    }
    double p = 1;
    String before = history;
    for (int i = 0; i < signs.length(); i++) {
      char sign = signs.charAt(i);
      p *= sign == '0' || sign == '.' ? INDIFFERENT_P : order.p(before, sign);
      before = LetterOrder.after(before, signs.substring(i, i + 1));
    }
    return Math.pow(p, WEIGHT);
  }

  /** The likeliest ways, scaled so that long lines don't sink to zero. */
  private static Map<String, Double> narrowed(Map<String, Double> ways) {
    List<Map.Entry<String, Double>> all = new ArrayList<>(ways.entrySet());
    all.sort(
        Comparator.comparingDouble((Map.Entry<String, Double> way) -> -way.getValue())
            .thenComparing(Map.Entry::getKey));
    double most = Math.max(Double.MIN_NORMAL, all.get(0).getValue());
    Map<String, Double> kept = new LinkedHashMap<>();
    for (Map.Entry<String, Double> way : all.subList(0, Math.min(BEAM_WIDTH, all.size()))) {
      kept.put(way.getKey(), way.getValue() / most);
    }
    return kept;
  }

  /** What letters may share among each other, and space and nothing; the rest has no lean. */
  private enum Share {
    LETTERS,
    BLANKS,
    NONE;

    static Share of(String text) {
      return text.isBlank()
          ? BLANKS
          : text.codePoints().allMatch(Character::isLetter) ? LETTERS : NONE;
    }
  }

  private static Slot shared(Slot seen, double[] sums) {
    double[] had = new double[Share.values().length];
    double[] weighed = new double[had.length];
    for (int a = 0; a < sums.length; a++) {
      int share = Share.of(seen.alternatives().get(a).text()).ordinal();
      had[share] += seen.alternatives().get(a).p();
      weighed[share] += sums[a];
    }
    List<Alternative> leant = new ArrayList<>();
    for (int a = 0; a < sums.length; a++) {
      Alternative one = seen.alternatives().get(a);
      Share share = Share.of(one.text());
      double lean =
          share == Share.NONE || !(weighed[share.ordinal()] > 0)
              ? one.p()
              : UNLEANT_SHARE * one.p()
                  + (1 - UNLEANT_SHARE) * had[share.ordinal()] * sums[a] / weighed[share.ordinal()];
      leant.add(new Alternative(one.text(), one.p(), Optional.of(Math.min(1, lean))));
    }
    return new Slot(leant, seen.from(), seen.to(), seen.superior());
  }
}
