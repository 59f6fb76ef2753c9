package rakelight.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import io.javalin.Javalin;
import io.javalin.http.Context;
import io.javalin.util.JavalinException;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Semaphore;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;
import rakelight.inscription.Basis;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Condition;
import rakelight.marker.ConditionNote;
import rakelight.marker.ConditionStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.measure.ReaderError;
import rakelight.person.QuestionStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.Proposal;

/** The web server of one archive. Runs from {@link #start} until it is closed. */
public final class Desk implements AutoCloseable {
  /** Free on most machines; nothing well known listens there. */
  public static final int USUAL_PORT = 8340;

  /** Digesting a passphrase takes a third of a second of one core: no more than this at once. */
  private static final int DIGESTS_AT_A_TIME = 2;

  private static final int LONGEST_NAME = 100;
  private static final int LONGEST_QUESTION = 1000;

  /** As many faces of the queue as one looks over. */
  private static final int NEXT_SHOWN = 20;

  private static final String REFUSED = "desk.refused";

  /** Compared with where there is no such reader, so that it takes as long as where there is. */
  private static final Passphrase NOBODY =
      new Passphrase(Passphrase.ITERATIONS, "AAAAAAAAAAAAAAAAAAAAAA==", "");

  private static final Pattern OWN_PAGE = Pattern.compile("(/[a-z0-9-]+){1,4}|/");
  private static final Pattern ASSET = Pattern.compile("[a-z0-9-]{1,40}\\.(css|js|svg|woff2)");
  private static final Map<String, String> ASSET_TYPES =
      Map.of(
          "css", "text/css; charset=utf-8",
          "js", "text/javascript; charset=utf-8",
          "svg", "image/svg+xml",
          "woff2", "font/woff2");

  private final Archive archive;
  private final MarkerStore markers;
  private final PhotoStore photographs;
  private final ReadingStore readings;
  private final ReaderStore readers;
  private final LeftFaceStore leftFaces;
  private final ConditionStore conditions;
  private final Leases leases;
  private final Faces faces;
  private final Queue queue;
  private final Pictures pictures;
  private final MarkerPages markerPages;
  private final Sheets sheets;
  private final Sessions sessions;
  private final SignInLimit signIns;
  private final Semaphore digesting = new Semaphore(DIGESTS_AT_A_TIME);
  private final Door door;
  private final TemplateEngine templates =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, Desk.class.getClassLoader(), "rakelight.desk.pages");
  private final Javalin server;

  private Desk(Archive archive, InetAddress listen, Clock clock) {
    this.archive = archive;
    this.markers = new MarkerStore(archive);
    this.photographs = new PhotoStore(archive);
    this.readings = new ReadingStore(archive);
    this.readers = new ReaderStore(archive);
    this.leftFaces = new LeftFaceStore(archive);
    this.conditions = new ConditionStore(archive);
    this.leases = new Leases(clock);
    this.faces = new Faces(archive, leases);
    this.queue = new Queue(archive, leases);
    this.pictures = new Pictures(archive);
    this.markerPages = new MarkerPages(archive, faces, queue, clock);
    this.sheets = new Sheets(archive, faces, pictures);
    this.sessions = new Sessions(clock);
    this.signIns = new SignInLimit(clock);
    this.door = new Door(sessions, hosts(listen));
    this.server = Javalin.create(config -> config.showJavalinBanner = false);
    server.before(door::enter);
    server.exception(Refusal.class, this::refuse);
    server.exception(ArchiveException.class, (e, context) -> refuse(asRefusal(e), context));
    server.exception(Exception.class, (e, context) -> refuse(fault(e), context));
    server.error(404, this::nothingThere);
    server.error(405, this::nothingThere);
    pages();
    images();
    api();
  }

  private void pages() {
    server.get("/assets/{name}", Desk::asset);
    server.get("/sign-in", this::signInPage);
    server.post("/sign-in", this::signIn);
    server.post("/sign-out", this::signOut);
    server.get("/", this::groundPage);
    server.get("/queue", this::queuePage);
    server.get("/markers/{marker}", context -> markerPage(context, ""));
    server.post("/markers/{marker}/number", this::renumber);
    server.post("/markers/{marker}/condition", this::noteCondition);
    server.post("/markers/{marker}/question", this::raiseQuestion);
    server.post("/markers/{marker}/photograph", this::movePhotograph);
    server.post("/markers/{marker}/undo", this::undo);
    server.get("/markers/{marker}/sheet.pdf", this::sheet);
    server.get("/faces/{face}", context -> readingPage(context, false));
    server.get("/faces/{face}/at-the-stone", context -> readingPage(context, true));
    server.get("/readers", context -> readersPage(context, ""));
    server.post("/readers", this::changeReaders);
  }

  private void images() {
    server.get("/images/photographs/{photograph}", this::photograph);
    server.get(
        "/images/faces/{face}/{proposal}/reliefs/{name}",
        context ->
            send(context, pictures.relief(proposal(context), context.pathParam("name")), "png"));
    server.get(
        "/images/faces/{face}/{proposal}/strips/{line}/{name}",
        context -> {
          String line = context.pathParam("line");
          if (!line.matches("[0-9]{1,4}")) {
            throw Refusal.notFound("picture");
          }
          Proposal proposal = proposal(context);
          send(
              context,
              pictures.strip(proposal, Integer.parseInt(line), context.pathParam("name")),
              "jpeg");
        });
  }

  private void api() {
    server.get("/api/whoami", this::whoAmI);
    server.get("/api/ground", this::ground);
    server.get("/api/next", this::next);
    server.get("/api/other-light", this::otherLight);
    server.get(
        "/api/faces/{face}",
        context -> {
          Face face = face(context);
          answer(context, face, faces.open(face, by(context)));
        });
    change(
        "decide",
        (face, by, body) -> {
          Fields ask = Fields.of(body, Deciding.FIELDS);
          return faces.change(face, by, ask.text("version"), Deciding.of(ask));
        });
    change(
        "undo",
        (face, by, body) -> faces.undo(face, by, Fields.of(body, "version").text("version")));
    change(
        "redo",
        (face, by, body) -> faces.redo(face, by, Fields.of(body, "version").text("version")));
    change(
        "reopen",
        (face, by, body) -> {
          Fields.of(body);
          return faces.reopen(face, by);
        });
    change(
        "sign",
        (face, by, body) -> {
          Fields ask = Fields.of(body, "version", "basis", "before");
          return faces.sign(face, by, ask.text("version"), basis(ask), before(ask));
        });
    change(
        "hold",
        (face, by, body) -> {
          Fields.of(body);
          faces.hold(face, by);
          return faces.look(face, by);
        });
    change(
        "let-go",
        (face, by, body) -> {
          Fields.of(body);
          faces.letGo(face, by);
          return faces.look(face, by);
        });
    server.post("/api/faces/{face}/skip", this::skip);
    server.post("/api/faces/{face}/leave", this::leave);
    server.post("/api/faces/{face}/come-back", this::comeBack);
  }

  /** What a request does with a face; answered with the face as it is afterwards. */
  @FunctionalInterface
  private interface FaceChange {
    Work of(Face face, Faces.By by, String body);
  }

  private void change(String name, FaceChange change) {
    server.post(
        "/api/faces/{face}/" + name,
        context -> {
          String body = changing(context);
          Face face = face(context);
          Faces.By by = by(context);
          try {
            answer(context, face, change.of(face, by, body));
          } catch (Refusal refusal) {
            throw refusal.code().equals("changed") || refusal.code().equals("superseded")
                ? refusal.with("face", json(face, faces.look(face, by)))
                : refusal;
          }
        });
  }

  /**
   * Opens the desk.
   *
   * @param port 0 for any free one
   * @throws ArchiveException if others could reach it and no reader has a passphrase, or the port
   *     isn't free
   */
  public static Desk start(Archive archive, InetAddress listen, int port, Clock clock) {
    Desk desk = new Desk(archive, listen, clock);
    if (!listen.isLoopbackAddress() && desk.readers.all().isEmpty()) {
      throw new ArchiveException(
          "Others could reach this desk, and nobody has a passphrase yet. Name readers first:"
              + " readers "
              + archive.root()
              + " add NAME --role archivist");
    }
    try {
      desk.server.start(listen.getHostAddress(), port);
    } catch (JavalinException e) {
      throw new ArchiveException(
          "The desk can't listen at "
              + listen.getHostAddress()
              + ":"
              + port
              + "; another program may have the port. Give another with --port.",
          e);
    }
    return desk;
  }

  /** The port it listens on. */
  public int port() {
    return server.port();
  }

  /** Waits until it has been closed. */
  public void await() throws InterruptedException {
    server.jettyServer().server().join();
  }

  /** Lets the requests under way finish, then stops. */
  @Override
  public void close() {
    server.stop();
  }

  private static Set<String> hosts(InetAddress listen) {
    if (!listen.isLoopbackAddress()) {
      return Set.of();
    }
    Set<String> hosts = new HashSet<>(Set.of("localhost", "127.0.0.1", "[::1]"));
    hosts.add(listen.getHostAddress());
    return hosts;
  }

  private void refuse(Refusal refusal, Context context) {
    context.status(refusal.status());
    context.attribute(REFUSED, true);
    boolean page =
        !context.path().startsWith("/api/")
            && String.valueOf(context.header("Accept")).contains("text/html");
    if (page && refusal.status() == 401) {
      context.redirect("/sign-in");
    } else if (page) {
      show(context, "refused", Map.of("message", String.valueOf(refusal.getMessage())));
    } else {
      json(context, refusal.body());
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
    showSignIn(context, "", then(context.queryParam("then")));
  }

  private void showSignIn(Context context, String message, String then) {
    show(
        context,
        "sign-in",
        Map.of("message", message, "passphrase", !readers.all().isEmpty(), "then", then));
  }

  /** Where to go after signing in: a page of the desk, never elsewhere. */
  private static String then(@Nullable String wished) {
    return wished != null && OWN_PAGE.matcher(wished).matches() ? wished : "/";
  }

  private void signIn(Context context) {
    Map<String, String> form = form(context);
    Session session =
        door.session(context)
            .orElseThrow(() -> Refusal.of(403, "token", "Load the sign-in page again."));
    Door.requireToken(session, form.getOrDefault("token", ""));
    String name = form.getOrDefault("name", "").strip();
    if (name.isEmpty() || name.length() > LONGEST_NAME || name.equals(Decision.PROGRAM)) {
      throw Refusal.malformed("Give your name, in " + LONGEST_NAME + " signs at most.");
    }
    if (readers.all().isEmpty()) {
      door.give(context, sessions.signIn(session, name, Role.ARCHIVIST));
      context.redirect(then(form.get("then")));
      return;
    }
    List<String> keys = List.of("name " + name.toLowerCase(Locale.ROOT), "from " + context.ip());
    for (String key : keys) {
      Duration wait = signIns.wait(key);
      if (!wait.isZero()) {
        throw Refusal.of(429, "too-often", "Too many sign-ins failed. Wait a quarter of an hour.")
            .with("retryAfterSeconds", wait.toSeconds() + 1);
      }
    }
    Optional<NamedReader> reader = readers.find(name);
    Passphrase digest = reader.flatMap(known -> readers.passphrase(known.name())).orElse(NOBODY);
    digesting.acquireUninterruptibly();
    boolean right;
    try {
      right = digest.matches(form.getOrDefault("passphrase", "").toCharArray());
    } finally {
      digesting.release();
    }
    if (reader.isEmpty() || !right) {
      keys.forEach(signIns::failed);
      context.status(401);
      showSignIn(context, "Name and passphrase don't go together.", then(form.get("then")));
      return;
    }
    keys.forEach(signIns::succeeded);
    door.give(context, sessions.signIn(session, reader.get().name(), reader.get().role()));
    context.redirect(then(form.get("then")));
  }

  private void signOut(Context context) {
    Session session = door.signedIn(context);
    Door.requireToken(session, form(context).getOrDefault("token", ""));
    sessions.end(session);
    door.takeBack(context);
    context.redirect("/sign-in");
  }

  private void groundPage(Context context) {
    by(context);
    List<Queue.Item> items = queue.all();
    Map<FaceState, Integer> counts = Queue.progress(items);
    Map<MarkerId, ConditionNote> noted = conditions.newest();
    Map<MarkerId, List<GroundPage.FaceLine>> byMarker = new HashMap<>();
    for (Queue.Item item : items) {
      byMarker
          .computeIfAbsent(item.marker().id(), id -> new ArrayList<>())
          .add(
              new GroundPage.FaceLine(
                  item.face().id().toString(),
                  item.face().name(),
                  item.state().label(),
                  FaceViews.words(item.state())));
    }
    show(
        context,
        "ground",
        Map.of(
            "ground",
            new GroundPage(
                items.size(),
                counts.getOrDefault(FaceState.SETTLED, 0),
                counts.entrySet().stream()
                    .map(one -> new GroundPage.Count(FaceViews.words(one.getKey()), one.getValue()))
                    .toList(),
                markers.markers().stream()
                    .map(
                        row ->
                            new GroundPage.MarkerLine(
                                row.id().toString(),
                                row.number(),
                                Optional.ofNullable(noted.get(row.id()))
                                    .map(ConditionNote::unsafe)
                                    .orElse(""),
                                byMarker.getOrDefault(row.id(), List.of())))
                    .toList())));
  }

  private void queuePage(Context context) {
    Session session = door.signedIn(context);
    Faces.By by = by(context);
    Queue.By order = order(context);
    List<Queue.Item> waiting = queue.waiting(by.reader(), session.skipped(), order);
    List<Queue.Item> all = queue.all();
    List<QueuePage.Waiting> otherLight = new ArrayList<>();
    List<QueuePage.Waiting> unreadable = new ArrayList<>();
    List<QueuePage.Waiting> aside = new ArrayList<>();
    for (Queue.Item item : all) {
      boolean mine = item.left().filter(left -> left.reader().equals(by.reader())).isPresent();
      if (item.state() == FaceState.OTHER_LIGHT) {
        otherLight.add(waiting(item, item.left().map(LeftFace::note).orElse("")));
      } else if (item.state() != FaceState.SETTLED && mine) {
        aside.add(waiting(item, "left for another reader"));
      } else if (session.skipped().contains(item.face().id())) {
        aside.add(waiting(item, "skipped for today"));
      } else if (item.isUnreadable()) {
        unreadable.add(waiting(item, item.why()));
      }
    }
    show(
        context,
        "queue",
        Map.of(
            "queue",
            new QueuePage(
                order.label(),
                waiting.size(),
                waiting.stream().limit(NEXT_SHOWN).map(item -> waiting(item, item.why())).toList(),
                otherLight,
                unreadable,
                aside,
                all.size(),
                Queue.progress(all).getOrDefault(FaceState.SETTLED, 0))));
  }

  private static QueuePage.Waiting waiting(Queue.Item item, String why) {
    return new QueuePage.Waiting(
        item.face().id().toString(), item.marker().number(), item.face().name(), why);
  }

  private static Queue.By order(Context context) {
    return Queue.By.of(Optional.ofNullable(context.queryParam("by")).orElse("hardest"))
        .orElseThrow(() -> Refusal.malformed("“by” is hardest, names, marker or plot."));
  }

  private void markerPage(Context context, String message) {
    Faces.By by = by(context);
    show(
        context,
        "marker",
        Map.of("marker", markerPages.of(marker(context), by), "message", message));
  }

  private void renumber(Context context) {
    Map<String, String> form = decidingForm(context);
    Marker marker = marker(context);
    String number = form.getOrDefault("number", "").strip();
    if (number.isEmpty() || number.length() > LONGEST_NAME) {
      throw Refusal.malformed("Give the marker's number.");
    }
    correct(context, marker, () -> markers.renumber(marker.id(), number, by(context).reader()));
  }

  private void noteCondition(Context context) {
    Map<String, String> form = decidingForm(context);
    Marker marker = marker(context);
    LocalDate on;
    try {
      on = LocalDate.parse(form.getOrDefault("on", ""));
    } catch (DateTimeParseException e) {
      throw Refusal.malformed("Give the day it was seen, such as 2025-04-30.");
    }
    List<Condition> words =
        Arrays.stream(Condition.values()).filter(word -> form.containsKey(word.name())).toList();
    correct(
        context,
        marker,
        () ->
            conditions.note(
                marker.id(), on, words, form.getOrDefault("remark", ""), by(context).reader()));
  }

  private void raiseQuestion(Context context) {
    Map<String, String> form = decidingForm(context);
    Marker marker = marker(context);
    String words = form.getOrDefault("words", "");
    if (words.length() > LONGEST_QUESTION) {
      throw Refusal.malformed("A question has " + LONGEST_QUESTION + " signs at most.");
    }
    correct(
        context,
        marker,
        () ->
            new QuestionStore(archive)
                .raise(words, Optional.of(marker.number()), by(context).reader()));
  }

  /** Puts a photograph of this marker to a face of another, or to another face of this one. */
  private void movePhotograph(Context context) {
    Map<String, String> form = decidingForm(context);
    Marker marker = marker(context);
    Photograph photograph = shot(form.getOrDefault("photograph", ""));
    String number = form.getOrDefault("number", "").strip();
    String name = form.getOrDefault("face", "").strip();
    if (number.length() > LONGEST_NAME || name.length() > LONGEST_NAME) {
      throw Refusal.malformed("A number or a face has " + LONGEST_NAME + " signs at most.");
    }
    String reader = by(context).reader();
    try {
      if (markers.byNumber(number).isEmpty() && !form.containsKey("new")) {
        throw new ArchiveException(
            "There is no marker " + number + " here. If it is a new one, say so.");
      }
      Face onto =
          archive
              .ledger()
              .write(
                  handle -> {
                    Face face = photographs.faceOf(number, name, reader);
                    photographs.assign(
                        photograph.id(), face.id(), Optional.empty(), "person", reader);
                    return face;
                  });
      context.redirect("/markers/" + onto.marker());
    } catch (ArchiveException | IllegalArgumentException e) {
      context.status(422);
      markerPage(context, String.valueOf(e.getMessage()));
    }
  }

  private void undo(Context context) {
    Map<String, String> form = decidingForm(context);
    Marker marker = marker(context);
    Faces.By by = by(context);
    Decision decision;
    try {
      decision =
          archive
              .journal()
              .find(DecisionId.of(form.getOrDefault("decision", "")))
              .filter(found -> markerPages.mayUndo(marker, found, by))
              .orElseThrow(() -> Refusal.notFound("decision you can take back"));
    } catch (IllegalArgumentException e) {
      throw Refusal.notFound("decision you can take back");
    }
    correct(context, marker, () -> archive.journal().undo(decision.id(), by.reader()));
  }

  /** Makes a change and shows the marker again, with the reason where it couldn't be made. */
  private void correct(Context context, Marker marker, Runnable change) {
    try {
      change.run();
      context.redirect("/markers/" + marker.id());
    } catch (ArchiveException e) {
      context.status(422);
      markerPage(context, String.valueOf(e.getMessage()));
    }
  }

  private void sheet(Context context) throws IOException {
    Faces.By by = by(context);
    Marker marker = marker(context);
    ByteArrayOutputStream pdf = new ByteArrayOutputStream();
    sheets.write(List.of(marker), by, pdf);
    context
        .header("Content-Disposition", "inline; filename=\"sheet.pdf\"")
        .contentType("application/pdf")
        .result(pdf.toByteArray());
  }

  private void readingPage(Context context, boolean atStone) {
    by(context);
    Face face = face(context);
    Marker marker = marker(face.marker());
    String unsafe = conditions.newest(marker.id()).map(ConditionNote::unsafe).orElse("");
    show(
        context,
        "reading",
        Map.of("face", face, "marker", marker, "atStone", atStone, "unsafe", unsafe));
  }

  private void readersPage(Context context, String message) {
    requireArchivist(context);
    show(
        context,
        "readers",
        Map.of(
            "readers",
            new ReadersPage(
                readers.all(), ReaderError.byReader(readings), readings.required(), message)));
  }

  private void changeReaders(Context context) {
    Map<String, String> form = decidingForm(context);
    String by = requireArchivist(context).reader();
    String name = form.getOrDefault("name", "");
    String message;
    try {
      message =
          switch (form.getOrDefault("do", "")) {
            case "admit" -> admit(name, form, by);
            case "dismiss" -> {
              readers.dismiss(name, by);
              yield name + " can't sign in any more; what they decided stays.";
            }
            case "require" -> {
              readings.require(form.getOrDefault("readings", "1").equals("2") ? 2 : 1, by);
              yield "Kept.";
            }
            default -> throw Refusal.malformed("This form can't be read.");
          };
    } catch (ArchiveException e) {
      message = String.valueOf(e.getMessage());
    }
    if (readers.all().isEmpty() || readers.find(by).isPresent()) {
      readersPage(context, message);
    } else {
      context.redirect("/sign-in"); // Names are asked for from now on, or one's own has gone.
    }
  }

  private String admit(String name, Map<String, String> form, String by) {
    Role role =
        Role.of(form.getOrDefault("role", ""))
            .orElseThrow(() -> Refusal.malformed("A role is archivist, reader or guest."));
    if (readers.all().isEmpty() && role != Role.ARCHIVIST) {
      throw new ArchiveException(
          "The first reader must be an archivist, or nobody could add more.");
    }
    digesting.acquireUninterruptibly();
    try {
      readers.admit(name, role, form.getOrDefault("passphrase", "").toCharArray(), by);
    } finally {
      digesting.release();
    }
    return name.strip() + " can sign in.";
  }

  private Faces.By requireArchivist(Context context) {
    Faces.By by = by(context);
    if (by.role() != Role.ARCHIVIST) {
      throw Refusal.of(403, "role", "Only an archivist may do this.");
    }
    return by;
  }

  /** A form that changes something, if it comes from a page of the session. */
  private Map<String, String> decidingForm(Context context) {
    Map<String, String> form = form(context);
    Door.requireToken(door.signedIn(context), form.getOrDefault("token", ""));
    deciding(context);
    return form;
  }

  private void whoAmI(Context context) {
    Session session = door.signedIn(context);
    Faces.By by = by(context);
    json(
        context,
        object()
            .put("reader", by.reader())
            .put("role", by.role().label())
            .put("ground", archive.ground().name())
            .put("token", session.token()));
  }

  private void ground(Context context) {
    by(context);
    List<Queue.Item> items = queue.all();
    ObjectNode answer =
        object()
            .put("ground", archive.ground().name())
            .put("readingsRequired", readings.required());
    ObjectNode progress = answer.putObject("progress").put("faces", items.size());
    Map<FaceState, Integer> counts = Queue.progress(items);
    for (FaceState state : FaceState.values()) {
      progress.put(state.label(), counts.getOrDefault(state, 0));
    }
    ArrayNode markers = answer.putArray("markers");
    Map<MarkerId, ArrayNode> byMarker = new HashMap<>();
    for (Queue.Item item : items) {
      byMarker
          .computeIfAbsent(
              item.marker().id(),
              id ->
                  markers
                      .addObject()
                      .put("id", id.toString())
                      .put("number", item.marker().number())
                      .putArray("faces"))
          .addObject()
          .put("face", item.face().id().toString())
          .put("name", item.face().name())
          .put("state", item.state().label());
    }
    json(context, answer);
  }

  private void next(Context context) {
    Session session = door.signedIn(context);
    Faces.By by = by(context);
    Queue.Next next = queue.next(by.reader(), session.skipped(), order(context));
    ObjectNode answer = object();
    next.item()
        .ifPresent(
            item ->
                answer
                    .put("face", item.face().id().toString())
                    .put("marker", item.marker().number())
                    .put("name", item.face().name())
                    .put("task", item.state() == FaceState.TO_SETTLE ? "settle" : "read")
                    .put("why", item.why()));
    json(context, answer.put("left", next.left()));
  }

  private void otherLight(Context context) {
    by(context);
    ObjectNode answer = object();
    ArrayNode list = answer.putArray("faces");
    for (Queue.Item item : queue.all()) {
      if (item.state() == FaceState.OTHER_LIGHT && item.left().isPresent()) {
        list.addObject()
            .put("face", item.face().id().toString())
            .put("marker", item.marker().number())
            .put("name", item.face().name())
            .put("note", item.left().get().note())
            .put("reader", item.left().get().reader())
            .put("at", item.left().get().at().toString());
      }
    }
    json(context, answer);
  }

  private void skip(Context context) {
    Fields.of(changing(context));
    Face face = face(context);
    Faces.By by = by(context);
    door.signedIn(context).skipped().add(face.id());
    faces.letGo(face, by);
    json(context, object());
  }

  private void leave(Context context) {
    Fields ask = Fields.of(changing(context), "for", "note");
    Face face = face(context);
    Faces.By by = deciding(context);
    LeftFace.Why why =
        switch (ask.text("for")) {
          case "another-reader" -> LeftFace.Why.ANOTHER_READER;
          case "other-light" -> LeftFace.Why.OTHER_LIGHT;
          default -> throw Refusal.malformed("“for” is another-reader or other-light.");
        };
    leftFaces.leave(face.id(), why, ask.optionalText("note").orElse("").strip(), by.reader());
    faces.letGo(face, by);
    json(context, object());
  }

  private void comeBack(Context context) {
    Fields.of(changing(context));
    Face face = face(context);
    Faces.By by = deciding(context);
    door.signedIn(context).skipped().remove(face.id());
    leftFaces.comeBack(face.id(), by.reader());
    json(context, object());
  }

  private void photograph(Context context) throws IOException {
    by(context);
    String longest = Optional.ofNullable(context.queryParam("longest")).orElse("1600");
    if (!longest.matches("[0-9]{1,5}")
        || !Pictures.LONGEST_PX.contains(Integer.parseInt(longest))) {
      throw Refusal.malformed("“longest” is 800, 1600 or 3200.");
    }
    send(
        context,
        pictures.photograph(shot(context.pathParam("photograph")), Integer.parseInt(longest)),
        "jpeg");
  }

  private Photograph shot(String id) {
    try {
      return photographs
          .photograph(PhotographId.of(id))
          .orElseThrow(() -> Refusal.notFound("photograph"));
    } catch (IllegalArgumentException e) {
      throw Refusal.notFound("photograph");
    }
  }

  private Proposal proposal(Context context) {
    by(context);
    Face face = face(context);
    try {
      return faces
          .proposal(face.id(), ProposalId.of(context.pathParam("proposal")))
          .orElseThrow(() -> Refusal.notFound("picture"));
    } catch (IllegalArgumentException e) {
      throw Refusal.notFound("picture");
    }
  }

  /** A derived picture; what an address shows never changes. */
  private static void send(Context context, Path picture, String type) throws IOException {
    context
        .header("Cache-Control", "private, max-age=86400")
        .contentType("image/" + type)
        .result(Files.newInputStream(picture));
  }

  private static Basis basis(Fields ask) {
    Fields given = ask.object("basis", "kind", "date", "light", "witness");
    Basis.Kind kind =
        Basis.Kind.of(given.text("kind"))
            .orElseThrow(() -> Refusal.malformed("“kind” is photographs, stone or earlier."));
    try {
      return new Basis(
          kind,
          given.optionalText("date").map(LocalDate::parse),
          given.optionalText("light"),
          given.optionalText("witness"));
    } catch (DateTimeException e) {
      throw Refusal.malformed("“date” must be a day such as 2025-04-30.");
    } catch (IllegalArgumentException e) {
      throw Refusal.refused(
          kind == Basis.Kind.EARLIER
              ? "Name the earlier witness: a list, a rubbing, a register."
              : "A witness goes with the basis “earlier” only.");
    }
  }

  private static Optional<ReadingId> before(Fields ask) {
    try {
      return ask.optionalText("before").map(ReadingId::of);
    } catch (IllegalArgumentException e) {
      throw Refusal.malformed("“before” must be the id of a reading.");
    }
  }

  private void answer(Context context, Face face, Work work) {
    json(context, json(face, work));
  }

  private ObjectNode json(Face face, Work work) {
    Optional<Leases.Lease> taken = faces.takenBy(work);
    return FaceJson.of(
        work,
        marker(face.marker()),
        queue.state(face),
        queue.photographs(face),
        taken.isPresent() ? taken : leases.of(face.id(), work.reader()),
        faces.canRedo(work));
  }

  private static ObjectNode object() {
    return Json.mapper().createObjectNode().put("schema", 1);
  }

  private static void json(Context context, ObjectNode answer) {
    context.contentType("application/json; charset=utf-8").result(Json.text(answer));
  }

  /** The body of a request that changes something, if it comes from a page of the session. */
  private String changing(Context context) {
    Session session = door.signedIn(context);
    Door.requireToken(session, Optional.ofNullable(context.header(Door.TOKEN)).orElse(""));
    String type = String.valueOf(context.contentType()).toLowerCase(Locale.ROOT);
    if (!type.split(";", -1)[0].strip().equals("application/json")) {
      throw Refusal.of(415, "media-type", "The body must be application/json.");
    }
    return Door.body(context);
  }

  /** Who asks, as what he may do by now. */
  private Faces.By by(Context context) {
    Session session = door.signedIn(context);
    String reader = session.reader().orElseThrow();
    List<NamedReader> named = readers.all();
    if (named.isEmpty()) {
      return new Faces.By(reader, session.role());
    }
    return named.stream()
        .filter(one -> one.name().equals(reader))
        .findFirst()
        .map(one -> new Faces.By(one.name(), one.role()))
        .orElseThrow(() -> Refusal.of(401, "sign-in", "Sign in again; your way in has changed."));
  }

  private Faces.By deciding(Context context) {
    Faces.By by = by(context);
    if (!by.role().mayDecide()) {
      throw Refusal.of(403, "role", "A guest may look, but not decide.");
    }
    return by;
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

  private Marker marker(Context context) {
    try {
      return marker(MarkerId.of(context.pathParam("marker")));
    } catch (IllegalArgumentException e) {
      throw Refusal.notFound("marker");
    }
  }

  private Marker marker(MarkerId id) {
    return markers.marker(id).orElseThrow(() -> Refusal.notFound("marker"));
  }

  private static Refusal asRefusal(ArchiveException e) {
    return Refusal.refused(String.valueOf(e.getMessage()));
  }

  private static Refusal fault(Exception e) {
    StackTraceElement[] trace = e.getStackTrace();
    System.err.println(
        "A fault of the desk, please report it: "
            + e
            + (trace.length == 0 ? "" : " at " + trace[0]));
    return Refusal.of(500, "fault", "A fault of this program; what you did before is kept.");
  }

  private void nothingThere(Context context) {
    if (context.attribute(REFUSED) == null) {
      refuse(
          context.statusCode() == 405
              ? Refusal.of(405, "method", "This address doesn't take that.")
              : Refusal.notFound("address"),
          context);
    }
  }

  private boolean isArchivist(Session session) {
    String reader = session.reader().orElse("");
    return readers.find(reader).map(NamedReader::role).orElse(session.role()) == Role.ARCHIVIST;
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
            session.map(Session::token).orElse(""),
            session.filter(this::isArchivist).isPresent()));
    StringOutput html = new StringOutput();
    templates.render(template + ".jte", all, html);
    context.contentType("text/html; charset=utf-8").result(html.toString());
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
