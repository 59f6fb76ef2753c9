package rakelight.desk;

import java.util.List;

/**
 * A person sought, in words for a page.
 *
 * @param place what commands take for him
 * @param facts what the source says
 * @param found the mention that is his; none or one
 * @param stones that may be his, the likeliest first
 */
public record SoughtPage(
    String place,
    String called,
    String source,
    String sourceTitle,
    List<String> facts,
    List<Stone> found,
    List<Stone> stones,
    List<Act> acts,
    boolean mayDecide) {
  /**
   * A mention with its stone.
   *
   * @param label how commands name it
   * @param person the address of the person
   * @param picture the address of a photograph; may be empty
   */
  public record Stone(
      String label,
      String called,
      String life,
      String person,
      String marker,
      String number,
      String odds,
      List<String> reasons,
      String picture) {}
}
