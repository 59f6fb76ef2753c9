package rakelight.desk;

import java.util.List;

/**
 * All that is known of one marker, in words for a page.
 *
 * @param statements what its readings assert
 * @param history what was decided about it, the newest first
 * @param mayDecide whether this reader may change anything
 */
public record MarkerPage(
    String id,
    String number,
    List<FaceView> faces,
    List<String> statements,
    List<LinkLine> links,
    List<Event> history,
    boolean mayDecide) {
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
