package rakelight.ground;

/**
 * Which place of a row.
 *
 * @param row its name
 * @param place counted along the row, from 1
 */
public record RowPlace(String row, int place) {
  /**
   * @throws IllegalArgumentException if the row has no name or the place is below 1
   */
  public RowPlace {
    row = row.strip();
    if (row.isEmpty() || place < 1) {
      throw new IllegalArgumentException("a row needs a name, and a place in it counts from 1");
    }
  }
}
