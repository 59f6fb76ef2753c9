package rakelight.reading;

import java.util.List;
import java.util.Optional;
import rakelight.photo.Frame;
import rakelight.photo.PhotoPart;
import rakelight.photo.Photograph;
import rakelight.picture.Polygon;

/**
 * One of several stones on a photograph.
 *
 * @param number from left to right on its photograph, from 1
 * @param outline in upright full-size pixels
 * @param frame what is read of the photograph for it
 * @param lines what was read in the frame, likeliest texts in reading order; none if nothing
 *     readable stands there; empty if it hasn't been read
 * @param said what somebody said of it
 */
public record StoneBeside(
    int number,
    Photograph photograph,
    Polygon outline,
    Frame frame,
    Optional<List<String>> lines,
    Optional<PhotoPart> said) {
  public StoneBeside {
    lines = lines.map(List::copyOf);
  }

  /** Whether somebody still has to say which stone it is: it may be inscribed. */
  public boolean isOpen() {
    return said.isEmpty() && lines.filter(List::isEmpty).isEmpty();
  }
}
