package rakelight.desk;

import java.util.List;

/**
 * Stones beside those that photographs are of.
 *
 * @param title whose they are: of all photographs, or of one
 * @param one whether these are all stones of one photograph
 */
public record BesidePage(String title, boolean one, Paged<Stone> stones, List<Act> acts) {
  /**
   * One of them.
   *
   * @param photograph its id
   * @param file the photograph's name
   * @param left of the part shown, in pixels of the upright photograph, as all six
   * @param outline as SVG has points
   * @param lines what a machine reads there
   * @param said what somebody said of it; empty if nobody did
   */
  public record Stone(
      String photograph,
      String file,
      int number,
      int photographWidth,
      int photographHeight,
      int left,
      int top,
      int width,
      int height,
      String outline,
      List<String> lines,
      String said) {}
}
