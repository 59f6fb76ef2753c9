package rakelight.reading;

import java.util.List;
import java.util.Optional;
import rakelight.archive.Sha256;
import rakelight.finding.FoundLine;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;

/**
 * What the photographs of one face say together. A {@link Proposal} is this with ids and a time put
 * on.
 *
 * @param views the leading one first
 * @param lines in reading order; none where nothing could be read
 * @param unsure where a line may be besides, in reading order; none in what was merged before they
 *     were looked for
 */
public record MergedFace(List<View> views, List<Line> lines, List<Unsure> unsure) {
  public MergedFace {
    views = List.copyOf(views);
    lines = List.copyOf(lines);
    unsure = unsure == null ? List.of() : List.copyOf(unsure); // Unknown before.
  }

  /** A face on which nothing else may be. */
  MergedFace(List<View> views, List<Line> lines) {
    this(views, lines, List.of());
  }

  /** One photograph: see {@link FaceView}. */
  public record View(
      Sha256 original,
      Polygon outline,
      double proportion,
      Optional<Homography> toLeading,
      List<Polygon> emblems,
      List<Polygon> otherStones) {
    public View {
      emblems = List.copyOf(emblems);
      otherStones = List.copyOf(otherStones);
    }
  }

  /**
   * One line.
   *
   * @param original the photograph on which it was read best
   * @param line in pixels of that photograph
   */
  public record Line(Sha256 original, FoundLine line, LineLattice lattice) {
    /** The likeliest text. */
    public String text() {
      return lattice.best();
    }

    Line with(LineLattice other) {
      return new Line(original, line, other);
    }
  }

  /**
   * A place where a line may be.
   *
   * @param p the probability that there is one, 0 to 1
   */
  public record Unsure(Line line, double p) {
    Unsure with(LineLattice other) {
      return new Unsure(line.with(other), p);
    }
  }
}
