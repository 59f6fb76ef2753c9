package rakelight.relief;

import java.util.List;

/**
 * How the letters of one photograph stand out.
 *
 * <p>A picture alone can't say whether letters are cut and lit from one side or raised and lit from
 * the other. Two assumptions settle it: cuts are darker than the stone but for their shading, as
 * dirt and hollows make them, raised letters brighter; and light comes rather from above.
 *
 * @param ifCut where the light stands if letters are cut; on the other side if they are raised
 * @param darker whether letters are darker than the stone but for their shading
 * @param coloured whether letters have a colour of their own, as painted, gilded and frosted ones
 *     have; their shading tells nothing
 */
public record Lettering(SideLight ifCut, boolean darker, boolean coloured) {
  private static final List<String> SIDES =
      List.of(
          "above",
          "the upper right",
          "the right",
          "the lower right",
          "below",
          "the lower left",
          "the left",
          "the upper left");

  /** Whether their shading tells anything. */
  public boolean shaded() {
    return !coloured && ifCut.rakes();
  }

  /** Whether letters are raised; false also where their shading tells nothing. */
  public boolean raised() {
    return shaded() && !darker;
  }

  /** Where the light stands. */
  public SideLight light() {
    return raised() ? ifCut.opposite() : ifCut;
  }

  /** The same for a reader. */
  public String inWords() {
    if (coloured) {
      return "letters of a colour of their own, "
          + (darker ? "darker" : "brighter")
          + " than the stone; shading was left alone";
    }
    if (!shaded()) {
      return "no light rakes over the face; letters are shown by their tone alone";
    }
    int side = (int) Math.floorMod(Math.round(light().aroundDegrees() / 45), 8L);
    return "light from " + SIDES.get(side) + ", letters " + (raised() ? "raised" : "cut");
  }
}
