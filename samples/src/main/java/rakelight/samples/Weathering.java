package rakelight.samples;

/** Four levels of wear, from newly set to hardly readable. */
public enum Weathering {
  FRESH,
  LIGHT,
  HEAVY,
  RUINOUS;

  /** 0 for fresh to 1 for ruinous. */
  double amount() {
    return ordinal() / 3.0;
  }
}
