package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.desk.Desk;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.ReadingStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.SmallArchive;
import rakelight.work.ReaderStore;
import rakelight.work.Role;
import rakelight.work.Withdrawing;

/** The search as a guest uses it, in a browser. */
class SearchPageTest {
  private static final Path SCREENSHOTS = Path.of("target", "screenshots");

  @TempDir static Path folder;
  private static Browser browser;
  private static SmallArchive small;
  private static Desk desk;
  private static String root;

  @BeforeAll
  static void open() throws Exception {
    browser = Browser.open();
    Files.createDirectories(SCREENSHOTS);
    small = new SmallArchive(folder, Projections.all());
    read("M04", "W", "In memory of | HANNAH WREN | wife of JOHN WREN | died 1848 aged 63 years");
    read("B-2", "front", "ELIZABETH WR[..] | died 1861");
    read("B-3", "front", "AMOS RUDD | son of ELI RUDD | died 1863");
    read("D-1", "front", "SILAS QUILLAN | died 1870");
    ReaderStore readers = new ReaderStore(small.archive());
    readers.admit("Ada Fenn", Role.ARCHIVIST, "ada has long words".toCharArray(), "Ada Fenn");
    readers.admit("Gil Moss", Role.GUEST, "gil has long words".toCharArray(), "Ada Fenn");
    desk = Desk.start(small.archive(), InetAddress.getLoopbackAddress(), 0, Clock.systemUTC());
    root = "http://127.0.0.1:" + desk.port();
  }

  @AfterAll
  static void close() {
    if (desk != null) {
      desk.close();
      small.close();
    }
    if (browser != null) {
      browser.close();
    }
  }

  private static void read(String marker, String face, String text) throws Exception {
    new ReadingStore(small.archive())
        .sign(
            new PhotoStore(small.archive()).faceOf(marker, face, "Ada Fenn").id(),
            Leiden.parse(text),
            Basis.FROM_PHOTOGRAPHS,
            Optional.empty(),
            "Ada Fenn");
  }

  private static Page guest(BrowserContext context) {
    Page page = context.newPage();
    page.navigate(root + "/sign-in");
    page.fill("#name", "Gil Moss");
    page.fill("#passphrase", "gil has long words");
    page.click("main button");
    page.waitForURL(root + "/");
    return page;
  }

  private static void picture(Page page, String name) {
    page.screenshot(
        new Page.ScreenshotOptions().setFullPage(true).setPath(SCREENSHOTS.resolve(name)));
  }

  @Test
  void theSearchIsForEverybodyOnEveryScreen() {
    List<String> broken = new ArrayList<>();
    for (int[] window : new int[][] {{1366, 768}, {360, 740}}) {
      ColorScheme scheme = window[0] == 360 ? ColorScheme.DARK : ColorScheme.LIGHT;
      try (BrowserContext context = browser.context(window[0], window[1], scheme)) {
        Page page = guest(context);
        page.onConsoleMessage(message -> broken.add(message.text()));
        assertThat(page.textContent("h1")).isEqualTo("Search");
        page.click("summary >> text=Search by fields");
        Browser.isAccessible(page, "search-front-" + window[0]);
        picture(page, "search-front-" + window[0] + ".png");
        page.navigate(root + "/search?q=hannah+wren");
        page.locator(".hit img").first().scrollIntoViewIfNeeded();
        Browser.isAccessible(page, "search-hits-" + window[0]);
        picture(page, "search-hits-" + window[0] + ".png");
        page.click(".hit >> nth=0 >> text=The family of");
        Browser.isAccessible(page, "search-family-" + window[0]);
      }
    }
    assertThat(broken).as("what the browser complains of").isEmpty();
  }

  @Test
  void hitsComeAsOneTypesAndLeadToDecadesAndKin() {
    try (BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = guest(context);
      page.locator("#q").pressSequentially("died");
      page.waitForCondition(() -> page.textContent("#count").equals("4 markers answer."));
      assertThat(page.url()).isEqualTo(root + "/search?q=died");
      assertThat(page.locator("#q").evaluate("box => box === document.activeElement"))
          .as("typing goes on")
          .isEqualTo(true);
      page.click(".facets a:has-text('1860s')");
      assertThat(page.locator(".hit").count()).isEqualTo(2);
      page.click("text=Not only 1860s");
      page.click(".facets a:has-text('Rudd')");
      assertThat(page.locator(".hit h2").allTextContents()).containsExactly("Marker B-3");
      page.click("text=The family of marker B-3");
      assertThat(page.textContent("main")).contains("Amos Rudd");
      page.click("section:has(#kin) a >> nth=0");
      assertThat(page.textContent("main")).contains("Marker B-3");
      assertThat(page.textContent("#answer")).contains("What the answer covers", "4 markers");
    }
  }

  @Test
  void withoutScriptTheFormFindsAWornNameByItsNickname() {
    try (BrowserContext context = browser.withoutScript()) {
      Page page = guest(context);
      page.click("summary >> text=Search by fields");
      page.fill("#given", "Betsy");
      page.fill("#surname", "Wren");
      page.fill("#died", "1860");
      page.fill("#within", "2");
      page.click("text=Search by these");
      assertThat(page.inputValue("#q")).isEqualTo("name:\"Betsy Wren\" died:1858..1862");
      assertThat(page.locator(".hit h2").first().textContent()).isEqualTo("Marker B-2");
      assertThat(page.locator(".hit mark.guessed").first().textContent()).isEqualTo("[..]");
      page.fill("#q", "wren OR rudd");
      page.click("#ask button");
      assertThat(page.textContent(".notice.wrong")).contains("can’t be understood");
    }
  }

  @Test
  void onPaperStandHitsAndCitationsWithoutWhatIsForTheScreen() {
    try (BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = guest(context);
      page.navigate(root + "/search?q=died");
      page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
      assertThat(page.textContent("#count")).isEqualTo("4 markers answer.");
      assertThat(page.locator(".hit [data-cite]").first().isVisible()).isTrue();
      assertThat(page.isVisible("text=Asked: died")).isTrue();
      assertThat(page.isVisible("#covers")).isTrue();
      for (String onScreen : List.of(".facets", "#ask", ".copy", "header.top")) {
        assertThat(page.locator(onScreen).count()).as(onScreen).isPositive();
        assertThat(page.locator(onScreen).first().isVisible()).as(onScreen).isFalse();
      }
      picture(page, "search-print.png");
    }
  }

  @Test
  void whatWasWithdrawnIsNotFound() {
    try (BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = guest(context);
      page.navigate(root + "/search?q=quillan");
      assertThat(page.textContent("#answer")).contains("Marker D-1");
      new Withdrawing(small.archive())
          .marker(
              new MarkerStore(small.archive()).named("D-1"),
              new Withdrawing.Terms("the family asked", Optional.empty(), true),
              new ReaderStore(small.archive()).atTheTerminal("Ada Fenn"));
      page.reload();
      assertThat(page.textContent("#count")).isEqualTo("No marker answers.");
      assertThat(page.textContent("#answer")).doesNotContain("D-1").doesNotContain("QUILLAN");
      read("D-1", "front", "SILAS QUILLAN | died 1870");
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }
}
