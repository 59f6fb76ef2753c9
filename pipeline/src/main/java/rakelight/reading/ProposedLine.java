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
    return LineStrip.boxOf(new FoundLine(box, heightPx, score), slot.from(), slot.to());
  }
}
