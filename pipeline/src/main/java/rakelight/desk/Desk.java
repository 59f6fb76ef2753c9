package rakelight.desk;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import io.javalin.Javalin;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.eclipse.jetty.server.Server;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.photo.Face;
import rakelight.photo.MarkerRow;
import rakelight.photo.PhotoStore;

/** The web server of one archive. Runs from {@link #start} until it is closed. */
public final class Desk implements AutoCloseable {
  /** Free on most machines; nothing well known listens there. */
  public static final int USUAL_PORT = 8340;

  private static final Pattern ASSET = Pattern.compile("[a-z0-9-]{1,40}\\.(css|js|svg|woff2)");
  private static final Map<String, String> ASSET_TYPES =
      Map.of(
          "css", "text/css; charset=utf-8",
          "js", "text/javascript; charset=utf-8",
          "svg", "image/svg+xml",
          "woff2", "font/woff2");

  private final Archive archive;
  private final PhotoStore photographs;
  private final Sessions sessions;
  private final Door door;
  private final TemplateEngine templates =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, Desk.class.getClassLoader(), "rakelight.desk.pages");
  private final Javalin server;

  private Desk(Archive archive, InetAddress listen, Clock clock) {
    this.archive = archive;
    this.photographs = new PhotoStore(archive);
    this.sessions = new Sessions(clock);
    this.door = new Door(sessions, hosts(listen));
    this.server = Javalin.create(config -> config.showJavalinBanner = false);
    server.before(door::enter);
    server.exception(Refusal.class, this::refuse);
    server.get("/assets/{name}", Desk::asset);
    server.get("/sign-in", this::signInPage);
    server.post("/sign-in", this::signIn);
    server.post("/sign-out", this::signOut);
    server.get("/", this::groundPage);
    server.get("/faces/{face}", this::readingPage);
  }

  /**
   * Opens the desk.
   *
   * @param port 0 for any free one
   */
  public static Desk start(Archive archive, InetAddress listen, int port, Clock clock) {
    Desk desk = new Desk(archive, listen, clock);
    desk.server.start(listen.getHostAddress(), port);
    return desk;
  }

  /** The port it listens on. */
  public int port() {
    return server.port();
  }

  /** Waits until it has been closed. */
  public void await() throws InterruptedException {
    Server jetty = server.jettyServer().server();
    jetty.join();
  }

  /** Lets the requests under way finish, then stops. */
  @Override
  public void close() {
    server.stop();
  }

  private static Set<String> hosts(InetAddress listen) {
    return listen.isLoopbackAddress()
        ? Set.of("localhost", "127.0.0.1", "[::1]", listen.getHostAddress())
        : Set.of();
  }

  private void refuse(Refusal refusal, Context context) {
    context.status(refusal.status());
    boolean page =
        !context.path().startsWith("/api/")
            && String.valueOf(context.header("Accept")).contains("text/html");
    if (page && refusal.status() == 401) {
      context.redirect("/sign-in");
    } else if (page) {
      show(context, "refused", Map.of("message", String.valueOf(refusal.getMessage())));
    } else {
      context.json(refusal.body().toString()).contentType("application/json");
    }
  }

  private static void asset(Context context) throws IOException {
    String name = context.pathParam("name");
    if (!ASSET.matcher(name).matches()) {
      throw Refusal.notFound("file");
    }
    try (InputStream in = Desk.class.getResourceAsStream("assets/" + name)) {
      if (in == null) {
        throw Refusal.notFound("file");
      }
      context
          .header("Cache-Control", "no-cache")
          .contentType(String.valueOf(ASSET_TYPES.get(name.substring(name.lastIndexOf('.') + 1))))
          .result(in.readAllBytes());
    }
  }

  private void signInPage(Context context) {
    door.any(context);
    show(context, "sign-in", Map.of("message", "", "passphrase", false));
  }

  private void signIn(Context context) {
    Map<String, String> form = form(context);
    Session session =
        door.session(context)
            .orElseThrow(() -> Refusal.of(403, "token", "Load the sign-in page again."));
    Door.requireToken(session, form.getOrDefault("token", ""));
    String name = form.getOrDefault("name", "").strip();
    if (name.isEmpty() || name.length() > 100) {
      throw Refusal.malformed("Give your name.");
    }
    door.give(context, sessions.signIn(session, name, Role.ARCHIVIST));
    context.redirect("/");
  }

  private void signOut(Context context) {
    Session session = door.signedIn(context);
    Door.requireToken(session, form(context).getOrDefault("token", ""));
    sessions.end(session);
    door.takeBack(context);
    context.redirect("/sign-in");
  }

  private void groundPage(Context context) {
    door.signedIn(context);
    show(context, "ground", Map.of("markers", photographs.markers(), "photographs", photographs));
  }

  private void readingPage(Context context) {
    door.signedIn(context);
    Face face = face(context);
    MarkerRow marker = marker(face.marker());
    show(context, "reading", Map.of("face", face, "marker", marker));
  }

  private Face face(Context context) {
    try {
      return photographs
          .face(FaceId.of(context.pathParam("face")))
          .orElseThrow(() -> Refusal.notFound("face"));
    } catch (IllegalArgumentException e) {
      throw Refusal.notFound("face");
    }
  }

  private MarkerRow marker(MarkerId id) {
    return photographs.marker(id).orElseThrow(() -> Refusal.notFound("marker"));
  }

  /** Answers with a page; every template takes a {@link Page} beside its own parameters. */
  private void show(Context context, String template, Map<String, Object> parameters) {
    Optional<Session> session = door.session(context);
    Map<String, Object> all = new HashMap<>(parameters);
    all.put(
        "page",
        new Page(
            archive.ground().name(),
            session.flatMap(Session::reader).orElse(""),
            session.map(Session::token).orElse("")));
    StringOutput html = new StringOutput();
    templates.render(template + ".jte", all, html);
    context.html(html.toString());
  }

  private static Map<String, String> form(Context context) {
    Map<String, String> fields = new HashMap<>();
    for (String pair : Door.body(context).split("&", -1)) {
      int equals = pair.indexOf('=');
      if (equals > 0) {
        try {
          fields.put(
              URLDecoder.decode(pair.substring(0, equals), StandardCharsets.UTF_8),
              URLDecoder.decode(pair.substring(equals + 1), StandardCharsets.UTF_8));
        } catch (IllegalArgumentException e) {
          throw Refusal.malformed("This form can't be read.");
        }
      }
    }
    return fields;
  }
}
