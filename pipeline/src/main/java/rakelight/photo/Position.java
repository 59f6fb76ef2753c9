package rakelight.photo;

import java.util.Optional;

/**
 * Where the camera says it stood. A telephone is typically wrong by 3 to 10 m among trees, more
 * than the distance between graves (common practice, no source).
 *
 * @param latitudeDegrees WGS 84, north positive
 * @param longitudeDegrees WGS 84, east positive
 * @param accuracyMetres the camera's own estimate of its horizontal error
 * @param altitudeMetres above sea level, negative below
 */
public record Position(
    double latitudeDegrees,
    double longitudeDegrees,
    Optional<Double> accuracyMetres,
    Optional<Double> altitudeMetres) {
  private static final double EARTH_RADIUS_METRES = 6_371_008.8;

  /** Distance along the globe by the haversine formula, taking the Earth as a sphere. */
  public double metresTo(Position other) {
    double lat1 = Math.toRadians(latitudeDegrees);
    double lat2 = Math.toRadians(other.latitudeDegrees);
    double sinLat = Math.sin((lat2 - lat1) / 2);
    double sinLon = Math.sin(Math.toRadians(other.longitudeDegrees - longitudeDegrees) / 2);
    double h = sinLat * sinLat + Math.cos(lat1) * Math.cos(lat2) * sinLon * sinLon;
    return 2 * EARTH_RADIUS_METRES * Math.asin(Math.min(1, Math.sqrt(h)));
  }
}
