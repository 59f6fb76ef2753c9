package rakelight.photo;

import java.util.Optional;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;

/**
 * One carved side of a marker.
 *
 * @param name such as {@code front}
 * @param bearingDegrees the compass direction it looks to, clockwise from true north
 */
public record Face(FaceId id, MarkerId marker, String name, Optional<Double> bearingDegrees) {
  /** The face meant where none is named. */
  public static final String FRONT = "front";
}
