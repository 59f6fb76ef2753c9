package rakelight.desk;

import java.util.List;
import java.util.Optional;

/**
 * The plan of the ground, as its page has it before any script runs.
 *
 * @param drawing the whole of it; empty where nobody knows where any marker stands
 * @param rows the markers as a table
 * @param find by what the table is held to some rows; may be empty
 * @param chosen number of the marker that is chosen at first; may be empty
 * @param unplaced numbers of markers of which nobody knows where they stand
 * @param done what was just kept, in words; may be empty
 * @param undo the decision that kept it; may be empty
 * @param mayDecide whether this reader may say where a marker stands
 */
public record PlanPage(
    Optional<PlanDrawing> drawing,
    Paged<Row> rows,
    String find,
    String chosen,
    List<String> unplaced,
    String done,
    String undo,
    boolean mayDecide) {
  /**
   * One marker.
   *
   * @param where its row and plot; may be empty
   * @param position what it rests on and how far it may be off; says so where nobody knows
   */
  public record Row(
      String id, String number, String kind, String state, String where, String position) {}
}
