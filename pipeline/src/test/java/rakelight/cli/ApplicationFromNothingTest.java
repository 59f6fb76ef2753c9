package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.PlaywrightException;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.desk.Entrance;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.photo.PhotoStore;
import rakelight.samples.Samples;

/**
 * From nothing to stones that are read, backed up and told of, one of them on another laptop: by
 * pages alone, with the program's own jobs. With {@code
 * -Drakelight.application=/opt/rakelight/bin/Rakelight} it is an application that is installed, in
 * the window of Chromium which that opens on the display.
 */
@Tag("long")
class ApplicationFromNothingTest {
  private static final double LONGEST_JOB_MS = 240_000;
  private static final int MOST_LETTERS = 200;

  private static final String APPLICATION = System.getProperty("rakelight.application", "");
  private static final int DEBUGGING_PORT = 9333;
  private static final int SECONDS_TO_START = 120;

  @TempDir Path folder;

  /** The program, begun, and a window on its start page. */
  private interface Begun extends AutoCloseable {
    String address();

    Page page();

    void requireEnded() throws Exception;

    @Override
    void close();
  }

  /** The program's classes, and a browser without a window. */
  private static final class Here implements Begun {
    private final Browser browser = Browser.open();
    private final Entrance entrance;

    Here(Path folder) {
      entrance =
          Entrance.start(
              new StartCommand.FromPages(),
              folder.resolve("settings"),
              StartCommand.ownProgram(),
              0,
              Clock.systemUTC());
    }

    @Override
    public String address() {
      return entrance.address();
    }

    @Override
    public Page page() {
      Page page = browser.context(1366, 768, ColorScheme.LIGHT).newPage();
      page.navigate(address());
      return page;
    }

    @Override
    public void requireEnded() throws InterruptedException {
      entrance.await();
    }

    @Override
    public void close() {
      entrance.close();
      browser.close();
    }
  }

  /** An application as somebody starts it who has never had it, and the window that it opens. */
  private static final class Installed implements Begun {
    private final Path settings;
    private final Process program;
    private final Playwright playwright;
    private final com.microsoft.playwright.Browser browser;

    Installed(Path folder) throws Exception {
      settings = folder.resolve("config");
      ProcessBuilder builder = new ProcessBuilder(APPLICATION);
      builder.environment().put("XDG_CONFIG_HOME", settings.toString());
      builder.environment().put("LANG", "C");
      builder.environment().put("XDG_DATA_HOME", folder.resolve("data").toString());
      browserOfChoice(folder);
      program = builder.inheritIO().start();
      playwright =
          Playwright.create(
              new Playwright.CreateOptions()
                  .setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
      browser = window();
    }

    /** The browser that this user's addresses open in: one that the test can look into. */
    private void browserOfChoice(Path folder) throws IOException {
      Path applications = Files.createDirectories(folder.resolve("data/applications"));
      Files.writeString(
          applications.resolve("window.desktop"),
          "[Desktop Entry]\nType=Application\nName=Window\nExec=chromium --no-sandbox"
              + " --no-first-run --window-position=0,0 --window-size=1366,768"
              + " --remote-debugging-port="
              + DEBUGGING_PORT
              + " --user-data-dir="
              + folder.resolve("browser")
              + " %u\n");
      Files.writeString(
          Files.createDirectories(settings).resolve("mimeapps.list"),
          "[Default Applications]\nx-scheme-handler/http=window.desktop\n");
    }

    private com.microsoft.playwright.Browser window() throws InterruptedException {
      String at = "http://127.0.0.1:" + DEBUGGING_PORT;
      for (int second = 0; second < SECONDS_TO_START; second++) {
        try {
          return playwright.chromium().connectOverCDP(at);
        } catch (PlaywrightException e) {
          Thread.sleep(1000);
        }
      }
      throw new AssertionError("no window was opened");
    }

    @Override
    public String address() {
      try {
        return Files.readString(settings.resolve("rakelight").resolve("running")).strip();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public Page page() {
      Page page = browser.contexts().get(0).pages().get(0);
      page.waitForSelector("text=Begin an archive");
      page.setViewportSize(1366, 768);
      return page;
    }

    @Override
    public void requireEnded() throws InterruptedException {
      assertThat(program.waitFor(60, TimeUnit.SECONDS)).isTrue();
      assertThat(program.exitValue()).isZero();
    }

    @Override
    public void close() {
      program.destroy();
      // Closing a browser that one only looks into leaves its window open.
      browser.newBrowserCDPSession().send("Browser.close");
      playwright.close();
    }
  }

  @Test
  void stonesAreReadBackedUpToldLentAndTakenBackWithoutACommand() throws Exception {
    photograph("16", "M16-W.jpg");
    photograph("27", "M27-E.jpg");
    Path home = folder.resolve("Fennick Lane");
    Path stick = Files.createDirectory(folder.resolve("stick"));
    try (Begun begun = APPLICATION.isEmpty() ? new Here(folder) : new Installed(folder)) {
      Page page = begun.page();
      page.fill("#ground", "Fennick Lane");
      page.fill("#datum", "54.1, -3.2");
      page.fill("#zone", "Europe/London");
      page.fill("#new-folder", folder.toString());
      page.click("text=Make the archive");
      signIn(page, "Ada Fenn");

      page.click("nav >> text=Jobs");
      page.fill("#ingest-folder", folder.resolve("season").toString());
      job(page, "text=Put them in", "2 photographs taken.");
      job(page, "text=Now read them", "2 photographs read");
      page.click("text=Confirm letters");
      looked(page, "queue");
      readTheFirst(page);
      looked(page, "read");

      page.click("nav >> text=Jobs");
      job(page, "text=Look everything over", "nothing wrong");
      page.click("nav >> text=Jobs");
      page.fill("#backup-folder", stick.resolve("kept").toString());
      job(page, "#backup ~ form button >> nth=0", "checked, nothing wrong.");
      page.click("nav >> text=Jobs");
      page.fill("#export-folder", stick.toString());
      job(page, "text=A web site", "index.html");
      page.navigate(stick.resolve("Site of Fennick Lane/index.html").toUri().toString());
      assertThat(page.textContent("body")).contains("1 marker");
      looked(page, "site");

      // The other stone goes to somebody else, who has the same program.
      page.navigate(begun.address());
      page.click("text=Put photographs in");
      page.click("text=Lend markers");
      page.fill("#lend-folder", stick.toString());
      page.fill("#borrower", "Ben Reader");
      page.click("fieldset.offers input >> nth=0");
      looked(page, "lending");
      job(page, "text=Lend them", "1 marker with 1 photograph, reduced");
      page.navigate(begun.address());
      page.fill("#folder", part(stick).toString());
      page.click("text=Open it");
      signIn(page, "Ben Reader");
      page.click("nav >> text=What needs a person");
      readTheFirst(page);

      page.navigate(begun.address());
      page.click("ul.known li:has-text('" + home + "') >> text=Open");
      signIn(page, "Ada Fenn");
      page.click("nav >> text=Jobs");
      page.click("text=Lend markers");
      page.fill("#return-folder", part(stick).toString());
      looked(page, "lent");
      job(page, "#back ~ form button", "Nothing is changed yet.");
      looked(page, "look");
      assertThat(signed(home)).isEqualTo(1);
      job(page, "text=Bring it in", "came from");
      page.click("text=Lend and bring in");
      assertThat(page.textContent("ul.so-far")).contains("Ben Reader has had", "came back");

      page.navigate(begun.address());
      looked(page, "start");
      page.click("text=Close Rakelight");
      page.waitForSelector("text=Rakelight is closed");
      begun.requireEnded();
    }
    assertThat(signed(home)).isEqualTo(2);
  }

  private void photograph(String marker, String name) throws IOException {
    Path in = Files.createDirectories(folder.resolve("season").resolve(marker));
    Files.write(in.resolve(name), Samples.bytes(name));
  }

  private static Path part(Path stick) throws IOException {
    try (var files = Files.list(stick)) {
      return files
          .filter(file -> file.getFileName().toString().contains("lent to Ben Reader"))
          .findFirst()
          .orElseThrow();
    }
  }

  private static void signIn(Page page, String name) {
    page.waitForURL("**/sign-in**");
    page.fill("#name", name);
    page.click("main button");
    page.waitForSelector("header.top");
  }

  /** Starts a job and waits for it. */
  private static void job(Page page, String button, String said) {
    page.click(button);
    page.waitForURL("**/jobs/*");
    over(page);
    assertThat(page.textContent("#said")).contains(said);
  }

  private static void over(Page page) {
    page.waitForSelector(
        "text=All it said", new Page.WaitForSelectorOptions().setTimeout(LONGEST_JOB_MS));
  }

  /** Takes each letter of the first stone that waits as it is proposed, and signs. */
  private static void readTheFirst(Page page) {
    page.click("text=Begin with marker");
    page.waitForSelector("#reading:not(.waiting)");
    saved(page);
    for (int i = 0;
        i < MOST_LETTERS && !page.textContent("#progress").contains("Every letter");
        i++) {
      page.keyboard().press("Enter");
      saved(page);
    }
    page.click("#sign");
    page.waitForSelector("#notice.good:has-text('Signed')");
  }

  private static void saved(Page page) {
    page.waitForSelector("#saved:text-is('All saved')");
  }

  private static int signed(Path root) {
    try (Archive archive = Archive.open(root, Projections.all())) {
      ReadingStore readings = new ReadingStore(archive);
      int signed = 0;
      for (var face : new PhotoStore(archive).faces()) {
        for (Reading reading : readings.versions(face.id())) {
          assertThat(Leiden.printLines(reading.inscription())).isNotEmpty();
          signed++;
        }
      }
      return signed;
    }
  }

  private static void looked(Page page, String name) {
    Browser.isAccessible(page, name);
    VisitedDesk.picture(page, "from-nothing-" + name);
    page.setViewportSize(360, 740);
    VisitedDesk.picture(page, "from-nothing-" + name + "-360");
    page.setViewportSize(1366, 768);
  }
}
