package rakelight.samples;

import java.util.List;

/**
 * One carved side of a marker.
 *
 * @param marker the marker's label in the ground
 * @param face the face's label, a compass letter
 * @param bearingDegrees compass bearing an upright face looks to; for a lying slab, the side a
 *     reader stands on
 * @param seed decides grain, wear and growth; the same face always wears the same way
 */
public record SampleFace(
    String marker,
    String face,
    double bearingDegrees,
    Stone stone,
    List<SampleLine> lines,
    long seed) {
  public SampleFace {
    lines = List.copyOf(lines);
  }
}
