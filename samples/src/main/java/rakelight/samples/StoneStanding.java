package rakelight.samples;

/** What is left of a letter, as the renderer knows it. */
public enum StoneStanding {
  CLEAR,
  /** Enough is left to see a letter, not enough to be sure which. */
  UNCLEAR,
  /** Marks remain and nobody can say of what. */
  ILLEGIBLE,
  /** The surface it was cut in is gone. */
  LOST
}
