package rakelight.reading;

import java.util.List;

/**
 * All that a {@link MachineReader}'s readings depend on besides the picture.
 *
 * @param models the line finders, then the recognisers
 * @param weights how much each recogniser counts
 * @param unseenLetter see {@link Weighing}
 * @param unseenSpace see {@link Weighing}
 * @param stripCapHeights height of a strip in heights of capitals
 * @param smallestSureness of a line's letters on average, 0 to 1
 * @param smallestSurenessOfFew the same for a line of few letters
 */
public record ReaderSettings(
    List<ModelUsed> models,
    List<Double> weights,
    double unseenLetter,
    double unseenSpace,
    double stripCapHeights,
    double smallestSureness,
    double smallestSurenessOfFew) {
  public ReaderSettings {
    models = List.copyOf(models);
    weights = List.copyOf(weights);
  }
}
