package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.archive.Ground;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Condition;
import rakelight.marker.ConditionStore;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.reading.GivenProposal;
import rakelight.work.Faces;
import rakelight.work.Leases;
import rakelight.work.LeftFace;
import rakelight.work.NamedReader;
import rakelight.work.Role;

/** The ground's page and the queue of a ground of 300 markers, as a browser shows them. */
class GroundPagesTest {
  private static final String LONG_NUMBER =
      "North-wall/second-row/WithoutASpaceAnywhere" + "0123456789".repeat(4);

  private static final int[][] WINDOWS = {{1366, 768}, {360, 740}};

  @TempDir static Path folder;
  private static VisitedDesk desk;
  private static String root;

  @BeforeAll
  static void open() throws Exception {
    desk = VisitedDesk.of(GroundPagesTest::ground);
    root = desk.root();
  }

  @AfterAll
  static void close() {
    if (desk != null) {
      desk.close();
    }
  }

  private static Archive ground() throws Exception {
    Archive archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Thornbeck", 54.1, -3.2, ZoneId.of("Europe/London")),
            Projections.all());
    fill(archive);
    return archive;
  }

  private static void fill(Archive archive) throws Exception {
    MarkerStore markers = new MarkerStore(archive);
    archive
        .ledger()
        .write(
            handle -> {
              for (int i = 31; i <= 150; i++) {
                markers.create("A-" + i, "Ada Fenn");
                markers.create("B-" + i, "Ada Fenn");
              }
              return 0;
            });
    for (int i = 1; i <= 30; i++) {
      FaceId face = face(archive, "A-" + i, "HANNAH W(R60K30)EN", "died 18(350840)4");
      if (i % 3 == 0) {
        new ReadingStore(archive)
            .sign(
                face,
                Leiden.parse("HANNAH WREN"),
                Basis.FROM_PHOTOGRAPHS,
                Optional.empty(),
                List.of(),
                "Ada Fenn");
      }
      if (i % 7 == 0) {
        new Faces(archive, new Leases(Clock.systemUTC()))
            .leave(
                new PhotoStore(archive).face(face).orElseThrow(),
                new NamedReader("Ada Fenn", Role.ARCHIVIST),
                LeftFace.Why.OTHER_LIGHT,
                "moss");
      }
    }
    new PhotoStore(archive).faceOf("A-2", "back", "Ada Fenn");
    face(archive, LONG_NUMBER, "ELI");
    new ConditionStore(archive)
        .note(
            markers.byNumber("A-4").orElseThrow().id(),
            LocalDate.parse("2025-04-30"),
            List.of(Condition.LEANING),
            "towards the path",
            "Ada Fenn");
  }

  private static FaceId face(Archive archive, String marker, String... lines) throws IOException {
    FaceId face = new PhotoStore(archive).faceOf(marker, "front", "Ada Fenn").id();
    GivenProposal.of(archive, face, lines);
    return face;
  }

  @Test
  void groundAndQueueAreForEverybodyOnEveryScreen() {
    for (int[] window : WINDOWS) {
      // Dark on a telephone, where somebody stands at dusk; light elsewhere.
      ColorScheme scheme = window[0] == 360 ? ColorScheme.DARK : ColorScheme.LIGHT;
      try (BrowserContext context = desk.browser().context(window[0], window[1], scheme)) {
        Page page = desk.signedIn(context, "Ada Fenn");
        for (String[] one :
            List.of(
                // Some of each state; of all 120 of a page axe would say the same, slowly.
                new String[] {"rows", "/?find=a-2"},
                new String[] {"rows-unsafe", "/?show=unsafe"},
                new String[] {"rows-long-number", "/?find=north"},
                new String[] {"rows-none", "/?find=777"},
                new String[] {"waiting", "/queue"})) {
          page.navigate(root + one[1]);
          check(page, one[0] + "-" + window[0] + "-" + scheme);
        }
      }
    }
  }

  private static void check(Page page, String name) {
    VisitedDesk.window(page, name.toLowerCase(Locale.ROOT));
    Browser.isAccessible(page, name);
    Object spilt =
        page.evaluate(
            "[...document.querySelectorAll('.standing')].filter(stone => [...stone"
                + ".querySelectorAll('a, p')].some(part => part.getBoundingClientRect().right >"
                + " stone.getBoundingClientRect().right + 1)).length");
    assertThat(((Number) spilt).intValue()).as(name + ": text beyond its stone").isZero();
  }

  @Test
  void aStoneIsFoundByKeyboardAloneAndWithoutScript() {
    try (BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, "Ada Fenn");
      page.route("**/*.js", route -> route.abort());
      page.navigate(root + "/");
      assertThat(page.locator(".standing").count()).isEqualTo(120);
      page.focus("#find");
      page.keyboard().type("b-15");
      page.keyboard().press("Enter");
      page.waitForURL("**/?*find=b-15*");
      assertThat(page.locator(".number").allTextContents()).containsExactly("B-150");
      page.selectOption("#show", "unsafe");
      page.fill("#find", "");
      page.click(".seek button");
      assertThat(page.locator(".number").allTextContents()).containsExactly("A-4");
      page.selectOption("#plot", "B");
      page.click(".seek button");
      assertThat(page.textContent("[role=status]")).contains("No marker in plot B is");
      page.click("[role=status] a");
      page.click("a[rel=next] >> nth=0");
      assertThat(page.textContent(".leaf >> nth=0")).contains("121 to 240 of 271");
    }
  }

  @Test
  void howFarAStoneIsIsSeenWithoutColour() {
    try (BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, "Ada Fenn");
      Set<String> shapes = new HashSet<>();
      for (String state : List.of("open", "settled", "other-light", "no-photograph")) {
        Locator stone = page.locator(".standing." + state + " >> nth=0");
        assertThat(stone.locator("use").getAttribute("href")).isEqualTo("#is-" + state);
        assertThat(stone.textContent().strip()).contains(":").hasSizeGreaterThan(8);
        shapes.add(Arrays.toString(stone.locator("svg").screenshot()));
      }
      assertThat(shapes).hasSize(4);
    }
  }
}
