package rakelight.photo;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
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

  /**
   * To the second, with the offset. A time without an offset that the ground's clocks left out or
   * showed twice that day, when they were put forward or back, says so instead.
   */
  public String inWords(ZoneId groundZone) {
    int offsets = groundZone.getRules().getValidOffsets(local).size();
    if (offset.isPresent() || offsets == 1) {
      return DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(in(groundZone));
    }
    return DateTimeFormatter.ISO_LOCAL_DATE_TIME.format(local)
        + (offsets == 0 ? " (a time that was left out in " : " (a time that was twice in ")
        + groundZone
        + ")";
  }

  /** The moment as an instant; without an offset of its own the ground's zone applies. */
  public Instant instant(ZoneId groundZone) {
    return in(groundZone).toInstant();
  }
}
