package rakelight.ground;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicMask;
import rakelight.archive.Ground;

/**
 * A burial ground as a plane: each place by distance and bearing from the origin along the WGS 84
 * ellipsoid (azimuthal equidistant). Over a kilometre a distance between two places is off by less
 * than a millimetre.
 *
 * @param latitudeDegrees of the origin, WGS 84, north positive
 * @param longitudeDegrees of the origin, WGS 84, east positive
 */
public record GroundPlane(double latitudeDegrees, double longitudeDegrees) {
  /** The plane about a ground's datum point. */
  public static GroundPlane of(Ground ground) {
    return new GroundPlane(ground.latitudeDegrees(), ground.longitudeDegrees());
  }

  /** The shortest way between two places on the ellipsoid, in metres. */
  public static double metres(double lat1, double lon1, double lat2, double lon2) {
    return Geodesic.WGS84.Inverse(lat1, lon1, lat2, lon2, GeodesicMask.DISTANCE).s12;
  }

  /** Where a place is on the plane. */
  public Spot spot(double latitude, double longitude) {
    GeodesicData way =
        Geodesic.WGS84.Inverse(latitudeDegrees, longitudeDegrees, latitude, longitude);
    double bearing = Math.toRadians(way.azi1);
    return new Spot(way.s12 * Math.sin(bearing), way.s12 * Math.cos(bearing));
  }

  /** Latitude of a place of the plane. */
  public double latitude(Spot spot) {
    return place(spot).lat2;
  }

  /** Longitude of a place of the plane. */
  public double longitude(Spot spot) {
    return place(spot).lon2;
  }

  private GeodesicData place(Spot spot) {
    return Geodesic.WGS84.Direct(
        latitudeDegrees,
        longitudeDegrees,
        Math.toDegrees(Math.atan2(spot.eastMetres(), spot.northMetres())),
        Math.hypot(spot.eastMetres(), spot.northMetres()));
  }
}
