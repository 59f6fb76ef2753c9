package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.desk.Desk;
import rakelight.marker.MarkerStore;
import rakelight.photo.CardSearch;
import rakelight.photo.Credits;
import rakelight.photo.Grouping;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;
import rakelight.samples.Season;
import rakelight.survey.StoneLikeness;

/** The sorting desk as a browser shows it, with a small season of 9 markers and three cameras. */
class SortingPageTest {
  private static final Path SCREENSHOTS = Path.of("target", "screenshots");

  @TempDir static Path folder;
  private static Browser browser;
  private static Archive archive;
  private static Desk desk;
  private static String root;

  @BeforeAll
  static void open() throws Exception {
    browser = Browser.open();
    Files.createDirectories(SCREENSHOTS);
    Path season = folder.resolve("season");
    new Season(9, 40, 320).writeTo(season);
    archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Tarrow", 44, -50, ZoneId.of("-03:00")),
            Projections.all());
    new Ingest(archive, Credits.NONE, "Ada Fenn", new NoListener()).run(List.of(season), Set.of());
    CardSearch cards = new CardSearch(archive, Picture::reduced, Picture::isIn, "Ada Fenn");
    cards.run(cards.candidates(), shot -> {});
    new Grouping(archive, "Ada Fenn", line -> {}).byCards();
    new StoneLikeness(archive).look(2, (done, all) -> {});
    desk = Desk.start(archive, InetAddress.getLoopbackAddress(), 0, Clock.systemUTC());
    root = "http://127.0.0.1:" + desk.port();
  }

  @AfterAll
  static void close() {
    if (desk != null) {
      desk.close();
      archive.close();
    }
    if (browser != null) {
      browser.close();
    }
  }

  private static Page signedIn(BrowserContext context) {
    Page page = context.newPage();
    page.navigate(root + "/sign-in");
    page.fill("#name", "Ada Fenn");
    page.click("main button");
    page.waitForURL(root + "/");
    return page;
  }

  /** Loads the page again until all photographs on it have been compared. */
  private static void compared(Page page) {
    page.navigate(root + "/sorting");
    while (page.locator("p.quiet").count() > 0) {
      page.waitForTimeout(300);
      page.reload();
    }
  }

  private static long waiting() {
    return new PhotoStore(archive).photographs().stream().filter(Photograph::isWaiting).count();
  }

  private static List<String> on(String number) {
    PhotoStore photographs = new PhotoStore(archive);
    return new MarkerStore(archive)
        .byNumber(number).stream()
            .flatMap(marker -> photographs.faces(marker.id()).stream())
            .flatMap(face -> photographs.ofFace(face.id()).stream())
            .map(Photograph::originalName)
            .toList();
  }

  @Test
  void theStreamsAreForEverybodyOnEveryScreen() {
    List<String> broken = new ArrayList<>();
    for (int[] window : new int[][] {{1366, 768}, {360, 740}}) {
      ColorScheme scheme = window[0] == 360 ? ColorScheme.DARK : ColorScheme.LIGHT;
      try (BrowserContext context = browser.context(window[0], window[1], scheme)) {
        Page page = signedIn(context);
        page.onConsoleMessage(message -> broken.add(message.text()));
        page.click("nav a[href='/sorting']");
        compared(page);
        Browser.isAccessible(page, "sorting-" + window[0]);
        page.screenshot(
            new Page.ScreenshotOptions()
                .setPath(SCREENSHOTS.resolve("sorting-" + window[0] + ".png")));
        page.navigate(root + "/sorting?show=all");
        page.screenshot(
            new Page.ScreenshotOptions()
                .setPath(SCREENSHOTS.resolve("sorting-all-" + window[0] + ".png")));
      }
    }
    assertThat(broken)
        .as("what the browser complains of, such as a script it may not run")
        .isEmpty();
  }

  @Test
  void aRunIsChosenByKeysPutOnANewMarkerAndTakenBackAsOne() {
    try (BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = signedIn(context);
      page.navigate(root + "/sorting");
      long before = waiting();
      page.locator("[data-shot]").first().focus();
      page.keyboard().press("Space");
      page.keyboard().press("Shift+ArrowRight");
      page.keyboard().press("Shift+ArrowRight");
      assertThat(page.textContent("#chosen")).isEqualTo("(3)");
      page.keyboard().press("m");
      page.keyboard().type("777");
      page.keyboard().press("Enter");
      page.waitForSelector("[role=status]");
      assertThat(page.textContent("[role=status]")).contains("There is no marker 777 here.");
      assertThat(waiting()).isEqualTo(before);

      page.locator("[data-shot]").first().click();
      page.locator("[data-shot]")
          .nth(2)
          .click(
              new com.microsoft.playwright.Locator.ClickOptions()
                  .setModifiers(List.of(com.microsoft.playwright.options.KeyboardModifier.SHIFT)));
      page.fill("#number", "777");
      page.check("[name=new]");
      page.click("button[value=put]");
      page.waitForURL(Pattern.compile(".*did=.*"));
      assertThat(page.textContent("[role=status]")).contains("Kept: 3 photographs");
      assertThat(on("777")).hasSize(3);
      page.click("button[value=undo]");
      page.waitForURL(url -> !url.contains("did="));
      assertThat(on("777")).isEmpty();
      assertThat(waiting()).isEqualTo(before);
    }
  }

  @Test
  void withoutScriptOrMouseAWholePageOfOffersIsTaken() {
    try (BrowserContext context = browser.withoutScript()) {
      Page page = signedIn(context);
      page.navigate(root + "/sorting");
      compared(page);
      int sure = page.locator(".offer input:checked:not([value=''])").count();
      assertThat(sure).isGreaterThan(2);
      long before = waiting();
      page.focus("button[value=take]");
      page.keyboard().press("Enter");
      page.waitForURL(Pattern.compile(".*did=.*"));
      assertThat(waiting()).isEqualTo(before - sure);
      page.click("button[value=undo]");
      page.waitForURL(url -> !url.contains("did="));
      assertThat(waiting()).isEqualTo(before);
    }
  }

  @Test
  void whereACardWasForgottenTheRunIsSplitAndAViewIsSetAside() {
    try (BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = signedIn(context);
      page.navigate(root + "/sorting?show=all");
      List<String> before = on("S002");
      assertThat(before).hasSize(2);
      page.locator("li.shot", new Page.LocatorOptions().setHasText(before.get(1)))
          .locator("[data-shot]")
          .check();
      page.fill("#number", "S002a");
      page.check("[name=new]");
      page.click("button[value=split]");
      page.waitForURL(Pattern.compile(".*did=.*"));
      assertThat(on("S002")).containsExactly(before.get(0));
      assertThat(on("S002a")).containsExactly(before.get(1));

      page.locator("li.shot", new Page.LocatorOptions().setHasText(before.get(1)))
          .locator("[data-shot]")
          .focus();
      page.keyboard().press("Space");
      page.keyboard().press("n");
      page.waitForSelector("[role=status]:has-text('not a stone')");
      assertThat(on("S002a")).isEmpty();
      for (int i = 0; i < 2; i++) {
        Ran.command("undo", archive.root(), "--reader", "Ada Fenn");
      }
    }
  }
}
