package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.DoubleBinaryOperator;
import java.util.function.Function;
import java.util.stream.IntStream;
import rakelight.picture.Polygon;

/**
 * The order in which the lines of a face are read: rows from the top, each from the left; but
 * columns of like text one after the other, as a roll of names is read, or a stone that gives
 * husband and wife a half each. Cells that say different things, as names and ages do, belong to
 * their row.
 *
 * <p>The numbers were set on rolls by three renderers; how far they hold on others stands in
 * docs/measurements.md (In which order).
 */
final class ReadingOrder {
  /** The middles of lines of one row are less than this part of their height apart. */
  private static final double LARGEST_STEP_HEIGHTS = 0.5;

  /** Rows of the same columns are no further apart than this, in heights. */
  private static final double LARGEST_ROW_STEP = 4;

  /** A line is under the columns that it shares more than this with, in its heights. */
  private static final double SHARED_HEIGHTS = 0.5;

  /** The only cell of a row begins or has its middle so near, in its heights, to one above it. */
  private static final double LARGEST_SHIFT = 1;

  /** Columns in fewer rows may be chance. */
  private static final int FEWEST_ROWS = 3;

  /** Lines of columns that say like things are on average no more than so many times as long. */
  private static final double LARGEST_RATIO = 2.5;

  /** And as many of them hold figures, but for this part of all. */
  private static final double LARGEST_DIFFERENCE = 0.5;

  private ReadingOrder() {}

  /**
   * Lines of one face in the order in which they are read.
   *
   * @param ribbon where a line lies, turned so that lines are level
   * @param text what it says
   */
  static <T> List<T> of(List<T> lines, Function<T, Polygon> ribbon, Function<T, String> text) {
    List<Row<T>> rows =
        rows(lines.stream().map(l -> new Cell<>(l, ribbon.apply(l), text.apply(l))).toList());
    List<T> ordered = new ArrayList<>();
    int at = 0;
    while (at < rows.size()) {
      Block<T> block = Block.from(rows, at);
      if (block.readDown()) {
        block.columns().forEach(column -> column.forEach(cell -> ordered.add(cell.line())));
        at += block.size();
      } else {
        rows.get(at).cells().forEach(cell -> ordered.add(cell.line()));
        at++;
      }
    }
    return ordered;
  }

  private static <T> List<Row<T>> rows(List<Cell<T>> cells) {
    List<Cell<T>> byHeight = new ArrayList<>(cells);
    byHeight.sort(Comparator.comparingDouble(Cell::y));
    List<List<Cell<T>>> rows = new ArrayList<>();
    for (Cell<T> cell : byHeight) {
      List<Cell<T>> last = rows.isEmpty() ? List.of() : rows.get(rows.size() - 1);
      if (last.isEmpty() || below(cell, last.get(0))) {
        rows.add(new ArrayList<>(List.of(cell)));
      } else {
        last.add(cell);
      }
    }
    return rows.stream().map(Row::fromTheLeft).toList();
  }

  private static boolean below(Cell<?> cell, Cell<?> first) {
    return cell.y() - first.y() > LARGEST_STEP_HEIGHTS * first.height();
  }

  /** What stands in one row, or in one of its columns. */
  private record Cell<T>(T line, Polygon ribbon, String text) {
    double y() {
      return ribbon.centre().y();
    }

    double height() {
      return ribbon.bottom() - ribbon.top();
    }

    /** What lies below each other of both, in pixels. */
    double shared(Cell<T> other) {
      return Math.min(ribbon.right(), other.ribbon.right())
          - Math.max(ribbon.left(), other.ribbon.left());
    }

    /** Whether both begin at one place or have their middles there. */
    boolean setLike(Cell<T> other) {
      double left = Math.abs(ribbon.left() - other.ribbon.left());
      double middle = Math.abs(ribbon.centre().x() - other.ribbon.centre().x());
      return Math.min(left, middle) <= LARGEST_SHIFT * height();
    }

    boolean figures() {
      return text.chars().anyMatch(Character::isDigit);
    }
  }

  private record Row<T>(List<Cell<T>> cells) {
    static <T> Row<T> fromTheLeft(List<Cell<T>> cells) {
      return new Row<>(
          cells.stream().sorted(Comparator.comparingDouble(c -> c.ribbon().left())).toList());
    }

    double y() {
      return cells.stream().mapToDouble(Cell::y).average().orElseThrow();
    }

    double height() {
      return cells.stream().mapToDouble(Cell::height).average().orElseThrow();
    }
  }

  /**
   * Rows below each other whose cells stand in the same columns.
   *
   * @param rows how many of them have cells in more than one column
   * @param size how many there are
   */
  private record Block<T>(List<List<Cell<T>>> columns, int rows, int size, double y) {
    static <T> Block<T> from(List<Row<T>> all, int first) {
      Row<T> row = all.get(first);
      Block<T> block = new Block<>(row.cells().stream().map(List::of).toList(), 1, 1, row.y());
      while (block.columns.size() > 1 && first + block.size < all.size()) {
        Optional<Block<T>> longer = block.with(all.get(first + block.size));
        if (longer.isEmpty()) {
          break;
        }
        block = longer.get();
      }
      return block;
    }

    /** This with one more row, if it is near and each of its cells is under one column. */
    private Optional<Block<T>> with(Row<T> row) {
      if (row.y() - y > LARGEST_ROW_STEP * row.height()) {
        return Optional.empty();
      }
      List<List<Cell<T>>> longer = new ArrayList<>();
      columns.forEach(column -> longer.add(new ArrayList<>(column)));
      Set<Integer> met = new HashSet<>();
      for (Cell<T> cell : row.cells()) {
        int[] over = IntStream.range(0, columns.size()).filter(i -> under(cell, i)).toArray();
        if (over.length != 1 || row.cells().size() == 1 && !cell.setLike(lastOf(over[0]))) {
          return Optional.empty();
        }
        met.add(over[0]);
        longer.get(over[0]).add(cell);
      }
      return Optional.of(new Block<>(longer, rows + (met.size() > 1 ? 1 : 0), size + 1, row.y()));
    }

    private boolean under(Cell<T> cell, int i) {
      return lastOf(i).shared(cell) > SHARED_HEIGHTS * cell.height();
    }

    private Cell<T> lastOf(int i) {
      List<Cell<T>> column = columns.get(i);
      return column.get(column.size() - 1);
    }

    /** Whether these are columns of some rows that say like things. */
    boolean readDown() {
      return rows >= FEWEST_ROWS
          && spread(ReadingOrder::figures, (least, most) -> most - least) <= LARGEST_DIFFERENCE
          && spread(ReadingOrder::length, (least, most) -> most / least) <= LARGEST_RATIO;
    }

    private double spread(Function<List<Cell<T>>, Double> of, DoubleBinaryOperator between) {
      List<Double> all = columns.stream().map(of).toList();
      return between.applyAsDouble(
          all.stream().min(Double::compare).orElseThrow(),
          all.stream().max(Double::compare).orElseThrow());
    }
  }

  /** Which part of its lines holds figures. */
  private static <T> double figures(List<Cell<T>> column) {
    return (double) column.stream().filter(Cell::figures).count() / column.size();
  }

  private static <T> double length(List<Cell<T>> column) {
    return column.stream().mapToInt(cell -> cell.text().length()).average().orElse(0);
  }
}
