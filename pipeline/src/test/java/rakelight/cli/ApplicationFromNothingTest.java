package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
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
 * pages alone, with the program's own jobs.
 */
@Tag("long")
class ApplicationFromNothingTest {
  private static final double LONGEST_JOB_MS = 240_000;
  private static final int MOST_LETTERS = 200;

  @TempDir Path folder;
  private Page page;

  @Test
  void stonesAreReadBackedUpToldLentAndTakenBackWithoutACommand() throws Exception {
    photograph("16", "M16-W.jpg");
    photograph("27", "M27-E.jpg");
    Path home = folder.resolve("Fennick Lane");
    Path stick = Files.createDirectory(folder.resolve("stick"));
    try (Browser browser = Browser.open();
        Entrance entrance =
            Entrance.start(
                new StartCommand.FromPages(),
                folder.resolve("settings"),
                StartCommand.ownProgram(),
                0,
                Clock.systemUTC());
        BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      page = context.newPage();
      page.navigate(entrance.address());
      page.fill("#ground", "Fennick Lane");
      page.fill("#datum", "54.1, -3.2");
      page.fill("#zone", "Europe/London");
      page.fill("#new-folder", folder.toString());
      page.click("text=Make the archive");
      signIn("Ada Fenn");

      page.click("nav >> text=Jobs");
      page.fill("#ingest-folder", folder.resolve("season").toString());
      job("text=Put them in", "2 photographs taken.");
      job("text=Now read them", "2 photographs read");
      page.click("text=Confirm letters");
      looked("queue");
      readTheFirst();
      looked("read");

      page.click("nav >> text=Jobs");
      job("text=Look everything over", "nothing wrong");
      page.click("nav >> text=Jobs");
      page.fill("#backup-folder", stick.resolve("kept").toString());
      job("#backup ~ form button >> nth=0", "checked, nothing wrong.");
      page.click("nav >> text=Jobs");
      page.fill("#export-folder", stick.toString());
      job("text=A web site", "index.html");
      page.navigate(stick.resolve("Site of Fennick Lane/index.html").toUri().toString());
      assertThat(page.textContent("body")).contains("1 marker");
      looked("site");

      // The other stone goes to somebody else, who has the same program.
      page.navigate(entrance.address());
      page.click("text=Put photographs in");
      page.click("text=Lend markers");
      page.fill("#lend-folder", stick.toString());
      page.fill("#borrower", "Ben Reader");
      page.click("fieldset.offers input >> nth=0");
      looked("lending");
      job("text=Lend them", "1 marker with 1 photograph, reduced");
      page.navigate(entrance.address());
      page.fill("#folder", part(stick).toString());
      page.click("text=Open it");
      signIn("Ben Reader");
      page.click("nav >> text=What needs a person");
      readTheFirst();

      page.navigate(entrance.address());
      page.click("ul.known li:has-text('" + home + "') >> text=Open");
      signIn("Ada Fenn");
      page.click("nav >> text=Jobs");
      page.click("text=Lend markers");
      page.fill("#return-folder", part(stick).toString());
      looked("lent");
      job("#back ~ form button", "Nothing is changed yet.");
      looked("look");
      assertThat(signed(home)).isEqualTo(1);
      job("text=Bring it in", "came from");
      page.click("text=Lend and bring in");
      assertThat(page.textContent("ul.so-far")).contains("Ben Reader has had", "came back");
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

  private void signIn(String name) {
    page.waitForURL("**/sign-in**");
    page.fill("#name", name);
    page.click("main button");
    page.waitForSelector("header.top");
  }

  /** Starts a job and waits for it. */
  private void job(String button, String said) {
    page.click(button);
    page.waitForURL("**/jobs/*");
    over();
    assertThat(page.textContent("#said")).contains(said);
  }

  private void over() {
    page.waitForSelector(
        "text=All it said", new Page.WaitForSelectorOptions().setTimeout(LONGEST_JOB_MS));
  }

  /** Takes each letter of the first stone that waits as it is proposed, and signs. */
  private void readTheFirst() {
    page.click("text=Begin with marker");
    page.waitForSelector("#reading:not(.waiting)");
    saved();
    for (int i = 0;
        i < MOST_LETTERS && !page.textContent("#progress").contains("Every letter");
        i++) {
      page.keyboard().press("Enter");
      saved();
    }
    page.click("#sign");
    page.waitForSelector("#notice.good:has-text('Signed')");
  }

  private void saved() {
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

  private void looked(String name) {
    Browser.isAccessible(page, name);
    VisitedDesk.picture(page, "from-nothing-" + name);
    page.setViewportSize(360, 740);
    VisitedDesk.picture(page, "from-nothing-" + name + "-360");
    page.setViewportSize(1366, 768);
  }
}
