package rakelight.desk;

import java.util.List;

/**
 * How far the ground is, in words for a page.
 *
 * @param faces how many faces there are
 * @param read how many of them have a reading that stands
 * @param counts how many faces are in each state
 */
public record GroundPage(int faces, int read, List<Count> counts, List<MarkerLine> markers) {
  public record Count(String words, int faces) {}

  /**
   * @param unsafe why nobody should stand beside it, by the newest note of its condition; may be
   *     empty
   */
  public record MarkerLine(String id, String number, String unsafe, List<FaceLine> faces) {
    /** Whether all its faces are read. */
    public boolean read() {
      return !faces.isEmpty() && faces.stream().allMatch(face -> face.state().equals("settled"));
    }
  }

  /**
   * @param state as the interface writes it; {@code words} the same in plain words
   */
  public record FaceLine(String id, String name, String state, String words) {}
}
