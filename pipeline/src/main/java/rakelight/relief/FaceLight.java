package rakelight.relief;

import java.util.Optional;
import rakelight.photo.Light;

/**
 * A light whose height is known, and the face it fell on. Kept as given and not worked out, so that
 * no rounding of sines comes into the key of a derivation.
 *
 * @param azimuthDegrees where the light came from, clockwise from true north, 0 to 360
 * @param elevationDegrees above the horizon, 0 to 90
 * @param bearingDegrees where the face looks to, clockwise from true north
 */
public record FaceLight(double azimuthDegrees, double elevationDegrees, double bearingDegrees) {
  /**
   * Empty unless light, elevation and bearing are known: without one of them none tells anything.
   */
  public static Optional<FaceLight> of(Optional<Light> light, Optional<Double> bearingDegrees) {
    return light.flatMap(
        from ->
            from.elevationDegrees()
                .flatMap(
                    elevation ->
                        bearingDegrees.map(
                            bearing -> new FaceLight(from.azimuthDegrees(), elevation, bearing))));
  }

  /** The direction it came from as seen before the face; empty if it stood behind the face. */
  public Optional<LightDirection> direction() {
    return LightDirection.of(
        new Light(azimuthDegrees, Optional.of(elevationDegrees)), bearingDegrees);
  }
}
