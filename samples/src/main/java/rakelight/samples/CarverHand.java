package rakelight.samples;

import java.util.Locale;

/**
 * How one carver cuts: from the same pattern others have other proportions, depth and detail.
 *
 * @param seed of the habits that numbers below don't say: how each motif is bent and its parts set
 * @param aspect height of a drawing for a width of 1
 * @param bend how far places of a drawing lie elsewhere than in the pattern, in its half width
 * @param parts how far each part lies elsewhere, in the same
 * @param detail the share of the cut-in lines that he cuts, 0 to 1
 * @param mirrored whether he faces things the other way
 * @param depth in parts of the usual
 */
public record CarverHand(
    String name,
    long seed,
    Profile profile,
    Surround surround,
    double aspect,
    double bend,
    double parts,
    double detail,
    boolean mirrored,
    double depth) {

  /** The section of a carving. */
  public enum Profile {
    /** Swells from its edges. */
    ROUND,
    /** Stands up flat with steep edges; lines are cut into it. */
    FLAT,
    /** Only outlines and lines, cut as grooves into the face. */
    INCISED
  }

  /** What a carving stands in. */
  public enum Surround {
    OVAL,
    PANEL,
    NONE
  }

  /** The three that cut the samples. */
  public static final CarverHand[] THREE = {
    new CarverHand("swelling", 11, Profile.ROUND, Surround.OVAL, 1.0, 0.03, 0.02, 1, false, 1),
    new CarverHand("flat", 22, Profile.FLAT, Surround.PANEL, 1.12, 0.08, 0.05, 0.5, false, 0.7),
    new CarverHand("grooved", 33, Profile.INCISED, Surround.NONE, 0.9, 0.08, 0.05, 0.8, true, 0.8)
  };

  /** In small letters. */
  public String word() {
    return name.toLowerCase(Locale.ROOT);
  }
}
