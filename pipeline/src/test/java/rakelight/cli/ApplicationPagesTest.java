package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.desk.Entrance;
import rakelight.samples.Samples;

/** From nothing to a stone that has been read, without a command. */
class ApplicationPagesTest {
  private static final double LONGEST_JOB_MS = 120_000;

  @TempDir Path folder;

  @Test
  void somebodyMakesAnArchivePutsPhotographsInAndHasThemRead() throws IOException {
    Path photographs = folder.resolve("season");
    Samples.ground().writeTo(photographs, 500, Set.of("M16"), 1);
    try (Stream<Path> files = Files.list(photographs)) {
      files.filter(file -> !file.toString().endsWith(".jpg")).forEach(ApplicationPagesTest::gone);
    }
    try (Browser browser = Browser.open();
        Entrance entrance = entrance();
        BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = context.newPage();
      page.navigate(entrance.address());
      looked(page, "entrance");
      page.fill("#ground", "Tarrow: St. Ebba’s");
      page.fill("#datum", "54.1");
      page.fill("#zone", "Europe/London");
      page.fill("#new-folder", folder.toString());
      page.click("text=Make the archive");
      assertThat(page.textContent("[role=alert]"))
          .startsWith("Where it is must be LAT,LON in decimal degrees");
      page.fill("#datum", "54.1, -3.2");
      page.click("text=Make the archive");
      page.waitForURL("**/sign-in**");
      page.fill("#name", "Ada Fenn");
      page.click("main button");
      page.click("nav >> text=Jobs");
      looked(page, "jobs");

      // A folder is chosen by looking, dropped ones come over the wire: both are taken in.
      page.click("#ingest-hint a");
      page.navigate(page.url() + "&at=" + folder);
      page.click("ul.folders >> text=season");
      page.click("text=Take this folder");
      assertThat(page.inputValue("#ingest-folder")).isEqualTo(photographs.toString());
      page.setInputFiles("#picked", photographs);
      page.waitForURL("**/jobs/1");
      over(page);
      assertThat(page.textContent("#said")).contains("1 photograph taken.");
      try (Stream<Path> derived = Files.list(folder.resolve("Tarrow St. Ebba’s/derived"))) {
        assertThat(derived.map(path -> path.getFileName().toString()))
            .noneMatch(name -> name.startsWith("dropped"));
      }
      page.click("text=Now read them");
      page.waitForURL("**/jobs/2");
      page.close(); // It goes on.
      page = context.newPage();
      page.navigate(entrance.address());
      assertThat(page.textContent("#open-now")).isEqualTo("Tarrow: St. Ebba’s is open");
      page.click("text=Put photographs in");
      page.click("ul.so-far a >> nth=0");
      over(page);
      assertThat(page.textContent("#said")).contains("1 photograph read");
      Browser.isAccessible(page, "job");

      page.navigate(entrance.address());
      page.click("text=Close Rakelight");
      page.waitForSelector("text=Rakelight is closed");
    }
    try (Archive archive = Archive.open(folder.resolve("Tarrow St. Ebba’s"), Projections.all())) {
      assertThat(new rakelight.photo.PhotoStore(archive).photographs()).hasSize(1);
    }
  }

  @Test
  void nobodyComesInWithoutTheKeyAndFromNoOtherPage() throws Exception {
    try (Entrance entrance = entrance()) {
      String here = entrance.address().replaceFirst("\\?.*", "");
      HttpClient http = HttpClient.newHttpClient();
      for (String page :
          new String[] {"", "folders?for=open", "?key=guessed", "alive?key=guessed"}) {
        HttpResponse<String> answer =
            http.send(
                HttpRequest.newBuilder(URI.create(here + page)).build(),
                HttpResponse.BodyHandlers.ofString());
        assertThat(answer.statusCode()).as(page).isIn(403, 404);
        assertThat(answer.body()).as(page).doesNotContain("Begin an archive", "Take this folder");
      }
      HttpResponse<String> post =
          http.send(
              HttpRequest.newBuilder(URI.create(here + "open"))
                  .header("Origin", "http://elsewhere.example")
                  .POST(HttpRequest.BodyPublishers.ofString("folder=/"))
                  .build(),
              HttpResponse.BodyHandlers.ofString());
      assertThat(post.statusCode()).isEqualTo(403);
    }
  }

  private Entrance entrance() {
    return Entrance.start(
        new StartCommand.FromPages(),
        folder.resolve("settings"),
        StartCommand.ownProgram(),
        0,
        Clock.systemUTC());
  }

  private static void over(Page page) {
    page.waitForSelector(
        "text=All it said", new Page.WaitForSelectorOptions().setTimeout(LONGEST_JOB_MS));
  }

  private static void looked(Page page, String name) {
    Browser.isAccessible(page, name);
    VisitedDesk.picture(page, "application-" + name);
    page.setViewportSize(360, 740);
    Browser.isAccessible(page, name + " on a telephone");
    VisitedDesk.picture(page, "application-" + name + "-360");
    page.setViewportSize(1366, 768);
  }

  private static void gone(Path file) {
    try {
      Files.delete(file);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
