package rakelight.samples.plots;

/**
 * The habits of a place.
 *
 * @param spacingMetres from grave to grave, in the middle
 * @param adultsWithStone share of adults lying here who got a footstone
 * @param childrenWithStone share of children under twelve
 * @param errorTimes how many times as far off positions are
 * @param worn share of the letters of footstones that wear has touched
 */
public record PlotHabits(
    double spacingMetres,
    double adultsWithStone,
    double childrenWithStone,
    double errorTimes,
    double worn) {
  /** The usual, with so much of the letters worn. */
  public static PlotHabits usual(double worn) {
    return new PlotHabits(1.05, 0.78, 0.45, 1, worn);
  }

  /** A place that does everything otherwise. */
  public static PlotHabits other(double worn) {
    return new PlotHabits(1.6, 0.45, 0.8, 2, worn);
  }

  /** The same with another spacing. */
  public PlotHabits spaced(double metres) {
    return new PlotHabits(metres, adultsWithStone, childrenWithStone, errorTimes, worn);
  }

  /** The same with other shares of those who got a footstone. */
  public PlotHabits stones(double adults, double children) {
    return new PlotHabits(spacingMetres, adults, children, errorTimes, worn);
  }

  /** The same with positions so many times as far off, which nobody states. */
  public PlotHabits off(double times) {
    return new PlotHabits(spacingMetres, adultsWithStone, childrenWithStone, times, worn);
  }
}
