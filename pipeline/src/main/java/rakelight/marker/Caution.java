package rakelight.marker;

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

  private Caution() {}
}
