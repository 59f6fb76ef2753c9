package rakelight.reading;

import rakelight.archive.PhotographId;
import rakelight.finding.FoundLine;
import rakelight.finding.LineStrip;
import rakelight.picture.Polygon;

/**
 * One line of a proposal.
 *
 * @param number from 1, in reading order
 * @param photograph the photograph on which the line was read best; the box is in its pixels
 * @param box the line's ribbon (see {@link FoundLine}) in upright full-size pixels
 * @param heightPx the height of its capitals
 * @param score how sure the finder was of the line, 0 to 1
 */
public record ProposedLine(
    int number,
    PhotographId photograph,
    Polygon box,
    double heightPx,
    double score,
    LineLattice lattice) {
  /** The likeliest text. */
  public String text() {
    return lattice.best();
  }

  /** Where one letter stands on the photograph, four corners. */
  public Polygon letterBox(Slot slot) {
    return boxOf(slot.from(), slot.to());
  }

  /**
   * Where a part of the line stands on the photograph, four corners.
   *
   * @param from beginning along its strip, 0 to 1
   * @param to end, 0 to 1
   */
  public Polygon boxOf(double from, double to) {
    return LineStrip.boxOf(found(), from, to);
  }

  /** The same along the line's curve, round arches too. */
  public Polygon ribbonOf(double from, double to) {
    return LineStrip.ribbonOf(found(), from, to);
  }

  /** The line as a finder gives it. */
  FoundLine found() {
    return new FoundLine(box, heightPx, score);
  }
}
