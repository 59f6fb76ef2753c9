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
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.archive.PhotographId;
import rakelight.archive.Uuid7;
import rakelight.ground.MarkerPosition;
import rakelight.ground.PlannedWalk;
import rakelight.ground.PositionStore;
import rakelight.ground.WalkStore;
import rakelight.marker.Caution;
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

/**
 * What a marker is and when it was made, what is carved on it, what a guide plans: in a browser.
 */
class StonePagesTest {
  private static final String ADA = "Ada Fenn";
  private static final int[][] WINDOWS = {{1366, 768}, {360, 740}};

  @TempDir static Path folder;
  private static VisitedDesk desk;
  private static MarkerId stone;
  private static PhotographId shot;
  private static UUID walk;

  @BeforeAll
  static void open() throws Exception {
    desk = VisitedDesk.of(StonePagesTest::ground);
    stone = new MarkerStore(desk.archive()).named("7").id();
    shot = new PhotoStore(desk.archive()).photographs().get(0).id();
    walk = new WalkStore(desk.archive()).walks().get(0).id();
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
    // A wood from north-west to north-east hides the sun of early and late hours.
    GuideGround.done(
        "ground",
        root,
        "--region",
        "new-england",
        "--horizon",
        "0:60 85:60 86:0 274:0 275:60",
        "--reader",
        ADA);
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
          "kind",
          "headstone",
          "material",
          i < 4 ? "slate" : i < 10 ? "marble" : "granite");
    }
    MarkerId stone = markers.named("7").id();
    describe(descriptions, stone, "kind", "headstone", "material", "granite", "form", "round top");
    Face face = photographs.face(stone, "front").orElseThrow();
    photographs.describeFace(face.id(), Optional.of(92.0), ADA);
    Photograph taken = photographs.photographs().get(0);
    GivenProposal.of(
        archive,
        face.id(),
        taken.source(),
        taken.id(),
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
    for (int i = 0; i <= 12; i++) {
      MarkerId marker = i == 12 ? stone : markers.named("" + (10 + i)).id();
      Face front = photographs.face(marker, "front").orElseThrow();
      if (i < 12) {
        photographs.describeFace(front.id(), Optional.of(i == 3 ? 0.0 : 80 + 20.0 * i), ADA);
      }
      new PositionStore(archive)
          .note(
              new MarkerPosition(
                  marker,
                  54.1 + 0.00009 * (i % 4),
                  -3.2 + 0.00012 * (i / 4),
                  0.2,
                  MarkerPosition.Basis.PLAN,
                  "",
                  Optional.empty(),
                  Optional.empty()),
              ADA);
    }
    new WalkStore(archive)
        .plan(
            "Saturday",
            List.of(
                new PlannedWalk.Stop(stone, "The willow: ask what they see first."),
                new PlannedWalk.Stop(markers.named("21").id(), ""),
                new PlannedWalk.Stop(markers.named("10").id(), "Slate, split at the foot."),
                new PlannedWalk.Stop(markers.named("13").id(), "")),
            true,
            5,
            ADA);
    EmblemStore emblems = new EmblemStore(archive);
    emblems.note(stone, "front", "willow", Optional.empty(), Map.of(), "over the name", ADA);
    emblems.note(stone, "front", "a knot of rope", Optional.empty(), Map.of(), "", ADA);
  }

  private static void describe(DescriptionStore store, MarkerId marker, String... said) {
    Map<String, String> fields = new HashMap<>();
    for (int i = 0; i < said.length; i += 2) {
      fields.put(said[i], said[i + 1]);
    }
    store.describe(marker, new DescriptionWords(fields).over(Description.NONE), Uuid7.next(), ADA);
  }

  private static String marker() {
    return desk.root() + "/markers/" + stone;
  }

  @Test
  void thePagesAreForEverybodyOnEveryScreen() {
    // The long forms are looked at where they are filled in: at the desk, and on a telephone.
    Map<Integer, List<String[]>> only =
        Map.of(
            1366,
            List.of(new String[][] {{"marker", "/markers/" + stone}}),
            360,
            List.of(
                new String[][] {
                  {"at-the-stone", "/markers/" + stone + "/at-the-stone"},
                  {"emblems-none", "/emblems?words=zebra"},
                  {"made-none", "/made?find=none"}
                }));
    List<String[]> pages =
        List.of(
            new String[] {"outlining", "/markers/" + stone + "/emblem?photograph=" + shot},
            new String[] {"describe", "/describe"},
            new String[] {"emblems", "/emblems"},
            new String[] {"made", "/made"},
            new String[] {"first", "/first"},
            new String[] {"sun", "/sun?on=2026-06-20"},
            new String[] {"walks", "/walk"},
            new String[] {"walk", "/walk/" + walk});
    for (int[] window : WINDOWS) {
      ColorScheme scheme = window[0] == 360 ? ColorScheme.DARK : ColorScheme.LIGHT;
      try (BrowserContext context = desk.browser().context(window[0], window[1], scheme)) {
        Page page = desk.signedIn(context, ADA);
        List<String[]> here = new ArrayList<>(only.get(window[0]));
        here.addAll(pages);
        for (String[] one : here) {
          page.navigate(desk.root() + one[1]);
          page.evaluate("document.querySelectorAll('details').forEach((one) => (one.open = true))");
          String name = "stone-" + one[0] + "-" + window[0];
          VisitedDesk.picture(page, name);
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
      VisitedDesk.picture(page, "stone-emblem-outlined");
      page.click("[aria-label^='Take back: noted an emblem: winged face']");
      page.waitForCondition(() -> page.locator(".emblem svg").count() == 0);
      page.click("[aria-label='Ask what it means: a knot of rope']");
      page.waitForCondition(
          () -> page.textContent("main").contains("What does the carving “a knot of rope”"));
    }
  }

  @Test
  void aWalkIsPlannedFromTheListChangedAndTakenBack() {
    try (BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, ADA);
      page.click("nav[aria-label='The desk'] >> text=Lists for a guide");
      page.click("text=Record first");
      page.fill("#most", "3");
      page.keyboard().press("Enter");
      page.waitForURL("**/first?*most=3*");
      assertThat(page.locator(".roll tbody tr").count()).isEqualTo(3);
      page.click("text=Plan a walk past these");
      page.fill("#name", "Three in danger");
      page.click("text=Plan it");
      page.waitForCondition(() -> page.textContent("h1").equals("Three in danger"));
      assertThat(page.locator(".way > li").count()).isEqualTo(3);
      page.click("text=Change this walk");
      page.fill("#note-1", "Begin here.");
      page.click("text=Keep it so");
      page.waitForCondition(() -> page.locator(".way .note").count() == 1);
      page.click("button:has-text('Take back') >> nth=0");
      page.waitForURL("**/walk");
      page.click("text=Three in danger");
      assertThat(page.locator(".way .note").count()).isZero();
    }
  }

  @Test
  void theSunOfADayIsPlannedAndFacesItNeverReachesAreNamedWithWhatHelps() {
    try (BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, ADA);
      page.navigate(desk.root() + "/sun?on=2026-12-21&from=09:00&to=15:30");
      assertThat(page.textContent("main"))
          .contains("faces in the round")
          .contains("never in that year")
          .contains("a second person holds a torch or mirror");
      page.navigate(desk.root() + "/made?which=conflict");
      assertThat(page.textContent("main")).contains("Marker 7:").contains("Conflict: it bears");
      page.navigate(desk.root() + "/emblems?which=here");
      page.click("summary:has-text('On this ground: 1') >> nth=0");
      page.click("text=Marker 7");
      page.waitForURL("**/markers/" + stone + "#emblems");
    }
  }

  @Test
  void theSheetsOfAWalkAndOfWhatGoesFirstSayTheCautionOnEveryPage() throws Exception {
    Path archive = folder.resolve("archive");
    Path first = Path.of("target", "first.pdf");
    Path way = Path.of("target", "walk.pdf");
    GuideGround.done("first", archive, "--pdf", first);
    GuideGround.done("walk", archive, "--planned", "saturday", "--pdf", way);
    for (Path file : List.of(first, way)) {
      try (PDDocument sheet = Loader.loadPDF(file.toFile())) {
        for (int i = 1; i <= sheet.getNumberOfPages(); i++) {
          PDFTextStripper text = new PDFTextStripper();
          text.setStartPage(i);
          text.setEndPage(i);
          assertThat(text.getText(sheet)).contains(Caution.LOOK_ONLY);
        }
        assertThat(new PDFTextStripper().getText(sheet))
            .contains("UNSAFE: leaning")
            .contains("Ask the ground's authority first");
      }
    }
    assertThat(GuideGround.done("walk", archive, "--planned", "saturday").out())
        .contains("ask what they see first");
  }
}
