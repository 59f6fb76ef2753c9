package rakelight.photo;

import java.util.Optional;

/**
 * Where the light came from when a photograph was taken.
 *
 * @param azimuthDegrees the direction it came from, clockwise from true north, 0 to 360
 * @param elevationDegrees above the horizon, 0 to 90
 */
public record Light(double azimuthDegrees, Optional<Double> elevationDegrees) {
  /**
   * @throws IllegalArgumentException if a number is out of its range
   */
  public Light {
    if (!(azimuthDegrees >= 0 && azimuthDegrees <= 360)) {
      throw new IllegalArgumentException("light azimuth must be 0 to 360: " + azimuthDegrees);
    }
    elevationDegrees.ifPresent(
        elevation -> {
          if (!(elevation >= 0 && elevation <= 90)) {
            throw new IllegalArgumentException("light elevation must be 0 to 90: " + elevation);
          }
        });
  }
}
