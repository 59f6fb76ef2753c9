package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.photo.PhotoStore;
import rakelight.reading.SmallArchive;

/** The reading page of a stone on which a line may be below the two that a machine reads. */
class UnsureLinePagesTest {
  @TempDir static Path folder;
  private static SmallArchive small;
  private static VisitedDesk desk;

  @BeforeAll
  static void open() throws Exception {
    small = new SmallArchive(folder, Projections.all());
    small.seeFainter();
    small.propose();
    small.lookAtAll();
    desk = VisitedDesk.of(() -> small.archive());
  }

  @AfterAll
  static void close() {
    if (desk != null) {
      desk.close();
    }
  }

  private static Page reading(BrowserContext context) {
    FaceId face = new PhotoStore(small.archive()).faceOf("M04", "W", "Ada").id();
    Page page = desk.signedIn(context, "Ada Fenn");
    page.navigate(desk.root() + "/faces/" + face);
    page.waitForSelector("#reading:not(.waiting)");
    saved(page);
    return page;
  }

  private static void saved(Page page) {
    page.waitForSelector("#saved:text-is('All saved')");
  }

  private static Page.WaitForSelectorOptions gone() {
    return new Page.WaitForSelectorOptions().setState(WaitForSelectorState.DETACHED);
  }

  private static List<String> lines(Page page) {
    return page.locator("#lines li:not(.unsure) .text").allTextContents().stream()
        .map(String::strip)
        .toList();
  }

  @Test
  void aLineThatMayBeThereIsLookedAtTakenAndPutAwayByKeysAlone() {
    try (BrowserContext context = desk.laptop()) {
      Page page = reading(context);
      assertThat(page.locator("#lines li").count()).isEqualTo(3);
      assertThat(page.locator("#lines li.unsure").textContent())
          .contains("A line may be here, below line 2: about");
      assertThat(page.locator(".boxes .line.unsure").count()).isEqualTo(1);
      assertThat(page.textContent("#next-unsure")).isEqualTo("A line may be here");

      // Down from the last line, with what is to be decided told and in sight.
      while (page.locator("#lines li:nth-child(2).now").count() == 0) {
        page.keyboard().press("ArrowDown");
      }
      page.keyboard().press("ArrowDown");
      page.waitForSelector("#reading.at-unsure");
      assertThat(page.textContent("#say"))
          .contains("A line may be here, below line 2", "Enter takes it as a line");
      assertThat(page.getAttribute("#lines li.unsure button", "aria-current")).isEqualTo("true");
      assertThat(page.isVisible("#take-line")).isTrue();
      assertThat(page.isVisible("#candidates")).isFalse();
      page.waitForCondition(
          () ->
              page.evaluate("document.querySelector('.strip img')?.naturalWidth > 0").equals(true));
      VisitedDesk.picture(page, "line-may-be");

      // No other key decides anything there.
      page.keyboard().press("X");
      page.keyboard().press("Space");
      page.keyboard().press("ArrowDown");
      assertThat(page.locator("#reading.at-unsure").count()).isEqualTo(1);
      page.keyboard().press("ArrowUp");
      assertThat(page.locator("#reading.at-unsure").count()).isZero();
      saved(page);
      assertThat(page.isDisabled("#undo")).isTrue();

      page.keyboard().press("ArrowDown");
      page.keyboard().press("Delete");
      page.waitForSelector("#lines li:nth-child(3)", gone());
      saved(page);
      assertThat(page.locator("#next-unsure").isVisible()).isFalse();
      page.keyboard().press("Backspace");
      page.waitForSelector("#lines li.unsure");

      page.click("#next-unsure");
      page.waitForSelector("#reading.at-unsure");
      page.keyboard().press("Enter");
      page.waitForSelector("#lines li.unsure", gone());
      saved(page);
      assertThat(lines(page)).hasSize(3);
      assertThat(page.textContent("#where")).startsWith("Line 3, letter");
      page.waitForCondition(
          () ->
              page.evaluate("document.querySelector('.strip img')?.naturalWidth > 0").equals(true));
      VisitedDesk.picture(page, "line-taken");
      page.keyboard().press("Backspace");
      page.waitForSelector("#lines li.unsure");
    }
  }

  @Test
  void proposalsTellsOfItApartFromTheLines() {
    Path archive = folder.resolve("archive");
    Ran told = Ran.command("proposals", archive, "--marker", "M04");
    assertThat(told.out()).containsOnlyOnce("   ?  a line may be here (0.");
    assertThat(told.out().indexOf("DIẸḌ")).isLessThan(told.out().indexOf("may be here"));
    JsonNode json =
        Json.read(
            Ran.command("proposals", archive, "--marker", "M04", "--json").out(), JsonNode.class);
    assertThat(json.path("lines")).hasSize(2);
    assertThat(json.path("unsure").get(0).path("text").asText()).isEqualTo("HANNAH WREN");
    assertThat(json.path("unsure").get(0).path("p").asDouble()).isBetween(.2, 1.0);
  }

  @Test
  void aPointerGoesThereFromTheReadingAndFromTheStone() {
    try (BrowserContext context = desk.laptop()) {
      Page page = reading(context);
      page.click("#lines li.unsure button");
      page.waitForSelector("#reading.at-unsure");
      page.click("#leave-unsure");
      page.waitForSelector("#reading:not(.at-unsure)");
      page.locator(".boxes .line.unsure").click();
      page.waitForSelector("#reading.at-unsure");
      page.click("#no-line");
      page.waitForSelector("#lines li.unsure", gone());
      assertThat(lines(page)).hasSize(2);
      saved(page);
      page.click("#undo");
      page.waitForSelector("#lines li.unsure");
    }
  }
}
