package rakelight.index;

/**
 * Sums for every document of a segment, kept from one search of a thread to the next, so that a
 * search of a million entries doesn't begin by clearing megabytes. Whoever borrows it leaves it
 * zeroed.
 */
final class WeighingSpace {
  private static final ThreadLocal<WeighingSpace> OF_THREAD =
      ThreadLocal.withInitial(WeighingSpace::new);

  private float[] sums = new float[0];
  private int[] masks = new int[0];

  static WeighingSpace of(int documents) {
    WeighingSpace scratch = OF_THREAD.get();
    if (scratch.sums.length < documents) {
      scratch.sums = new float[documents];
      scratch.masks = new int[documents];
    }
    return scratch;
  }

  float[] sums() {
    return sums;
  }

  int[] masks() {
    return masks;
  }
}
