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
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.desk.Entrance;
import rakelight.photo.PhotoStore;
import rakelight.samples.Samples;

/**
 * The start page and its jobs. {@link ApplicationFromNothingTest} goes the whole way to stones that
 * are read and told of.
 */
class ApplicationPagesTest {
  private static final double LONGEST_JOB_MS = 120_000;

  @TempDir Path folder;

  @Test
  void somebodyMakesAnArchiveAndPutsPhotographsInWhichGoesOnWhenTheTabIsClosed()
      throws IOException {
    Path photographs = folder.resolve("season");
    Files.write(
        Files.createDirectories(photographs.resolve("16")).resolve("M16-W.jpg"),
        Samples.bytes("M16-W.jpg"));
    try (Browser browser = Browser.open();
        Entrance entrance = entrance();
        BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = context.newPage();
      page.navigate(entrance.address());
      looked(page, "entrance");
      page.fill("#ground", "Tarrow: St. Ebba’s");
      page.fill("#datum", "54.1");
      page.fill("#zone", "Europe/London");
      page.click("#new-hint a");
      page.navigate(page.url() + "&at=" + folder);
      page.click("text=Take this folder");
      assertThat(page.inputValue("#ground")).isEqualTo("Tarrow: St. Ebba’s");
      assertThat(page.inputValue("#datum")).isEqualTo("54.1");
      assertThat(page.inputValue("#new-folder")).isEqualTo(folder.toString());
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
      looked(page, "folders");
      page.click("ul.folders >> text=season");
      page.click("text=Take this folder");
      assertThat(page.inputValue("#ingest-folder")).isEqualTo(photographs.toString());
      page.setInputFiles("#picked", photographs);
      page.waitForURL("**/jobs/1");
      page.close(); // It goes on.
      page = context.newPage();
      page.navigate(entrance.address());
      assertThat(page.textContent("#open-now")).isEqualTo("Tarrow: St. Ebba’s is open");
      page.click("text=Put photographs in");
      page.click("ul.so-far a >> nth=0");
      page.waitForSelector(
          "text=All it said", new Page.WaitForSelectorOptions().setTimeout(LONGEST_JOB_MS));
      assertThat(page.textContent("#said")).contains("1 photograph taken.");
      assertThat(page.isVisible("text=Now read them")).isTrue();
      looked(page, "job");
      try (Stream<Path> derived = Files.list(folder.resolve("Tarrow St. Ebba’s/derived"))) {
        assertThat(derived.map(path -> path.getFileName().toString()))
            .noneMatch(name -> name.startsWith("dropped"));
      }
      lending(page);

      page.navigate(entrance.address());
      page.click("text=Close Rakelight");
      page.waitForSelector("text=Rakelight is closed");
    }
    try (Archive archive = Archive.open(folder.resolve("Tarrow St. Ebba’s"), Projections.all())) {
      assertThat(new PhotoStore(archive).photographs()).hasSize(1);
    }
  }

  /** What can't be lent is said beside what was asked, which still stands there. */
  private void lending(Page page) {
    page.click("text=All jobs");
    page.click("text=Lend markers");
    assertThat(page.textContent("fieldset.offers")).contains("16", "no machine has read it");
    page.fill("#borrower", "Ben Reader");
    page.click("#lend-hint a");
    page.navigate(page.url() + "&at=" + folder);
    page.click("text=Take this folder");
    page.click("text=Lend them");
    assertThat(page.textContent("[role=alert]")).isEqualTo("Choose the markers to lend.");
    page.fill("#markers", "16, 99");
    page.click("text=Lend them");
    assertThat(page.textContent("[role=alert]")).contains("99");
    assertThat(page.inputValue("#borrower")).isEqualTo("Ben Reader");
    assertThat(page.inputValue("#lend-folder")).isEqualTo(folder.toString());
    looked(page, "lending");
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

  private static void looked(Page page, String name) {
    Browser.isAccessible(page, name);
    VisitedDesk.picture(page, "application-" + name);
    page.setViewportSize(360, 740);
    Browser.isAccessible(page, name + " on a telephone");
    VisitedDesk.picture(page, "application-" + name + "-360");
    page.setViewportSize(1366, 768);
  }
}
