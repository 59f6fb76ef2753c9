package rakelight.samples;

/** How letters are made. */
public enum Cut {
  /** Chiselled to a V: depth grows with the width of the stroke. */
  V_CUT,
  /** Round-bottomed, as cut with a gouge or worn smooth. */
  U_CUT,
  /** The ground is cut away and the letters stand. */
  RAISED,
  /** Shallow, flat-floored, steep-walled, with a rough floor. */
  SANDBLAST
}
