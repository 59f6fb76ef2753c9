package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.ground.MarkerPosition;
import rakelight.ground.Plot;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.SmallArchive;

/** The plan, families and whose footstones, in a browser; one desk for all of it. */
class WhoLiesWherePagesTest {
  private static final String ADA = "Ada Fenn";

  @TempDir static Path folder;
  private static VisitedDesk desk;

  @BeforeAll
  static void open() throws Exception {
    desk = VisitedDesk.of(WhoLiesWherePagesTest::ground);
  }

  @AfterAll
  static void close() {
    if (desk != null) {
      desk.close();
    }
  }

  /** The Harrows' monument 15 with four footstones in row H, their son's stone, a stranger's. */
  private static Archive ground() throws Exception {
    SmallArchive small = new SmallArchive(folder, Projections.all());
    small.propose();
    Archive archive = small.archive();
    VisitedDesk.read(
        archive,
        "15",
        "front",
        "WILLIAM HARROW | died 3 May 1850 aged 70 years | ANN his wife | died 1 June 1855 aged 66"
            + " years | WALTER their son | died 4 Feb 1860 aged 30 years | HANNAH their daughter |"
            + " died 9 March 1841 aged 5 years");
    VisitedDesk.read(
        archive,
        "20",
        "front",
        "JOHN HARROW | son of William & Ann Harrow | died 1871 aged 40 years");
    VisitedDesk.read(archive, "30", "front", "RUTH SALLOW | died 1844");
    VisitedDesk.read(archive, "21", "front", "W. H.");
    VisitedDesk.read(archive, "22", "front", "[.] H.");
    VisitedDesk.read(archive, "23", "front", "MOTHER");
    VisitedDesk.read(archive, "24", "front", "H. H. | 1841");
    new MarkerStore(archive).create("40", ADA);
    PositionStore positions = new PositionStore(archive);
    Object[][] places = {
      {"15", 0.0, 0.0},
      {"20", 0.0, 4.5},
      {"30", 9.0, 3.0},
      {"21", 2.0, 0.0},
      {"22", 2.0, 1.1},
      {"23", 2.0, -1.1},
      {"24", 2.0, -2.2},
    };
    for (Object[] place : places) {
      Marker marker = new MarkerStore(archive).named((String) place[0]);
      rakelight.ground.Spot spot = new rakelight.ground.Spot((double) place[1], (double) place[2]);
      positions.note(
          new MarkerPosition(
              marker.id(),
              positions.plane().latitude(spot),
              positions.plane().longitude(spot),
              0.5,
              MarkerPosition.Basis.GPS,
              "",
              Optional.empty(),
              Optional.empty()),
          ADA);
    }
    int inRow = 0;
    for (String number : List.of("24", "23", "21", "22")) {
      positions.note(new MarkerStore(archive).named(number).id(), new RowPlace("H", ++inRow), ADA);
    }
    positions.note(
        new Plot(
            "North",
            List.of(
                corner(positions, -2, -3.5),
                corner(positions, 5, -3.5),
                corner(positions, 5, 6),
                corner(positions, -2, 6),
                corner(positions, -2, -3.5))),
        ADA);
    PhotoStore photographs = new PhotoStore(archive);
    for (Photograph photograph : photographs.photographs()) {
      String to = photograph.originalName().startsWith("M07") ? "15" : "21";
      photographs.assign(
          photograph.id(),
          photographs.faceOf(to, "front", ADA).id(),
          Optional.empty(),
          "person",
          ADA);
    }
    return archive;
  }

  private static List<Double> corner(PositionStore positions, double east, double north) {
    rakelight.ground.Spot spot = new rakelight.ground.Spot(east, north);
    return List.of(positions.plane().longitude(spot), positions.plane().latitude(spot));
  }

  private static Page ada(BrowserContext context, String address) {
    Page page = desk.signedIn(context, ADA);
    page.navigate(desk.root() + address);
    return page;
  }

  private static Page plan(BrowserContext context) {
    Page page = ada(context, "/plan");
    usable(page);
    return page;
  }

  private static void usable(Page page) {
    page.waitForCondition(() -> page.locator("#plan[data-families]").count() == 1);
  }

  @Test
  void thePlanIsForEverybodyOnEveryScreen() {
    desk.onEveryScreen(
        ADA,
        "",
        page -> {
          page.navigate(desk.root() + "/plan");
          usable(page);
          String called = "plan-" + page.viewportSize().width;
          Browser.isAccessible(page, called);
          page.fill("#go-to", "21");
          page.keyboard().press("Enter");
          page.waitForCondition(() -> page.locator("#facts li").count() > 3);
          VisitedDesk.picture(page, called);
          Browser.isAccessible(page, called + "-chosen");
        });
  }

  @Test
  void byKeysOneGoesFromMarkerToMarkerAndOpensOne() {
    try (BrowserContext context = desk.laptop()) {
      Page page = plan(context);
      page.focus("#plan");
      page.fill("#go-to", "15");
      page.keyboard().press("Enter");
      page.waitForCondition(() -> page.textContent("#said").startsWith("Marker 15"));
      assertThat(page.textContent("#said"))
          .isEqualTo("Marker 15, names persons, read, give or take 0.5 m, family Harrow.");
      page.focus("#plan");
      page.keyboard().press("ArrowRight");
      page.waitForCondition(() -> page.textContent("#said").startsWith("Marker 21"));
      assertThat(page.textContent("#said")).contains("footstone", "row H, place 3");
      page.waitForCondition(() -> page.textContent("#facts").contains("by gps"));
      String near = page.getAttribute("#plan .ring", "d");
      page.keyboard().press("+");
      page.waitForCondition(() -> !page.getAttribute("#plan .ring", "d").equals(near));
      page.keyboard().press("ArrowUp");
      page.waitForCondition(() -> page.textContent("#said").startsWith("Marker 22"));
      page.keyboard().press("Escape");
      assertThat(page.isVisible("#chosen")).isFalse();
      page.keyboard().press("ArrowRight");
      page.waitForCondition(() -> page.isVisible("#chosen"));
      page.keyboard().press("Enter");
      page.waitForURL("**/markers/*");
    }
  }

  @Test
  void aMarkerIsMovedByKeysInLineWithItsRowAndThatIsTakenBack() {
    try (BrowserContext context = desk.laptop()) {
      Page page = plan(context);
      page.fill("#go-to", "22");
      page.keyboard().press("Enter");
      page.waitForCondition(() -> page.isVisible("#chosen"));
      page.focus("#plan");
      page.keyboard().press("m");
      page.keyboard().press("Shift+ArrowRight");
      assertThat(page.textContent("#said")).isEqualTo("Marker 22 1.0 m from where it was.");
      page.keyboard().press("s");
      assertThat(page.textContent("#said")).isEqualTo("In line with row H.");
      page.keyboard().press("ArrowUp");
      page.keyboard().press("s");
      page.fill("#error", "0.3");
      page.click("#keep");
      page.waitForURL(url -> url.contains("did="));
      assertThat(page.textContent(".notice.done")).contains("Kept where marker 22 stands.");
      assertThat(page.textContent("tr:has([data-number='22'])"))
          .contains("by plan, give or take 0.3 m (drawn on the plan, in line with row H)");
      page.click(".notice.done button");
      page.waitForURL(url -> url.endsWith("/plan"));
      assertThat(page.textContent("tr:has([data-number='22'])")).contains("by gps");
    }
  }

  @Test
  void aMarkerOfWhichNobodyKnewIsDrawnInWithTheMouseAndSnapsToARow() {
    try (BrowserContext context = desk.laptop()) {
      Page page = plan(context);
      page.selectOption("#unplaced", "40");
      page.click("#put");
      var box = page.locator("#plan").boundingBox();
      page.mouse().move(box.x + box.width / 2, box.y + box.height / 2);
      page.mouse().down();
      page.mouse().move(box.x + box.width / 2 + 60, box.y + box.height / 2 - 40);
      page.mouse().up();
      assertThat(page.textContent("#said")).startsWith("Marker 40");
      page.click("#keep");
      page.waitForURL(url -> url.contains("did="));
      assertThat(page.textContent(".notice.done")).contains("Kept where marker 40 stands.");
      page.click(".notice.done button");
      page.waitForURL(url -> url.endsWith("/plan"));
    }
  }

  @Test
  void withoutScriptThePlanIsAPictureBesideATable() {
    try (BrowserContext context = desk.browser().withoutScript()) {
      Page page = ada(context, "/plan?find=row%20H");
      assertThat(page.locator("#plan path").count()).isGreaterThan(3);
      assertThat(page.locator(".of-plan tbody tr").count()).isEqualTo(4);
      assertThat(page.textContent(".of-plan")).contains("plot North");
    }
  }

  private static String id(String number) {
    return new MarkerStore(desk.archive()).named(number).id().toString();
  }

  @Test
  void familiesAndFootstonesAreForEverybodyOnEveryScreen() {
    desk.onEveryScreen(
        ADA,
        "",
        List.of(
            new String[] {"families", "/families"},
            new String[] {"family", "/markers/" + id("15") + "/family"},
            new String[] {"links", "/links"},
            new String[] {"link", "/links/" + id("21")}));
  }

  @Test
  void aFamilyIsATreeWhoseEdgesOpenTheLettersAndIsNamedByPeople() {
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/families?name=harrow");
      page.click(".rows a");
      assertThat(page.textContent("h1")).isEqualTo("The family Harrow");
      assertThat(page.locator(".tree rect").count()).isEqualTo(5);
      assertThat(page.textContent("section:has(#lies)"))
          .contains("Ann Harrow", "footstone 23, proposed", "a stone of one’s own, 20");
      page.fill("#name", "Harrows of the Mill");
      page.click("text=Name it");
      assertThat(page.textContent("h1")).isEqualTo("The family Harrows of the Mill");
      page.emulateMedia(
          new Page.EmulateMediaOptions().setMedia(com.microsoft.playwright.options.Media.PRINT));
      assertThat(page.isVisible("header.top")).isFalse();
      assertThat(page.isVisible(".family-forms")).isFalse();
      assertThat(page.isVisible(".tree")).isTrue();
      VisitedDesk.picture(page, "family-print");
      page.emulateMedia(
          new Page.EmulateMediaOptions().setMedia(com.microsoft.playwright.options.Media.SCREEN));
      page.click("button[aria-label^='Take back: named the family']");
      assertThat(page.textContent("h1")).isEqualTo("The family Harrow");
      page.locator(".tree a:has(path)").first().focus();
      page.keyboard().press("Enter");
      page.waitForURL("**/statements/**");
      assertThat(page.textContent("main")).contains("wife");
    }
  }

  @Test
  void oneIsConfirmedAnotherRefusedTheOthersMoveAndItIsTakenBack() {
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/links/" + id("21"));
      String first = page.textContent("#evidence");
      String other = first.startsWith("Walter") ? "William Harrow" : "Walter Harrow";
      page.keyboard().press("y");
      page.waitForURL(url -> !url.contains(id("21")) && url.contains("did="));
      assertThat(page.textContent(".notice.done")).contains("Footstone 21 is of " + first);
      assertThat(page.textContent(".moved-by")).as("the others move").contains("22");
      VisitedDesk.picture(page, "link-moved-1366");
      Browser.isAccessible(page, "link-moved");
      page.keyboard().press("z");
      page.waitForURL(url -> !url.contains("did="));
      page.navigate(desk.root() + "/links/" + id("21"));
      page.keyboard().press("n");
      page.waitForURL(url -> url.contains("did="));
      assertThat(page.textContent(".notice.done")).contains("Footstone 21 isn’t of " + first);
      assertThat(page.textContent("#evidence")).isEqualTo(other);
      assertThat(page.textContent(".moved-by")).contains("22");
      page.keyboard().press("z");
      page.waitForURL(url -> !url.contains("did="));
      assertThat(page.textContent("#evidence")).isEqualTo(first);
    }
  }

  @Test
  void wornLettersAloneAreConfirmedOnlyWithWhatElseSaysSo() {
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/links/" + id("22"));
      assertThat(page.textContent("main")).contains("Nothing but worn letters says so.");
      page.keyboard().press("y");
      page.waitForSelector("[role=alert]");
      assertThat(page.textContent("[role=alert]")).contains("Say what else speaks for it");
    }
  }

  @Test
  void aMarkersPageSaysWhereItStandsAndLeadsToThePlan() {
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/markers/" + id("21"));
      assertThat(page.textContent("section:has(#where)"))
          .contains("row H, place 3; plot North", "by gps, give or take 0.5 m");
      page.click("section:has(#where) a >> text=On the plan");
      usable(page);
      page.waitForCondition(() -> page.textContent("#said").startsWith("Marker 21"));
    }
  }
}
