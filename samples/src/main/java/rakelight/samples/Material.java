package rakelight.samples;

/** What a marker is made of; it decides the look of the surface and how it wears. */
public enum Material {
  /** Loses its crystals one by one: letters round off and fill with grain, traces stay long. */
  MARBLE,
  /** Splits along its bedding: letters stay sharp until the flake they are cut in falls. */
  SLATE,
  /** Scales and crumbles: patches of skin lift off, the rest roughens. */
  SANDSTONE,
  /** Keeps its edges; only growth and stains hide its letters. */
  GRANITE,
  /** Cast plate with raised letters; no loss, green and brown patina. */
  BRONZE
}
