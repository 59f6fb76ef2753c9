package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.LoadState;
import com.microsoft.playwright.options.SelectOption;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.ArchiveException;
import rakelight.archive.MarkerId;
import rakelight.desk.Desk;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.marker.Condition;
import rakelight.marker.ConditionStore;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.photo.Face;
import rakelight.photo.PhotoStore;
import rakelight.reading.GivenProposal;
import rakelight.reading.SmallArchive;
import rakelight.work.QuickReaders;
import rakelight.work.ReaderStore;
import rakelight.work.Role;

/**
 * The pages as people use them, in a browser. The stone has two lights; of its two lines a machine
 * says HANNAH WREN and DIED 1848, sure of nothing.
 */
class DeskPagesTest {
  private static final List<String> AS_PROPOSED = List.of("HANNAH WREN", "DIED 1848");
  private static final List<String> TRUTH = List.of("HANNAH WRAN", "DIED 1849");
  private static final Pattern WHERE = Pattern.compile("Line (\\d+), letter (\\d+)");
  private static final Path SCREENSHOTS = Path.of("target", "screenshots");
  private static final int MOST_KEYS = 200;

  private static Browser browser;

  @TempDir static Path made;
  @TempDir Path folder;
  private SmallArchive small;
  private Desk desk;
  private String root;

  @BeforeAll
  static void openBrowser() throws Exception {
    browser = Browser.open();
    try (SmallArchive first = new SmallArchive(made, Projections.all())) {
      first.propose();
      first.lookAtAll();
    }
    Files.createDirectories(SCREENSHOTS);
  }

  @AfterAll
  static void closeBrowser() {
    if (browser != null) {
      browser.close();
    }
  }

  @BeforeEach
  void openDesk() throws IOException {
    small = SmallArchive.copyOf(made, folder, Projections.all());
    desk = Desk.start(small.archive(), InetAddress.getLoopbackAddress(), 0, Clock.systemUTC());
    root = "http://127.0.0.1:" + desk.port();
  }

  @AfterEach
  void closeDesk() {
    desk.close();
    small.close();
  }

  @Test
  void aWholeReadingIsMadeByKeyboardAlone() {
    Page page = browser.page();
    page.navigate(root + "/sign-in");
    focus(page, "name");
    page.keyboard().type("Ada Fenn");
    page.keyboard().press("Enter");
    page.waitForURL(root + "/");
    page.navigate(face());
    ready(page);
    assertThat(focused(page)).isEqualTo("slots");

    String picture = page.inputValue("#picture");
    page.keyboard().press("PageDown");
    assertThat(page.inputValue("#picture")).isNotEqualTo(picture);
    page.keyboard().press("PageUp");
    page.keyboard().press("Shift+ArrowRight");
    assertThat(page.inputValue("#picture")).isNotEqualTo(picture);

    page.keyboard().press("X");
    saved(page);
    assertThat(text(page)).contains("X");
    page.keyboard().press("Backspace");
    saved(page);
    assertThat(text(page)).doesNotContain("X");

    readByKeyboard(page, TRUTH);
    VisitedDesk.picture(page, "reading-decided");
    assertThat(page.textContent("#progress"))
        .contains("signs your reading, from these photographs");
    page.keyboard().press("Control+s");
    page.waitForSelector("#notice.good:has-text('Signed')");
    assertThat(page.textContent("#notice")).contains("Signed");
    assertThat(signed()).isEqualTo(TRUTH);
    page.context().close();

    Page other = signedIn("Bo");
    other.navigate(face());
    ready(other);
    assertThat(other.textContent("#notice"))
        .contains("Ada Fenn's reading of ")
        .doesNotContain("You have signed");
    assertThat(other.textContent("#reopen")).isEqualTo("Correct this reading");
    other.context().close();
  }

  @Test
  void aLineIsTakenWholeByOneKeyOnceItsDoubtfulLettersAreDecided() throws IOException {
    Face stone = new PhotoStore(small.archive()).faceOf("M05", "front", "Ada Fenn");
    GivenProposal.of(
        small.archive(), stone.id(), "HANNAH W(R60K30)EN", "AND EL(I55J45)", "DIED 1848");
    Page page = signedIn("Ada Fenn");
    page.navigate(root + "/faces/" + stone.id());
    ready(page);
    page.keyboard().press("Home");
    page.keyboard().press("Shift+Enter");
    saved(page);
    assertThat(page.textContent("#notice"))
        .startsWith("First one letter of this line that must be looked at by itself");
    assertThat(page.textContent("#where")).isEqualTo("Line 1, letter 8");
    VisitedDesk.picture(page, "line-refused");
    // Once that letter is decided the line is taken: it was said of the whole line.
    page.keyboard().press("r");
    page.keyboard().press("Space");
    saved(page);
    page.waitForSelector("#where:text-is('Line 2, letter 6')");
    // The letter that is lit is looked at, and nothing else of the line must be.
    page.keyboard().press("Shift+Enter");
    saved(page);
    assertThat(page.textContent("#where")).startsWith("Line 3");
    page.click("#line");
    saved(page);
    assertThat(decided(page)).isTrue();
    assertThat(page.textContent("#standing-now")).isEqualTo("I see it, with its line");
    sign(page);
    page.navigate(root + "/");
    page.click("#markers a:has-text('M05')");
    assertThat(page.textContent("section[aria-labelledby=history]"))
        .contains(
            "decided letters, front: with the whole line, not letter by letter, in lines 1, 2, 3");
    page.context().close();
  }

  @Test
  void typingStaysWhereItWasMeantAndOneUndoTakesBackTheWord() throws IOException {
    Face stone = new PhotoStore(small.archive()).faceOf("M05", "front", "Ada Fenn");
    GivenProposal.of(
        small.archive(), stone.id(), "They sleep u(n60m30)(t55l40)i(l60d30)", "the mor(n60m30)ing");
    Page page = signedIn("Ada Fenn");
    page.navigate(root + "/faces/" + stone.id());
    ready(page);
    page.click("#lines [data-line='1'] .sign[data-at='10']");
    page.keyboard().type("until");
    assertThat(text(page)).isEqualTo("They sleep until\nthe morning");
    assertThat(page.textContent("#saved")).isEqualTo("1 not saved yet");
    page.keyboard().press("Space");
    saved(page);
    assertThat(text(page)).isEqualTo("They sleep until\nthe morning");
    assertThat(page.textContent("#where")).startsWith("Line 1, letter 1");
    page.keyboard().press("Backspace");
    saved(page);
    assertThat(page.locator("#lines [data-line='1'] .sign.open").count()).isEqualTo(14);

    // A stray key over letters nobody doubts is seen, and goes by itself.
    page.click("#lines [data-line='1'] .sign[data-at='2']");
    page.keyboard().press("x");
    assertThat(page.textContent("#notice")).contains("Typed over “h”, which nobody doubted");
    assertThat(page.textContent("#slots .over")).isEqualTo("h");
    page.keyboard().press("Backspace");
    assertThat(text(page)).startsWith("They sleep");
    assertThat(page.textContent("#saved")).isEqualTo("All saved");
    page.context().close();
  }

  @Test
  void aRaisedLetterIsTypedShownAndSignedAsSuch() throws IOException {
    Face stone = new PhotoStore(small.archive()).faceOf("M05", "front", "Ada Fenn");
    GivenProposal.of(small.archive(), stone.id(), "Mr ELI");
    Page page = signedIn("Ada Fenn");
    page.navigate(root + "/faces/" + stone.id());
    ready(page);
    page.click("#lines [data-line='1'] .sign[data-at='2']");
    page.keyboard().press("^");
    page.keyboard().press("r");
    assertThat(page.locator("#slots .sign.raised").textContent()).isEqualTo("r");
    page.keyboard().press("Space");
    saved(page);
    assertThat(page.locator("#slots .sign.raised").textContent()).isEqualTo("r");
    page.keyboard().press("Control+Enter");
    saved(page);
    page.keyboard().press("Shift+Enter");
    saved(page);
    sign(page);
    Reading reading = new ReadingStore(small.archive()).current(stone.id()).orElseThrow();
    assertThat(Leiden.printLines(reading.inscription())).containsExactly("M^r ELI");
    page.context().close();
  }

  @Test
  void theLineAndItsAnswersStayInSightWhateverKeyIsPressed() {
    for (int[] size : new int[][] {{1366, 768}, {1920, 1080}, {360, 740}}) {
      try (BrowserContext context = browser.context(size[0], size[1], ColorScheme.LIGHT)) {
        Page page = context.newPage();
        signIn(page, "Ada Fenn");
        page.navigate(face());
        ready(page);
        page.evaluate("window.scrollTo(0, document.body.scrollHeight)");
        page.keyboard().press("ArrowRight");
        saved(page);
        for (String part : List.of("#column", "#answers", ".slot.here")) {
          assertThat(inSight(page, part)).as(part + " at " + size[0]).isTrue();
        }
        // A strip is 1.7 capitals high.
        Object strip = page.evaluate("document.querySelector('.strip img').clientHeight / 1.7");
        assertThat(((Number) strip).doubleValue()).isGreaterThanOrEqualTo(60);
        if (size[0] > 1000) {
          page.evaluate("window.scrollTo(0, 0)");
          assertThat(inSight(page, "#standings")).as("standings at " + size[0]).isTrue();
        }
        VisitedDesk.picture(page, "first-look-" + size[0]);
      }
    }
  }

  /** WCAG 2.2, 1.4.3: 4.5 to 1, of large letters 3 to 1; measured from what the browser paints. */
  @Test
  void everyStateOfALetterCanBeToldFromItsGroundByDayAndByNight() throws IOException {
    Face stone = new PhotoStore(small.archive()).faceOf("M05", "front", "Ada Fenn");
    GivenProposal.of(small.archive(), stone.id(), "HANN(R60K30) WREN AND ELI", "DIED 1848");
    for (ColorScheme scheme : List.of(ColorScheme.LIGHT, ColorScheme.DARK)) {
      try (BrowserContext context = browser.context(1366, 768, scheme)) {
        Page page = context.newPage();
        signIn(page, "Ada Fenn");
        page.navigate(root + "/faces/" + stone.id());
        ready(page);
        if (scheme == ColorScheme.LIGHT) {
          String[] keys = {"Space", "?", "*", "#"};
          for (int at = 1; at <= keys.length; at++) {
            page.click("#lines [data-line='1'] .sign[data-at='" + at + "']");
            page.keyboard().press(keys[at - 1]);
            saved(page);
          }
        }
        page.click("#lines [data-line='1'] .sign[data-at='5']");
        Object worst =
            page.evaluate(
                """
                () => {
                  const light = (rgb) => {
                    const [r, g, b] = rgb.match(/[\\d.]+/g).map(Number).map((c) => c / 255)
                      .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
                    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
                  };
                  const ground = (part) => {
                    const own = getComputedStyle(part).backgroundColor;
                    return /rgba\\(.*, 0\\)/.test(own) ? ground(part.parentElement) : own;
                  };
                  let worst = [99, ""];
                  for (const sign of document.querySelectorAll(".slot .sign, .slot .mark, .text .sign")) {
                    const [a, b] = [light(getComputedStyle(sign).color), light(ground(sign))];
                    const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
                    if (sign.textContent && contrast < worst[0]) {
                      worst = [contrast, sign.parentElement.className + " " + sign.className];
                    }
                  }
                  return worst;
                }
                """);
        List<?> found = (List<?>) worst;
        assertThat(((Number) found.get(0)).doubleValue())
            .as(scheme + ": " + found.get(1))
            .isGreaterThanOrEqualTo(4.5);
      }
    }
  }

  @Test
  void aBrowserWithoutScriptShowsTheText() {
    try (BrowserContext context = browser.withoutScript()) {
      Page page = context.newPage();
      signIn(page, "Ada Fenn");
      page.navigate(face());
      assertThat(page.textContent("noscript")).contains("HANNAH WREN", "DIED 1848");
    }
  }

  @Test
  void aLineThatWasMissedIsShownOnTheStoneAndReadAtOnce() {
    Page page = signedIn("Ada Fenn");
    page.navigate(face());
    ready(page);
    page.click("#line-tools summary");
    page.click("#draw-line");
    page.waitForSelector("#drawn");
    assertThat(page.isDisabled("#drawn")).isTrue();
    BoundingBox stone = page.locator("#stone svg image").first().boundingBox();
    // Along the last line of the stone, which the proposal has nothing of.
    for (double share : new double[] {0.35, 0.65}) {
      page.mouse().click(stone.x + share * stone.width, stone.y + 0.72 * stone.height);
    }
    page.click("#drawn");
    page.waitForSelector("#lines li:nth-child(3)");
    saved(page);
    page.waitForCondition(
        () -> page.evaluate("document.querySelector('.strip img')?.naturalWidth > 0").equals(true));
    assertThat(page.locator("#lines li").count()).isEqualTo(3);
    assertThat(inSight(page, "#column")).isTrue();
    VisitedDesk.picture(page, "line-drawn");

    double before = reach(page, 3);
    page.locator("#line-tools").evaluate("tools => tools.open = true");
    page.click("#move-line");
    page.waitForSelector("#drawn");
    page.locator("[data-handle='1']").focus();
    page.keyboard().press("ArrowRight");
    page.keyboard().press("ArrowRight");
    page.click("#drawn");
    page.waitForSelector("#asked", hidden());
    saved(page);
    assertThat(reach(page, 3)).isGreaterThan(before);
    assertThat(page.locator("#lines li").count()).isEqualTo(3);

    page.click("#undo");
    saved(page);
    assertThat(reach(page, 3)).isEqualTo(before);
    page.click("#undo");
    saved(page);
    assertThat(page.locator("#lines li").count()).isEqualTo(2);
    page.context().close();
  }

  private static Page.WaitForSelectorOptions hidden() {
    return new Page.WaitForSelectorOptions().setState(WaitForSelectorState.HIDDEN);
  }

  /** How far to the right a line goes on its photograph, as the server knows it. */
  private static double reach(Page page, int line) {
    Object farthest =
        page.evaluate(
            "line => fetch(location.pathname.replace('/faces/', '/api/faces/'))"
                + ".then((answer) => answer.json())"
                + ".then((face) => Math.max(...face.lines[line - 1].onPhotograph.map((p) => p[0])))",
            line);
    return ((Number) farthest).doubleValue();
  }

  private static boolean inSight(Page page, String part) {
    return (Boolean)
        page.evaluate(
            "selector => { const box = document.querySelector(selector).getBoundingClientRect();"
                + " return box.top >= -1 && box.bottom <= window.innerHeight + 1 && box.height > 0;"
                + " }",
            part);
  }

  @Test
  void aWholeReadingIsMadeByMouseAlone() {
    Page page = signedIn("Bo");
    page.navigate(face());
    ready(page);
    page.click("#lines .sign[data-at='1']");
    page.click("[data-candidate='H']");
    saved(page);
    page.click("#undo");
    saved(page);
    page.click("#redo");
    saved(page);
    page.click("summary:has-text('Letters to click')");
    // The last figure is wrong: it is put right from the board.
    page.click("#lines [data-line='2'] .sign[data-at='8']");
    page.click("[data-sign='9']");
    saved(page);
    // A letter of the first line could be another.
    page.click("#lines [data-line='1'] .sign[data-at='10']");
    page.click("[data-standing='unclear']");
    saved(page);
    for (int i = 0; i < MOST_KEYS && !decided(page); i++) {
      page.click("#word");
      saved(page);
    }
    page.click("#sign-otherwise");
    page.selectOption("#asked select", "earlier");
    page.getByLabel("If from an earlier witness: which").fill("A list of 1911");
    answer(page);
    page.waitForSelector("#notice.good:has-text('Signed')");
    Basis basis = new ReadingStore(small.archive()).current(small.face()).orElseThrow().basis();
    assertThat(basis.witness()).contains("A list of 1911");
    assertThat(signed().get(0)).startsWith("HANNAH WRE").isNotEqualTo("HANNAH WREN");
    assertThat(signed().get(1)).isEqualTo("DIED 1849");
    page.context().close();
  }

  @Test
  void twoReadBlindAndAThirdSettles() {
    new ReadingStore(small.archive()).require(2, "Ada Fenn");
    Page ada = signedIn("Ada Fenn");
    ada.navigate(face());
    ready(ada);
    assertThat(text(ada)).doesNotContain("HANNAH");
    assertThat(ada.textContent("#line")).startsWith("The rest of the line is right");
    readByKeyboard(ada, AS_PROPOSED);
    sign(ada);

    Page bo = signedIn("Bo");
    for (String page : List.of(face(), root + "/", root + "/queue", marker(bo))) {
      bo.navigate(page);
      bo.waitForLoadState();
      assertThat(bo.content()).as(page).doesNotContainPattern("HANNAH|\\b1848\\b");
    }
    bo.navigate(face());
    ready(bo);
    readByKeyboard(bo, TRUTH);
    sign(bo);

    Page cy = signedIn("Cy");
    cy.navigate(face());
    ready(cy);
    VisitedDesk.picture(cy, "settling");
    assertThat(cy.textContent("#notice")).contains("Two readings differ");
    assertThat(cy.textContent("#candidates")).contains("Ada Fenn").contains("Bo");
    readByKeyboard(cy, TRUTH);
    sign(cy);
    assertThat(signed()).isEqualTo(TRUTH);
    List.of(ada, bo, cy).forEach(page -> page.context().close());
  }

  @Test
  void twoWindowsOnOneStoneLoseNothingAndSayWhatHappened() {
    Page first = signedIn("Ada Fenn");
    Page second = first.context().newPage();
    for (Page page : List.of(first, second)) {
      page.navigate(face());
      ready(page);
    }
    first.click("#lines [data-line='2'] .sign[data-at='8']");
    first.keyboard().press("9");
    saved(first);
    second.click("#lines [data-line='1'] .sign[data-at='1']");
    second.keyboard().press("K");
    second.waitForSelector("#notice.wrong");
    assertThat(second.textContent("#notice")).contains("changed in another window");
    assertThat(text(second)).contains("1849").doesNotContain("K");
    second.keyboard().press("K");
    saved(second);
    assertThat(text(second)).contains("1849").contains("KANNAH");

    Page other = signedIn("Bo");
    other.navigate(face());
    ready(other);
    assertThat(other.textContent("#notice")).contains("Ada Fenn is reading this stone");
    other.context().close();
    first.context().close();
  }

  @Test
  @Tag("long")
  void aKilledDeskLosesNothingThatWasDecided() throws Exception {
    desk.close();
    small.archive().close();
    Process process = otherProcess(0);
    String address = address(process);
    int port = Integer.parseInt(address.replaceAll(".*:(\\d+)/", "$1"));
    root = address.substring(0, address.length() - 1);
    try {
      Page page = signedIn("Ada Fenn");
      page.navigate(face());
      ready(page);
      page.click("#lines [data-line='2'] .sign[data-at='8']");
      page.keyboard().press("9");
      saved(page);
      process.destroyForcibly().waitFor();
      Matcher where = WHERE.matcher(page.textContent("#where"));
      assertThat(where.find()).isTrue();
      page.keyboard().press("Space");
      page.waitForSelector("#notice.away");
      assertThat(page.textContent("#notice")).contains("Not saved yet, but kept in this browser");
      assertThat(page.textContent("#saved")).isEqualTo("1 not saved yet");
      // What is pressed now would decide a letter that isn't lit yet: it isn't taken.
      page.keyboard().press("Space");
      assertThat(page.textContent("#saved")).isEqualTo("1 not saved yet");

      process = otherProcess(port);
      address(process);
      // The session has ended with the process; what was decided has not.
      page.waitForSelector("#notice a");
      assertThat(page.textContent("#saved")).isEqualTo("1 not saved yet");
      page.click("#notice a");
      page.fill("#name", "Ada Fenn");
      page.click("main button");
      page.waitForURL(face());
      ready(page);
      assertThat(text(page)).contains("1849");
      assertThat(page.textContent("#notice")).contains("Saved now, from before");
      String letter =
          "#lines li:nth-child(%s) .sign[data-at='%s']".formatted(where.group(1), where.group(2));
      assertThat(page.getAttribute(letter, "class")).contains("clear");
      page.context().close();
    } finally {
      process.destroyForcibly().waitFor();
      small = new SmallArchive(folder.resolve("again"), Projections.all());
      desk = Desk.start(small.archive(), InetAddress.getLoopbackAddress(), 0, Clock.systemUTC());
    }
  }

  @Test
  void beyondThisMachineEverybodySignsInWithAPassphrase() throws Exception {
    InetAddress everywhere = InetAddress.getByName("0.0.0.0");
    assertThatThrownBy(() -> Desk.start(small.archive(), everywhere, 0, Clock.systemUTC()))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("Name readers first");
    QuickReaders.of(small.archive())
        .admit("Ada Fenn", Role.ARCHIVIST, "moss on slate at noon".toCharArray(), "Ada Fenn");
    try (Desk open = Desk.start(small.archive(), everywhere, 0, Clock.systemUTC())) {
      Page page = browser.page();
      page.navigate("http://127.0.0.1:" + open.port() + "/queue");
      assertThat(page.url()).endsWith("/sign-in");
      page.fill("#name", "Ada Fenn");
      page.fill("#passphrase", "moss on slate at night");
      page.click("main button");
      assertThat(page.textContent("[role=alert]")).contains("don't go together");
      page.fill("#name", "Ada Fenn");
      page.fill("#passphrase", "moss on slate at noon");
      page.click("main button");
      page.waitForURL("http://127.0.0.1:" + open.port() + "/");
      page.context().close();
    }
  }

  @Test
  void aReadingMadeAtTheStoneSaysSo() {
    Page page = browser.context(360, 740, ColorScheme.LIGHT).newPage();
    signIn(page, "Ada Fenn");
    page.navigate(face() + "/at-the-stone");
    ready(page);
    page.selectOption("#here-light", "overcast");
    readByKeyboard(page, AS_PROPOSED);
    VisitedDesk.picture(page, "at-the-stone-360");
    sign(page);
    Reading reading = new ReadingStore(small.archive()).current(small.face()).orElseThrow();
    assertThat(reading.basis().kind().label()).isEqualTo("stone");
    assertThat(reading.basis().light()).contains("overcast");
    assertThat(reading.basis().date()).isPresent();
    page.context().close();
  }

  @Test
  void aMarkersPageSaysWhomItSpeaksOfAndWhatNobodyKnows() {
    QuestionStore questions = new QuestionStore(small.archive());
    Question whose = questions.raise("Whose wife was she?", Optional.of("M04"), "Ada Fenn");
    questions.tried(whose, "the register of 1849", "no entry", "Ada Fenn");
    Page page = signedIn("Ada Fenn");
    page.navigate(face());
    ready(page);
    readByKeyboard(page, TRUTH);
    sign(page);
    page.navigate(marker(page));
    assertThat(page.textContent("section[aria-labelledby=persons]"))
        .containsIgnoringCase("Hannah Wran")
        .contains("died 1849");
    assertThat(page.textContent("section[aria-labelledby=questions]"))
        .contains("Whose wife was she?")
        .contains("open")
        .contains("tried: the register of 1849 (no entry)");
    page.context().close();
  }

  @Test
  void onAStoneWithoutLinesTheFirstIsAddedAndRead() {
    Face bare = new PhotoStore(small.archive()).faceOf("M04", "E", "Ada Fenn");
    Page page = signedIn("Ada Fenn");
    page.navigate(root + "/faces/" + bare.id());
    ready(page);
    assertThat(page.textContent("#progress")).isEqualTo("Nothing is read yet.");
    assertThat(page.isVisible("#standings")).isFalse();
    VisitedDesk.picture(page, "no-lines");
    page.click("#add-first");
    page.fill("#ask-text", "ELI");
    answer(page);
    saved(page);
    assertThat(page.isVisible("#standings")).isTrue();
    sign(page);
    Reading reading = new ReadingStore(small.archive()).current(bare.id()).orElseThrow();
    assertThat(Leiden.printLines(reading.inscription())).containsExactly("ELI");
    page.context().close();
  }

  @Test
  void theReadersPageSaysWhoMaySignInAndHowWellTheyRead() throws Exception {
    String passphrase = "moss on slate at noon";
    ReaderStore readers = QuickReaders.of(small.archive());
    readers.admit("Ada Fenn", Role.ARCHIVIST, passphrase.toCharArray(), "Ada Fenn");
    readers.admit("Bo", Role.READER, "a low sun in april".toCharArray(), "Ada Fenn");
    ReadingStore readings = new ReadingStore(small.archive());
    readings.knowLetters(small.face(), Leiden.parse("+++ 1849"), "Ada Fenn");
    for (String reader : List.of("Bo", "Cy")) {
      readings.sign(
          small.face(),
          Leiden.parse("HANNAH WREN\nDIED 1848"),
          Basis.FROM_PHOTOGRAPHS,
          Optional.empty(),
          reader);
    }
    for (int width : List.of(1280, 360)) {
      try (BrowserContext context = browser.context(width, 800, ColorScheme.LIGHT)) {
        Page page = context.newPage();
        page.navigate(root + "/sign-in");
        page.fill("#name", "Ada Fenn");
        page.fill("#passphrase", passphrase);
        page.click("main button");
        page.waitForURL(root + "/");
        page.navigate(root + "/readers");
        assertThat(page.locator("tr:has(th:text-is('Bo'))").textContent())
            .contains("1 of 4 known letters wrong, 25.0% (95%: 4.6 to 69.9)");
        assertThat(page.locator("tr:has(th:text-is('Ada Fenn'))").textContent())
            .contains("none read yet");
        assertThat(page.textContent("main")).contains("Cy: 1 of 4");
        accessible(page, "named-readers", width, ColorScheme.LIGHT);
      }
    }
  }

  @Test
  void fromAMarkersPageItsConditionIsNotedAndAQuestionRaised() {
    Page page = signedIn("Ada Fenn");
    page.navigate(marker(page));
    page.click("summary:has-text('Note its condition')");
    page.check("#is-LEANING");
    page.check("#is-BIOLOGICAL_GROWTH");
    page.fill("#seen-on", "2025-04-30");
    page.fill("#remark", "towards the path");
    page.click("button:has-text('Keep the note')");
    assertThat(page.textContent("section[aria-labelledby=condition]"))
        .contains("2025-04-30 leaning, biological growth (towards the path) Ada Fenn");
    assertThat(page.textContent(".notice.wrong")).contains("Unsafe to stand beside: leaning");
    page.fill("#words", "Whose wife was she?");
    page.click("button:has-text('Raise the question')");
    assertThat(page.textContent("section[aria-labelledby=questions]"))
        .contains("Whose wife was she?")
        .contains("open");
    page.navigate(root + "/");
    assertThat(page.textContent("#markers")).contains("unsafe: leaning");
    page.navigate(face() + "/at-the-stone");
    ready(page);
    assertThat(page.textContent(".here")).contains("Keep clear of it. Noted as leaning.");
    page.navigate(marker(page));
    page.click("[aria-label^='Take back: noted its condition']");
    assertThat(page.textContent("section[aria-labelledby=condition]"))
        .contains("Nobody has noted any");
    page.context().close();
  }

  @Test
  void fromAMarkersPageSomebodySaysByKeyboardHowWordsAreToBeTaken() throws Exception {
    new ReadingStore(small.archive())
        .sign(
            small.face(),
            Leiden.parse("HANNAH WREN\ndied 3 May 1849\naged 60 years\nzebra quorn"),
            Basis.FROM_PHOTOGRAPHS,
            Optional.empty(),
            "Ada Fenn");
    Page page = signedIn("Ada Fenn");
    page.navigate(marker(page));
    String says = "section[aria-labelledby=says]";
    assertThat(page.textContent(says)).contains("name: Hannah Wren").doesNotContain("Zebra");
    focusWhere(page, "document.activeElement.textContent === 'Something here is taken wrongly'");
    page.keyboard().press("Enter");
    VisitedDesk.picture(page, "taken-wrongly");
    focusWhere(page, "document.activeElement.name === 'first'");
    page.keyboard().type("zebra");
    focusWhere(page, "document.activeElement.name === 'last'");
    page.keyboard().type("quorn");
    focusWhere(page, "document.activeElement.textContent === 'Keep this'");
    page.keyboard().press("Enter");
    page.waitForSelector(says + " >> text=name: Zebra Quorn");
    assertThat(page.textContent(says))
        .contains("Ada Fenn said: “zebra quorn” is the name Zebra Quorn.");
    page.click("summary:has-text('Something here is taken wrongly')");
    page.selectOption("select[name=which]", new SelectOption().setLabel("age: 60 years"));
    page.selectOption("select[name=of]", new SelectOption().setLabel("said of Zebra Quorn"));
    page.click("button:has-text('Keep that')");
    assertThat(page.textContent(says)).contains("“aged 60 years” is the age of somebody else");
    accessible(page, "taken-wrongly", 1280, ColorScheme.LIGHT);
    page.click("[aria-label^='Take back: said how words are taken'] >> nth=0");
    assertThat(page.textContent(says)).doesNotContain("the age of somebody else");
    page.context().close();
  }

  @Test
  void aPhotographOfAnotherStoneIsMovedFromTheMarkersPageAndTheMoveTakenBack() {
    Page page = signedIn("Ada Fenn");
    String here = marker(page);
    page.navigate(here);
    int pictures = page.locator(".pictures figure").count();
    move(page, "M04b", false);
    assertThat(page.textContent("[role=alert]"))
        .contains("There is no marker M04b here. If it is a new one, say so.");
    move(page, "M04b", true);
    assertThat(page.textContent("h1")).isEqualTo("Marker M04b");
    assertThat(page.locator(".pictures figure").count()).isEqualTo(1);
    page.navigate(here);
    assertThat(page.locator(".pictures figure").count()).isEqualTo(pictures - 1);
    page.navigate(root + "/");
    page.click("#markers a:has-text('M04b')");
    page.locator("[aria-label^='Take back: put a photograph']").first().click();
    page.navigate(here);
    assertThat(page.locator(".pictures figure").count()).isEqualTo(pictures);
    page.context().close();
  }

  private static void move(Page page, String marker, boolean isNew) {
    page.click("summary:has-text('A photograph shows another stone')");
    Locator form = page.locator(".pictures form").first();
    form.locator("[name=number]").fill(marker);
    if (isNew) {
      form.locator("[name=new]").check();
    }
    form.locator("button").click();
  }

  @Test
  void everyPageIsAccessibleAndFitsAPhone() {
    MarkerId stone =
        new PhotoStore(small.archive()).face(small.face()).map(Face::marker).orElseThrow();
    new ConditionStore(small.archive())
        .note(
            stone,
            LocalDate.parse("2025-04-30"),
            List.of(Condition.LEANING, Condition.SUGARING),
            "towards the path",
            "Ada Fenn");
    String marker;
    try (BrowserContext context = browser.context(1366, 768, ColorScheme.LIGHT)) {
      Page page = context.newPage();
      signIn(page, "Ada Fenn");
      marker = marker(page);
    }
    Map<String, String> work = new LinkedHashMap<>();
    work.put("reading", face());
    work.put("at-the-stone", face() + "/at-the-stone");
    Map<String, String> all = new LinkedHashMap<>(work);
    all.put("sign-in", root + "/sign-in");
    all.put("readers", root + "/readers");
    all.put("marker", marker);
    all.put("refused", root + "/markers/none");
    accessible(all, 1366, 768, ColorScheme.LIGHT);
    accessible(all, 360, 740, ColorScheme.DARK);
    // A window of 1366 pixels at 200 per cent.
    accessible(work, 683, 384, ColorScheme.LIGHT);
  }

  @Test
  void everyPageIsPrintedWithWhatItSaysAndWithoutItsButtons() throws IOException {
    try (BrowserContext context = browser.context(1366, 768, ColorScheme.DARK)) {
      Page page = context.newPage();
      signIn(page, "Ada Fenn");
      Map<String, String> wanted = new LinkedHashMap<>();
      wanted.put(root + "/", "M04");
      wanted.put(root + "/queue", "M04");
      wanted.put(marker(page), "HANNAH WREN");
      wanted.put(face(), "HANNAH WREN");
      int number = 0;
      for (Map.Entry<String, String> one : wanted.entrySet()) {
        page.navigate(one.getKey());
        page.waitForLoadState(LoadState.LOAD);
        if (one.getKey().contains("/faces/")) {
          ready(page);
        }
        Path pdf = SCREENSHOTS.resolve("printed-" + ++number + ".pdf");
        page.pdf(new Page.PdfOptions().setPath(pdf).setFormat("A4"));
        try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
          assertThat(new PDFTextStripper().getText(document))
              .as(one.getKey())
              .contains(one.getValue())
              .doesNotContain("Sign out", "Undo", "Find", "Note it", "Ask it");
        }
      }
    }
  }

  private void accessible(Map<String, String> pages, int width, int height, ColorScheme scheme) {
    try (BrowserContext context = browser.context(width, height, scheme)) {
      Page page = context.newPage();
      signIn(page, "Ada Fenn");
      pages.forEach(
          (name, address) -> {
            page.navigate(address);
            if (address.contains("/faces/")) {
              ready(page);
            }
            page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)");
            accessible(page, name, width, scheme);
          });
      page.navigate(face());
      ready(page);
      page.click("summary:has-text('Lines, words and spaces')");
      page.click("#add-below");
      page.waitForSelector("#asked:not([hidden])");
      accessible(page, "question", width, scheme);
    }
  }

  private void accessible(Page page, String name, int width, ColorScheme scheme) {
    page.waitForLoadState(LoadState.LOAD);
    VisitedDesk.picture(
        page, name + "-" + width + "-" + scheme.name().toLowerCase(java.util.Locale.ROOT));
    Browser.isAccessible(page, name + " " + width + " " + scheme);
  }

  private String face() {
    return root + "/faces/" + small.face();
  }

  /** The address of the marker the stone belongs to. */
  private String marker(Page page) {
    page.navigate(root + "/");
    return root + page.getAttribute("#markers a[href^='/markers/']", "href");
  }

  private Page signedIn(String name) {
    Page page = browser.page();
    signIn(page, name);
    return page;
  }

  private void signIn(Page page, String name) {
    page.navigate(root + "/sign-in");
    page.fill("#name", name);
    page.click("main button");
    page.waitForURL(root + "/");
  }

  private static void ready(Page page) {
    page.waitForSelector("#reading:not(.waiting)");
    saved(page);
  }

  private static void saved(Page page) {
    page.waitForSelector("#saved:text-is('All saved')");
  }

  private static boolean decided(Page page) {
    return page.textContent("#progress").contains("Every letter is decided");
  }

  private static String text(Page page) {
    List<String> lines = new ArrayList<>();
    for (Locator line : page.locator("#lines .text").all()) {
      lines.add(line.textContent().strip());
    }
    return String.join("\n", lines);
  }

  /** Where the cursor goes, the truth is typed, or confirmed where the word is right. */
  private static void readByKeyboard(Page page, List<String> truth) {
    for (int i = 0; i < MOST_KEYS && !decided(page); i++) {
      Matcher where = WHERE.matcher(page.textContent("#where"));
      assertThat(where.find()).isTrue();
      String line = truth.get(Integer.parseInt(where.group(1)) - 1);
      int at = Integer.parseInt(where.group(2));
      String shown =
          page.locator("#lines .text")
              .nth(Integer.parseInt(where.group(1)) - 1)
              .textContent()
              .strip();
      if (wordAt(shown, at).equals(wordAt(line, at))) {
        page.keyboard().press("Enter");
      } else {
        page.keyboard().press(String.valueOf(line.replace(" ", "").charAt(at - 1)));
        page.keyboard().press("Space");
      }
      saved(page);
    }
    assertThat(decided(page)).as(page.textContent("#progress") + text(page)).isTrue();
  }

  /** The word that the letter at a place belongs to, counting letters only. */
  private static String wordAt(String line, int at) {
    int letters = 0;
    for (String word : line.split(" ")) {
      letters += word.length();
      if (at <= letters) {
        return word;
      }
    }
    return "";
  }

  /** Gives the answer asked for; the page has it once the question is gone. */
  private static void answer(Page page) {
    page.click("#asked button.first");
    page.waitForSelector(
        "#asked", new Page.WaitForSelectorOptions().setState(WaitForSelectorState.HIDDEN));
  }

  private static void sign(Page page) {
    page.click("#sign");
    page.waitForSelector("#notice:has-text('Signed')");
  }

  private List<String> signed() {
    Reading reading = new ReadingStore(small.archive()).current(small.face()).orElseThrow();
    return Leiden.printLines(reading.inscription());
  }

  private static String focused(Page page) {
    return String.valueOf(page.evaluate("document.activeElement.id"));
  }

  /** Goes there by the tabulator key alone. */
  private static void focus(Page page, String id) {
    focusWhere(page, "document.activeElement.id === '" + id + "'");
  }

  private static void focusWhere(Page page, String condition) {
    for (int i = 0; i < MOST_KEYS; i++) {
      if (Boolean.TRUE.equals(page.evaluate(condition))) {
        return;
      }
      page.keyboard().press("Tab");
    }
    throw new AssertionError("The tabulator key doesn't lead to " + condition);
  }

  private Process otherProcess(int port) throws IOException {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            System.getProperty("java.class.path"),
            Rakelight.class.getName(),
            "desk",
            folder.resolve("archive").toString(),
            "--port",
            String.valueOf(port))
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }

  private static String address(Process process) throws IOException {
    BufferedReader out =
        new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    String line = out.readLine();
    assertThat(line).isNotNull();
    Matcher address = Pattern.compile("http://\\S+/").matcher(line);
    assertThat(address.find()).as(line).isTrue();
    return address.group();
  }
}
