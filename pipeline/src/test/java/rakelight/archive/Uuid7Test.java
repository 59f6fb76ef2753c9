package rakelight.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.security.SecureRandom;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class Uuid7Test {
  /** Time, version and variant of the example in RFC 9562, appendix A.6 (from memory). */
  @Test
  void theFirst48BitsAreUnixMilliseconds() {
    Uuid7 maker =
        new Uuid7(InstantSource.fixed(Instant.parse("2022-02-22T19:22:22Z")), new SecureRandom());

    UUID uuid = maker.make();

    assertThat(uuid.toString()).startsWith("017f22e2-79b0-7");
    assertThat(uuid.version()).isEqualTo(7);
    assertThat(uuid.variant()).isEqualTo(2);
  }

  @Test
  void idsSortInTheOrderTheyWereMadeThoughTheClockStandsStillOrStepsBack() {
    AtomicLong clock = new AtomicLong(1_700_000_000_000L);
    Uuid7 maker = new Uuid7(() -> Instant.ofEpochMilli(clock.get()), new SecureRandom());
    List<String> made = new ArrayList<>();
    for (int i = 0; i < 20_000; i++) {
      if (i == 10_000) {
        clock.addAndGet(-5_000);
      }
      made.add(maker.make().toString());
    }

    assertThat(made).isSortedAccordingTo(Comparator.naturalOrder()).doesNotHaveDuplicates();
  }

  @Test
  void aTextThatIsNoWholeUuidIsRefused() {
    assertThatThrownBy(() -> PhotographId.of("1-2-3-4-5"))
        .isInstanceOf(IllegalArgumentException.class);
    PhotographId id = PhotographId.next();
    assertThat(PhotographId.of(id.toString())).isEqualTo(id);
  }
}
