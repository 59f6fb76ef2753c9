package rakelight.finding;

import java.util.List;

/**
 * What a finder sees on one picture.
 *
 * @param face the outline of the inscribed face: four corners from the top left one clockwise
 * @param lines its lines in reading order, top to bottom and left to right
 */
public record Found(Polygon face, List<FoundLine> lines) {
  public Found {
    lines = List.copyOf(lines);
    if (face.points().size() != 4) {
      throw new IllegalArgumentException(
          "A face's outline has four corners, not " + face.points().size());
    }
  }
}
