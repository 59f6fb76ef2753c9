package rakelight.measure;

import java.util.ArrayList;
import java.util.List;

/**
 * How far stated probabilities are from how often they came true: expected calibration error over
 * equal-width bins (lo, hi] (Guo, Pleiss, Sun and Weinberger, "On calibration of modern neural
 * networks", ICML 2017, eq. 3). It depends on the number of bins, so that is always said beside it.
 */
public final class Calibration {
  private final int bins;
  private final List<Double> stated = new ArrayList<>();
  private final List<Boolean> came = new ArrayList<>();

  /**
   * An empty tally.
   *
   * @param bins number of equal-width bins, at least 1
   */
  public Calibration(int bins) {
    if (bins < 1) {
      throw new IllegalArgumentException("bins must be at least 1, not " + bins);
    }
    this.bins = bins;
  }

  /** Notes that something said to be true with a probability in 0..1 was, or wasn't. */
  public void add(double probability, boolean true_) {
    if (!(probability >= 0 && probability <= 1)) {
      throw new IllegalArgumentException("probability must be in 0..1, not " + probability);
    }
    stated.add(probability);
    came.add(true_);
  }

  /** How many were noted. */
  public int size() {
    return stated.size();
  }

  /** One bar of the reliability diagram. */
  public record Bin(double low, double high, int count, double meanStated, double shareTrue) {
    double gap() {
      return Math.abs(shareTrue - meanStated);
    }
  }

  /** The bars that hold anything, lowest first. */
  public List<Bin> diagram() {
    List<Bin> diagram = new ArrayList<>();
    for (int bin = 0; bin < bins; bin++) {
      double low = (double) bin / bins;
      double high = (double) (bin + 1) / bins;
      int count = 0;
      int right = 0;
      double sum = 0;
      for (int i = 0; i < stated.size(); i++) {
        double p = stated.get(i);
        if ((p > low || bin == 0) && p <= high) {
          count++;
          sum += p;
          right += came.get(i) ? 1 : 0;
        }
      }
      if (count > 0) {
        diagram.add(new Bin(low, high, count, sum / count, (double) right / count));
      }
    }
    return diagram;
  }

  /** Expected calibration error, 0..1; 0 when nothing was noted. */
  public double expectedError() {
    return diagram().stream().mapToDouble(bin -> bin.count() * bin.gap() / size()).sum();
  }

  /** Mean squared difference between what was stated and what came true (Brier 1950), 0..1. */
  public double brier() {
    double sum = 0;
    for (int i = 0; i < size(); i++) {
      double gap = stated.get(i) - (came.get(i) ? 1 : 0);
      sum += gap * gap;
    }
    return size() == 0 ? 0 : sum / size();
  }

  /** Largest gap of any bin, 0..1. */
  public double largestError() {
    return diagram().stream().mapToDouble(Bin::gap).max().orElse(0);
  }
}
