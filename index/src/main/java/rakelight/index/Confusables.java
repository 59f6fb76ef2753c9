package rakelight.index;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Letters that may truly stand where another was read. Where a reader says that a letter could be
 * another and doesn't say which, these are looked for too.
 *
 * <p>They are what the recognisers held possible on rendered stones whose truth is known, a table
 * that {@code score --confusions} writes; docs/measurements.md says how it was made. People may
 * take other letters for each other than recognisers do: nobody has measured that.
 */
public final class Confusables {
  private static final String MEASURED = "/rakelight/index/confusions.tsv";

  /** So many others are looked for. On held-out stones they were half of what truly stood there. */
  private static final int MOST = 5;

  /**
   * A letter that was read in place of another with less than this, all together, tells nothing.
   */
  private static final double LEAST_ODDS = 1;

  private static final Map<String, Map<String, Double>> ALIKE = measured();

  private Confusables() {}

  /**
   * The letters and figures that most often stood where this one was read, in capitals, itself not
   * included, with their shares, which sum to one; none where too little is known.
   */
  public static Map<String, Double> of(String letter) {
    return ALIKE.getOrDefault(letter, Map.of());
  }

  private static Map<String, Map<String, Double>> measured() {
    try (InputStream in = Confusables.class.getResourceAsStream(MEASURED)) {
      if (in == null) {
        throw new IllegalStateException("The jar lacks " + MEASURED);
      }
      return shares(new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList());
    } catch (IOException e) {
      throw new UncheckedIOException("Can't read " + MEASURED, e);
    }
  }

  /**
   * Works shares out of such a table.
   *
   * @throws IllegalArgumentException naming the row that isn't one
   */
  static Map<String, Map<String, Double>> shares(List<String> table) {
    Map<String, Map<String, Double>> odds = new HashMap<>();
    for (int row = 1; row < table.size(); row++) {
      String[] cells = table.get(row).split("\t", -1);
      double here = cells.length == 5 ? number(cells[4]).orElse(-1.0) : -1;
      if (here < 0) {
        throw new IllegalArgumentException(
            "Row " + (row + 1) + " of the confusions must be five cells, the last odds");
      }
      String truth = cells[1];
      String read = cells[2];
      if (isSign(truth) && isSign(read) && !truth.equalsIgnoreCase(read)) {
        odds.computeIfAbsent(read, key -> new TreeMap<>()).merge(truth, here, Double::sum);
      }
    }
    Map<String, Map<String, Double>> shares = new HashMap<>();
    odds.forEach(
        (read, others) -> {
          if (others.values().stream().mapToDouble(Double::doubleValue).sum() >= LEAST_ODDS) {
            shares.put(read, likeliest(others));
          }
        });
    return shares;
  }

  private static Optional<Double> number(String text) {
    try {
      return Optional.of(Double.parseDouble(text));
    } catch (NumberFormatException e) {
      return Optional.empty();
    }
  }

  /** A single letter or figure. */
  private static boolean isSign(String text) {
    return text.codePointCount(0, text.length()) == 1
        && Character.isLetterOrDigit(text.codePointAt(0));
  }

  private static Map<String, Double> likeliest(Map<String, Double> others) {
    List<Map.Entry<String, Double>> most =
        others.entrySet().stream()
            .sorted(Map.Entry.comparingByValue(Comparator.reverseOrder()))
            .limit(MOST)
            .toList();
    double sum = most.stream().mapToDouble(Map.Entry::getValue).sum();
    Map<String, Double> shares = new TreeMap<>();
    most.forEach(other -> shares.put(other.getKey(), other.getValue() / sum));
    return shares;
  }
}
