package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.http.Context;
import io.javalin.util.JavalinException;
import java.net.InetAddress;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.concurrent.CountDownLatch;
import org.jspecify.annotations.Nullable;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;

/**
 * Where the program begins for people who don't type commands: pages to make an archive or open
 * one, and the folders of this machine to choose from. Whoever has the key may do all this, nobody
 * else. One archive is open at a time.
 */
public final class Entrance implements AutoCloseable {
  private static final String NAME = "Rakelight";
  private static final String LOOPBACK = "127.0.0.1";

  /** Pages of the desk that folders are chosen for, by form. */
  private static final Map<String, String> AT_THE_DESK =
      Map.of(
          "ingest", "jobs",
          "backup", "jobs",
          "export", "jobs",
          "lend", "lending",
          "return", "lending",
          "merge", "lending");

  private final Archives archives;
  private final KnownArchives known;
  private final List<String> program;
  private final Clock clock;
  private final EntranceKey key = EntranceKey.fresh();
  private final EntranceKey token = EntranceKey.fresh();
  private final Path records;
  private final Javalin server;
  private final CountDownLatch left = new CountDownLatch(1);
  private @Nullable Open open;

  /** How archives are made and opened. */
  public interface Archives {
    /**
     * Makes an empty one.
     *
     * @param datum latitude and longitude in degrees, as somebody wrote them
     * @throws ArchiveException if anything of it won't do
     */
    void make(Path folder, String ground, String datum, String zone);

    /**
     * @throws ArchiveException if there is none, or it can't be opened
     */
    Archive open(Path folder);
  }

  /** The archive that is open. */
  private record Open(Archive archive, Jobs jobs, Desk desk) implements AutoCloseable {
    String address() {
      return "http://" + LOOPBACK + ":" + desk.port() + "/";
    }

    @Override
    public void close() {
      jobs.close();
      desk.close();
      archive.close();
    }
  }

  private Entrance(Archives archives, Path settings, List<String> program, Clock clock) {
    this.archives = archives;
    this.known = new KnownArchives(settings);
    this.program = program;
    this.clock = clock;
    this.records = settings.resolve("jobs");
    Threshold threshold =
        new Threshold(Reach.of(InetAddress.getLoopbackAddress()), "http://" + LOOPBACK + ":*");
    this.server =
        Javalin.create(
            config -> {
              config.showJavalinBanner = false;
              config.http.prefer405over404 = true;
            });
    server.before(threshold::enter);
    server.exception(Refusal.class, this::refuse);
    server.exception(
        ArchiveException.class,
        (e, context) -> refuse(Refusal.refused(String.valueOf(e.getMessage())), context));
    Assets.addTo(server);
    server.get("/", this::front);
    server.get("/folders", this::folders);
    server.post("/new", this::make);
    server.post("/open", this::openKnown);
    server.post("/forget", this::forget);
    server.post("/leave", this::leave);
    server.get("/alive", this::alive);
  }

  /**
   * Opens the entrance, to whoever is at this machine and has its key.
   *
   * @param settings a folder for what is remembered between runs
   * @param program the words that start this program, before a command
   * @param port 0 for any free one
   * @throws ArchiveException if the port isn't free
   */
  public static Entrance start(
      Archives archives, Path settings, List<String> program, int port, Clock clock) {
    Entrance entrance = new Entrance(archives, settings, program, clock);
    try {
      entrance.server.start(LOOPBACK, port);
    } catch (JavalinException e) {
      throw new ArchiveException(
          "Port " + port + " isn't free. Give another with --port, or none for any.", e);
    }
    return entrance;
  }

  /** Where it is, with its key. */
  public String address() {
    return here() + "?" + EntranceKey.FIELD + "=" + key.value();
  }

  private String here() {
    return "http://" + LOOPBACK + ":" + server.port() + "/";
  }

  /** Waits until somebody leaves, or it is closed. */
  public void await() throws InterruptedException {
    left.await();
  }

  /** Stops the jobs, closes the archive, and is gone. */
  @Override
  public synchronized void close() {
    if (open != null) {
      open.close();
      open = null;
    }
    server.stop();
    left.countDown();
  }

  private Page page() {
    return new Page(NAME, "", token.value(), false, true, false, false);
  }

  private void refuse(Refusal refusal, Context context) {
    context.status(refusal.status());
    Pages.show(context, "refused", page(), Map.of("message", String.valueOf(refusal.getMessage())));
  }

  private void alive(Context context) {
    if (!key.is(Requests.asked(context, EntranceKey.FIELD))) {
      throw Refusal.notFound("address");
    }
    Pages.json(context, Pages.object());
  }

  private void front(Context context) {
    String brought = Requests.asked(context, EntranceKey.FIELD);
    if (!brought.isEmpty() && key.is(brought)) {
      key.give(context);
      context.redirect("/");
      return;
    }
    key.require(context);
    Map<String, String> given = new HashMap<>();
    String folder = Requests.asked(context, "folder");
    given.put(Requests.asked(context, "for").equals("new") ? "new-folder" : "folder", folder);
    show(context, given, "");
  }

  private synchronized void show(Context context, Map<String, String> given, String message) {
    Map<String, String> filled = new HashMap<>(given);
    filled.putIfAbsent("new-folder", Folders.home().toString());
    filled.putIfAbsent("zone", ZoneId.systemDefault().getId());
    Open now = open;
    Pages.show(
        context,
        "entrance",
        page(),
        Map.of(
            "entrance",
            new EntrancePage(
                now == null ? "" : now.address(),
                now == null ? "" : now.archive().ground().name(),
                now == null ? 0 : now.jobs().open(),
                known.all().stream()
                    .map(one -> new EntrancePage.Known(one.path(), one.ground()))
                    .toList(),
                filled,
                new ArrayList<>(new TreeSet<>(ZoneId.getAvailableZoneIds())),
                message)));
  }

  private Map<String, String> form(Context context) {
    key.require(context);
    Map<String, String> form = Requests.form(context);
    if (!token.is(form.getOrDefault("token", ""))) {
      throw Refusal.of(
          403, "token", "This request doesn't come from the start page. Load it again.");
    }
    return form;
  }

  private void make(Context context) {
    Map<String, String> form = form(context);
    String ground = Requests.words(form, "ground");
    try {
      if (ground.isEmpty()) {
        throw new ArchiveException("Say what the burial ground is called.");
      }
      Path folder =
          Folders.absolute(Requests.words(form, "new-folder")).resolve(Folders.named(ground));
      archives.make(folder, ground, Requests.words(form, "datum"), Requests.words(form, "zone"));
      open(folder);
    } catch (ArchiveException e) {
      context.status(422);
      show(context, form, String.valueOf(e.getMessage()));
      return;
    }
    toTheDesk(context, "jobs");
  }

  private void openKnown(Context context) {
    Map<String, String> form = form(context);
    try {
      open(Folders.absolute(Requests.words(form, "folder")));
    } catch (ArchiveException e) {
      context.status(422);
      show(context, form, String.valueOf(e.getMessage()));
      return;
    }
    toTheDesk(context, "");
  }

  private synchronized void open(Path folder) {
    Open now = open;
    if (now != null && now.archive().root().toAbsolutePath().normalize().equals(folder)) {
      return;
    }
    if (now != null && now.jobs().open() > 0) {
      throw new ArchiveException(
          "Something still runs in "
              + now.archive().ground().name()
              + ": wait for it, or stop it on its page, before another archive is opened.");
    }
    Archive archive = archives.open(folder);
    if (now != null) {
      now.close();
      open = null;
    }
    Jobs jobs = new Jobs(program, records, clock);
    try {
      Desk desk = Desk.from(new Application(jobs, key, here()), archive, clock);
      open = new Open(archive, jobs, desk);
    } catch (RuntimeException e) {
      jobs.close();
      archive.close();
      throw e;
    }
    known.opened(folder, archive.ground().name());
  }

  private synchronized void toTheDesk(Context context, String page) {
    context.redirect(open == null ? "/" : open.address() + page);
  }

  private void forget(Context context) {
    known.forget(form(context).getOrDefault("folder", ""));
    context.redirect("/");
  }

  private void leave(Context context) {
    form(context);
    Pages.show(context, "left", page(), Map.of());
    new Thread(left::countDown, "leave").start();
  }

  private void folders(Context context) {
    key.require(context);
    String to = Requests.asked(context, "for");
    String asked = Requests.asked(context, "at");
    Path at = asked.isEmpty() ? Folders.home() : Folders.absolute(asked);
    if (!Files.isDirectory(at)) {
      throw Refusal.notFound("folder");
    }
    List<EntrancePage.Child> in =
        Folders.in(at).stream()
            .map(
                folder ->
                    new EntrancePage.Child(
                        String.valueOf(folder.getFileName()),
                        look(folder, to),
                        Archive.isAt(folder)))
            .toList();
    Pages.show(
        context,
        "folders",
        page(),
        Map.of(
            "folders",
            new EntrancePage.Chooser(
                to,
                at.toString(),
                taken(at, to),
                Optional.ofNullable(at.getParent()).map(up -> look(up, to)).orElse(""),
                Archive.isAt(at),
                Folders.pictures(at),
                in)));
  }

  private static String look(Path folder, String to) {
    return "/folders?for=" + written(to) + "&at=" + written(folder.toString());
  }

  private synchronized String taken(Path at, String to) {
    String chosen = "?for=" + written(to) + "&folder=" + written(at.toString());
    String page = AT_THE_DESK.getOrDefault(to, "");
    return page.isEmpty() || open == null ? "/" + chosen : open.address() + page + chosen;
  }

  private static String written(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }
}
