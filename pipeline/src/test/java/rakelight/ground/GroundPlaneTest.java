package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class GroundPlaneTest {
  /**
   * C. F. F. Karney, "Algorithms for geodesics", J. Geodesy 87 (2013), 43-55, and the test suite of
   * GeographicLib; the last three reckoned with that library.
   */
  @ParameterizedTest
  @CsvSource({
    "40.6, -73.8, 49.01666667, 2.55, 5853226, 0.5",
    "40.6, -73.8, 51.6, -0.5, 5551759.400, 0.001",
    "27.2, 0, -27.1, 179.5, 19974354.765767, 0.00001",
    "0, 0, 0, 179, 19926189, 0.5",
    "36.493349428792, 0, 36.49334942879201, 8e-7, 0.072, 0.0005",
    "-41.32, 174.81, 40.96, -5.50, 19959679.267, 0.001",
    "44, 8, 44.001, 8, 111.112252, 0.000001",
    "44, 8, 44, 8.001, 80.206193, 0.000001",
    "40, -75, 40.0001, -75.0001, 14.007423, 0.000001",
  })
  void distancesAreThosePublished(
      double lat1, double lon1, double lat2, double lon2, double metres, double tolerance) {
    assertThat(GroundPlane.metres(lat1, lon1, lat2, lon2)).isCloseTo(metres, within(tolerance));
  }

  /** Reckoned with GeographicLib for WGS 84: metres to a degree north, and a thousandth east. */
  @ParameterizedTest
  @CsvSource({
    "0, 110574.30, 111.31949",
    "15, 110648.72, 107.55049",
    "30, 110852.46, 96.48628",
    "45, 111131.78, 78.84684",
    "60, 111412.27, 55.80000",
    "75, 111618.36, 28.90201",
  })
  void aDegreeIsAsLongAsItIsAtThatLatitude(double latitude, double north, double east) {
    assertThat(GroundPlane.metres(latitude - 0.5, 10, latitude + 0.5, 10))
        .isCloseTo(north, within(0.01));
    assertThat(GroundPlane.metres(latitude, 10, latitude, 10.001)).isCloseTo(east, within(0.00001));
  }

  /** The same source. */
  @Test
  void theDirectProblemComesOutAsPublished() {
    GeodesicData way = Geodesic.WGS84.Direct(40.63972222, -73.77888889, 53.5, 5_850_000);
    assertThat(way.lat2).isCloseTo(49.01467, within(0.000005));
    assertThat(way.lon2).isCloseTo(2.56106, within(0.000005));
  }

  @Test
  void aPlaceGoesToThePlaneAndBackAndDistancesOnItAreTrue() {
    GroundPlane plane = new GroundPlane(54.1, -3.2);
    Spot one = plane.spot(54.1012, -3.1991);
    Spot other = plane.spot(54.1013, -3.1996);
    assertThat(plane.latitude(one)).isCloseTo(54.1012, within(1e-10));
    assertThat(plane.longitude(one)).isCloseTo(-3.1991, within(1e-10));
    assertThat(one.metresTo(other))
        .isCloseTo(GroundPlane.metres(54.1012, -3.1991, 54.1013, -3.1996), within(0.0005));
    assertThat(one.northMetres()).isPositive();
    assertThat(one.eastMetres()).isPositive();
  }
}
