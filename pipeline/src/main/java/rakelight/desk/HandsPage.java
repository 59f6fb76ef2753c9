package rakelight.desk;

import java.util.List;

/**
 * A marker's faces, and those whose letters are cut like theirs.
 *
 * @param marker its number
 */
public record HandsPage(FamilyPage.To marker, List<Face> faces, List<Act> acts) {
  /**
   * One face.
   *
   * @param told why nothing is shown; empty where something is
   */
  public record Face(String name, String told, List<Row> rows) {}

  /**
   * One whose letters are cut like its.
   *
   * @param picture letters of both, as a data address
   * @param face its id, of which something can be said
   * @param said what was said last of both; may be empty
   */
  public record Row(
      int rank, String picture, FamilyPage.To marker, String words, String face, String said) {}
}
