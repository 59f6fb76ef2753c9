package rakelight.reading;

import java.util.Optional;
import rakelight.archive.PhotographId;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.finding.LineStrip;
import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * One line of a proposal.
 *
 * @param number from 1, in reading order
 * @param photograph the photograph on which the line was read best; the box is in its pixels
 * @param box the line's ribbon (see {@link FoundLine}) in upright full-size pixels
 * @param heightPx the height of its capitals
 * @param score how sure the finder was of the line, 0 to 1
 * @param drawnBy the reader who drew the line; empty where a machine found it
 */
public record ProposedLine(
    int number,
    PhotographId photograph,
    Polygon box,
    double heightPx,
    double score,
    LineLattice lattice,
    Optional<String> drawnBy) {
  /**
   * Recognisers see a letter a little before its middle: on 431 letters of eight rendered stones
   * merged slots lay 0.087 capital heights to the left on average, those of each recogniser 0.08 to
   * 0.115. Boxes and columns are put right by this much.
   */
  private static final double EARLY_CAPITALS = 0.1;

  public ProposedLine {
    drawnBy = drawnBy == null ? Optional.empty() : drawnBy; // Kept before lines could be drawn.
  }

  /** A line that a machine found. */
  public ProposedLine(
      int number,
      PhotographId photograph,
      Polygon box,
      double heightPx,
      double score,
      LineLattice lattice) {
    this(number, photograph, box, heightPx, score, lattice, Optional.empty());
  }

  /** The same line as the one of this number. */
  ProposedLine numbered(int other) {
    return new ProposedLine(other, photograph, box, heightPx, score, lattice, drawnBy);
  }

  /** Whether this is that line, whatever its number. */
  boolean isWhere(ProposedLine other) {
    return photograph.equals(other.photograph) && box.equals(other.box);
  }

  /** The likeliest text. */
  public String text() {
    return lattice.best();
  }

  /** Where one letter stands on the photograph, four corners. */
  public Polygon letterBox(Slot slot) {
    return boxOf(from(slot), to(slot));
  }

  /** Where the letter of a slot begins along the line's strip, 0 to 1. */
  public double from(Slot slot) {
    return Math.min(1, slot.from() + early());
  }

  /** Where it ends. */
  public double to(Slot slot) {
    return Math.min(1, slot.to() + early());
  }

  private double early() {
    return EARLY_CAPITALS / LineStrip.capitals(found());
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

  /**
   * The column of its strip, 0 to 1, that shows a place of its photograph, or the nearest to it.
   */
  public double columnOf(Point place) {
    return LineStrip.columnOf(found(), place);
  }

  /** The height of its capitals on a picture that its photograph lies over, in pixels. */
  public double heightPx(Homography toPicture) {
    return new LaidLine(found(), toPicture).heightPx();
  }

  /** The line as a finder gives it. */
  FoundLine found() {
    return new FoundLine(box, heightPx, score);
  }
}
