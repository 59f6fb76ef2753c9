package rakelight.measure;

import rakelight.inscription.Comparison;
import rakelight.inscription.Inscription;

/**
 * How many letters a reader got wrong where the truth is known.
 *
 * @param letters judged
 * @param wrong other than the truth, missed, or put in where there is none
 */
public record ReaderError(int letters, int wrong) {
  public static final ReaderError NONE = new ReaderError(0, 0);

  /** 95 per cent of a normal distribution lie within so many deviations. */
  private static final double Z = 1.959964;

  /** The letters of one face. */
  public static ReaderError of(Inscription truth, Inscription reading) {
    Comparison comparison = Comparison.of(truth, reading);
    return new ReaderError(comparison.pairs().size(), comparison.differences().size());
  }

  public ReaderError plus(ReaderError other) {
    return new ReaderError(letters + other.letters, wrong + other.wrong);
  }

  /** The part that is wrong, 0 to 1; 0 without letters. */
  public double rate() {
    return letters == 0 ? 0 : (double) wrong / letters;
  }

  /** The lower end of the rate's 95 per cent interval (Wilson, JASA 22, 1927). */
  public double atLeast() {
    return letters == 0 ? 0 : Math.max(0, centre() - half());
  }

  /** The upper end. */
  public double atMost() {
    return letters == 0 ? 1 : Math.min(1, centre() + half());
  }

  private double centre() {
    return (rate() + Z * Z / (2 * letters)) / (1 + Z * Z / letters);
  }

  private double half() {
    return Z
        * Math.sqrt(rate() * (1 - rate()) / letters + Z * Z / (4.0 * letters * letters))
        / (1 + Z * Z / letters);
  }
}
