package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.ColorScheme;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.archive.Uuid7;
import rakelight.marker.Condition;
import rakelight.marker.ConditionStore;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.DescriptionWords;
import rakelight.marker.EmblemStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Polygon;
import rakelight.reading.GivenProposal;
import rakelight.samples.Samples;

/** What a marker is and when it was made, what is carved on it, what a guide plans: in a browser. */
class StonePagesTest {
  private static final Path SCREENSHOTS = Path.of("target", "screenshots");
  private static final String ADA = "Ada Fenn";
  private static final int[][] WINDOWS = {{1366, 768}, {360, 740}};

  @TempDir static Path folder;
  private static VisitedDesk desk;
  private static MarkerId stone;
  private static PhotographId shot;

  @BeforeAll
  static void open() throws Exception {
    desk = VisitedDesk.of(StonePagesTest::ground);
  }

  @AfterAll
  static void close() {
    if (desk != null) {
      desk.close();
    }
  }

  private static Archive ground() throws Exception {
    Path root = folder.resolve("archive");
    GuideGround.done(
        "init", root, "--ground", "Fenn Lane", "--datum", "54.1,-3.2", "--zone", "Europe/London");
    GuideGround.done("ground", root, "--region", "new-england", "--reader", ADA);
    Path shots = Files.createDirectories(folder.resolve("shots"));
    Files.write(shots.resolve("M07-W.jpg"), Samples.bytes("M07-W.jpg"));
    GuideGround.done("ingest", root, shots);
    GuideGround.done("assign", root, "M07-W.jpg", "--marker", "7", "--reader", ADA);
    Path readings = folder.resolve("readings.tsv");
    StringBuilder rows = new StringBuilder("marker\tface\tline\ttext\n");
    for (int i = 0; i < 12; i++) {
      rows.append(10 + i).append("\tfront\t1\tELI HOLT | died ").append(1790 + 9 * i).append('\n');
    }
    rows.append("7\tfront\t1\tHANNAH WREN | died 3 May 1806\n");
    Files.writeString(readings, rows);
    GuideGround.done("confirm", root, "--from", readings, "--new-markers", "--reader", ADA);
    Archive archive = Archive.open(root, Projections.all());
    fill(archive);
    return archive;
  }

  private static void fill(Archive archive) throws Exception {
    MarkerStore markers = new MarkerStore(archive);
    PhotoStore photographs = new PhotoStore(archive);
    DescriptionStore descriptions = new DescriptionStore(archive);
    for (int i = 0; i < 12; i++) {
      describe(
          descriptions,
          markers.named("" + (10 + i)).id(),
          "kind", "headstone", "material", i < 4 ? "slate" : i < 10 ? "marble" : "granite");
    }
    stone = markers.named("7").id();
    describe(descriptions, stone, "kind", "headstone", "material", "granite", "form", "round top");
    Face face = photographs.face(stone, "front").orElseThrow();
    photographs.describeFace(face.id(), Optional.of(92.0), ADA);
    Photograph taken = photographs.photographs().get(0);
    shot = taken.id();
    GivenProposal.of(
        archive,
        face.id(),
        taken.source(),
        shot,
        Polygon.rectangle(0, 0, taken.uprightWidthPx(), taken.uprightHeightPx()),
        List.of(),
        List.of(),
        List.of(
            Polygon.rectangle(
                taken.uprightWidthPx() * 0.35,
                taken.uprightHeightPx() * 0.15,
                taken.uprightWidthPx() * 0.65,
                taken.uprightHeightPx() * 0.3)));
    new ConditionStore(archive)
        .note(
            stone,
            LocalDate.parse("2025-04-30"),
            List.of(Condition.LEANING, Condition.SUGARING),
            "towards the path",
            ADA);
    EmblemStore emblems = new EmblemStore(archive);
    emblems.note(
        stone, "front", "willow", Optional.empty(), java.util.Map.of(), "over the name", ADA);
    emblems.note(
        stone, "front", "a knot of rope", Optional.empty(), java.util.Map.of(), "", ADA);
  }

  private static void describe(DescriptionStore store, MarkerId marker, String... said) {
    java.util.Map<String, String> fields = new java.util.HashMap<>();
    for (int i = 0; i < said.length; i += 2) {
      fields.put(said[i], said[i + 1]);
    }
    store.describe(
        marker, new DescriptionWords(fields).over(Description.NONE), Uuid7.next(), ADA);
  }

  private static String marker() {
    return desk.root() + "/markers/" + stone;
  }

  private static void picture(Page page, String name) {
    page.screenshot(
        new Page.ScreenshotOptions()
            .setPath(SCREENSHOTS.resolve(name.toLowerCase(Locale.ROOT) + ".png"))
            .setFullPage(true));
  }

  @Test
  void thePagesAreForEverybodyOnEveryScreen() {
    List<String[]> pages =
        new ArrayList<>(
            List.of(
                new String[] {"marker", "/markers/" + stone},
                new String[] {"at-the-stone", "/markers/" + stone + "/at-the-stone"},
                new String[] {"outlining", "/markers/" + stone + "/emblem?photograph=" + shot},
                new String[] {"describe", "/describe"}));
    for (int[] window : WINDOWS) {
      ColorScheme scheme = window[0] == 360 ? ColorScheme.DARK : ColorScheme.LIGHT;
      try (BrowserContext context = desk.browser().context(window[0], window[1], scheme)) {
        Page page = desk.signedIn(context, ADA);
        for (String[] one : pages) {
          page.navigate(desk.root() + one[1]);
          page.evaluate("document.querySelectorAll('details').forEach((one) => (one.open = true))");
          String name = "stone-" + one[0] + "-" + window[0];
          picture(page, name);
          Browser.isAccessible(page, name);
        }
      }
    }
  }

  @Test
  void aVolunteerPicksByEyeAndCanTakeItBack() {
    try (BrowserContext context = desk.browser().context(360, 740, ColorScheme.LIGHT)) {
      Page page = desk.signedIn(context, ADA);
      page.navigate(marker() + "/at-the-stone");
      page.click("text=Describe it");
      page.click("label[for=kind-obelisk] svg");
      page.selectOption("#part-0", "shaft");
      page.selectOption("#state-0", "leaning");
      page.fill("#lean-0", "8");
      page.click("text=Keep the description");
      page.waitForCondition(() -> page.textContent("main").contains("shaft: leaning 8"));
      assertThat(page.url()).endsWith("/at-the-stone");
      assertThat(page.textContent("dl.what")).contains("obelisk").contains("granite");
      page.navigate(marker());
      page.click("[aria-label^='Take back: described it']");
      page.waitForCondition(() -> page.textContent("dl.what").contains("headstone"));
    }
  }

  @Test
  void anEmblemIsOutlinedByMouseOrByKeyboardOrTakenFromTheMachine() {
    try (BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, ADA);
      String outlining = marker() + "/emblem?photograph=" + shot;
      page.navigate(outlining);
      BoundingBox box = page.locator("#outline").boundingBox();
      page.mouse().move(box.x + box.width * 0.4, box.y + 120);
      page.mouse().down();
      page.mouse().move(box.x + box.width * 0.6, box.y + 260);
      page.mouse().up();
      assertThat(page.textContent("#outlined")).isEqualTo("Outlined by 4 corners.");
      page.click("#none");
      page.focus("#outline");
      for (String key : List.of("Enter", "ArrowRight", "Enter", "ArrowDown", "Enter")) {
        page.keyboard().press(key);
      }
      assertThat(page.textContent("#outlined")).isEqualTo("Outlined by 3 corners.");
      page.click("[data-offer]");
      assertThat(page.textContent("#outlined")).isEqualTo("Outlined by 4 corners.");
      page.fill("#emblem-name", "Winged face");
      page.click("text=Questions of detail");
      page.fill("#detail-wings", "with");
      page.click("text=Keep the emblem");
      page.waitForURL(marker());
      assertThat(page.isVisible(".emblem svg[aria-label^='winged face, outlined']")).isTrue();
      picture(page, "stone-emblem-outlined");
      page.click("[aria-label^='Take back: noted an emblem: winged face']");
      page.waitForCondition(() -> page.locator(".emblem svg").count() == 0);
      page.click("[aria-label='Ask what it means: a knot of rope']");
      page.waitForCondition(
          () -> page.textContent("main").contains("What does the carving “a knot of rope”"));
    }
  }
}
