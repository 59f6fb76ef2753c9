package rakelight.desk;

import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import java.net.URI;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;

/**
 * What every request passes first, whoever sends it. A foreign Host is refused, so that no page
 * elsewhere can reach a server on loopback through a name of its own; every change must come from
 * the server's own pages; pages may load nothing but its own files and run no script within the
 * page; nothing that is sent may be kept by a browser, unless it says so itself.
 *
 * @param formsTo where its forms may lead besides itself, as a source of a content security policy;
 *     empty for nowhere
 */
record Threshold(Reach reach, String formsTo) {
  /** Before everything else. */
  void enter(Context context) {
    context
        .header(
            "Content-Security-Policy",
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:;"
                + " font-src 'self'; connect-src 'self'; form-action "
                + ("'self' " + formsTo).strip()
                + "; base-uri 'none'; frame-ancestors 'none'")
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
}
