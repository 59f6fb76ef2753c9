package rakelight.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.Media;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.Chance;
import rakelight.archive.Archive;
import rakelight.archive.MarkerId;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.marker.MarkerStore;
import rakelight.person.People;
import rakelight.person.Person;
import rakelight.person.Question;
import rakelight.person.QuestionStore;
import rakelight.person.Source;
import rakelight.person.SourceStore;
import rakelight.reading.SmallArchive;
import rakelight.samples.Samples;
import rakelight.work.QuickReaders;
import rakelight.work.ReaderStore;
import rakelight.work.Role;

/** Persons, statements, dates, questions, sources and persons sought, in a browser. */
class PeoplePagesTest {
  private static final String ADA = "ada has long words";
  private static final String GIL = "gil has long words";

  @TempDir static Path folder;
  private static VisitedDesk desk;

  @BeforeAll
  static void open() throws Exception {
    desk = VisitedDesk.of(PeoplePagesTest::ground);
  }

  @AfterAll
  static void close() {
    if (desk != null) {
      desk.close();
    }
  }

  private static Archive ground() throws Exception {
    SmallArchive small = new SmallArchive(folder, Projections.all());
    small.propose();
    Archive archive = small.archive();
    VisitedDesk.read(archive, "M04", "W", "HANNAH WREN | DIED 1848");
    VisitedDesk.read(
        archive, "B-2", "front", "HANNAH WREN | wife of JOHN WREN | died 1848 aged 63 years");
    VisitedDesk.read(
        archive, "B-3", "front", "AMOS RUDD | died 3 May 1863 aged 40 years | also his wife RUTH");
    VisitedDesk.read(archive, "B-4", "front", "ABEL HOLT | born 4 May 1850 | died 1 May 1840");
    VisitedDesk.read(
        archive,
        "B-5",
        "front",
        "SILAS QUILLAN | died 4 March 18[.]8 | born 1 May 1801 | aged 56 years");
    VisitedDesk.read(
        archive,
        "C-1",
        "front",
        "ERIC SALLOW | died 1990 | also his wife | IRIS SALLOW | born 1931");
    QuestionStore questions = new QuestionStore(archive);
    Question question =
        questions.raise("Who was John Wren’s father?", Optional.of("B-2"), "Ada Fenn");
    questions.tried(question, "Register of baptisms", "nothing before 1790", "Ada Fenn");
    questions.raise("Where was Iris Sallow born?", Optional.of("C-1"), "Ada Fenn");
    new SourceStore(archive)
        .record(
            Source.Kind.REGISTER,
            "Burials 1840 to 1870",
            "The vestry",
            "book 3",
            Optional.empty(),
            "",
            "Ada Fenn");
    ReaderStore readers = QuickReaders.of(archive);
    readers.admit("Ada Fenn", Role.ARCHIVIST, ADA.toCharArray(), "Ada Fenn");
    readers.admit("Gil Moss", Role.GUEST, GIL.toCharArray(), "Ada Fenn");
    return archive;
  }

  private static Page ada(BrowserContext context, String address) {
    Page page = desk.signedIn(context, "Ada Fenn", ADA);
    page.navigate(desk.root() + address);
    return page;
  }

  private static String texts(Page page) {
    return page.textContent("main");
  }

  private static Person person(String mention) {
    return People.of(desk.archive()).persons().stream()
        .filter(one -> one.mentions().stream().anyMatch(m -> m.label().equals(mention)))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void theListsAreForEverybodyOnEveryScreen() {
    desk.onEveryScreen(
        "Ada Fenn",
        ADA,
        List.of(
            new String[] {"people-persons", "/persons"},
            new String[] {"people-sought", "/sought"},
            new String[] {"people-statements", "/statements"},
            new String[] {"people-sources", "/sources"}));
  }

  @Test
  void whatIsOpenedIsForEverybodyOnEveryScreen() {
    String hannah = "/persons/" + person("M04:W:1").id();
    desk.onEveryScreen(
        "Ada Fenn",
        ADA,
        page -> {
          for (String[] one :
              List.of(
                  new String[] {"people-person", hannah, ""},
                  new String[] {"people-pair", "/pairs", ".rows a"},
                  new String[] {"people-statement", hannah, ".on-stone li a"},
                  new String[] {"people-question", "/questions", ".rows a"},
                  new String[] {"people-source", "/sources", ".rows a"},
                  new String[] {"people-marker", "/markers/" + marker("M04"), ""})) {
            page.navigate(desk.root() + one[1]);
            if (!one[2].isEmpty()) {
              page.locator(one[2]).first().click();
            }
            String called = one[0] + "-" + page.viewportSize().width;
            Browser.isAccessible(page, called);
            VisitedDesk.picture(page, called);
          }
        });
  }

  /** A list somebody made long ago, and a laptop on which something else was decided. */
  @Test
  void whatAnEarlierListAndAnotherLaptopSayIsForEverybodyOnEveryScreen() throws Exception {
    Path root = desk.archive().root();
    Path list =
        Files.writeString(
            folder.resolve("list.csv"),
            """
            Grave,Who,Words
            B-3,Amos Rudd,Amos Rudd / died 8 May 1863
            ,Bess Marlow,Bess Marlow / died 1799
            """);
    run(
        "witness",
        root,
        "take",
        list,
        "--source",
        new SourceStore(desk.archive()).sources().get(0).number(),
        "--columns",
        "number=Grave,name=Who,text=Words",
        "--reader",
        "Ada Fenn");
    Path laptop = folder.resolve("laptop");
    run("backup", root, folder.resolve("kept"));
    run("restore", folder.resolve("kept"), laptop);
    MarkerId stone = new MarkerStore(desk.archive()).named("B-4").id();
    new PositionStore(desk.archive()).note(stone, new RowPlace("A", 1), "Ada Fenn");
    try (Archive there = Archive.open(laptop, Projections.all())) {
      new PositionStore(there).note(stone, new RowPlace("B", 7), "Ben Reader");
    }
    run("merge", root, laptop);

    desk.onEveryScreen(
        "Ada Fenn",
        ADA,
        List.of(
            new String[] {"people-earlier-lists", "/earlier-lists"},
            new String[] {"people-apart", "/apart"}));
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/earlier-lists");
      assertThat(texts(page))
          .contains("1 of 2 rows have their stone", "Bess Marlow", "1 row: the stone’s letters");
      assertThat(page.textContent(".letters-beside")).contains("May");
      page.fill("article:has-text('Bess Marlow') input[name=marker]", "B-5");
      page.click("article:has-text('Bess Marlow') >> text=It is this");
      page.waitForSelector("text=2 of 2 rows have their stone");

      page.click("nav >> text=What needs a person");
      page.click("text=1 thing was decided differently");
      assertThat(texts(page))
          .contains("Marker B-4: its place in a row", "row: A; place: 1", "row: B; place: 7");
      assertThat(page.locator("li:has-text('this one holds')").count()).isEqualTo(1);
      page.click("text=It may stay so");
      page.waitForSelector("text=Nothing waits.");
    }
  }

  private static void run(Object... words) {
    Ran ran = Ran.command(words);
    assertThat(ran.code()).as(ran.err() + ran.out()).isZero();
  }

  private static String marker(String number) {
    return new MarkerStore(desk.archive()).named(number).id().toString();
  }

  @Test
  void personsAreFoundByNameYearAndWhatTheyAre() {
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/persons");
      page.fill("#by-name", "hann wr");
      page.keyboard().press("Enter");
      page.waitForURL(url -> url.contains("/persons?name=hann+wr"));
      assertThat(page.locator(".rows .name").allTextContents())
          .isNotEmpty()
          .allMatch(name -> name.contains("Hannah Wren"));
      page.click("text=Show all");
      page.fill("#by-year", "1860-1869");
      page.keyboard().press("Enter");
      page.waitForURL(url -> url.contains("year=1860"));
      assertThat(page.locator(".rows .name").allTextContents()).containsExactly("Amos Rudd");
      page.fill("#by-year", "about 1860");
      page.keyboard().press("Enter");
      page.waitForURL(url -> url.contains("year=about"));
      assertThat(page.textContent("[role=alert]")).contains("is no year; write 1848");
      assertThat(page.inputValue("#by-year")).isEqualTo("about 1860");
      page.navigate(desk.root() + "/persons?state=living");
      assertThat(page.locator(".rows .name").allTextContents()).containsExactly("Iris Sallow");
    }
  }

  @Test
  void twoMentionsAreSaidToBeOnePersonByKeyboardAndThatIsTakenBack() {
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/pairs?name=hannah");
      page.locator(".rows a").first().focus();
      page.keyboard().press("Enter");
      page.waitForURL("**/pairs/*/*");
      assertThat(page.textContent("h1")).isEqualTo("One person or two?");
      page.fill("#note", "the same death");
      page.keyboard().press("Tab");
      page.keyboard().press("Enter");
      page.waitForSelector("text=People hold these to be one person.");
      assertThat(texts(page)).contains("People hold these to be one person.", "the same death");
      page.navigate(desk.root() + "/persons?state=several");
      assertThat(page.locator(".rows .name").allTextContents()).containsExactly("Hannah Wren");
      page.click(".rows a");
      assertThat(page.locator(".on-stone").count()).isEqualTo(2);
      page.click("button[aria-label^='Take back: said that']");
      assertThat(page.locator(".on-stone").count()).isEqualTo(1);
      page.navigate(desk.root() + "/persons?state=several");
      assertThat(texts(page)).contains("0 of ");
    }
  }

  @Test
  void evidenceOfDeathIsRecordedAndSomebodyUnnamedToo() {
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/persons/" + person("C-1:front:2").id());
      assertThat(texts(page)).contains("May be living");
      page.click("summary >> text=There is evidence of the death");
      page.fill("#note", "Burials 2019, no. 4");
      page.click("text=Record the evidence");
      assertThat(texts(page))
          .contains("Evidence of death: Burials 2019, no. 4")
          .doesNotContain("May be living");
      page.click("button[aria-label^='Take back: recorded evidence']");
      assertThat(texts(page)).contains("May be living");
      page.navigate(desk.root() + "/persons");
      page.click("summary >> text=whom no letters name");
      page.fill("#marker", "B-3");
      page.fill("#note", "a double stone, one side bare");
      page.click("text=Record somebody unnamed");
      assertThat(texts(page)).contains("(unnamed)", "the form of marker B-3");
      page.click("button[aria-label^='Take back: recorded somebody']");
      assertThat(page.url()).endsWith("/persons");
    }
  }

  @Test
  void aStatementShowsItsLettersOnTheStoneAndIsSaidNotToBeSo() {
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/statements?marker=M04&kind=death");
      page.click(".rows a");
      assertThat(page.locator(".drawn polygon.sure").count()).isPositive();
      assertThat(page.getAttribute(".drawn", "aria-label")).contains("Line 2 on the photograph");
      assertThat(texts(page)).contains("DIED 1848", "Said of M04:W:1 Hannah Wren");
      page.selectOption("#of", "nobody");
      page.click("text=Keep that");
      assertThat(page.textContent("section:has(#says)"))
          .contains("Ada Fenn said")
          .doesNotContain("death: 1848");
      page.click("button[aria-label^='Take back: said how words are taken']");
      assertThat(page.textContent("section:has(#says)")).contains("death: 1848");
    }
  }

  @Test
  void datesThatContradictEachOtherAreListedAndLeadToTheStone() {
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/dates?kind=contradiction");
      assertThat(page.locator(".rows .name").allTextContents())
          .containsExactly("Abel Holt, marker B-4, front");
      page.click(".rows a");
      assertThat(page.textContent("section:has(#reckoned)")).contains("Abel Holt");
      page.navigate(desk.root() + "/dates?kind=value");
      assertThat(texts(page)).contains("worked out, not carved");
    }
  }

  @Test
  void aQuestionIsRaisedTriedAnsweredAndOpenedAgainWithoutScript() {
    try (BrowserContext context = desk.browser().withoutScript()) {
      Page page = ada(context, "/questions");
      page.fill("#words", "Who set up this stone?");
      page.fill("#marker", "Z-99");
      page.click("text=Raise the question");
      assertThat(page.textContent("[role=alert]")).contains("Z-99");
      assertThat(page.inputValue("#words")).as("refilled").isEqualTo("Who set up this stone?");
      page.fill("#marker", "B-3");
      page.click("section.add button");
      assertThat(page.textContent("h1")).contains("Who set up this stone?");
      page.click("summary >> text=The answer");
      page.fill("#answer", "His sister");
      page.fill("#citation", " ");
      page.click("text=Answer it");
      assertThat(page.textContent("[role=alert]")).contains("needs its citation");
      assertThat(page.inputValue("#answer")).as("refilled").isEqualTo("His sister");
      page.fill("#citation", "A letter of 1864");
      page.click("text=Answer it");
      assertThat(texts(page)).contains("Answered", "His sister", "A letter of 1864");
      page.click("summary >> text=It is open again");
      page.fill("#why", "the letter is of another Amos");
      page.click("button >> text=Open it again");
      assertThat(texts(page)).contains("Open", "open again: the letter is of another Amos");
      page.locator("button[aria-label^='Take back: open again']").click();
      assertThat(page.locator("main p.lead").first().textContent()).contains("His sister");
    }
  }

  @Test
  void aSourceIsRecordedWithAScanAndAPersonSoughtIsFoundOnAStone() throws Exception {
    Path scan = folder.resolve("page-3.jpg");
    Files.write(scan, Samples.bytes("M07-W.jpg"));
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/sources");
      page.click("summary >> text=Record a source");
      page.selectOption("#kind", "roll");
      page.fill("#title", "Roll of the burial club");
      page.click("text=Record the source");
      assertThat(page.textContent("h1")).isEqualTo("Roll of the burial club");
      page.setInputFiles("#scan", scan);
      page.click("text=Add the scan");
      assertThat(page.textContent(".scans")).contains("page-3.jpg");
      page.locator(".scans img").scrollIntoViewIfNeeded();
      page.waitForCondition(
          () -> (Boolean) page.locator(".scans img").evaluate("one => one.naturalWidth > 0"));
      page.click("main a[href^='/sought?source']");
      page.fill("#surname", "Rudd");
      page.fill("#given", "Amos");
      page.fill("#died", "about May");
      page.click("text=Add and see who it may be");
      assertThat(page.textContent("[role=alert]")).contains("is no date; write");
      assertThat(page.inputValue("#given")).as("refilled").isEqualTo("Amos");
      page.fill("#died", "3 May 1863");
      page.click("text=Add and see who it may be");
      assertThat(page.textContent("h1")).contains("Amos Rudd");
      assertThat(page.locator(".on-stone h3").first().textContent())
          .contains("Amos Rudd", "B-3:front:1");
      Browser.isAccessible(page, "people-sought-one");
      VisitedDesk.picture(page, "people-sought-one-1366");
      page.locator(".on-stone button.first").first().click();
      assertThat(page.textContent("#offered")).isEqualTo("Found");
      page.click("nav.lists >> text=Sought");
      assertThat(page.textContent(".rows")).contains("found: B-3:front:1 Amos Rudd");
      page.click(".rows a");
      page.click("button[aria-label^='Take back: said that it is']");
      assertThat(page.textContent("#offered")).isEqualTo("Stones that may be his");
      page.locator("button[aria-label^='It is another']").first().click();
      assertThat(texts(page)).contains("said that it isn’t B-3:front:1");
    }
  }

  @Test
  void aGuestSeesWhatMayBeToldAndChangesNothing() {
    try (BrowserContext context = desk.laptop()) {
      Page page = desk.signedIn(context, "Gil Moss", GIL);
      for (String list :
          List.of("/persons", "/statements", "/dates", "/questions", "/sought", "/sources")) {
        page.navigate(desk.root() + list);
        assertThat(Chance.leftOut(page.content()))
            .as(list)
            .doesNotContainIgnoringCase("Iris")
            .doesNotContain("1931");
        assertThat(page.locator("main form[method=post]").count()).as(list).isZero();
      }
      page.navigate(desk.root() + "/persons?name=eric");
      assertThat(texts(page)).contains("Eric Sallow");
      VisitedDesk.picture(page, "people-guest-1366");
      Browser.isAccessible(page, "people-guest");
      page.navigate(desk.root() + "/persons/" + person("C-1:front:2").id());
      assertThat(texts(page)).contains("There is no such person here.");
      page.navigate(desk.root() + "/pairs");
      assertThat(page.textContent("h1")).isEqualTo("Not possible");
    }
  }

  @Test
  void onPaperOpenQuestionsHaveLinesToWriteOn() {
    try (BrowserContext context = desk.laptop()) {
      Page page = ada(context, "/questions?state=open");
      assertThat(page.locator(".to-write").first().isVisible()).isFalse();
      page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
      assertThat(page.locator(".to-write").first().isVisible()).isTrue();
      for (String onScreen : List.of(".seek", ".add", "nav.lists", "header.top")) {
        assertThat(page.locator(onScreen).first().isVisible()).as(onScreen).isFalse();
      }
      VisitedDesk.picture(page, "people-questions-print");
    }
  }
}
