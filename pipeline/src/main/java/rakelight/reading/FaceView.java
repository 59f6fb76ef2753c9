package rakelight.reading;

import java.util.Optional;
import rakelight.archive.PhotographId;
import rakelight.finding.Homography;
import rakelight.finding.Polygon;

/**
 * One photograph of a face.
 *
 * @param outline of the inscribed face, four corners in its upright full-size pixels
 * @param toLeading from its pixels to those of the leading photograph; empty where the two couldn't
 *     be laid over each other
 */
public record FaceView(PhotographId photograph, Polygon outline, Optional<Homography> toLeading) {}
