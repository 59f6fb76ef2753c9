package rakelight.ground.removal;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.marker.Marker;

/**
 * The account of one old ground by one register.
 *
 * <p>Marked, unknown and unaccounted for are all the graves recorded; common practice, no source. A
 * grave counts as marked only by a stone that stands here, one stone for no more graves than it
 * names persons, and one grave at least.
 *
 * @param register whose account it is
 * @param rows how many rows of the register are about this ground
 * @param repeated rows that only say again what an earlier one says, by number
 * @param graves in the order of their first rows
 * @param unclaimed stones of this archive that say “unknown” and to which no register's row leads
 */
public record RemovalAccount(
    RemovalRegister register,
    String oldGround,
    int rows,
    List<Integer> repeated,
    List<RemovedGrave> graves,
    List<RemovalFault> faults,
    List<Marker> unclaimed) {
  /** Said beside every account. */
  public static final String MAY_REMAIN =
      "Unmarked graves may remain: that graves were moved never proves the old ground empty.";

  /**
   * Two counts that must be the same.
   *
   * @param words what is set against what
   * @param rows by number, those that may tell why it doesn't close; empty where it does, or where
   *     none tells
   */
  public record Sum(String words, int left, int right, List<Integer> rows) {
    public Sum {
      rows = List.copyOf(rows);
    }

    public boolean closes() {
      return left == right;
    }

    /** In a line, with what is missing where it doesn't close. */
    public String told() {
      return words
          + (closes()
              ? ""
              : String.format(
                  Locale.ROOT,
                  " DOESN’T CLOSE: %d against %d%s",
                  left,
                  right,
                  rows.isEmpty() ? "" : "; look at " + RemovalFault.inWords(rows)));
    }
  }

  public RemovalAccount {
    repeated = List.copyOf(repeated);
    graves = List.copyOf(graves);
    faults = List.copyOf(faults);
    unclaimed = List.copyOf(unclaimed);
  }

  /** The graves behind a figure. */
  public List<RemovedGrave> behind(RemovalFigure figure) {
    return graves.stream().filter(grave -> grave.isIn(figure)).toList();
  }

  public int count(RemovalFigure figure) {
    return behind(figure).size();
  }

  /** What must close, each counted from the lists and not from one another. */
  public List<Sum> sums() {
    int recorded = count(RemovalFigure.RECORDED);
    int moved = count(RemovalFigure.MOVED);
    int notMoved = count(RemovalFigure.NOT_MOVED);
    int marked = count(RemovalFigure.MARKED);
    int unknown = count(RemovalFigure.UNKNOWN);
    int unaccounted = count(RemovalFigure.UNACCOUNTED);
    List<Sum> sums = new ArrayList<>();
    sums.add(
        new Sum(
            rows + " rows = " + recorded + " graves + " + repeated.size() + " rows written again",
            rows,
            recorded + repeated.size(),
            twice(graves.stream().flatMap(grave -> grave.numbers().stream()).toList())));
    sums.add(
        new Sum(
            recorded + " recorded = " + moved + " moved + " + notMoved + " not said to be moved",
            recorded,
            moved + notMoved,
            List.of()));
    sums.add(
        new Sum(
            recorded
                + " recorded = "
                + marked
                + " marked + "
                + unknown
                + " unknown + "
                + unaccounted
                + " unaccounted for",
            recorded,
            marked + unknown + unaccounted,
            List.of()));
    for (RemovalRegister.Stated stated : register.stated()) {
      if (stated.oldGround().equals(oldGround)) {
        int counted = count(stated.figure());
        sums.add(
            new Sum(
                "the register states "
                    + stated.count()
                    + " "
                    + stated.figure().label()
                    + ", counted are "
                    + counted,
                stated.count(),
                counted,
                stated.count() == counted ? List.of() : explaining(stated.figure())));
      }
    }
    return List.copyOf(sums);
  }

  /** Rows that may have been counted otherwise: those with a fault that touches the figure. */
  private List<Integer> explaining(RemovalFigure figure) {
    return faults.stream()
        .filter(
            fault ->
                switch (fault.kind()) {
                  case ROW_TWICE, NUMBER_TWICE, TWO_PLACES -> true;
                  case NO_OLD_NUMBER -> figure == RemovalFigure.RECORDED;
                  case NO_SUCH_DAY, NO_SUCH_STONE, STATED_OTHERWISE -> false;
                  default -> figure != RemovalFigure.RECORDED;
                })
        .map(RemovalFault::rows)
        .flatMap(Collection::stream)
        .distinct()
        .sorted()
        .toList();
  }

  private static List<Integer> twice(List<Integer> numbers) {
    return numbers.stream()
        .distinct()
        .filter(n -> numbers.indexOf(n) != numbers.lastIndexOf(n))
        .toList();
  }

  /** The grave of a row. */
  public Optional<RemovedGrave> grave(int row) {
    return graves.stream().filter(grave -> grave.numbers().contains(row)).findFirst();
  }

  /** The same with other graves, faults and stones. */
  public RemovalAccount with(
      List<RemovedGrave> otherGraves, List<RemovalFault> otherFaults, List<Marker> otherUnclaimed) {
    return new RemovalAccount(
        register, oldGround, rows, repeated, otherGraves, otherFaults, otherUnclaimed);
  }
}
