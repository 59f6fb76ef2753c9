package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import net.e175.klaus.solarpositioning.SPA;
import net.e175.klaus.solarpositioning.SunriseResult;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SunPositionTest {
  private static final double WITHIN_DEGREES = 0.01;

  /** Worked example of NREL/TP-560-34302, rev. 2008. */
  @Test
  void theSunStandsWhereTheSolarPositionAlgorithmsExampleHasIt() {
    var sun =
        SPA.calculateSolarPosition(
            ZonedDateTime.parse("2003-10-17T12:30:30-07:00"),
            39.742476,
            -105.1786,
            1830.14,
            67,
            820,
            11);
    assertThat(sun.zenithAngle()).isCloseTo(50.11162, within(1e-4));
    assertThat(sun.azimuth()).isCloseTo(194.34024, within(1e-4));
  }

  /**
   * Incidence of the same example: slope 30 degrees, turned 10 degrees from south to east, so
   * looking to 170; 190 would be the sign's trap.
   */
  @Test
  void theExamplesSlopingFaceSeesTheSunAtItsAngle() {
    SunPosition sun = new SunPosition(90 - 50.11162, 194.34024);
    assertThat(90 - new FaceBearing(170, 60).heightOf(sun)).isCloseTo(25.187, within(1e-4));
    assertThat(90 - new FaceBearing(190, 60).heightOf(sun)).isCloseTo(20.29416, within(1e-4));
  }

  /** Computed with two independent programs (SPA and an astronomical ephemeris). */
  @ParameterizedTest(name = "{0} at {1}, {2}")
  @CsvSource({
    "2024-06-20T12:00+02:00, 44.0, 8.5, 300, 62.7014, 131.696",
    "2024-06-20T19:00+02:00, 44.0, 8.5, 300, 20.8972, 282.933",
    "2024-03-20T09:00+01:00, 44.0, 8.5, 300, 25.5301, 117.283",
    "2024-12-21T12:00+01:00, 44.0, 8.5, 300, 22.3702, 173.982",
    "2024-09-22T16:30-04:00, 42.4801, -71.0995, 50, 22.7463, 247.267",
    "2024-07-15T07:00+01:00, 51.5, -0.12, 20, 15.6916, 75.063",
    "2025-01-15T10:30Z, 55.95, -3.19, 60, 9.5187, 153.577",
    "2024-10-01T15:00+11:00, -37.81, 144.96, 30, 47.3299, 317.052",
    "2024-06-20T12:00Z, 51.4779, 0.0, 45, 61.9657, 179.168",
  })
  void theSunStandsWhereTwoProgramsHaveIt(
      String time,
      double latitude,
      double longitude,
      double metres,
      double altitude,
      double azimuth) {
    SunPosition sun = SunPosition.at(ZonedDateTime.parse(time), latitude, longitude, metres);
    assertThat(sun.altitudeDegrees()).isCloseTo(altitude, within(WITHIN_DEGREES));
    assertThat(sun.azimuthDegrees()).isCloseTo(azimuth, within(WITHIN_DEGREES));
  }

  /**
   * Rising, highest and setting as the algorithm and an independent ephemeris have them. The sunset
   * that NREL prints for the example is that of the day before by local time.
   */
  @ParameterizedTest(name = "{0} at {1}, {2}")
  @CsvSource({
    "2024-06-20T12:00+02:00, 44.0, 8.5, 05:43:03, 13:27:42, 21:12:22",
    "2024-12-21T12:00+01:00, 44.0, 8.5, 07:57:39, 12:24:17, 16:50:54",
    "2024-03-20T12:00+01:00, 44.0, 8.5, 06:28:36, 12:33:19, 18:38:48",
    "2003-10-17T12:30:30-07:00, 39.742476, -105.1786, 06:12:43, 11:46:05, 17:18:51",
  })
  void theSunRisesAndSetsWhenTwoProgramsHaveIt(
      String day, double latitude, double longitude, String rise, String transit, String set) {
    ZonedDateTime noon = ZonedDateTime.parse(day);
    SunriseResult.RegularDay sun =
        (SunriseResult.RegularDay)
            SPA.calculateSunriseTransitSet(
                noon, latitude, longitude, noon.getYear() < 2010 ? 67 : 69.2);
    assertThat(apartSeconds(sun.sunrise(), rise)).isLessThanOrEqualTo(1);
    assertThat(apartSeconds(sun.transit(), transit)).isLessThanOrEqualTo(1);
    assertThat(apartSeconds(sun.sunset(), set)).isLessThanOrEqualTo(1);
  }

  private static long apartSeconds(ZonedDateTime time, String said) {
    return Math.abs(Duration.between(LocalTime.parse(said), time.toLocalTime()).toSeconds());
  }

  /** Of those positions, for upright faces to the four winds: cos i = cos(alt) cos(Az - F). */
  @ParameterizedTest(name = "{0} at {1}, {2}")
  @CsvSource({
    "2024-06-20T12:00+02:00, 44.0, 8.5, 300, -17.76, 20.03",
    "2024-06-20T19:00+02:00, 44.0, 8.5, 300, 12.07, -65.58",
    "2024-12-21T12:00+01:00, 44.0, 8.5, 300, -66.87, 5.56",
    "2024-09-22T16:30-04:00, 42.4801, -71.0995, 50, -20.88, -58.27",
    "2024-07-15T07:00+01:00, 51.5, -0.12, 20, 14.37, 68.47",
  })
  void anUprightFaceHasTheSunAtItsGrazingAngle(
      String time, double latitude, double longitude, double metres, double north, double east) {
    SunPosition sun = SunPosition.at(ZonedDateTime.parse(time), latitude, longitude, metres);
    assertThat(new FaceBearing(0, 0).heightOf(sun)).isCloseTo(north, within(WITHIN_DEGREES));
    assertThat(new FaceBearing(90, 0).heightOf(sun)).isCloseTo(east, within(WITHIN_DEGREES));
    assertThat(new FaceBearing(180, 0).heightOf(sun)).isCloseTo(-north, within(WITHIN_DEGREES));
    assertThat(new FaceBearing(270, 0).heightOf(sun)).isCloseTo(-east, within(WITHIN_DEGREES));
  }

  /**
   * When both poles see the sun alike: PyEphem; a minute and a half is a thousandth of a degree.
   */
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "2024-03-20T03:06:22Z",
    "2024-09-22T12:43:32Z",
    "2025-03-20T09:01:15Z",
    "2025-09-22T18:19:17Z",
    "2026-03-20T14:45:53Z",
    "2026-09-23T00:05:09Z"
  })
  void atTheEquinoxTheSunStandsAsHighOverBothPoles(String time) {
    ZonedDateTime equinox = ZonedDateTime.parse(time);
    assertThat(overThePole(equinox, 90)).isCloseTo(overThePole(equinox, -90), within(0.001));
  }

  /** When a pole sees it highest: PyEphem. */
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "2024-06-20T20:51:03Z, 90",
    "2024-12-21T09:20:21Z, -90",
    "2025-06-21T02:42:19Z, 90",
    "2025-12-21T15:02:51Z, -90",
    "2026-06-21T08:24:31Z, 90",
    "2026-12-21T20:50:00Z, -90"
  })
  void atTheSolsticeTheSunStandsHighestOverItsPole(String time, double pole) {
    ZonedDateTime solstice = ZonedDateTime.parse(time);
    assertThat(overThePole(solstice, pole))
        .isGreaterThan(overThePole(solstice.minusDays(1), pole))
        .isGreaterThan(overThePole(solstice.plusDays(1), pole))
        .isCloseTo(23.47, within(0.02));
  }

  private static double overThePole(ZonedDateTime time, double latitude) {
    return SunPosition.at(time, latitude, 0, 0).altitudeDegrees();
  }

  @Test
  void aStoneLyingFaceUpHasTheSunAsHighAsTheSky() {
    SunPosition sun = new SunPosition(12.5, 201);
    assertThat(new FaceBearing(90, 90).heightOf(sun)).isCloseTo(12.5, within(1e-9));
  }
}
