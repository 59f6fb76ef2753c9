package rakelight.desk;

import java.util.List;

/**
 * Somebody, in words for a page.
 *
 * @param notes what is to be known of him beside his life
 * @param stones where he is spoken of
 * @param others who may be the same person, the likeliest first
 * @param pairing whether that is still being worked out
 * @param sought who is found to be he, or may be, of those whom rolls and registers name
 * @param mayDecide whether this reader may change anything
 */
public record PersonPage(
    String id,
    String called,
    String life,
    List<String> notes,
    List<OnStone> stones,
    List<Other> others,
    boolean pairing,
    List<Other> sought,
    List<Act> acts,
    boolean mayDecide) {
  /**
   * One mention.
   *
   * @param label how commands name it
   * @param picture the address of a photograph; empty where none may be shown
   */
  public record OnStone(
      String label,
      String marker,
      String number,
      String face,
      String as,
      List<Fact> facts,
      List<FamilyPage.KinLine> kin,
      String picture) {}

  /** A statement with the address of its page. */
  public record Fact(String words, String address) {}

  /** Somebody else. */
  public record Other(String words, String address, String odds, List<String> reasons) {}
}
