package rakelight.measure;

import java.util.Map;
import java.util.TreeMap;

/**
 * Which letter was read where which one stands, by how legible the line is: counts, so that several
 * runs can be added. Case and typeface are folded away; nothing stands for a letter that was passed
 * over or read where none is.
 */
public final class Confusions {
  private record Cell(String legibility, String truth, String read) implements Comparable<Cell> {
    @Override
    public int compareTo(Cell other) {
      return java.util.Comparator.comparing(Cell::legibility)
          .thenComparing(Cell::truth)
          .thenComparing(Cell::read)
          .compare(this, other);
    }
  }

  private final Map<Cell, Integer> counts = new TreeMap<>();

  void add(String legibility, Judged judged) {
    String read = judged.slot().best();
    if (!judged.truth().isEmpty() || !read.isEmpty()) {
      counts.merge(new Cell(legibility, judged.truth(), Judged.folded(read)), 1, Integer::sum);
    }
  }

  /**
   * A table, UTF-8, cells parted by tabs: {@code legibility}, {@code truth}, {@code read}, {@code
   * count}; a space is written {@code space}, nothing {@code nothing}.
   */
  public String table() {
    StringBuilder table = new StringBuilder("legibility\ttruth\tread\tcount\n");
    counts.forEach(
        (cell, count) ->
            table
                .append(cell.legibility())
                .append('\t')
                .append(named(cell.truth()))
                .append('\t')
                .append(named(cell.read()))
                .append('\t')
                .append(count)
                .append('\n'));
    return table.toString();
  }

  private static String named(String letter) {
    return letter.isEmpty() ? "nothing" : letter.isBlank() ? "space" : letter;
  }
}
