package rakelight.desk;

import java.util.List;

/**
 * A carving that somebody outlined, and those that look like it.
 *
 * @param carving what it was noted as
 * @param marker its marker's number
 * @param address of the page
 * @param told why nothing is shown; empty where something is
 */
public record AlikePage(
    String carving,
    FamilyPage.To marker,
    String address,
    String told,
    List<Row> rows,
    List<Act> acts) {
  /**
   * One that looks like it.
   *
   * @param picture both side by side, places that are alike joined, as a data address
   * @param words what it is and how alike
   * @param emblem the note that outlines it, of which something can be said; empty for an area that
   *     a machine found
   * @param said what was said last of both; may be empty
   */
  public record Row(
      int rank, String picture, FamilyPage.To marker, String words, String emblem, String said) {}
}
