package rakelight.archive;

import java.time.ZoneId;

/**
 * The burial ground an archive is about.
 *
 * @param name as people call it
 * @param latitudeDegrees of the datum point, WGS 84, north positive, -90 to 90
 * @param longitudeDegrees of the datum point, WGS 84, east positive, -180 to 180
 * @param zone the time zone that applies to times written without an offset
 */
public record Ground(String name, double latitudeDegrees, double longitudeDegrees, ZoneId zone) {
  /**
   * @throws IllegalArgumentException if the name is blank or the datum is not on the globe
   */
  public Ground {
    if (name.isBlank()) {
      throw new IllegalArgumentException("the ground needs a name");
    }
    if (!(Math.abs(latitudeDegrees) <= 90)) {
      throw new IllegalArgumentException("latitude must be -90 to 90 degrees: " + latitudeDegrees);
    }
    if (!(Math.abs(longitudeDegrees) <= 180)) {
      throw new IllegalArgumentException(
          "longitude must be -180 to 180 degrees: " + longitudeDegrees);
    }
  }
}
