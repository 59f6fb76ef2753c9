package rakelight.cli;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.desk.Desk;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.inscription.Basis;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.person.Mention;
import rakelight.person.People;
import rakelight.person.PersonStore;
import rakelight.person.SoughtFile;
import rakelight.person.Source;
import rakelight.person.SourceStore;
import rakelight.person.calendar.CalendarChange;
import rakelight.publish.Edition;

/**
 * How long pages and commands take on {@link LargeGround}s. Property {@code rakelight.markers}: how
 * many markers, parted by commas, such as {@code 1000,10000}.
 *
 * <p>Each is asked a few times first, so that what is measured is a program that has been running
 * for a minute; the medians after that are printed, in milliseconds: by the clock, and of the
 * processor time that the whole program used, which other programs on the machine disturb less.
 *
 * <p>Grounds are made in a temporary folder, or, since that takes minutes, once for all in the one
 * that property {@code rakelight.grounds} names.
 */
@EnabledIfSystemProperty(named = "rakelight.markers", matches = "[0-9,]+")
class LargeGroundBenchmark {
  private static final long SEED = 5_300_000;
  private static final int BEFORE = 30;
  private static final int TIMES = 60;
  private static final int BEFORE_WHOLE = 1;
  private static final int TIMES_WHOLE = 3;
  private static final int ROWS_OF_A_ROLL = 200;

  @TempDir Path folder;

  private static final OperatingSystemMXBean MACHINE =
      (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

  private final HttpClient http = HttpClient.newHttpClient();
  private String root = "";
  private String cookie = "";

  /** One thing to time. */
  private interface Asked {
    void ask() throws Exception;
  }

  @Test
  void pagesAndCommandsOnLargeGrounds() throws Exception {
    onEach(this::measure);
  }

  @Test
  void listsOfPeopleOnLargeGrounds() throws Exception {
    onEach(
        ground -> {
          try (Archive archive = Archive.open(ground, Projections.all());
              Desk desk =
                  Desk.start(archive, InetAddress.getLoopbackAddress(), 0, Clock.systemUTC())) {
            root = "http://127.0.0.1:" + desk.port();
            cookie = "";
            signIn();
            lists(archive);
          }
        });
  }

  /** Something measured on a ground. */
  private interface Measure {
    void on(Path ground) throws Exception;
  }

  private void onEach(Measure measure) throws Exception {
    for (String count : System.getProperty("rakelight.markers").split(",", -1)) {
      int markers = Integer.parseInt(count);
      Path archive =
          Path.of(System.getProperty("rakelight.grounds", folder.toString()), "ground" + markers);
      System.out.println(markers + " markers");
      if (!Files.exists(archive)) {
        once("made", () -> LargeGround.make(archive, markers, SEED));
      }
      measure.on(archive);
    }
  }

  private void measure(Path folder) throws Exception {
    Files.deleteIfExists(folder.resolve("derived/conclusions.sqlite"));
    Random random = new Random(SEED);
    once("desk opened, nothing kept", () -> open(folder));
    once("desk opened", () -> open(folder));
    try (Archive archive = Archive.open(folder, Projections.all());
        Desk desk = Desk.start(archive, InetAddress.getLoopbackAddress(), 0, Clock.systemUTC())) {
      root = "http://127.0.0.1:" + desk.port();
      cookie = "";
      signIn();
      once("ground page, the first", () -> get("/"));
      once("queue, the first", () -> get("/queue"));
      List<Marker> markers = new MarkerStore(archive).markers();
      Asked marker = () -> get("/markers/" + markers.get(random.nextInt(markers.size())).id());
      median("marker page", BEFORE, TIMES, marker);
      List<Mention> mentions = People.of(archive).mentions();
      PersonStore persons = new PersonStore(archive);
      median(
          "two mentions said to be one person",
          BEFORE,
          TIMES,
          () -> {
            String one = mentions.get(random.nextInt(mentions.size())).label();
            String other = mentions.get(random.nextInt(mentions.size())).label();
            persons.same(
                People.mention(archive, one),
                People.mention(archive, other),
                "measured",
                LargeGround.READER);
          });
      LinkStore links = new LinkStore(archive);
      median(
          "a person's link to a marker confirmed",
          BEFORE,
          TIMES,
          () ->
              links.confirm(
                  markers.get(random.nextInt(markers.size())).number(),
                  Link.Kind.BURIED_HERE,
                  mentions.get(random.nextInt(mentions.size())).label(),
                  "measured",
                  LargeGround.READER));
      median("ground page", BEFORE_WHOLE, TIMES_WHOLE, () -> get("/"));
      median("queue", BEFORE_WHOLE, TIMES_WHOLE, () -> get("/queue"));
    }
    Files.delete(folder.resolve("derived/conclusions.sqlite"));
    once("persons, the whole list, nothing kept", () -> command("persons", folder));
    median("persons, the whole list", BEFORE_WHOLE, TIMES_WHOLE, () -> command("persons", folder));
    median(
        "statements, the whole list",
        BEFORE_WHOLE,
        TIMES_WHOLE,
        () -> command("statements", folder));
    once("index, from nothing", () -> command("index", folder));
    try (Archive archive = Archive.open(folder, Projections.all())) {
      Mention mention = People.of(archive).mentions().get(0);
      new LinkStore(archive)
          .confirm("2", Link.Kind.BURIED_HERE, mention.label(), "index", LargeGround.READER);
    }
    once("index, after one link", () -> command("index", folder));
  }

  /** The desk's lists: each for the first time, again, and after a decision. */
  private void lists(Archive archive) throws Exception {
    List<String> paths =
        List.of(
            "/persons",
            "/persons?name=hannah+w&year=1840-1860",
            "/statements",
            "/dates",
            "/questions",
            "/sources",
            "/sought",
            "/pairs");
    for (String path : paths) {
      once(path + ", the first", () -> get(path));
    }
    for (String path : paths) {
      median(path, BEFORE_WHOLE, TIMES_WHOLE, () -> get(path));
    }
    PersonStore persons = new PersonStore(archive);
    List<Mention> mentions = People.of(archive).mentions();
    AtomicInteger next = new AtomicInteger();
    median(
        "/persons after somebody was said to be dead",
        BEFORE_WHOLE,
        TIMES_WHOLE,
        () -> {
          persons.died(mentions.get(next.incrementAndGet()), "measured", LargeGround.READER);
          get("/persons");
        });
    ReadingStore readings = new ReadingStore(archive);
    median(
        "/persons after a reading was signed",
        BEFORE_WHOLE,
        TIMES_WHOLE,
        () -> {
          Reading one = readings.current().get(next.incrementAndGet());
          readings.sign(
              one.face(),
              one.inscription(),
              Basis.FROM_PHOTOGRAPHS,
              Optional.empty(),
              LargeGround.READER);
          get("/persons");
        });
    StringBuilder rows = new StringBuilder("given,surname,died\n");
    mentions.stream()
        .filter(one -> !one.name().surname().isEmpty())
        .limit(ROWS_OF_A_ROLL)
        .forEach(
            one ->
                rows.append(one.name().given())
                    .append(',')
                    .append(one.name().surname())
                    .append(",1850\n"));
    Path roll = Files.writeString(folder.resolve("roll.csv"), rows);
    SourceStore sources = new SourceStore(archive);
    sources.list(
        sources.record(
            Source.Kind.ROLL, "measured", "", "", Optional.empty(), "", LargeGround.READER),
        "roll.csv",
        SoughtFile.read(roll, CalendarChange.of(archive.ground())),
        LargeGround.READER);
    once("/sought after a roll of 200", () -> get("/sought"));
    median("/sought of a roll of 200", BEFORE_WHOLE, TIMES_WHOLE, () -> get("/sought"));
    once("what may be told, for a guest", () -> Edition.of(archive, LocalDate.of(2026, 11, 30)));
  }

  private static void open(Path folder) {
    try (Archive archive = Archive.open(folder, Projections.all());
        Desk desk = Desk.start(archive, InetAddress.getLoopbackAddress(), 0, Clock.systemUTC())) {
      if (desk.port() == 0) {
        throw new IllegalStateException("no port");
      }
    }
  }

  private static void command(Object... words) {
    Ran ran = Ran.command(words);
    if (ran.code() != 0) {
      throw new IllegalStateException(Arrays.toString(words) + ": " + ran.err());
    }
  }

  private static void once(String what, Asked asked) throws Exception {
    median(what, 0, 1, asked);
  }

  private static void median(String what, int before, int times, Asked asked) throws Exception {
    for (int i = 0; i < before; i++) {
      asked.ask();
    }
    double[] clock = new double[times];
    double[] processor = new double[times];
    for (int i = 0; i < times; i++) {
      long began = System.nanoTime();
      long used = MACHINE.getProcessCpuTime();
      asked.ask();
      clock[i] = (System.nanoTime() - began) / 1e6;
      processor[i] = (MACHINE.getProcessCpuTime() - used) / 1e6;
    }
    Arrays.sort(clock);
    Arrays.sort(processor);
    System.out.printf(
        Locale.ROOT,
        "  %-45s %10.1f by the clock %10.1f of processor%n",
        what,
        clock[times / 2],
        processor[times / 2]);
  }

  private void signIn() throws IOException, InterruptedException {
    HttpResponse<String> page = send(HttpRequest.newBuilder(URI.create(root + "/sign-in")));
    cookie = page.headers().firstValue("Set-Cookie").orElseThrow().split(";", 2)[0];
    String form = page.body().replaceAll("(?s).*name=\"token\" value=\"([^\"]*)\".*", "$1");
    HttpResponse<String> in =
        send(
            HttpRequest.newBuilder(URI.create(root + "/sign-in"))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString("token=" + form + "&name=Ada+Penrose")));
    cookie = in.headers().firstValue("Set-Cookie").orElseThrow().split(";", 2)[0];
  }

  private void get(String path) throws IOException, InterruptedException {
    HttpResponse<String> page = send(HttpRequest.newBuilder(URI.create(root + path)));
    if (page.statusCode() != 200) {
      throw new IllegalStateException(path + ": " + page.statusCode());
    }
  }

  private HttpResponse<String> send(HttpRequest.Builder request)
      throws IOException, InterruptedException {
    if (!cookie.isEmpty()) {
      request.header("Cookie", cookie);
    }
    return http.send(request.build(), HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
  }
}
