package rakelight.desk;

import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.SameSite;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Optional;
import rakelight.work.ReaderStore;

/**
 * Who is let in: sessions by their cookies. Every change must bring the session's token; bodies are
 * bounded.
 */
final class Door {
  static final int LARGEST_BODY_BYTES = 64 * 1024;
  static final String COOKIE = "desk";
  static final String TOKEN = "X-Desk-Token";
  private static final String SESSION = "desk.session";

  private final Sessions sessions;
  private final ReaderStore readers;
  private final Threshold threshold;
  private final boolean onlyLooking;

  /**
   * @param onlyLooking whether everybody comes in as a guest, since nothing can be changed
   */
  Door(Sessions sessions, ReaderStore readers, Threshold threshold, boolean onlyLooking) {
    this.sessions = sessions;
    this.readers = readers;
    this.threshold = threshold;
    this.onlyLooking = onlyLooking;
  }

  /** Where a request comes from: behind TLS as the proxy says, else as the network does. */
  String address(Context context) {
    return threshold.address(context);
  }

  /** The session of the request, if it has one that is still open. */
  Optional<Session> session(Context context) {
    Session known = context.attribute(SESSION);
    if (known != null) {
      return Optional.of(known);
    }
    Optional<Session> session =
        Optional.ofNullable(context.cookie(COOKIE))
            .flatMap(sessions::find)
            .filter(this::stands)
            .map(one -> onlyLooking ? one.asGuest() : one);
    session.ifPresent(one -> context.attribute(SESSION, one));
    return session;
  }

  /**
   * Whether the reader would come in today as he did. Where his passphrase or his role has changed,
   * or he has been removed, here or at the command line, the session ends.
   */
  boolean stands(Session session) {
    boolean stands =
        session.reader().isEmpty()
            || (session.wayIn().isPresent()
                ? readers.wayIn(session.reader().get()).equals(session.wayIn())
                : !readers.isAnybodyNamed());
    if (!stands) {
      sessions.end(session);
    }
    return stands;
  }

  /** The session of somebody who has signed in. */
  Session signedIn(Context context) {
    return session(context)
        .filter(session -> session.reader().isPresent())
        .orElseThrow(
            () -> Refusal.of(401, "sign-in", "Sign in first; the last session has ended."));
  }

  /** A session to put a form's token in; a new one where there is none. */
  Session any(Context context) {
    return session(context)
        .orElseGet(
            () -> {
              Session session = sessions.begin();
              give(context, session);
              return session;
            });
  }

  void give(Context context, Session session) {
    context.attribute(SESSION, session);
    context.cookie(
        new Cookie(
            COOKIE,
            session.id(),
            "/",
            (int) Sessions.LIFE.toSeconds(),
            threshold.reach().behindTls(),
            0,
            true,
            null,
            null,
            SameSite.STRICT));
  }

  void takeBack(Context context) {
    context.removeCookie(COOKIE, "/");
  }

  /** Refuses a change that doesn't bring the session's token. */
  static void requireToken(Session session, String token) {
    if (!MessageDigest.isEqual(
        session.token().getBytes(StandardCharsets.UTF_8), token.getBytes(StandardCharsets.UTF_8))) {
      throw Refusal.of(
          403, "token", "This request doesn't come from a page of this session. Load it again.");
    }
  }

  /** The body, if it isn't too large, however it is sent. */
  static String body(Context context) {
    try {
      byte[] bytes = context.req().getInputStream().readNBytes(LARGEST_BODY_BYTES + 1);
      if (bytes.length > LARGEST_BODY_BYTES) {
        throw Refusal.of(
            413, "too-large", "A request may have " + LARGEST_BODY_BYTES / 1024 + " KiB at most.");
      }
      return new String(bytes, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
