package rakelight.ground;

import java.time.ZonedDateTime;
import net.e175.klaus.solarpositioning.DeltaT;
import net.e175.klaus.solarpositioning.SPA;
import net.e175.klaus.solarpositioning.SolarPosition;

/**
 * Where the sun stands, as it is seen through the air at 1013.25 hPa and 15 degrees Celsius.
 *
 * <p>By the algorithm of I. Reda and A. Andreas, Solar Position Algorithm for Solar Radiation
 * Applications, NREL/TP-560-34302 (2008), within .01 degrees.
 *
 * @param altitudeDegrees above the level horizon; negative below it
 * @param azimuthDegrees clockwise from true north, 0 to 360
 */
public record SunPosition(double altitudeDegrees, double azimuthDegrees) {
  private static final double PRESSURE_HECTOPASCAL = 1013.25;
  private static final double TEMPERATURE_CELSIUS = 15;

  /**
   * @param latitudeDegrees WGS 84, north positive
   * @param longitudeDegrees WGS 84, east positive
   * @param elevationMetres above the sea
   */
  public static SunPosition at(
      ZonedDateTime time, double latitudeDegrees, double longitudeDegrees, double elevationMetres) {
    SolarPosition sun =
        SPA.calculateSolarPosition(
            time,
            latitudeDegrees,
            longitudeDegrees,
            elevationMetres,
            DeltaT.estimate(time.toLocalDate()),
            PRESSURE_HECTOPASCAL,
            TEMPERATURE_CELSIUS);
    return new SunPosition(90 - sun.zenithAngle(), sun.azimuth());
  }
}
