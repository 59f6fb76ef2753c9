package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.marker.EmblemNote;
import rakelight.marker.EmblemStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.SmallArchive;
import rakelight.survey.AlikeStore;
import rakelight.survey.HandStore;

/** Carvings that look like one, letters cut alike, and lines in two seasons, in a browser. */
class LikenessPagesTest {
  @TempDir static Path folder;
  private static VisitedDesk desk;
  private static MarkerId stone;
  private static EmblemNote first;

  @BeforeAll
  static void open() throws Exception {
    desk = VisitedDesk.of(LikenessPagesTest::ground);
    stone = new MarkerStore(desk.archive()).named("M04").id();
    first = new EmblemStore(desk.archive()).all().get(0);
  }

  @AfterAll
  static void close() {
    if (desk != null) {
      desk.close();
    }
  }

  /**
   * M04's second light was taken a year after the first; an emblem is outlined on it and on M07.
   * What the machine reads on both is signed.
   */
  private static Archive ground() throws Exception {
    SmallArchive small = new SmallArchive(folder, Projections.all());
    small.propose();
    Archive archive = small.archive();
    List<Photograph> shots =
        new PhotoStore(archive)
            .photographs().stream().filter(shot -> shot.face().isPresent()).toList();
    archive
        .ledger()
        .write(
            handle ->
                handle.execute(
                    "UPDATE photograph SET taken_local = replace(taken_local, '2026-', '2027-')"
                        + " WHERE id = ?",
                    shots.get(1).id().toString()));
    EmblemStore emblems = new EmblemStore(archive);
    PhotoStore photographs = new PhotoStore(archive);
    Photograph alone =
        photographs.photographs().stream()
            .filter(shot -> shot.face().isEmpty())
            .findFirst()
            .orElseThrow();
    Face other = photographs.faceOf("M07", "W", "Ada Fenn");
    photographs.assign(alone.id(), other.id(), Optional.empty(), "person", "Ada Fenn");
    Map<Photograph, MarkerId> outlined = new LinkedHashMap<>();
    outlined.put(shots.get(0), new MarkerStore(archive).named("M04").id());
    outlined.put(alone, other.marker());
    for (Map.Entry<Photograph, MarkerId> one : outlined.entrySet()) {
      Photograph shot = one.getKey();
      double x = shot.uprightWidthPx() / 2.0;
      double y = shot.uprightHeightPx() / 4.0;
      emblems.note(
          one.getValue(),
          "W",
          "willow",
          Optional.of(
              new EmblemNote.Outline(
                  shot.id(),
                  List.of(x - 90, y - 90, x + 90, y - 90, x + 90, y + 90, x - 90, y + 90))),
          Map.of(),
          "",
          "Ada Fenn");
    }
    small.propose();
    Path readings = folder.resolve("readings.tsv");
    Files.writeString(
        readings,
        "marker\tface\tline\ttext\nM04\tW\t1\tHANNAH WREN | DIED 1848\n"
            + "M07\tW\t1\tHANNAH WREN | DIED 1848\n");
    GuideGround.done("confirm", archive.root(), "--from", readings, "--reader", "Ada Fenn");
    return archive;
  }

  @Test
  void bothAreForEverybodyOnEveryScreen() {
    desk.onEveryScreen(
        "Ada Fenn",
        "",
        List.of(
            new String[] {"alike", "/alike/" + first.decision()},
            new String[] {"hands", "/markers/" + stone + "/hands"},
            new String[] {"seasons", "/markers/" + stone + "/seasons"}));
  }

  @Test
  void whatTwoCarvingsAreIsSaidByKeyboardAndTakenBack() {
    try (BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, "Ada Fenn");
      page.navigate(desk.root() + "/markers/" + stone);
      page.click("a[aria-label^='Carvings that look like this willow'] >> nth=0");
      page.waitForURL("**/alike/*");
      assertThat(page.locator(".alike li").count()).isPositive();
      assertThat(
              (Boolean) page.locator(".alike img").first().evaluate("one => one.naturalWidth > 0"))
          .isTrue();
      page.focus("button[aria-label^='Same hand: ']");
      page.keyboard().press("Enter");
      page.waitForSelector("text=same hand, says Ada Fenn");
      assertThat(new AlikeStore(desk.archive()).all()).hasSize(1);
      page.click("button[aria-label^='Take back: said of it and another: same hand']");
      page.waitForCondition(() -> new AlikeStore(desk.archive()).all().isEmpty());
      assertThat(page.textContent("main")).doesNotContain("same hand, says");
    }
  }

  @Test
  void whoLetteredTwoFacesIsSaidFromTheMarkersPageAndTakenBack() {
    try (BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, "Ada Fenn");
      page.navigate(desk.root() + "/markers/" + stone);
      page.click("text=Faces whose letters are cut like its");
      page.waitForURL("**/hands");
      assertThat(page.textContent(".alike li")).contains("Marker M07").contains("letters");
      assertThat(
              (Boolean) page.locator(".alike img").first().evaluate("one => one.naturalWidth > 0"))
          .isTrue();
      page.focus("button[aria-label='One hand: W 1, marker M07']");
      page.keyboard().press("Enter");
      page.waitForSelector("text=one hand, says Ada Fenn");
      page.click("button[aria-label^='Take back: said of its letters']");
      page.waitForCondition(() -> new HandStore(desk.archive()).all().isEmpty());
    }
    Path root = desk.archive().root();
    assertThat(GuideGround.done("hands", root, "M04", "--json").out())
        .contains("\"marker\":\"M07\"")
        .contains("\"likeness\":");
    GuideGround.done(
        "hands", root, "M04", "--with", "M07", "--is", "can't tell", "--reader", "Ada Fenn");
    assertThat(GuideGround.done("hands", root, "M04").out())
        .contains("can't tell, says Ada Fenn")
        .contains("not more alike than most");
  }

  @Test
  void eachLineIsShownInBothSeasonsWithHowFarItsChangeMayBeOff() {
    try (BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, "Ada Fenn");
      page.navigate(desk.root() + "/markers/" + stone + "/seasons");
      assertThat(page.textContent("h2")).contains("W").contains("2026 and 2027");
      assertThat(page.locator(".season-line").count()).isEqualTo(2);
      assertThat(page.locator(".season-line img").count()).isEqualTo(4);
      assertThat(page.textContent(".season-line p")).matches("(?s).*%.*between.*");
      assertThat(page.textContent(".season-line .quiet")).startsWith("A machine tells ");
    }
  }

  @Test
  void whereNothingCanBeComparedThatIsSaid() {
    try (BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, "Ada Fenn");
      MarkerId other = new PhotoStore(desk.archive()).faceOf("M99", "front", "Ada Fenn").marker();
      page.navigate(desk.root() + "/markers/" + other + "/seasons");
      assertThat(page.textContent("[role=status]")).contains("No face of it");
      page.navigate(desk.root() + "/alike/" + desk.archive().id());
      assertThat(page.textContent("h1")).isEqualTo("Not possible");
    }
  }
}
