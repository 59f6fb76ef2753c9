package rakelight.desk;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.config.SizeUnit;
import io.javalin.http.Context;
import io.javalin.http.MethodNotAllowedResponse;
import io.javalin.util.JavalinException;
import jakarta.servlet.DispatcherType;
import java.net.InetAddress;
import java.time.Clock;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.eclipse.jetty.servlet.FilterHolder;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.reading.DrawnLines;
import rakelight.reading.ReaderOnDemand;
import rakelight.work.CutLetters;
import rakelight.work.Faces;
import rakelight.work.Leases;
import rakelight.work.LineDrawing;
import rakelight.work.Queue;
import rakelight.work.ReaderStore;
import rakelight.work.RefusedException;

/** The web server of one archive. Runs from {@link #start} until it is closed. */
public final class Desk implements AutoCloseable {
  /** Free on most machines; nothing well known listens there. */
  public static final int USUAL_PORT = 8340;

  /** A scan of a register's page, or of some in a row. A choice. */
  private static final long MOST_SENT_MB = 200;

  private static final String REFUSED = "desk.refused";

  private final Pages pages;
  private final Javalin server;
  private final ReaderOnDemand reader = new ReaderOnDemand();
  private final Comparing comparing;
  private final Searching searching;
  private final Concluding concluding;

  private Desk(Archive archive, Reach reach, Optional<Application> application, Clock clock) {
    Leases leases = new Leases(clock);
    Faces faces = new Faces(archive, leases);
    this.comparing = new Comparing(archive);
    this.searching = new Searching(archive, clock);
    this.concluding = new Concluding(archive, clock);
    Drawings drawings = new Drawings(archive, faces);
    Queue queue = new Queue(archive, leases, faces);
    // What is new since the last time is counted before anybody waits for it.
    queue.all();
    Pictures pictures = new Pictures(archive);
    Sessions sessions = new Sessions(clock);
    Digesting digesting = new Digesting();
    Threshold threshold = new Threshold(reach, "");
    Door door = new Door(sessions, new ReaderStore(archive), threshold, archive.isOnlyLookedAt());
    Requests requests = new Requests(archive, door);
    this.pages = new Pages(archive, door, application.isPresent());
    this.server = Javalin.create(Desk::configure);
    server.before(threshold::enter);
    server.exception(Refusal.class, this::refuse);
    server.exception(
        RefusedException.class, (e, context) -> refuse(Refusal.of(e.refused()), context));
    server.exception(ArchiveException.class, (e, context) -> refuse(asRefusal(e), context));
    server.exception(MethodNotAllowedResponse.class, this::wrongMethod);
    server.exception(Exception.class, (e, context) -> refuse(fault(e), context));
    server.error(404, this::nothingThere);
    Assets.addTo(server);
    new SignInRoutes(archive, door, sessions, pages, digesting, clock).addTo(server);
    Sunlight sunlight = new Sunlight(archive);
    StonePages stones = new StonePages(archive, sunlight, clock);
    MarkerPages markerPages = new MarkerPages(archive, faces, queue, stones, clock);
    SearchRoutes search =
        new SearchRoutes(archive, requests, pages, searching, markerPages, drawings, clock);
    search.addTo(server);
    new GroundRoutes(archive, requests, pages, queue, search).addTo(server);
    new QueueRoutes(archive, requests, pages, queue).addTo(server);
    new MarkerRoutes(archive, requests, pages, markerPages, new Sheets(archive, faces, pictures))
        .addTo(server);
    new StoneRoutes(archive, requests, pages, markerPages, stones, faces).addTo(server);
    LineDrawing drawing = new LineDrawing(archive, faces, new DrawnLines(archive, reader));
    new FaceRoutes(archive, requests, pages, faces, drawing, queue).addTo(server);
    new PersonRoutes(archive, requests, pages, concluding).addTo(server);
    new StatementRoutes(requests, pages, concluding, drawings).addTo(server);
    new QuestionRoutes(archive, requests, pages, concluding).addTo(server);
    new SourceRoutes(archive, requests, pages, concluding).addTo(server);
    new SoughtRoutes(archive, requests, pages, concluding).addTo(server);
    new TakeBackRoute(archive, requests).addTo(server);
    new SortingRoutes(archive, requests, pages, comparing).addTo(server);
    new BesideRoutes(archive, requests, pages).addTo(server);
    new ReadersRoutes(archive, requests, pages, digesting).addTo(server);
    new GuideRoutes(archive, requests, pages, concluding, stones, sunlight).addTo(server);
    new ListRoutes(archive, requests, pages, clock).addTo(server);
    new AlikeRoutes(archive, requests, pages).addTo(server);
    new HandsRoutes(archive, requests, pages, faces).addTo(server);
    new SeasonsRoutes(archive, reader, requests, pages).addTo(server);
    new EarlierListsRoutes(archive, requests, pages).addTo(server);
    new PlanRoutes(archive, requests, pages, concluding, queue).addTo(server);
    new FamilyRoutes(archive, requests, pages, concluding, markerPages).addTo(server);
    new LinkRoutes(archive, requests, pages, concluding).addTo(server);
    new PictureRoutes(requests, faces, pictures).addTo(server);
    application.ifPresent(
        around -> new JobRoutes(archive, requests, pages, around, queue, clock).addTo(server));
    new ApartRoutes(archive, requests, pages).addTo(server);
    new ManifestRoutes(requests, concluding, reach, new CutLetters(archive, faces)).addTo(server);
  }

  /**
   * Opens the desk.
   *
   * @param port 0 for any free one
   * @throws ArchiveException if others could reach it and no reader has a passphrase, or the port
   *     isn't free
   */
  public static Desk start(Archive archive, InetAddress listen, int port, Clock clock) {
    return start(archive, Reach.of(listen), Optional.empty(), port, clock);
  }

  /**
   * Opens the desk behind a proxy on this machine that adds TLS. It answers under this name only,
   * believes what the proxy says of where a request comes from, and gives cookies that travel by
   * https alone.
   *
   * @param name the name by which readers reach the proxy, such as {@code read.example.org}
   * @param port where the proxy finds it on this machine; 0 for any free one
   * @throws ArchiveException if no reader has a passphrase, or the port isn't free
   */
  public static Desk behindTls(Archive archive, String name, int port, Clock clock) {
    return start(archive, Reach.behindTls(name), Optional.empty(), port, clock);
  }

  /** Opens the desk for whoever started the program from its entrance, at any free port. */
  static Desk from(Application application, Archive archive, Clock clock) {
    return start(
        archive, Reach.of(InetAddress.getLoopbackAddress()), Optional.of(application), 0, clock);
  }

  private static Desk start(
      Archive archive, Reach reach, Optional<Application> application, int port, Clock clock) {
    Desk desk = new Desk(archive, reach, application, clock);
    if (reach.isOpenToOthers() && !new ReaderStore(archive).isAnybodyNamed()) {
      throw new ArchiveException(
          "Others could reach this desk, and nobody has a passphrase yet. Name readers first:"
              + " readers "
              + archive.root()
              + " add NAME --role archivist");
    }
    try {
      desk.server.start(reach.listen().getHostAddress(), port);
    } catch (JavalinException e) {
      throw new ArchiveException(
          "The desk can't listen at "
              + reach.listen().getHostAddress()
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
    comparing.close();
    searching.close();
    concluding.close();
    reader.close();
  }

  private static void configure(JavalinConfig config) {
    config.showJavalinBanner = false;
    config.http.prefer405over404 = true;
    config.jetty.multipartConfig.maxFileSize(MOST_SENT_MB, SizeUnit.MB);
    config.jetty.multipartConfig.maxTotalRequestSize(MOST_SENT_MB + 1, SizeUnit.MB);
    config.jetty.multipartConfig.maxInMemoryFileSize(1, SizeUnit.MB);
    config.jetty.modifyServletContextHandler(
        handler ->
            handler.addFilter(
                new FilterHolder(new PlainMethods()), "/*", EnumSet.of(DispatcherType.REQUEST)));
  }

  private void wrongMethod(MethodNotAllowedResponse e, Context context) {
    // Whatever is there to be got, HEAD gets without its body.
    context.header(
        "Allow",
        e.getDetails().values().stream()
            .flatMap(methods -> Arrays.stream(methods.split(", ")))
            .flatMap(method -> method.equals("GET") ? Stream.of("GET", "HEAD") : Stream.of(method))
            .distinct()
            .sorted()
            .collect(Collectors.joining(", ")));
    refuse(Refusal.of(405, "method", "This address doesn't take that."), context);
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
      pages.show(context, "refused", Map.of("message", String.valueOf(refusal.getMessage())));
    } else {
      Pages.json(context, refusal.body());
    }
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
      refuse(Refusal.notFound("address"), context);
    }
  }
}
