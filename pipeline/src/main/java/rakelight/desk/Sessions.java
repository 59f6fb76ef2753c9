package rakelight.desk;

import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import rakelight.work.Role;
import rakelight.work.WayIn;

/** The sessions that are open: at most a thousand, those unused longest give way. Thread-safe. */
final class Sessions {
  /** A working day; somebody who goes home leaves no open door for the next morning. */
  static final Duration LIFE = Duration.ofHours(10);

  private static final int MOST = 1000;

  /** 32 random bytes: twice the 128 bits OWASP's session cheat sheet asks for (from memory). */
  private static final int KEY_BYTES = 32;

  private record Kept(Session session, Instant until) {}

  private final SecureRandom random = new SecureRandom();
  private final Clock clock;
  private final Map<String, Kept> open = new LinkedHashMap<>(16, 0.75f, true);

  Sessions(Clock clock) {
    this.clock = clock;
  }

  /** A session in which nobody has signed in yet. */
  Session begin() {
    return keep(Session.of(key(), key(), Optional.empty(), Role.GUEST, Optional.empty()));
  }

  /** A session of somebody who signed in by name, under a new key; the one before is closed. */
  Session signIn(Session before, String reader, Role role) {
    end(before);
    return keep(Session.of(key(), key(), Optional.of(reader), role, Optional.empty()));
  }

  /** A session of somebody who signed in with a passphrase, likewise. */
  Session signIn(Session before, WayIn by) {
    end(before);
    return keep(
        Session.of(
            key(), key(), Optional.of(by.reader().name()), by.reader().role(), Optional.of(by)));
  }

  synchronized Optional<Session> find(String id) {
    Kept kept = open.get(id);
    if (kept == null) {
      return Optional.empty();
    }
    if (kept.until().isBefore(clock.instant())) {
      open.remove(id);
      return Optional.empty();
    }
    return Optional.of(kept.session());
  }

  synchronized void end(Session session) {
    open.remove(session.id());
  }

  private synchronized Session keep(Session session) {
    open.put(session.id(), new Kept(session, clock.instant().plus(LIFE)));
    while (open.size() > MOST) {
      // Sessions without a reader first, so that nobody is pushed out by knocking at the door.
      String oldest =
          open.values().stream()
              .map(Kept::session)
              .filter(kept -> kept.reader().isEmpty())
              .findFirst()
              .map(Session::id)
              .orElseGet(() -> open.keySet().iterator().next());
      open.remove(oldest);
    }
    return session;
  }

  private String key() {
    byte[] bytes = new byte[KEY_BYTES];
    random.nextBytes(bytes);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }
}
