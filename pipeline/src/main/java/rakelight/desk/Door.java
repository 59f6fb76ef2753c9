package rakelight.desk;

import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.HandlerType;
import io.javalin.http.SameSite;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rakelight.work.ReaderStore;

/**
 * What every request passes first. A foreign Host is refused, so that no page elsewhere can reach a
 * desk on loopback through a name of its own; every change must come from the desk's own pages and
 * bring the session's token; bodies are bounded; pages may load nothing but the desk's own files
 * and run no script within the page; nothing that is sent may be kept by a browser, unless it says
 * so itself.
 */
final class Door {
  static final int LARGEST_BODY_BYTES = 64 * 1024;
  static final String COOKIE = "desk";
  static final String TOKEN = "X-Desk-Token";
  private static final String SESSION = "desk.session";
  private static final String POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:;"
          + " font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none';"
          + " frame-ancestors 'none'";

  private final Sessions sessions;
  private final ReaderStore readers;
  private final Reach reach;
  private final boolean onlyLooking;

  /**
   * @param onlyLooking whether everybody comes in as a guest, since nothing can be changed
   */
  Door(Sessions sessions, ReaderStore readers, Reach reach, boolean onlyLooking) {
    this.sessions = sessions;
    this.readers = readers;
    this.reach = reach;
    this.onlyLooking = onlyLooking;
  }

  /** Before everything else. */
  void enter(Context context) {
    context
        .header("Content-Security-Policy", POLICY)
        .header("X-Content-Type-Options", "nosniff")
        // Not no-referrer: browsers then send forms with the Origin “null”.
        .header("Referrer-Policy", "same-origin")
        .header("Cross-Origin-Resource-Policy", "same-origin")
        .header("Cross-Origin-Opener-Policy", "same-origin")
        .header("Cache-Control", "no-store");
    requireOwnHost(context);
    requireTls(context);
    if (context.method() != HandlerType.GET && context.method() != HandlerType.HEAD) {
      requireOwnOrigin(context);
    }
  }

  private void requireOwnHost(Context context) {
    String host = String.valueOf(context.header("Host")).toLowerCase(Locale.ROOT);
    String name = host.replaceFirst(":\\d+$", "");
    if (!reach.answersAs(name)) {
      throw Refusal.of(
          403, "host", "This desk answers only under its own address, not as “" + host + "”.");
    }
  }

  private void requireTls(Context context) {
    if (reach.behindTls() && !lastForwarded(context, "X-Forwarded-Proto").equals("https")) {
      throw Refusal.of(
          403,
          "host",
          "This desk is reached by https only, through a proxy that says so in"
              + " X-Forwarded-Proto.");
    }
  }

  /** Where a request comes from: behind TLS as the proxy says, else as the network does. */
  String address(Context context) {
    String forwarded = reach.behindTls() ? lastForwarded(context, "X-Forwarded-For") : "";
    return forwarded.isEmpty() ? context.ip() : forwarded;
  }

  /**
   * What the nearest proxy says. It writes at the end; what stands before may be anybody's. The
   * header Forwarded isn't asked: proxies pass on what a stranger writes there.
   */
  private static String lastForwarded(Context context, String header) {
    List<String> lines = new ArrayList<>(Collections.list(context.req().getHeaders(header)));
    String last = lines.isEmpty() ? "" : lines.get(lines.size() - 1);
    return last.substring(last.lastIndexOf(',') + 1).strip();
  }

  private void requireOwnOrigin(Context context) {
    String origin = context.header("Origin");
    if (origin == null) {
      return; // A program, or an old browser; the token decides.
    }
    String host = String.valueOf(context.header("Host"));
    try {
      URI from = URI.create(origin);
      if (host.equalsIgnoreCase(String.valueOf(from.getRawAuthority()))
          && (!reach.behindTls() || "https".equals(from.getScheme()))) {
        return;
      }
    } catch (IllegalArgumentException e) {
      // Not an address at all, so not ours.
    }
    throw Refusal.of(403, "host", "A change must come from the desk's own pages.");
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
            reach.behindTls(),
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
