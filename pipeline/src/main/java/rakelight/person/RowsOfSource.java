package rakelight.person;

import java.util.List;
import rakelight.archive.ArchiveException;
import rakelight.archive.SourceId;

/**
 * Rows that were taken in from a source as they are, such as a register or an earlier list. A
 * source has one set of each sort; rows are named by its number, a point and their own: {@code
 * 5.17}.
 *
 * @param <R> a row
 */
public interface RowsOfSource<R> {
  SourceId source();

  /** How people name the source. */
  long sourceNumber();

  List<R> rows();

  /** The number of a row, from 1. */
  int numberOf(R row);

  /** How a row is named to commands. */
  default String place(R row) {
    return sourceNumber() + "." + numberOf(row);
  }

  /**
   * The row of that name.
   *
   * @throws ArchiveException if there is none
   */
  default R row(String place) {
    return rows().stream()
        .filter(row -> place(row).equals(place.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new ArchiveException(
                    "There is no row "
                        + place
                        + " here. Give source and row with a point between, as 5.17."));
  }

  /**
   * The rows of a source, by its number or the name of one of its rows.
   *
   * @param none what to say where there are none; {@code %s} stands for the number
   * @throws ArchiveException if there are none
   */
  static <L extends RowsOfSource<?>> L of(List<L> all, String numberOrPlace, String none) {
    String number = numberOrPlace.strip().replaceFirst("\\..*$", "");
    return all.stream()
        .filter(rows -> Long.toString(rows.sourceNumber()).equals(number))
        .findFirst()
        .orElseThrow(() -> new ArchiveException(none.replace("%s", number)));
  }

  /**
   * Refuses to take in rows of a source for a second time.
   *
   * @param what they are
   * @throws ArchiveException if it has some
   */
  static void requireNone(List<? extends RowsOfSource<?>> all, Source source, String what) {
    if (all.stream().anyMatch(rows -> rows.source().equals(source.id()))) {
      throw new ArchiveException(
          "Source "
              + source.number()
              + " has its "
              + what
              + " here already. Undo that first, or record another source.");
    }
  }
}
