package rakelight.photo;

import java.time.Duration;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;

/**
 * How far a camera's clock was wrong. It goes for what the camera itself wrote into its files; a
 * time from a satellite, or one that a person gave, stays.
 *
 * @param from the first day by the wrong clock; empty for all before {@code to}
 * @param to the last day by the wrong clock
 * @param shiftSeconds what is to be added to the times as written
 */
public record ClockCorrection(
    CameraBody camera, Optional<LocalDate> from, Optional<LocalDate> to, long shiftSeconds) {
  private static final String OWN_CLOCK = "Exif Date";
  private static final long SECONDS_AN_HOUR = 3600;

  public ClockCorrection {
    if (shiftSeconds == 0) {
      throw new IllegalArgumentException("a correction of nothing");
    }
  }

  /** Whether it goes for a time that this camera wrote down. */
  boolean isFor(CameraBody other, CaptureTime written) {
    LocalDate day = written.local().toLocalDate();
    return camera.equals(other)
        && written.source().startsWith(OWN_CLOCK)
        && from.filter(day::isBefore).isEmpty()
        && to.filter(day::isAfter).isEmpty();
  }

  /** The time put right; where it was read says so. */
  CaptureTime correct(CaptureTime written) {
    return new CaptureTime(
        written.local().plusSeconds(shiftSeconds),
        written.offset(),
        written.source() + ", clock put right by " + inWords());
  }

  /** The shift as {@code +1:00:00}. */
  public String inWords() {
    Duration size = Duration.ofSeconds(Math.abs(shiftSeconds));
    return (shiftSeconds < 0 ? "-" : "+")
        + size.getSeconds() / SECONDS_AN_HOUR
        + String.format(Locale.ROOT, ":%02d:%02d", size.toMinutesPart(), size.toSecondsPart());
  }
}
