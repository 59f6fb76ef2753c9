package rakelight.finding;

import java.util.List;
import rakelight.picture.Polygon;

/**
 * What a finder sees on one picture.
 *
 * @param face the outline of the inscribed face: four corners from the top left one clockwise
 * @param proportion width by height of the face as seen from in front, as far as can be known
 * @param lines its lines in reading order, top to bottom and left to right
 * @param emblems outlines of carvings that aren't letters, the largest first; empty if the finder
 *     doesn't look for them
 * @param otherStones outlines of stones that aren't the inscribed one, which is the largest or most
 *     central, the largest first; empty if the finder doesn't tell them apart
 * @param faint where lines may be, these lines among them: to be believed only by what is read
 *     there; empty if the finder doesn't look for them
 * @param fainter where the finder's response is weaker still, the faint ones among them: likely
 *     nothing, and a line now and then
 */
public record Found(
    Polygon face,
    double proportion,
    List<FoundLine> lines,
    List<Polygon> emblems,
    List<Polygon> otherStones,
    List<FoundLine> faint,
    List<FoundLine> fainter) {
  public Found {
    fainter = List.copyOf(fainter);
    faint = List.copyOf(faint);
    lines = List.copyOf(lines);
    emblems = List.copyOf(emblems);
    otherStones = List.copyOf(otherStones);
    if (face.points().size() != 4) {
      throw new IllegalArgumentException(
          "A face's outline has four corners, not " + face.points().size());
    }
  }

  /** What a finder sees that says of no place that it is fainter still. */
  public Found(
      Polygon face,
      double proportion,
      List<FoundLine> lines,
      List<Polygon> emblems,
      List<Polygon> otherStones,
      List<FoundLine> faint) {
    this(face, proportion, lines, emblems, otherStones, faint, List.of());
  }

  /** What a finder sees that looks for letters only. */
  public Found(Polygon face, double proportion, List<FoundLine> lines) {
    this(face, proportion, lines, List.of(), List.of(), List.of(), List.of());
  }
}
