package rakelight.reading;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import rakelight.picture.Polygon;

/**
 * How likely it is that a line of letters stands at a place where a finder hardly sees one and a
 * recogniser reads next to nothing.
 *
 * <p>Neither the finder's own score nor how long the place is tells lines from grain there; what
 * tells is whether the place goes on with the face's other lines: letters of their height, a whole
 * number of lines from them, not far beyond them; whether any letter was read with more than even
 * odds; and how few lines were found, since a stone has some. The odds are logistic in these.
 *
 * <p>The numbers were fitted by {@code LineOddsBenchmark} on 596 places of 154 rendered stones (61
 * of them lines): seeds 9785000 (24, heavy and ruinous), 9785100 (20 from above, 20 steep, heavy
 * and ruinous), 9785200 (30 small), 9785300 (30 steep) and 9785400 (30), these ruinous. How far
 * they hold on other stones stands in docs/measurements.md.
 */
final class LineOdds {
  /** A place where a line is less likely than this isn't worth a glance: docs/measurements.md. */
  static final double WORTH_A_GLANCE = 0.1;

  /** Letters read surely beyond these make a line no likelier. */
  private static final double MOST_SURPLUS = 3;

  private static final double SURPLUS = 1.2;
  private static final double HEIGHT = -1.5;
  private static final double BEYOND = -0.55;
  private static final double ROWS = -2.75;
  private static final double SPACING = -4.55;
  private static final double CONSTANT = 2.75;

  /** Rows are at least so many heights apart. */
  private static final double ROW_HEIGHTS = 0.6;

  /** Where a face has one row, the next is this many heights away. */
  private static final double USUAL_PITCH_HEIGHTS = 2;

  /** A place that is likelier a line than this, ... */
  private static final double LIKELY_LINE = 0.5;

  /** ... with so many letters at least, ... */
  private static final int FEWEST_LETTERS = 2;

  /** ... as sure as this on average, is one. */
  private static final double SURE_LETTERS = 0.75;

  private LineOdds() {}

  /**
   * A line whose place is known.
   *
   * @param ribbon turned so that lines of the face are level
   * @param heightPx of its capitals
   */
  record Level(Polygon ribbon, double heightPx) {
    double middle() {
      return ribbon.centre().y();
    }
  }

  /**
   * What is known of a place.
   *
   * @param surplus letters expected right less those expected wrong, -1 to 3
   * @param height how far its letters are from the usual height, as the absolute natural logarithm
   *     of the ratio, 0 to 1.2
   * @param beyond how many line spacings it lies beyond the first or last line, 0 to 3
   * @param rows how many rows of letters are known, in sixths, 0 to 1
   * @param spacing how far it is from standing a whole number of line spacings from the nearest
   *     row, in spacings, 0 to 0.5
   */
  record Clues(double surplus, double height, double beyond, double rows, double spacing) {
    double[] values() {
      return new double[] {surplus, height, beyond, rows, spacing, 1};
    }
  }

  /** The numbers as they go with {@link Clues#values}, a constant last. */
  static double[] weights() {
    return new double[] {SURPLUS, HEIGHT, BEYOND, ROWS, SPACING, CONSTANT};
  }

  /** The probability that a line of letters stands there, 0 to 1. */
  static double p(Clues clues) {
    double sum = 0;
    double[] weights = weights();
    double[] values = clues.values();
    for (int i = 0; i < weights.length; i++) {
      sum += weights[i] * values[i];
    }
    return 1 / (1 + Math.exp(-sum));
  }

  /**
   * Whether a place is a line after all: a short word such as OF, alone in its row, is read surely
   * there and stands where the face's next line would.
   */
  static boolean isLine(Level place, LineLattice lattice, List<Level> lines) {
    return lattice.letters() >= FEWEST_LETTERS
        && lattice.sureness() >= SURE_LETTERS
        && p(clues(place, lattice, lines)) >= LIKELY_LINE;
  }

  /**
   * What is known of a place among the lines of its face.
   *
   * @param lattice what was read there
   * @param lines those of the face; may be none
   */
  static Clues clues(Level place, LineLattice lattice, List<Level> lines) {
    return clues(place, Math.max(-1, Math.min(MOST_SURPLUS, lattice.surplus())), lines);
  }

  /** Whether a place could be worth a glance, whatever will be read there. */
  static boolean worthReading(Level place, List<Level> lines) {
    return p(clues(place, MOST_SURPLUS, lines)) >= WORTH_A_GLANCE;
  }

  private static Clues clues(Level place, double surplus, List<Level> lines) {
    if (lines.isEmpty()) {
      return new Clues(surplus, 1, 3, 0, 0.5);
    }
    double usual = median(lines.stream().mapToDouble(Level::heightPx).toArray());
    double[] rows = rows(lines, usual);
    double[] gaps = new double[rows.length - 1];
    for (int i = 1; i < rows.length; i++) {
      gaps[i - 1] = rows[i] - rows[i - 1];
    }
    double pitch = gaps.length > 0 ? median(gaps) : USUAL_PITCH_HEIGHTS * usual;
    double middle = place.middle();
    double nearest = Arrays.stream(rows).map(row -> Math.abs(middle - row)).min().orElse(0) / pitch;
    double beyond = Math.max(0, Math.max(rows[0] - middle, middle - rows[rows.length - 1])) / pitch;
    return new Clues(
        surplus,
        Math.min(1.2, Math.abs(Math.log(place.heightPx() / usual))),
        Math.min(3, beyond),
        Math.min(6, rows.length) / 6.0,
        nearest < 3 ? Math.abs(nearest - Math.rint(nearest)) : 0.5);
  }

  /** How far down each row of letters stands, from the top. */
  private static double[] rows(List<Level> lines, double usual) {
    double[] middles = lines.stream().mapToDouble(Level::middle).sorted().toArray();
    List<Double> rows = new ArrayList<>();
    for (double middle : middles) {
      if (rows.isEmpty() || middle - rows.get(rows.size() - 1) > ROW_HEIGHTS * usual) {
        rows.add(middle);
      }
    }
    return rows.stream().mapToDouble(Double::doubleValue).toArray();
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int half = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  }
}
