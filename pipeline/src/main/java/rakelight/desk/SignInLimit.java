package rakelight.desk;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * Slows down whoever guesses passphrases, and nobody else. A name at one address has {@link #FREE}
 * tries; each one after that has to wait, {@link #FIRST} and then twice as long as before, at most
 * {@link #LONGEST}. So whoever sits beside the guesser signs in as ever, and so does the reader
 * whose name is guessed, from an address of his own. Guessing one name from many addresses has a
 * limit too, {@link #FREE_FROM_ANYWHERE} tries, which holds for addresses from which that name
 * hasn't signed in. Tries are forgotten an hour after the last. The figures are common practice, no
 * source. Thread-safe.
 */
final class SignInLimit {
  static final int FREE = 5;
  static final int FREE_FROM_ANYWHERE = 50;
  static final Duration FIRST = Duration.ofSeconds(30);
  static final Duration LONGEST = Duration.ofMinutes(15);
  private static final Duration FORGOTTEN = Duration.ofHours(1);
  private static final int MOST_KEPT = 10_000;

  /** Somebody, as a name and where from; or a name from anywhere. */
  private record Who(String name, String address) {
    private static final String ANYWHERE = "";

    static Who of(String name, String address) {
      return new Who(name.toLowerCase(Locale.ROOT), address);
    }

    Who fromAnywhere() {
      return new Who(name, ANYWHERE);
    }

    int free() {
      return address.equals(ANYWHERE) ? FREE_FROM_ANYWHERE : FREE;
    }
  }

  private record Tried(int times, Instant last, Instant until) {}

  private final Clock clock;

  /** The one whose last try is longest ago first. */
  private final Map<Who, Tried> tried = new LinkedHashMap<>();

  /** Where a name has signed in from, while this desk is open. */
  private final Set<Who> known = new HashSet<>();

  SignInLimit(Clock clock) {
    this.clock = clock;
  }

  /**
   * Asks for one try of a passphrase. It counts as wrong until it is said to be right, so that many
   * at once are no way round.
   *
   * @return how long to wait; zero if it may be tried now
   */
  synchronized Duration ask(String name, String address) {
    Who who = Who.of(name, address);
    Instant now = clock.instant();
    Instant until = until(who, now);
    boolean anywhere = !known.contains(who);
    if (anywhere && until(who.fromAnywhere(), now).isAfter(until)) {
      until = until(who.fromAnywhere(), now);
    }
    if (until.isAfter(now)) {
      return Duration.between(now, until);
    }
    count(who, now);
    if (anywhere) {
      count(who.fromAnywhere(), now);
    }
    return Duration.ZERO;
  }

  /** What was tried last was right. */
  synchronized void right(String name, String address) {
    Who who = Who.of(name, address);
    tried.remove(who);
    if (known.size() < MOST_KEPT) {
      known.add(who);
    }
  }

  private Instant until(Who who, Instant now) {
    Tried of = tried.get(who);
    return of == null ? now : of.until();
  }

  private void count(Who who, Instant now) {
    Tried before = tried.remove(who);
    int times =
        before == null || before.last().plus(FORGOTTEN).isBefore(now) ? 1 : before.times() + 1;
    tried.put(who, new Tried(times, now, now.plus(pause(times - who.free()))));
    if (tried.size() > MOST_KEPT) {
      tried.remove(tried.keySet().iterator().next());
    }
  }

  /**
   * @param over how many tries there were beyond the free ones
   */
  private static Duration pause(int over) {
    if (over < 0) {
      return Duration.ZERO;
    }
    Duration pause = FIRST.multipliedBy(1L << Math.min(over, 10));
    return pause.compareTo(LONGEST) > 0 ? LONGEST : pause;
  }
}
