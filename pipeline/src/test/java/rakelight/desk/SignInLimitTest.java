package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

class SignInLimitTest {
  private static final String HOME = "192.0.2.7";
  private Instant now = Instant.parse("2026-11-25T09:00:00Z");
  private final Clock clock = InstantSource.system().withZone(ZoneOffset.UTC);
  private final SignInLimit limit =
      new SignInLimit(
          new Clock() {
            @Override
            public Instant instant() {
              return now;
            }

            @Override
            public java.time.ZoneId getZone() {
              return clock.getZone();
            }

            @Override
            public Clock withZone(java.time.ZoneId zone) {
              return this;
            }
          });

  private void guess(String name, String address, int times) {
    for (int i = 0; i < times; i++) {
      assertThat(limit.ask(name, address)).as("guess %d", i).isZero();
    }
  }

  @Test
  void whoGuessesWaitsTwiceAsLongEachTime() {
    guess("Gil Orme", HOME, SignInLimit.FREE);
    Duration wait = limit.ask("Gil Orme", HOME);
    assertThat(wait).isEqualTo(SignInLimit.FIRST);
    now = now.plus(wait);
    guess("GIL ORME", HOME, 1);
    assertThat(limit.ask("Gil Orme", HOME)).isEqualTo(SignInLimit.FIRST.multipliedBy(2));
    for (int i = 0; i < 20; i++) {
      now = now.plus(limit.ask("Gil Orme", HOME));
    }
    assertThat(limit.ask("Gil Orme", HOME)).isEqualTo(SignInLimit.LONGEST);
  }

  @Test
  void whoWaitsWithoutTryingIsntHeldUpLonger() {
    guess("Gil Orme", HOME, SignInLimit.FREE);
    for (int i = 0; i < 100; i++) {
      limit.ask("Gil Orme", HOME);
    }
    assertThat(limit.ask("Gil Orme", HOME)).isEqualTo(SignInLimit.FIRST);
  }

  @Test
  void aGuesserHoldsUpNeitherOthersBesideHimNorTheReaderElsewhere() {
    guess("Gil Orme", HOME, SignInLimit.FREE);
    assertThat(limit.ask("Gil Orme", HOME)).isPositive();
    guess("Ada Fenn", HOME, SignInLimit.FREE);
    guess("Gil Orme", "192.0.2.8", SignInLimit.FREE);
  }

  @Test
  void aRightPassphraseAndAnHourAreForgiven() {
    guess("Gil Orme", HOME, SignInLimit.FREE - 1);
    limit.right("Gil Orme", HOME);
    guess("Gil Orme", HOME, SignInLimit.FREE);
    assertThat(limit.ask("Gil Orme", HOME)).isPositive();
    now = now.plus(Duration.ofMinutes(61));
    guess("Gil Orme", HOME, SignInLimit.FREE);
  }

  @Test
  void oneNameIsntGuessedFromManyAddresses() {
    limit.ask("Gil Orme", HOME);
    limit.right("Gil Orme", HOME);
    int answered = 0;
    for (int i = 0; i < 1000; i++) {
      answered += limit.ask("Gil Orme", "203.0.113." + i).isZero() ? 1 : 0;
    }
    assertThat(answered).isEqualTo(SignInLimit.FREE_FROM_ANYWHERE - 1);
    // The reader himself has signed in from his own address before, and does so again.
    assertThat(limit.ask("Gil Orme", HOME)).isZero();
  }

  @Test
  void aFloodOfNamesDoesntFillTheMemory() {
    for (int i = 0; i < 30_000; i++) {
      limit.ask("name " + i, HOME);
    }
    guess("Ada Fenn", HOME, SignInLimit.FREE);
    assertThat(limit.ask("Ada Fenn", HOME)).isPositive();
  }
}
