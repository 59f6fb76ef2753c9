package rakelight.photo;

import java.util.Optional;

/**
 * Where the camera looked.
 *
 * @param degrees clockwise from north, 0 to 360
 * @param reference which north, if the file says: {@code true} or {@code magnetic}
 */
public record Direction(double degrees, Optional<String> reference) {}
