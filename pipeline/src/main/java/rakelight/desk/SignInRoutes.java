package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.work.Passphrase;
import rakelight.work.ReaderStore;
import rakelight.work.Role;
import rakelight.work.WayIn;

/** Signing in and out. */
final class SignInRoutes {
  private static final int LONGEST_NAME = 100;

  /** Compared with where there is no such reader, so that it takes as long as where there is. */
  private static final Passphrase NOBODY =
      new Passphrase(Passphrase.ITERATIONS, "AAAAAAAAAAAAAAAAAAAAAA==", "");

  private static final Pattern OWN_PAGE = Pattern.compile("(/[a-z0-9-]+){1,4}|/");
  private final Door door;
  private final Sessions sessions;
  private final Pages pages;
  private final ReaderStore readers;
  private final SignInLimit signIns;
  private final Digesting digesting;

  SignInRoutes(
      Archive archive,
      Door door,
      Sessions sessions,
      Pages pages,
      Digesting digesting,
      Clock clock) {
    this.door = door;
    this.sessions = sessions;
    this.pages = pages;
    this.readers = new ReaderStore(archive);
    this.signIns = new SignInLimit(clock);
    this.digesting = digesting;
  }

  void addTo(Javalin server) {
    server.get("/sign-in", this::page);
    server.post("/sign-in", this::signIn);
    server.post("/sign-out", this::signOut);
  }

  private void page(Context context) {
    door.any(context);
    showSignIn(context, "", then(context.queryParam("then")));
  }

  private void showSignIn(Context context, String message, String then) {
    pages.show(
        context,
        "sign-in",
        Map.of("message", message, "passphrase", readers.isAnybodyNamed(), "then", then));
  }

  /** Where to go after signing in: a page of the desk, never elsewhere. */
  private static String then(@Nullable String wished) {
    return wished != null && OWN_PAGE.matcher(wished).matches() ? wished : "/";
  }

  private void signIn(Context context) {
    Map<String, String> form = Requests.form(context);
    Session session =
        door.session(context)
            .orElseThrow(() -> Refusal.of(403, "token", "Load the sign-in page again."));
    Door.requireToken(session, form.getOrDefault("token", ""));
    String name = form.getOrDefault("name", "").strip();
    if (name.isEmpty() || name.length() > LONGEST_NAME || name.equals(Decision.PROGRAM)) {
      throw Refusal.malformed("Give your name, in " + LONGEST_NAME + " signs at most.");
    }
    if (!readers.isAnybodyNamed()) {
      door.give(context, sessions.signIn(session, name, Role.ARCHIVIST));
      context.redirect(then(form.get("then")));
      return;
    }
    String address = door.address(context);
    Duration wait = signIns.ask(name, address);
    if (!wait.isZero()) {
      throw tooOften(context, wait.toSeconds() + 1);
    }
    Optional<WayIn> wayIn = readers.wayIn(name);
    Passphrase digest = wayIn.map(WayIn::passphrase).orElse(NOBODY);
    char[] passphrase = form.getOrDefault("passphrase", "").toCharArray();
    boolean right = digesting.of(() -> digest.matches(passphrase));
    if (wayIn.isEmpty() || !right) {
      context.status(401);
      showSignIn(context, "Name and passphrase don't go together.", then(form.get("then")));
      return;
    }
    signIns.right(name, address);
    door.give(context, sessions.signIn(session, wayIn.get()));
    context.redirect(then(form.get("then")));
  }

  private static Refusal tooOften(Context context, long seconds) {
    context.header("Retry-After", Long.toString(seconds));
    return Refusal.of(
            429,
            "too-often",
            "Too many sign-ins under this name failed here. Wait "
                + (seconds < 120 ? seconds + " seconds" : (seconds + 59) / 60 + " minutes")
                + ", then try again.")
        .with("retryAfterSeconds", seconds);
  }

  private void signOut(Context context) {
    Session session = door.signedIn(context);
    Door.requireToken(session, Requests.form(context).getOrDefault("token", ""));
    sessions.end(session);
    door.takeBack(context);
    // Pictures and pages that were seen mustn't come back by the browser's own cache.
    context.header("Clear-Site-Data", "\"cache\"").redirect("/sign-in");
  }
}
