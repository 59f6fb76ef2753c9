package rakelight.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Random;
import java.util.SortedSet;
import org.junit.jupiter.api.Test;

class KeptLedgersTest {
  @Test
  void theNewestAndOneADayAWeekAMonthAndAYearAreKept() {
    // Twice a day for two years, until Saturday 28 February 2026.
    Instant last = Instant.parse("2026-02-28T18:00:00Z");
    List<Instant> all = new ArrayList<>();
    for (int i = 0; i < 2 * 730; i++) {
      all.add(last.minus(Duration.ofHours(12L * i)));
    }
    assertThat(KeptLedgers.of(all))
        .map(Instant::toString)
        .containsExactly(
            "2024-12-31T18:00:00Z",
            "2025-03-31T18:00:00Z",
            "2025-04-30T18:00:00Z",
            "2025-05-31T18:00:00Z",
            "2025-06-30T18:00:00Z",
            "2025-07-31T18:00:00Z",
            "2025-08-31T18:00:00Z",
            "2025-09-30T18:00:00Z",
            "2025-10-31T18:00:00Z",
            "2025-11-30T18:00:00Z",
            "2025-12-31T18:00:00Z",
            "2026-01-31T18:00:00Z",
            "2026-02-01T18:00:00Z",
            "2026-02-08T18:00:00Z",
            "2026-02-15T18:00:00Z",
            "2026-02-22T18:00:00Z",
            "2026-02-23T18:00:00Z",
            "2026-02-24T18:00:00Z",
            "2026-02-25T18:00:00Z",
            "2026-02-26T06:00:00Z",
            "2026-02-26T18:00:00Z",
            "2026-02-27T06:00:00Z",
            "2026-02-27T18:00:00Z",
            "2026-02-28T06:00:00Z",
            "2026-02-28T18:00:00Z");
  }

  @Test
  void theNewestIsKeptAndWhatIsDroppedIsNeverWantedAgain() {
    Random random = new Random(20261130);
    Collection<Instant> left = new ArrayList<>();
    Instant now = Instant.parse("2020-01-01T00:00:00Z");
    List<Instant> everything = new ArrayList<>();
    for (int i = 0; i < 400; i++) {
      now = now.plus(Duration.ofHours(random.nextInt(200)));
      everything.add(now);
      left.add(now);
      SortedSet<Instant> kept = KeptLedgers.of(left);
      assertThat(kept).contains(now);
      // Dropping as one goes along leaves what dropping from all at once would.
      assertThat(kept).isEqualTo(KeptLedgers.of(everything));
      left = new ArrayList<>(kept);
    }
    assertThat(left).hasSizeLessThan(7 + 7 + 5 + 12 + 12);
  }

  @Test
  void noneOfNoneIsKept() {
    assertThat(KeptLedgers.of(List.of())).isEmpty();
  }
}
