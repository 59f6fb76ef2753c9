package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.Ground;
import rakelight.marker.MarkerStore;
import rakelight.photo.CardSearch;
import rakelight.photo.Credits;
import rakelight.photo.Grouping;
import rakelight.photo.Ingest;
import rakelight.photo.NoListener;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Picture;
import rakelight.picture.Polygon;
import rakelight.reading.GivenProposal;
import rakelight.samples.Season;
import rakelight.survey.StoneLikeness;

/** The sorting desk as a browser shows it, with a small season of 9 markers and three cameras. */
class SortingPageTest {
  @TempDir static Path folder;
  private static VisitedDesk desk;
  private static Archive archive;
  private static String root;

  @BeforeAll
  static void open() throws Exception {
    desk = VisitedDesk.of(SortingPageTest::ground);
    archive = desk.archive();
    root = desk.root();
  }

  @AfterAll
  static void close() {
    if (desk != null) {
      desk.close();
    }
  }

  private static Archive ground() throws Exception {
    Path season = folder.resolve("season");
    new Season(9, 40, 320).writeTo(season);
    Archive made =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Tarrow", 44, -50, ZoneId.of("-03:00")),
            Projections.all());
    new Ingest(made, Credits.NONE, "Ada Fenn", new NoListener()).run(List.of(season), Set.of());
    CardSearch cards =
        new CardSearch(made, Picture::reduced, shot -> shot.isShown(Picture::isRead), "Ada Fenn");
    cards.run(cards.candidates(), shot -> {});
    new Grouping(made, "Ada Fenn", line -> {}).byCards();
    new StoneLikeness(made).look(2, (done, all) -> {});
    return made;
  }

  private static Page signedIn(BrowserContext context) {
    return desk.signedIn(context, "Ada Fenn");
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
    desk.onEveryScreen(
        "Ada Fenn",
        "",
        page -> {
          int wide = page.viewportSize().width;
          page.click("nav a[href='/sorting']");
          compared(page);
          Browser.isAccessible(page, "sorting-" + wide);
          VisitedDesk.window(page, "sorting-" + wide);
          page.navigate(root + "/sorting?show=all");
          VisitedDesk.window(page, "sorting-all-" + wide);
        });
  }

  @Test
  void whichStonesStandBesideAnotherIsSaidOneByOneAndTakenBack() throws Exception {
    PhotoStore photographs = new PhotoStore(archive);
    Photograph shot =
        photographs.photographs().stream()
            .filter(one -> one.face().isPresent())
            .findFirst()
            .orElseThrow();
    double w = shot.uprightWidthPx();
    double h = shot.uprightHeightPx();
    GivenProposal.beside(
        archive,
        shot.face().orElseThrow(),
        shot,
        Polygon.rectangle(.55 * w, .2 * h, .7 * w, .9 * h),
        Polygon.rectangle(.75 * w, .2 * h, .95 * w, .9 * h));
    desk.onEveryScreen("Ada Fenn", "", List.<String[]>of(new String[] {"beside", "/beside"}));
    try (BrowserContext context = desk.laptop()) {
      Page page = signedIn(context);
      page.navigate(root + "/sorting");
      page.click("text=Stones beside those");
      assertThat(page.locator(".stones-beside > li").count()).isEqualTo(2);
      page.fill("#number-1", "555");
      page.locator("button[value=put]").nth(1).click();
      page.waitForSelector("[role=alert]");
      assertThat(page.textContent("[role=alert]")).contains("There is no marker 555 here.");

      page.fill("#number-1", "555");
      page.locator("[name=new]").nth(1).check();
      page.locator("button[value=put]").nth(1).click();
      page.waitForSelector("li:only-child > .pictures");
      assertThat(on("555")).containsExactly(shot.originalName());
      page.locator("button[value=pass]").click();
      page.waitForSelector("text=None waits");

      page.locator("button[aria-label^='Take back']").first().click();
      page.waitForSelector(".stones-beside > li");
      page.navigate(root + "/beside?photograph=" + shot.id());
      assertThat(page.locator(".stones-beside > li").count()).isEqualTo(2);
      assertThat(photographs.parts(shot.id())).hasSize(1);
    }
  }

  @Test
  void aRunIsChosenByKeysPutOnANewMarkerAndTakenBackAsOne() {
    try (BrowserContext context = desk.laptop()) {
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
    try (BrowserContext context = desk.browser().withoutScript()) {
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
    try (BrowserContext context = desk.laptop()) {
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
