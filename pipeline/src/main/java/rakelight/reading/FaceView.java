package rakelight.reading;

import java.util.List;
import java.util.Optional;
import rakelight.archive.PhotographId;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;

/**
 * One photograph of a face.
 *
 * @param outline of the inscribed face, four corners in its upright full-size pixels
 * @param proportion width by height of the face as seen from in front; not in proposals kept before
 *     it was worked out
 * @param toLeading from its pixels to those of the leading photograph; empty where the two couldn't
 *     be laid over each other
 * @param emblems outlines of carvings that aren't letters, in its pixels, the largest first; none
 *     in proposals kept before they were looked for
 * @param otherStones outlines of stones beside the inscribed one, likewise
 */
public record FaceView(
    PhotographId photograph,
    Polygon outline,
    Optional<Double> proportion,
    Optional<Homography> toLeading,
    List<Polygon> emblems,
    List<Polygon> otherStones) {
  public FaceView {
    proportion = proportion == null ? Optional.empty() : proportion;
    emblems = emblems == null ? List.of() : List.copyOf(emblems);
    otherStones = otherStones == null ? List.of() : List.copyOf(otherStones);
  }

  /** A view on which nothing beside the face was looked for. */
  public FaceView(PhotographId photograph, Polygon outline, Optional<Homography> toLeading) {
    this(photograph, outline, Optional.empty(), toLeading, List.of(), List.of());
  }
}
