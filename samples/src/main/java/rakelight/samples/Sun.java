package rakelight.samples;

import java.time.Duration;
import java.time.Instant;

/**
 * Where the sun stands, to about a tenth of a degree from 1950 to 2050: the low-precision formulas
 * of the Astronomical Almanac (page C5), good enough to photograph by.
 */
record Sun(double azimuthDegrees, double elevationDegrees) {
  private static final Instant J2000 = Instant.parse("2000-01-01T12:00:00Z");

  static Sun at(Instant moment, double latitude, double longitude) {
    double n = Duration.between(J2000, moment).toSeconds() / 86_400.0;
    double meanLongitude = Math.toRadians(280.460 + 0.9856474 * n);
    double anomaly = Math.toRadians(357.528 + 0.9856003 * n);
    double lambda =
        meanLongitude + Math.toRadians(1.915 * Math.sin(anomaly) + 0.020 * Math.sin(2 * anomaly));
    double obliquity = Math.toRadians(23.439 - 0.0000004 * n);
    double ascension = Math.atan2(Math.cos(obliquity) * Math.sin(lambda), Math.cos(lambda));
    double declination = Math.asin(Math.sin(obliquity) * Math.sin(lambda));
    double sidereal = Math.toRadians((18.697374558 + 24.06570982441908 * n) * 15 + longitude);
    double hour = sidereal - ascension;
    double lat = Math.toRadians(latitude);
    double up =
        Math.sin(lat) * Math.sin(declination)
            + Math.cos(lat) * Math.cos(declination) * Math.cos(hour);
    double east = -Math.cos(declination) * Math.sin(hour);
    double north =
        Math.sin(declination) * Math.cos(lat)
            - Math.cos(declination) * Math.sin(lat) * Math.cos(hour);
    double azimuth = Math.toDegrees(Math.atan2(east, north));
    return new Sun((azimuth + 360) % 360, Math.toDegrees(Math.asin(up)));
  }
}
