package rakelight.photo;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * How far a camera's clock was wrong. It goes for what the camera itself wrote into its files; a
 * time from a satellite, or one that a person gave, stays.
 *
 * @param from the first day by the wrong clock; empty for all before {@code to}
 * @param to the last day by the wrong clock
 * @param shiftSeconds what is to be added to the times as written; of a clock that drifts, where
 *     the drift begins
 * @param drift how the clock ran fast or slow
 */
public record ClockCorrection(
    CameraBody camera,
    Optional<LocalDate> from,
    Optional<LocalDate> to,
    long shiftSeconds,
    Optional<Drift> drift) {
  /** How sources of times begin that come from the camera's own clock. */
  private static final List<String> OWN_CLOCK = List.of("Exif Date", "XMP ", "IPTC ");

  private static final long SECONDS_AN_HOUR = 3600;

  /**
   * A clock that goes ever further wrong, evenly, also before and after these two moments.
   *
   * @param from by the wrong clock, when {@code shiftSeconds} is to be added
   * @param until a later moment by the wrong clock
   * @param untilShiftSeconds what is to be added then
   */
  public record Drift(LocalDateTime from, LocalDateTime until, long untilShiftSeconds) {
    public Drift {
      if (!from.isBefore(until)) {
        throw new IllegalArgumentException("a drift needs two moments, the earlier one first");
      }
    }
  }

  public ClockCorrection {
    drift = drift == null ? Optional.empty() : drift; // Unknown to earlier programs.
    if (shiftSeconds == 0 && drift.isEmpty()) {
      throw new IllegalArgumentException("a correction of nothing");
    }
  }

  /** Whether it goes for a time that this camera wrote down. */
  boolean isFor(CameraBody other, CaptureTime written) {
    LocalDate day = written.local().toLocalDate();
    return camera.equals(other)
        && OWN_CLOCK.stream().anyMatch(written.source()::startsWith)
        && from.filter(day::isBefore).isEmpty()
        && to.filter(day::isAfter).isEmpty();
  }

  /** The time put right; where it was read says so. */
  CaptureTime correct(CaptureTime written) {
    long seconds = secondsAt(written.local());
    return new CaptureTime(
        written.local().plusSeconds(seconds),
        written.offset(),
        written.source() + ", clock put right by " + inWords(seconds));
  }

  /** What is to be added to a time as written. */
  public long secondsAt(LocalDateTime written) {
    return drift
        .map(
            d -> {
              double share =
                  (double) Duration.between(d.from(), written).toMillis()
                      / Duration.between(d.from(), d.until()).toMillis();
              return shiftSeconds + Math.round(share * (d.untilShiftSeconds() - shiftSeconds));
            })
        .orElse(shiftSeconds);
  }

  /** The shift as {@code +1:00:00}, of a drift both. */
  public String inWords() {
    return inWords(shiftSeconds)
        + drift.map(d -> " drifting to " + inWords(d.untilShiftSeconds())).orElse("");
  }

  private static String inWords(long seconds) {
    Duration size = Duration.ofSeconds(Math.abs(seconds));
    return (seconds < 0 ? "-" : "+")
        + size.getSeconds() / SECONDS_AN_HOUR
        + String.format(Locale.ROOT, ":%02d:%02d", size.toMinutesPart(), size.toSecondsPart());
  }
}
