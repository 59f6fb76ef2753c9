package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Json;
import rakelight.archive.Sha256;
import rakelight.ground.PlannedWalk;
import rakelight.ground.WalkStore;
import rakelight.marker.MarkerStore;
import rakelight.publish.Edition;

/** The web site of a ground, as a browser shows it from disk and from a plain server. */
class SitePagesTest {
  private static final String DAY = "2026-11-25";
  private static final int MARKERS = 80;
  private static final List<String> HELD_BACK =
      List.of("zenobia", "quillfeather", "philobert", "draxby", "ossifer", "thistlemere");

  @TempDir static Path folder;
  private static Path archive;
  private static Path site;

  @BeforeAll
  static void aGroundWithSomeWhoAreNotTold() throws Exception {
    archive = folder.resolve("archive");
    site = folder.resolve("site");
    LargeGround.make(archive, MARKERS, 81);
    Path season = folder.resolve("season");
    photograph(season.resolve("P1/a.png"), 1);
    photograph(season.resolve("P2/b.png"), 2);
    photograph(season.resolve("P3/c.png"), 3);
    run("ingest", archive, season, "--reader", LargeGround.READER);
    Path file = folder.resolve("readings.tsv");
    Files.writeString(
        file,
        "marker\tface\tline\ttext\n"
            + "P1\tfront\t1\tIn memory of | HANN[.]H WRENSIDE | Blacksmith | died 14 March 18[.]1\n"
            + "P2\tfront\t1\tROBERT GARSIDE | 1949 - 2011 | ZENOBIA HIS WIFE | born 3 May 1953\n"
            + "P3\tfront\t1\tOSSIFER THISTLEMERE | died 9 June 1880\n"
            + "P4\tfront\t1\tPHILOBERT DRAXBY | died 9 June 1881\n"
            + "P5\tfront\t1\tELI QUILLFEATHER | died 2 May 2020 | also ADA QUILLFEATHER | born"
            + " 1990\n",
        StandardCharsets.UTF_8);
    run("confirm", archive, "--new-markers", "--from", file, "--reader", LargeGround.READER);
    withhold("marker", "P3");
    withhold("person", "P4:front:1");
    run(
        "withdraw",
        archive,
        "--marker",
        "P5",
        "--reason",
        "asked",
        "--asked-by",
        "B",
        "--reader",
        "Ada",
        "--seal");
    run("position", archive, "P1", "--at", "54.1001,-3.2001", "--error", "1", "--reader", "Ada");
    // Of the stones, 1 stands 13 m north of P1 and 2 another 13 m.
    run("position", archive, "1", "--at", "54.10022,-3.2001", "--error", "1", "--reader", "Ada");
    run("position", archive, "2", "--at", "54.10034,-3.2001", "--error", "1", "--reader", "Ada");
    try (Archive open = Archive.open(archive, Projections.all())) {
      MarkerStore markers = new MarkerStore(open);
      new WalkStore(open)
          .plan(
              "Past the smith",
              List.of(
                  new PlannedWalk.Stop(markers.named("P1").id(), "Look along the face."),
                  new PlannedWalk.Stop(markers.named("1").id(), "")),
              false,
              5,
              "Ada");
    }
    run("question", archive, "raise", "Was P3 cut for Ossifer Thistlemere?", "--reader", "Ada");
    run(
        "question",
        archive,
        "raise",
        "Who was the blacksmith?",
        "--marker",
        "P1",
        "--reader",
        "Ada");
    Ran made = make("--address", "https://example.org/ground", "--mail", "stones@example.org");
    assertThat(made.out()).contains("index.html");
  }

  private static void withhold(String... what) {
    List<Object> words = new ArrayList<>(List.of("withhold", archive));
    words.addAll(List.of(what));
    words.addAll(List.of("--why", "family", "--reason", "x", "--asked-by", "B", "--on", DAY));
    words.addAll(List.of("--reader", "Ada"));
    run(words.toArray());
  }

  private static Ran make(String... options) {
    List<Object> words = new ArrayList<>(List.of("site", archive, "--as-of", DAY, "--to", site));
    words.addAll(List.of(options));
    return run(words.toArray());
  }

  private static Ran run(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err() + ran.out()).isZero();
    return ran;
  }

  private static void photograph(Path file, int shade) throws IOException {
    Files.createDirectories(file.getParent());
    BufferedImage picture = new BufferedImage(60, 80, BufferedImage.TYPE_INT_RGB);
    picture.setRGB(0, 0, shade * 40);
    ImageIO.write(picture, "png", file.toFile());
  }

  private static List<Path> files() throws IOException {
    try (Stream<Path> all = Files.walk(site)) {
      return all.filter(Files::isRegularFile).sorted().toList();
    }
  }

  private static Map<String, String> digests() throws IOException {
    Map<String, String> digests = new TreeMap<>();
    for (Path file : files()) {
      digests.put(site.relativize(file).toString(), Sha256.of(file).hex());
    }
    return digests;
  }

  @Test
  void whatIsNotToldLiesInNoFileAndThePicturesOfItNeither() throws Exception {
    for (Path file : files()) {
      String text = Files.readString(file, StandardCharsets.ISO_8859_1).toLowerCase(Locale.ROOT);
      assertThat(text).as(file.toString()).doesNotContain(HELD_BACK);
    }
    // Of three photographs one is of a face that is told whole.
    assertThat(files().stream().filter(file -> file.toString().endsWith("-1600.jpg"))).hasSize(1);
    assertThat(Files.readString(site.resolve("markers/P2.html"))).contains("may be living");
    assertThat(site.resolve("markers/P3.html")).doesNotExist();
    assertThat(Files.readString(site.resolve("questions.html")))
        .contains("blacksmith")
        .doesNotContain("P3");
  }

  @Test
  void theSameEditionIsTheSameBytesAndTakesThePlaceOfTheOneBefore() throws Exception {
    Map<String, String> before = digests();
    Files.writeString(site.resolve("left.html"), "of an earlier site");
    make("--address", "https://example.org/ground/", "--mail", "stones@example.org");
    assertThat(digests()).isEqualTo(before);
    Path other = Files.createDirectory(folder.resolve("other"));
    Files.writeString(other.resolve("letter.txt"), "mine");
    Ran refused = Ran.command("site", archive, "--as-of", DAY, "--to", other);
    assertThat(refused.code()).isNotZero();
    assertThat(refused.err().lines().toList()).hasSize(1).first().asString().contains("letter.txt");
    assertThat(other.resolve("letter.txt")).hasContent("mine");
  }

  /** By schema.org's own names, and the fifteen elements of Dublin Core 1.1 (ISO 15836). */
  @Test
  void aPageTellsProgramsWhatItIs() throws Exception {
    String page = Files.readString(site.resolve("markers/P1.html"));
    JsonNode linked = Json.mapper().readTree(between(page, "application/ld+json\">", "</script>"));
    assertThat(linked.path("@context").asText()).isEqualTo("https://schema.org");
    assertThat(linked.path("@type").asText()).isEqualTo("VisualArtwork");
    assertThat(linked.path("url").asText()).isEqualTo("https://example.org/ground/markers/P1.html");
    assertThat(linked.path("contentLocation").path("@type").asText()).isEqualTo("Cemetery");
    assertThat(linked.path("image").get(0).path("@type").asText()).isEqualTo("ImageObject");
    assertThat(linked.path("about").get(0).path("@type").asText()).isEqualTo("Person");
    Set<String> elements = new HashSet<>();
    Matcher named =
        Pattern.compile("<meta name=\"DC\\.([a-z]+)\" content=\"[^\"]+\">").matcher(page);
    while (named.find()) {
      elements.add(named.group(1));
    }
    assertThat(elements)
        .contains("title", "creator", "date", "identifier", "language")
        .isSubsetOf(
            "contributor",
            "coverage",
            "creator",
            "date",
            "description",
            "format",
            "identifier",
            "language",
            "publisher",
            "relation",
            "rights",
            "source",
            "subject",
            "title",
            "type");
    assertThat(page).contains("<html lang=\"en\">").contains("default-src 'none'");
    String map = Files.readString(site.resolve("sitemap.xml"));
    assertThat(map)
        .contains("http://www.sitemaps.org/schemas/sitemap/0.9")
        .contains("<loc>https://example.org/ground/markers/P1.html</loc>")
        .contains("<loc>https://example.org/ground/</loc>");
  }

  private static String between(String text, String before, String after) {
    int from = text.indexOf(before) + before.length();
    return text.substring(from, text.indexOf(after, from));
  }

  @Test
  void aHundredQueriesFindWhatTheProgramFindsFromDiskAndNothingIsAskedOfOthers() throws Exception {
    Map<String, List<String>> expected;
    try (Archive open = Archive.open(archive, Projections.all())) {
      Edition edition = Edition.of(open, LocalDate.parse(DAY));
      expected = SiteQueries.expected(edition, folder.resolve("index"), 100, 20_261_201);
    }
    Map<String, List<String>> different = new LinkedHashMap<>();
    try (Browser browser = Browser.open();
        BrowserContext context = browser.context(1366, 900, ColorScheme.LIGHT)) {
      Page page = context.newPage();
      List<String> asked = new ArrayList<>();
      List<String> faults = new ArrayList<>();
      page.onRequest(request -> asked.add(request.url()));
      page.onConsoleMessage(
          message -> {
            if (message.type().equals("error")) {
              faults.add(message.text());
            }
          });
      page.navigate(site.resolve("search.html").toUri().toString());
      expected.forEach(
          (query, markers) -> {
            Object found = page.evaluate(SiteQueries.FIRST_FIVE, query);
            if (!markers.equals(found)) {
              different.put(query + " " + found, markers);
            }
          });
      assertThat(different).isEmpty();
      for (String query : List.of("near:P1", "near the wrenside stone", "near:1", "near:2")) {
        Ran told = Ran.command("search", archive, query, "--json");
        List<String> numbers =
            told.out()
                .lines()
                .map(SitePagesTest::parsed)
                .filter(hit -> hit.has("marker"))
                .map(hit -> hit.path("marker").asText())
                .toList();
        assertThat(numbers).as(query + told.out() + told.err()).contains("1");
        assertThat(page.evaluate(SiteQueries.FIRST_FIVE, query)).as(query).isEqualTo(numbers);
      }
      page.fill("#q", "wrenside");
      page.keyboard().press("Enter");
      page.waitForSelector("#hits li");
      assertThat(page.textContent("#hits li")).contains("Marker P1");
      page.click("#hits a");
      page.waitForURL("**/markers/P1.html");
      assertThat(asked).allMatch(url -> url.startsWith("file:"));
      assertThat(faults).isEmpty();
    }
  }

  private static JsonNode parsed(String line) {
    try {
      return Json.mapper().readTree(line);
    } catch (IOException e) {
      throw new AssertionError(line, e);
    }
  }

  @Test
  void everyKindOfPageIsAccessibleAndHoldsItsPolicyOnAPlainServer() throws Exception {
    HttpServer server = HttpServer.create(new InetSocketAddress("127.0.0.1", 0), 0);
    server.createContext("/", SitePagesTest::plainly);
    server.start();
    String root = "http://127.0.0.1:" + server.getAddress().getPort() + "/";
    List<String> pages =
        List.of(
            "index.html",
            "markers/P1.html",
            "persons/index.html",
            "markers/index.html",
            "families/index.html",
            "families/1.html",
            "walks/index.html",
            "walks/1.html",
            "plan.html",
            "emblems.html",
            "questions.html",
            "about.html",
            "correction.html",
            "search.html#q=john");
    try (Browser browser = Browser.open()) {
      for (int width : new int[] {1366, 360}) {
        try (BrowserContext context =
            browser.context(width, 800, width == 360 ? ColorScheme.DARK : ColorScheme.LIGHT)) {
          Page page = context.newPage();
          List<String> faults = new ArrayList<>();
          page.onRequest(request -> assertThat(request.url()).startsWith(root));
          page.onConsoleMessage(
              message -> {
                if (message.type().equals("error")) {
                  faults.add(message.text());
                }
              });
          for (String each : pages) {
            page.navigate(root + each);
            if (each.startsWith("search")) {
              page.waitForSelector("#hits li");
            }
            String name = "site-" + each.replaceAll("[^a-z0-9]+", "-") + "-" + width;
            VisitedDesk.picture(page, name);
            if (width == 1366) {
              Browser.isAccessible(page, name);
            }
            assertThat(page.evaluate("document.documentElement.scrollWidth <= innerWidth"))
                .as(name + " fits its window")
                .isEqualTo(true);
          }
          assertThat(faults).isEmpty();
        }
      }
    } finally {
      server.stop(0);
    }
  }

  /** As a web space without any cleverness does. */
  private static void plainly(HttpExchange exchange) throws IOException {
    Path file = site.resolve(exchange.getRequestURI().getPath().substring(1));
    boolean there = Files.isRegularFile(file);
    String type = file.toString().replaceFirst(".*\\.", "");
    exchange
        .getResponseHeaders()
        .set(
            "Content-Type",
            switch (type) {
              case "js" -> "text/javascript";
              case "css" -> "text/css";
              case "svg" -> "image/svg+xml";
              case "jpg" -> "image/jpeg";
              default -> "text/html";
            });
    byte[] bytes = there ? Files.readAllBytes(file) : new byte[0];
    exchange.sendResponseHeaders(there ? 200 : 404, bytes.length == 0 ? -1 : bytes.length);
    try (OutputStream out = exchange.getResponseBody()) {
      out.write(bytes);
    }
  }
}
