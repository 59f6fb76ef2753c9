package rakelight.finding;

/**
 * What the line finder's network says of a picture, cell by cell; a cell is {@link #STRIDE_PX}
 * input pixels wide and high.
 *
 * @param values map by map, row by row: text core (0 to 1), natural log of the capital height in
 *     input pixels, cosine and sine of the reading direction (y downwards), inscribed face, other
 *     stone, emblem (0 to 1 each)
 */
record LineMaps(int columns, int rows, float[] values) {
  static final int STRIDE_PX = 4;
  static final int MAPS = 7;
  static final int CORE = 0;
  static final int LOG_HEIGHT = 1;
  static final int COSINE = 2;
  static final int SINE = 3;
  static final int FACE = 4;
  static final int OTHER = 5;
  static final int EMBLEM = 6;

  LineMaps {
    if (values.length != MAPS * columns * rows) {
      throw new IllegalArgumentException(
          MAPS + " maps of " + columns + " x " + rows + " can't have " + values.length + " values");
    }
  }

  /** Number of cells of one map. */
  int cells() {
    return columns * rows;
  }

  /** The value of a map at a cell, counted row by row. */
  float at(int map, int cell) {
    return values[map * columns * rows + cell];
  }

  /** Column of a cell's centre, in input pixels. */
  double x(int cell) {
    return (cell % columns + 0.5) * STRIDE_PX;
  }

  /** Row of a cell's centre, in input pixels. */
  double y(int cell) {
    return (cell / columns + 0.5) * STRIDE_PX;
  }
}
