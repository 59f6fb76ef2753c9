package rakelight.desk;

import java.time.LocalDate;
import java.util.List;
import rakelight.marker.ConditionNote;

/**
 * All that is known of one marker, in words for a page.
 *
 * @param conditions what was noted of its condition, the newest observation first
 * @param today the day it is at the ground
 * @param statements what its readings assert
 * @param persons who is named on it, as concluded from all confirmed readings of the ground
 * @param history what was decided about it, the newest first
 * @param mayDecide whether this reader may change anything
 */
public record MarkerPage(
    String id,
    String number,
    List<ShownFace> faces,
    List<ConditionNote> conditions,
    LocalDate today,
    List<String> statements,
    List<PersonLine> persons,
    List<LinkLine> links,
    List<QuestionLine> questions,
    List<Event> history,
    boolean mayDecide) {
  /** Why nobody should stand beside it, by the newest note of its condition; may be empty. */
  public String unsafe() {
    return conditions.isEmpty() ? "" : conditions.get(0).unsafe();
  }

  /** Why its letters won't last, likewise. */
  public String fading() {
    return conditions.isEmpty() ? "" : conditions.get(0).fading();
  }

  /**
   * Somebody.
   *
   * @param elsewhere where else somebody is spoken of whom people hold to be the same; may be empty
   */
  public record PersonLine(String called, String life, String elsewhere) {}

  /**
   * Something nobody knows yet, or didn't.
   *
   * @param steps what was done about it, in order
   */
  public record QuestionLine(String label, String text, boolean open, List<String> steps) {}

  /**
   * A link of this marker.
   *
   * @param to the id of the marker it leads to; empty for a person
   */
  public record LinkLine(String words, String to, String note) {}

  /**
   * Something decided.
   *
   * @param undoable its id where this reader may take it back, else empty
   */
  public record Event(String at, String reader, String words, boolean undone, String undoable) {}
}
