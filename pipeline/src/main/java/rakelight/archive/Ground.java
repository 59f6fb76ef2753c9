package rakelight.archive;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;

/**
 * The burial ground an archive is about.
 *
 * @param name as people call it
 * @param latitudeDegrees of the datum point, WGS 84, north positive, -90 to 90
 * @param longitudeDegrees of the datum point, WGS 84, east positive, -180 to 180
 * @param zone the time zone that applies to times written without an offset
 * @param calendar when its country changed calendars; where nobody has said, the British change is
 *     taken to hold
 * @param numbers the patterns that numbers of markers follow; empty where any will do
 * @param horizon what hides the low sun, as points of azimuth and height; empty where nobody has
 *     said
 * @param regions whose fashions its markers follow, parted by spaces; empty where nobody has said
 */
public record Ground(
    String name,
    double latitudeDegrees,
    double longitudeDegrees,
    ZoneId zone,
    Optional<Calendar> calendar,
    Optional<String> numbers,
    Optional<String> horizon,
    Optional<String> regions) {
  /**
   * When a country went from the Julian to the Gregorian calendar.
   *
   * @param firstGregorianDay the first day reckoned the new way, in the new calendar
   * @param firstYearFromJanuary the first year that began on 1 January and not on 25 March
   */
  public record Calendar(LocalDate firstGregorianDay, int firstYearFromJanuary) {}

  /** A ground of which nobody has said the calendar. */
  public Ground(String name, double latitudeDegrees, double longitudeDegrees, ZoneId zone) {
    this(
        name,
        latitudeDegrees,
        longitudeDegrees,
        zone,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  /**
   * @throws IllegalArgumentException if the name is blank or the datum is not on the globe
   */
  public Ground {
    calendar = calendar == null ? Optional.empty() : calendar; // Unknown to earlier programs,
    numbers = numbers == null ? Optional.empty() : numbers; // and so are these
    horizon = horizon == null ? Optional.empty() : horizon; // three.
    regions = regions == null ? Optional.empty() : regions;
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

  /** The same ground with its calendar stated. */
  public Ground with(Calendar stated) {
    return new Ground(
        name,
        latitudeDegrees,
        longitudeDegrees,
        zone,
        Optional.of(stated),
        numbers,
        horizon,
        regions);
  }

  /** The same ground with another pattern of numbers, or none. */
  public Ground withNumbers(Optional<String> stated) {
    return new Ground(
        name, latitudeDegrees, longitudeDegrees, zone, calendar, stated, horizon, regions);
  }

  /** The same ground with another horizon, or none. */
  public Ground withHorizon(Optional<String> stated) {
    return new Ground(
        name, latitudeDegrees, longitudeDegrees, zone, calendar, numbers, stated, regions);
  }

  /** The same ground with other regions, or none. */
  public Ground withRegions(Optional<String> stated) {
    return new Ground(
        name, latitudeDegrees, longitudeDegrees, zone, calendar, numbers, horizon, stated);
  }

  /** The same ground, better described. */
  public Ground at(String called, double latitude, double longitude, ZoneId in) {
    return new Ground(called, latitude, longitude, in, calendar, numbers, horizon, regions);
  }
}
