package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.Media;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.SmallArchive;
import rakelight.work.QuickReaders;
import rakelight.work.ReaderStore;
import rakelight.work.Role;
import rakelight.work.Withdrawing;

/** The search as a guest uses it, in a browser. */
class SearchPageTest {
  private static final String GIL = "gil has long words";

  @TempDir static Path folder;
  private static VisitedDesk desk;
  private static String root;

  @BeforeAll
  static void open() throws Exception {
    desk = VisitedDesk.of(SearchPageTest::ground);
    root = desk.root();
  }

  @AfterAll
  static void close() {
    if (desk != null) {
      desk.close();
    }
  }

  private static Archive ground() throws Exception {
    SmallArchive small = new SmallArchive(folder, Projections.all());
    small.propose();
    Archive archive = small.archive();
    VisitedDesk.read(archive, "M04", "W", "HANNAH WR[.]N | DIED 1848");
    VisitedDesk.read(archive, "B-2", "front", "ELIZABETH WR[..] | died 1861");
    VisitedDesk.read(archive, "B-3", "front", "AMOS RUDD | son of ELI RUDD | died 1863");
    VisitedDesk.read(archive, "D-1", "front", "SILAS QUILLAN | died 1870");
    new PhotoStore(archive).faceOf("E-1", "front", "Ada Fenn");
    ReaderStore readers = QuickReaders.of(archive);
    readers.admit("Ada Fenn", Role.ARCHIVIST, "ada has long words".toCharArray(), "Ada Fenn");
    readers.admit("Gil Moss", Role.GUEST, GIL.toCharArray(), "Ada Fenn");
    return archive;
  }

  private static Page guest(BrowserContext context) {
    return desk.signedIn(context, "Gil Moss", GIL);
  }

  @Test
  void theSearchIsForEverybodyOnEveryScreen() {
    desk.onEveryScreen(
        "Gil Moss",
        GIL,
        page -> {
          int wide = page.viewportSize().width;
          assertThat(page.textContent("h1")).isEqualTo("Search");
          page.click("summary >> text=Search by fields");
          Browser.isAccessible(page, "search-front-" + wide);
          VisitedDesk.picture(page, "search-front-" + wide);
          page.navigate(root + "/search?q=hannah+wren");
          page.locator(".hit img").first().scrollIntoViewIfNeeded();
          Browser.isAccessible(page, "search-hits-" + wide);
          VisitedDesk.picture(page, "search-hits-" + wide);
          page.click(".hit >> nth=0 >> text=The family of");
          Browser.isAccessible(page, "search-family-" + wide);
        });
  }

  @Test
  void hitsComeAsOneTypesAndLeadToDecadesAndKin() {
    try (BrowserContext context = desk.laptop()) {
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
      assertThat(page.textContent("#answer")).contains("What the answer covers");
    }
  }

  @Test
  void withoutScriptTheFormFindsAWornNameByItsNickname() {
    try (BrowserContext context = desk.browser().withoutScript()) {
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
      page.click("summary >> text=Search by fields");
      page.fill("#surname", "Wren");
      page.fill("#died", "soon");
      page.click("text=Search by these");
      assertThat(page.textContent(".notice.wrong")).contains("“soon” isn't a year");
      assertThat(page.inputValue("#surname")).as("refilled").isEqualTo("Wren");
      assertThat(page.inputValue("#died")).isEqualTo("soon");
      page.fill("#q", "wren OR rudd");
      page.click("#ask button");
      assertThat(page.textContent(".notice.wrong")).contains("can’t be understood");
    }
  }

  @Test
  void onPaperStandHitsAndCitationsWithoutWhatIsForTheScreen() {
    try (BrowserContext context = desk.laptop()) {
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
      VisitedDesk.picture(page, "search-print");
    }
  }

  @Test
  void whatWasWithdrawnIsNotFound() {
    try (BrowserContext context = desk.laptop()) {
      Page page = guest(context);
      page.navigate(root + "/search?q=quillan");
      assertThat(page.textContent("#answer")).contains("Marker D-1");
      new Withdrawing(desk.archive())
          .marker(
              new MarkerStore(desk.archive()).named("D-1"),
              new Withdrawing.Terms("the family asked", Optional.empty(), true),
              new ReaderStore(desk.archive()).atTheTerminal("Ada Fenn"));
      page.reload();
      assertThat(page.textContent("#count")).isEqualTo("No marker answers.");
      assertThat(page.textContent("#answer")).doesNotContain("D-1").doesNotContain("QUILLAN");
      VisitedDesk.read(desk.archive(), "D-1", "front", "SILAS QUILLAN | died 1870");
    }
  }

  @Test
  void lettersThatAnsweredAreDrawnOnTheStoneSureOnesOtherwiseThanGuessed() {
    try (BrowserContext context = desk.laptop()) {
      Page page = guest(context);
      page.navigate(root + "/search?q=wren");
      assertThat(page.locator(".hit h2").first().textContent()).isEqualTo("Marker M04");
      Locator drawn = page.locator(".hit").first().locator(".drawn");
      assertThat(drawn.count()).isEqualTo(1);
      assertThat(drawn.getAttribute("aria-label"))
          .isEqualTo("Line 1 on the photograph, letters marked: guessed, sure");
      assertThat(drawn.locator("polygon.sure").count()).as("WR and N").isEqualTo(2);
      assertThat(drawn.locator("polygon.guessed").count()).isEqualTo(1);
      assertThat(stroke(page, ".drawn polygon.sure")).isEqualTo("none");
      assertThat(stroke(page, ".drawn polygon.guessed")).isNotEqualTo("none");
    }
  }

  private static Object stroke(Page page, String drawn) {
    return page.locator(drawn).first().evaluate("one => getComputedStyle(one).strokeDasharray");
  }

  @Test
  void anAnswerIsReadOutAndSaysWhatItCovers() {
    try (BrowserContext context = desk.laptop()) {
      Page page = guest(context);
      Object region = page.locator("#announced").evaluateHandle("one => one");
      page.locator("#q").pressSequentially("amos");
      page.waitForCondition(() -> page.textContent("#announced").contains("marker B-3"));
      assertThat(page.locator("#announced").evaluate("(one, other) => one === other", region))
          .as("the region that is read out is still the same")
          .isEqualTo(true);
      assertThat(page.getAttribute("#announced", "role")).isEqualTo("status");
      page.fill("#q", "amos OR eli");
      page.waitForCondition(() -> page.textContent("#announced").contains("can’t be understood"));
      page.navigate(root + "/search?q=amos");
      assertThat(page.locator(".covered dd").allTextContents())
          .as("markers, photographed, read, hardly legible, photographed and not read")
          .containsExactly("5", "1", "4", "0", "0");
    }
  }

  @Test
  void theHitsAreATableForASpreadsheet() throws Exception {
    try (BrowserContext context = desk.laptop()) {
      Page page = guest(context);
      page.navigate(root + "/search?q=died&decade=1860");
      Download download =
          page.waitForDownload(() -> page.click("text=These hits as a table (CSV)"));
      try (CSVParser rows =
          CSVParser.parse(
              download.path(),
              StandardCharsets.UTF_8,
              CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get())) {
        List<CSVRecord> all = rows.getRecords();
        assertThat(all.stream().map(row -> row.get("marker")))
            .containsExactlyInAnyOrder("B-2", "B-3");
        assertThat(all.get(0).get("citation")).contains("Fennick Lane, marker B-");
      }
    }
  }
}
