package rakelight.desk;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;

/**
 * Slows down whoever guesses passphrases: after five failures within a quarter of an hour a name,
 * or an address, has to wait until the first of them is that old. Thread-safe.
 */
final class SignInLimit {
  static final int FAILURES = 5;
  static final Duration WINDOW = Duration.ofMinutes(15);
  private static final int MOST_KEPT = 10_000;

  private final Clock clock;
  private final Map<String, Deque<Instant>> failures = new HashMap<>();

  SignInLimit(Clock clock) {
    this.clock = clock;
  }

  /** How long this key has to wait; zero if it needn't. */
  synchronized Duration wait(String key) {
    Deque<Instant> of = recent(key);
    return of.size() < FAILURES
        ? Duration.ZERO
        : Duration.between(clock.instant(), of.getFirst().plus(WINDOW));
  }

  synchronized void failed(String key) {
    if (failures.size() >= MOST_KEPT) {
      failures.keySet().removeIf(other -> recent(other).isEmpty());
    }
    Deque<Instant> of = recent(key);
    of.addLast(clock.instant());
    failures.put(key, of);
  }

  synchronized void succeeded(String key) {
    failures.remove(key);
  }

  private Deque<Instant> recent(String key) {
    Deque<Instant> of = failures.getOrDefault(key, new ArrayDeque<>());
    while (!of.isEmpty() && !of.getFirst().plus(WINDOW).isAfter(clock.instant())) {
      of.removeFirst();
    }
    return of;
  }
}
