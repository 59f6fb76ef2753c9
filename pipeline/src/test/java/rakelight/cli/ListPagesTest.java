package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static rakelight.cli.GuideGround.ADA;
import static rakelight.cli.GuideGround.MOVED;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.net.InetAddress;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.desk.Desk;

/** The lists for a guide, as a browser shows and prints them. */
class ListPagesTest {
  private static final int[][] WINDOWS = {{1366, 768}, {360, 740}};

  /** A4 upright at 96 pixels an inch. */
  private static final int[] PAPER = {794, 1123};

  @TempDir static Path folder;
  private static Browser browser;
  private static Archive archive;
  private static Desk desk;
  private static String root;
  private static String moved;

  @BeforeAll
  static void open() throws Exception {
    browser = Browser.open();
    Path made = GuideGround.in(folder);
    moved = "/moved?source=" + GuideGround.source(made) + "&show=";
    archive = Archive.open(made, Projections.all());
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

  private static void signIn(Page page) {
    page.navigate(root + "/sign-in");
    page.fill("#name", ADA);
    page.click("main button");
    page.waitForURL(root + "/");
  }

  @Test
  void theListsAreForEverybodyOnEveryScreenAndOnPaper() {
    List<String[]> pages =
        List.of(
            new String[] {"roll", "/roll"},
            new String[] {"roll-none", "/roll?by=war&of=crimea"},
            new String[] {"deaths", "/deaths"},
            new String[] {"moved", "/moved"},
            new String[] {"moved-marked", moved + "marked"},
            new String[] {"moved-unaccounted", moved + "unaccounted"});
    for (int[] window : WINDOWS) {
      ColorScheme scheme = window[0] == 360 ? ColorScheme.DARK : ColorScheme.LIGHT;
      try (BrowserContext context = browser.context(window[0], window[1], scheme)) {
        Page page = context.newPage();
        signIn(page);
        for (String[] one : pages) {
          page.navigate(root + one[1]);
          String name = "list-" + one[0] + "-" + window[0];
          VisitedDesk.picture(page, name);
          Browser.isAccessible(page, name);
        }
      }
    }
    try (BrowserContext context = browser.context(PAPER[0], PAPER[1], ColorScheme.LIGHT)) {
      Page page = context.newPage();
      signIn(page);
      for (String[] one : pages) {
        page.navigate(root + one[1]);
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        VisitedDesk.picture(page, "list-" + one[0] + "-print");
        assertThat(page.isVisible(".top")).as("the desk's own head on paper").isFalse();
        assertThat(page.isVisible("h1")).isTrue();
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.SCREEN));
      }
    }
  }

  @Test
  void behindEachFigureOfTheAccountIsItsListByKeyboardAlone() {
    try (BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = context.newPage();
      signIn(page);
      page.route("**/*.js", route -> route.abort());
      page.navigate(root + "/moved");
      MOVED
          .figures()
          .forEach(
              (figure, count) -> {
                page.focus(".figures a[href*='show=" + figure + "#']");
                page.keyboard().press("Enter");
                page.waitForURL("**/moved?*show=" + figure + "*");
                assertThat(page.locator(".graves tbody tr").count()).as(figure).isEqualTo(count);
                assertThat(page.textContent("#list")).startsWith(count + " ");
              });
      assertThat(page.textContent("main"))
          .contains("Doesn’t close:")
          .contains("Unmarked graves may remain")
          .contains("Look only");
    }
  }

  @Test
  void whoLiesInAGraveIsConfirmedRefusedAndTakenBack() {
    try (BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = context.newPage();
      signIn(page);
      page.navigate(root + moved + "marked");
      int proposed = page.locator("button[value=is]").count();
      assertThat(proposed).isGreaterThan(10);
      page.focus("button[value=is] >> nth=0");
      page.keyboard().press("Enter");
      page.waitForURL("**/moved?*did=*");
      assertThat(page.textContent("[role=status]")).contains("this person");
      assertThat(page.locator("button[value=is]").count()).isEqualTo(proposed - 1);
      assertThat(page.textContent(".graves")).contains("confirmed");
      page.click("button[value=not] >> nth=0");
      page.waitForCondition(() -> page.textContent("[role=status]").contains("another person"));
      assertThat(page.locator("button[value=is]").count()).isEqualTo(proposed - 2);
      page.click("[role=status] button");
      page.waitForCondition(() -> page.locator("[role=status]").count() == 0);
      page.click(".graves button[value=undo]");
      page.waitForCondition(() -> page.locator("button[value=is]").count() == proposed);
    }
  }

  @Test
  void aRegimentAskedForInAnotherSpellingIsListedWithItsStones() {
    try (BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = context.newPage();
      signIn(page);
      page.click("nav[aria-label='The desk'] >> text=Lists for a guide");
      page.fill("#of", "Fifth Regt. Sker. Infantry");
      page.keyboard().press("Enter");
      page.waitForURL("**/roll?*Fifth*");
      assertThat(page.locator(".roll tbody th").allTextContents())
          .containsExactly("Abel Kell", "Owen Lane", "Hugh Wray");
      page.click("text=marker W3");
      page.waitForCondition(() -> page.textContent("h1").contains("Marker W3"));
    }
  }
}
