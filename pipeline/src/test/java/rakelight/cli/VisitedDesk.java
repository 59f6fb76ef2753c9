package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.desk.Desk;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.ReadingStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.Proposal;
import rakelight.reading.ProposalStore;

/** The desk of an archive that a test visits with a browser. */
final class VisitedDesk implements AutoCloseable {
  private static final Path SCREENSHOTS = Path.of("target", "screenshots");

  private final Browser browser;
  private final Archive archive;
  private final Desk desk;

  private VisitedDesk(Browser browser, Archive archive) {
    this.browser = browser;
    this.archive = archive;
    this.desk = Desk.start(archive, InetAddress.getLoopbackAddress(), 0, Clock.systemUTC());
  }

  /** Opens the browser, then makes the archive, which it closes at the end. */
  static VisitedDesk of(Callable<Archive> made) throws Exception {
    Browser browser = Browser.open();
    Files.createDirectories(SCREENSHOTS);
    return new VisitedDesk(browser, made.call());
  }

  Archive archive() {
    return archive;
  }

  Browser browser() {
    return browser;
  }

  /** The desk's address without a path. */
  String root() {
    return "http://127.0.0.1:" + desk.port();
  }

  /** A page of somebody who signed in by name, where a name is enough. */
  Page signedIn(BrowserContext context, String name) {
    return signedIn(context, name, "");
  }

  Page signedIn(BrowserContext context, String name, String passphrase) {
    Page page = context.newPage();
    page.navigate(root() + "/sign-in");
    page.fill("#name", name);
    if (!passphrase.isEmpty()) {
      page.fill("#passphrase", passphrase);
    }
    page.click("main button");
    page.waitForURL(root() + "/");
    return page;
  }

  /** A window as wide as a laptop's, in a browser of its own. */
  BrowserContext laptop() {
    return browser.context(1366, 768, ColorScheme.LIGHT);
  }

  /** Somebody signs what a face says, from the photographs, as Leiden signs have it. */
  static void read(Archive archive, String marker, String face, String text) {
    FaceId id = new PhotoStore(archive).faceOf(marker, face, "Ada Fenn").id();
    try {
      new ReadingStore(archive)
          .sign(
              id,
              Leiden.parse(text),
              Basis.FROM_PHOTOGRAPHS,
              new ProposalStore(archive).latest(id).map(Proposal::id),
              "Ada Fenn");
    } catch (LeidenException e) {
      throw new IllegalArgumentException(text, e);
    }
  }

  /** Leaves a picture of the whole page, if pictures are asked for. */
  static void picture(Page page, String name) {
    picture(page, name, true);
  }

  /** Leaves a picture of what the window shows, if pictures are asked for. */
  static void window(Page page, String name) {
    picture(page, name, false);
  }

  private static void picture(Page page, String name, boolean whole) {
    // They take longer than what is looked at by machine.
    if (Boolean.getBoolean("rakelight.screenshots")) {
      page.screenshot(
          new Page.ScreenshotOptions()
              .setPath(SCREENSHOTS.resolve(name + ".png"))
              .setFullPage(whole));
    }
  }

  /**
   * Shows pages to somebody on a laptop by day and on a telephone at dusk, and looks at each for
   * everybody's sake.
   *
   * @param pages names for the pictures, each with an address
   */
  void onEveryScreen(String name, String passphrase, List<String[]> pages) {
    onEveryScreen(
        name,
        passphrase,
        page -> {
          for (String[] one : pages) {
            page.navigate(root() + one[1]);
            String called = one[0] + "-" + page.viewportSize().width;
            Browser.isAccessible(page, called);
            picture(page, called);
          }
        });
  }

  /** The same for whoever goes about by himself. */
  void onEveryScreen(String name, String passphrase, Consumer<Page> visit) {
    List<String> broken = new ArrayList<>();
    for (int[] window : new int[][] {{1366, 768}, {360, 740}}) {
      ColorScheme scheme = window[0] == 360 ? ColorScheme.DARK : ColorScheme.LIGHT;
      try (BrowserContext context = browser.context(window[0], window[1], scheme)) {
        Page page = signedIn(context, name, passphrase);
        page.onConsoleMessage(message -> broken.add(message.text()));
        visit.accept(page);
      }
    }
    assertThat(broken)
        .as("what the browser complains of, such as a script it may not run")
        .isEmpty();
  }

  @Override
  public void close() {
    desk.close();
    archive.close();
    browser.close();
  }
}
