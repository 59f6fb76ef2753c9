package rakelight.marker;

import java.util.List;
import rakelight.archive.MarkerId;

/**
 * One monument on the ground.
 *
 * @param number its present number
 * @param earlierNumbers those it had before, oldest first
 */
public record Marker(MarkerId id, String number, List<String> earlierNumbers) {
  public Marker {
    earlierNumbers = List.copyOf(earlierNumbers);
  }
}
