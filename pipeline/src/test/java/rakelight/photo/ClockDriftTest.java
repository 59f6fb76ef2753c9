package rakelight.photo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDateTime;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** A clock that goes ever further wrong. */
class ClockDriftTest {
  private static final CameraBody CAMERA =
      new CameraBody(Optional.of("Wren 7"), Optional.of("W7-0042"), Optional.empty());
  private static final LocalDateTime FIRST = LocalDateTime.parse("2024-05-01T10:00:00");

  private static String put(ClockCorrection correction, String written) {
    return correction
        .correct(
            new CaptureTime(
                LocalDateTime.parse(written), Optional.empty(), "Exif DateTimeOriginal"))
        .local()
        .toString();
  }

  @Test
  void aClockThatLosesAMinuteADayIsPutRightBetweenAndBeyondTheTwoMoments() {
    ClockCorrection losing =
        new ClockCorrection(
            CAMERA,
            Optional.empty(),
            Optional.empty(),
            0,
            Optional.of(new ClockCorrection.Drift(FIRST, FIRST.plusDays(10), 600)));
    assertThat(put(losing, "2024-05-01T10:00:00")).isEqualTo("2024-05-01T10:00");
    assertThat(put(losing, "2024-05-06T10:00:00")).isEqualTo("2024-05-06T10:05");
    assertThat(put(losing, "2024-05-11T10:00:00")).isEqualTo("2024-05-11T10:10");
    assertThat(put(losing, "2024-05-13T10:00:00")).isEqualTo("2024-05-13T10:12");
    assertThat(put(losing, "2024-04-30T10:00:00")).isEqualTo("2024-04-30T09:59");
    assertThat(losing.inWords()).isEqualTo("+0:00:00 drifting to +0:10:00");
  }

  @Test
  void theTwoMomentsComeInOrder() {
    assertThatThrownBy(() -> new ClockCorrection.Drift(FIRST, FIRST, 60))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
