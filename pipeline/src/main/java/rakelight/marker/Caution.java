package rakelight.marker;

import java.util.List;

/** The usual cautions, in one place. Common practice, no source. */
public final class Caution {
  /** Beside anything that sends a reader to a stone. */
  public static final String LOOK_ONLY =
      "Look only: don't clean, wet, chalk, rub, lean on or move the stone. Old stones fall.";

  /** Beside anything that speaks of a stone's condition. */
  public static final String CONDITION =
      "Don't lean on, push or climb a stone, nor try whether it moves: old stones fall. The ground's"
          + " keeper and local rules decide who goes near; a trained conservator decides what is"
          + " done to it.";

  /** For whoever is sent to a ground, a line each. */
  public static final List<String> VISIT =
      List.of(
          "Ask the ground's authority first, keep its rules, and leave mourners and recent graves be."
              + " War graves and listed ground may be protected by law.",
          "Don't go alone; say where you are and when you are back. At dawn and dusk you see less of"
              + " what you step into: sunken and open graves, vaults, roots, wire.",
          "Leave growth as it is: it may hold the stone, sting or poison; look for ticks afterwards."
              + " Beside a road stay off it. No ladder, no standing on stones.");

  /** Where the sun doesn't rake a face. */
  public static final String OTHER_LIGHT =
      "A face the sun never rakes: a second person holds a torch or mirror far to its side, close to"
          + " its plane. Don't lean either on a stone, turn a mirror's light into eyes or leave it on"
          + " dry growth; after dusk only with the keeper's leave.";

  private Caution() {}
}
