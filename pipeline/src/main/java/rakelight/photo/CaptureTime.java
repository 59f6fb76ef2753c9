package rakelight.photo;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;

/**
 * When a photograph was taken, as written down.
 *
 * @param local the camera's wall clock, with subseconds where it gave them
 * @param offset from UTC, if the file says
 * @param source where it was read, such as {@code Exif DateTimeOriginal}
 */
public record CaptureTime(LocalDateTime local, Optional<ZoneOffset> offset, String source) {
  /** The moment itself; without an offset of its own the ground's zone applies. */
  public OffsetDateTime in(ZoneId groundZone) {
    return offset.map(local::atOffset).orElseGet(() -> local.atZone(groundZone).toOffsetDateTime());
  }

  /** The moment as an instant; without an offset of its own the ground's zone applies. */
  public Instant instant(ZoneId groundZone) {
    return in(groundZone).toInstant();
  }
}
