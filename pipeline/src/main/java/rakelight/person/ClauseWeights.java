package rakelight.person;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;

/**
 * What is added to the hand's weights of clauses, in natural logarithms of odds: learned on stones
 * whose sense is known, one number for each sign of {@link ClauseSigns}. A sign that was never met
 * adds nothing.
 *
 * <p>{@code clause-weights.tsv} holds them; docs/persons.md has the command that makes it.
 */
final class ClauseWeights {
  private static final ClauseWeights KNOWN = load();

  // Open addressing over a power of two; 0 is an empty place.
  private final long[] keys;
  private final float[] values;

  private ClauseWeights(List<String> lines) {
    int places = Integer.highestOneBit(Math.max(1, lines.size())) * 4;
    keys = new long[places];
    values = new float[places];
    for (String line : lines) {
      String[] cells = line.split("\t", -1);
      long key = key(cells[0], cells[1], cells[2], cells[3], cells[4]);
      int at = place(key);
      keys[at] = key;
      values[at] = Float.parseFloat(cells[5]);
    }
  }

  static ClauseWeights known() {
    return KNOWN;
  }

  private static ClauseWeights load() {
    InputStream table = ClauseWeights.class.getResourceAsStream("clause-weights.tsv");
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(
                Objects.requireNonNull(table, "clause-weights.tsv"), StandardCharsets.UTF_8))) {
      return new ClauseWeights(lines.lines().filter(line -> !line.startsWith("#")).toList());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What is added for a clause by itself. */
  double of(ClauseSigns signs, Clause clause) {
    Sum sum = new Sum();
    signs.of(clause, sum);
    return sum.weight;
  }

  /** What is added for a clause behind another, by their kinds and what stands between. */
  double ofKinds(ClauseSigns signs, Clause before, Clause clause) {
    Sum sum = new Sum();
    signs.ofKinds(before, clause, sum);
    return sum.weight;
  }

  /** What is added for a clause behind another, by what they say. */
  double ofSaid(ClauseSigns signs, Clause before, Clause clause) {
    Sum sum = new Sum();
    signs.ofSaid(before, clause, sum);
    return sum.weight;
  }

  private final class Sum implements ClauseSigns.Each {
    private double weight;

    @Override
    public void sign(String looked, String a, String b, String c, String d) {
      weight += values[place(key(looked, a, b, c, d))];
    }
  }

  private int place(long key) {
    int at = (int) (key >>> 20) & (keys.length - 1);
    while (keys[at] != 0 && keys[at] != key) {
      at = (at + 1) & (keys.length - 1);
    }
    return at;
  }

  private static long key(String looked, String a, String b, String c, String d) {
    long key = mixed(mixed(mixed(mixed(mixed(1, looked), a), b), c), d);
    return key == 0 ? 1 : key;
  }

  private static long mixed(long key, String part) {
    long mixed = (key ^ part.hashCode()) * 0x9E3779B97F4A7C15L;
    return mixed ^ mixed >>> 29;
  }
}
