package rakelight.desk;

import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.SameSite;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.Optional;

/**
 * What tells whoever started the program from others who use the same machine: only he sees the
 * address with the key, and his browser keeps it. With it come the folders of this machine.
 *
 * @param value secret
 */
record EntranceKey(String value) {
  static final String FIELD = "key";
  private static final String COOKIE = "entrance";
  private static final int BYTES = 24;

  static EntranceKey fresh() {
    byte[] bytes = new byte[BYTES];
    new SecureRandom().nextBytes(bytes);
    return new EntranceKey(Base64.getUrlEncoder().withoutPadding().encodeToString(bytes));
  }

  boolean is(String tried) {
    return MessageDigest.isEqual(
        value.getBytes(StandardCharsets.UTF_8), tried.getBytes(StandardCharsets.UTF_8));
  }

  boolean isHeld(Context context) {
    return is(Optional.ofNullable(context.cookie(COOKIE)).orElse(""));
  }

  void require(Context context) {
    if (!isHeld(context)) {
      throw Refusal.of(
          403, "key", "This page is for whoever started the program: start it again to come here.");
    }
  }

  /** Lasts as long as the browser is open. A cookie holds for every port of this machine. */
  void give(Context context) {
    context.cookie(new Cookie(COOKIE, value, "/", -1, false, 0, true, null, null, SameSite.STRICT));
  }

  @Override
  public String toString() {
    return "EntranceKey";
  }
}
