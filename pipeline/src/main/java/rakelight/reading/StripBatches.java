package rakelight.reading;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import rakelight.picture.GrayImage;

/**
 * Strips of like width, run through a network together. A strip is widened at its right to the
 * width of its batch by repeating its last column, which a recogniser sees as more bare stone.
 */
final class StripBatches {
  /** Most strips of one run: more brings no speed and costs memory. */
  private static final int LARGEST_BATCH = 8;

  private StripBatches() {}

  /**
   * Runs all strips and puts the answers back into their order.
   *
   * @param heightPx the height that every strip must have
   * @param stepPx widths are rounded up to a multiple of this
   * @param run answers a batch of strips of one width, one answer per strip
   */
  static <T> List<T> run(
      List<GrayImage> strips, int heightPx, int stepPx, Function<Batch, List<T>> run) {
    for (GrayImage strip : strips) {
      if (strip.heightPx() != heightPx) {
        throw new IllegalArgumentException(
            "These strips are to be " + heightPx + " px high, not " + strip.heightPx());
      }
    }
    Map<Integer, List<Integer>> byWidth = new TreeMap<>();
    for (int i = 0; i < strips.size(); i++) {
      int width = (strips.get(i).widthPx() + stepPx - 1) / stepPx * stepPx;
      byWidth.computeIfAbsent(width, w -> new ArrayList<>()).add(i);
    }
    List<T> answers = new ArrayList<>(java.util.Collections.nCopies(strips.size(), null));
    byWidth.forEach(
        (width, all) -> {
          for (int from = 0; from < all.size(); from += LARGEST_BATCH) {
            List<Integer> some = all.subList(from, Math.min(all.size(), from + LARGEST_BATCH));
            List<T> answer = run.apply(new Batch(some.stream().map(strips::get).toList(), width));
            for (int i = 0; i < some.size(); i++) {
              answers.set(some.get(i), answer.get(i));
            }
          }
        });
    return answers;
  }

  /**
   * Strips to be run together.
   *
   * @param widthPx the width that all are widened to
   */
  record Batch(List<GrayImage> strips, int widthPx) {
    int heightPx() {
      return strips.get(0).heightPx();
    }

    /**
     * The value of each pixel, strip after strip, row after row: (grey / 255 - mean) / deviation.
     */
    float[] values(float mean, float deviation, int channels) {
      int height = heightPx();
      float[] values = new float[strips.size() * channels * height * widthPx];
      int at = 0;
      for (GrayImage strip : strips) {
        for (int y = 0; y < height; y++) {
          for (int x = 0; x < widthPx; x++) {
            int grey = strip.at(Math.min(x, strip.widthPx() - 1), y);
            values[at++] = (grey / 255f - mean) / deviation;
          }
        }
        int plane = height * widthPx;
        for (int c = 1; c < channels; c++) {
          System.arraycopy(values, at - plane, values, at, plane);
          at += plane;
        }
      }
      return values;
    }

    /** How many of so many steps along the batch's width belong to a strip itself. */
    int stepsOf(int strip, int steps) {
      double part = (double) strips.get(strip).widthPx() / widthPx;
      return Math.max(1, Math.min(steps, (int) Math.ceil(part * steps)));
    }
  }

  /** Cuts the steps that belong to the strip's widening off. */
  static float[][] ownSteps(float[][] steps, int own) {
    return Arrays.copyOf(steps, own);
  }
}
