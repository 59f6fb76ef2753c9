package rakelight.desk;

import java.util.List;

/**
 * A source, in words for a page.
 *
 * @param facts where it is kept, its shelf mark, when it was seen, notes
 * @param sought how many persons are sought by it
 */
public record SourcePage(
    long number,
    String title,
    String kind,
    List<String> facts,
    List<Scan> scans,
    int sought,
    List<Act> acts,
    boolean mayDecide) {
  /**
   * A file of it.
   *
   * @param picture whether browsers show it as a picture
   */
  public record Scan(String address, String name, String size, boolean picture) {}
}
