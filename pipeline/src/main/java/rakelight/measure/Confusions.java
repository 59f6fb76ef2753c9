package rakelight.measure;

import java.util.Comparator;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import rakelight.reading.Alternative;

/**
 * Which letters stand where others were read, by how legible the line is: sums, so that several
 * runs can be added. A place counts for all that its slot holds possible, each by its odds.
 *
 * <p>The truth is blind to case and typeface. What was read keeps its case, since a small letter is
 * taken for others than its capital. Nothing stands for a letter that was passed over or read where
 * none is.
 */
public final class Confusions {
  /** Below this an entry shows as 0 and is left out. */
  private static final double SMALLEST_SHOWN = 0.0005;

  private record Cell(String legibility, String truth, String read) implements Comparable<Cell> {
    @Override
    public int compareTo(Cell other) {
      return Comparator.comparing(Cell::legibility)
          .thenComparing(Cell::truth)
          .thenComparing(Cell::read)
          .compare(this, other);
    }
  }

  private record Sum(int likeliest, double odds) {
    Sum plus(Sum other) {
      return new Sum(likeliest + other.likeliest, odds + other.odds);
    }
  }

  private final Map<Cell, Sum> sums = new TreeMap<>();

  void add(String legibility, Judged judged) {
    boolean likeliest = true;
    for (Alternative read : judged.slot().alternatives()) {
      if (!judged.truth().isEmpty() || !read.text().isEmpty()) {
        sums.merge(
            new Cell(legibility, judged.truth(), read.text()),
            new Sum(likeliest ? 1 : 0, read.p()),
            Sum::plus);
      }
      likeliest = false;
    }
  }

  /**
   * A table, UTF-8, cells parted by tabs: {@code legibility}, {@code truth}, {@code read}, {@code
   * likeliest} (places where this was the likeliest letter), {@code odds} (the sum of its
   * probabilities at all places, of which three decimals are given); a space is written {@code
   * space}, nothing {@code nothing}.
   */
  public String table() {
    StringBuilder table = new StringBuilder("legibility\ttruth\tread\tlikeliest\todds\n");
    sums.forEach(
        (cell, sum) -> {
          if (sum.odds() >= SMALLEST_SHOWN) {
            table.append(
                String.format(
                    Locale.ROOT,
                    "%s\t%s\t%s\t%d\t%.3f\n",
                    cell.legibility(),
                    named(cell.truth()),
                    named(cell.read()),
                    sum.likeliest(),
                    sum.odds()));
          }
        });
    return table.toString();
  }

  private static String named(String letter) {
    return letter.isEmpty() ? "nothing" : letter.isBlank() ? "space" : letter;
  }
}
