package rakelight.archive;

import java.security.SecureRandom;
import java.time.InstantSource;
import java.util.Locale;
import java.util.UUID;

/**
 * Makes time-ordered ids: UUID version 7 of RFC 9562, section 5.7.
 *
 * <p>48 bits of Unix milliseconds, then a 12 bit counter in {@code rand_a} (method 1 of section
 * 6.2: seeded at random below half its range at each new millisecond, then counted up) and 62
 * random bits. Ids from one process therefore sort in the order they were made, also when the clock
 * stands still or steps back. Order between decisions never comes from ids; the journal has its own
 * counter for that.
 */
public final class Uuid7 {
  private static final Uuid7 SHARED = new Uuid7(InstantSource.system(), new SecureRandom());
  private static final int COUNTER_LIMIT = 1 << 12;

  private final InstantSource clock;
  private final SecureRandom random;
  private long lastMillis = Long.MIN_VALUE;
  private int counter;

  Uuid7(InstantSource clock, SecureRandom random) {
    this.clock = clock;
    this.random = random;
  }

  public static UUID next() {
    return SHARED.make();
  }

  static UUID parse(String text) {
    UUID uuid = UUID.fromString(text);
    if (!uuid.toString().equals(text.toLowerCase(Locale.ROOT))) {
      throw new IllegalArgumentException("not a UUID of 36 characters: " + text);
    }
    return uuid;
  }

  synchronized UUID make() {
    long now = clock.millis();
    if (now > lastMillis) {
      lastMillis = now;
      counter = random.nextInt(COUNTER_LIMIT / 2);
    } else if (++counter == COUNTER_LIMIT) {
      lastMillis++;
      counter = random.nextInt(COUNTER_LIMIT / 2);
    }
    long high = (lastMillis << 16) | (7L << 12) | counter;
    long low = (random.nextLong() & 0x3fff_ffff_ffff_ffffL) | 0x8000_0000_0000_0000L;
    return new UUID(high, low);
  }
}
