package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Json;
import rakelight.archive.Uuid7;
import rakelight.ground.Link;
import rakelight.ground.LinkStore;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Reading;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.DescriptionWords;
import rakelight.marker.MarkerStore;
import rakelight.person.QuestionStore;
import rakelight.photo.PhotoStore;
import rakelight.work.NamedReader;
import rakelight.work.QuickReaders;
import rakelight.work.ReaderStore;
import rakelight.work.Regrouping;
import rakelight.work.Role;

/** Search at the desk: its page, the form, the same for programs, the family. */
class SearchRoutesTest {
  @TempDir Path folder;
  private OpenDesk desk;
  private Visitor ada;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    ada = desk.visitor("Ada Fenn");
    stone("A-1", "In memory of | HANNAH WREN | wife of JOHN WREN | died 1848 aged 63 years");
    stone("B-2", "ELIZABETH WR[..] | died 1861");
    stone("B-3", "AMOS RUDD | died 1863");
    desk.face("C-9");
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private Reading stone(String marker, String text) {
    try {
      return desk.readings()
          .sign(
              new PhotoStore(desk.archive()).faceOf(marker, "front", "Ada Fenn").id(),
              Leiden.parse(text),
              Basis.FROM_PHOTOGRAPHS,
              Optional.empty(),
              "Ada Fenn");
    } catch (LeidenException e) {
      throw new IllegalArgumentException(text, e);
    }
  }

  private static String asking(String query) {
    return "/search?q=" + URLEncoder.encode(query, StandardCharsets.UTF_8);
  }

  private String found(String query) {
    Visitor.Answer answer = ada.get(asking(query));
    assertThat(answer.status()).as(answer.body()).isEqualTo(200);
    return answer.body();
  }

  @Test
  void aHitSaysWhoWhyHowLikelyAndWhichLettersAnswered() {
    assertThat(found("hannah wren"))
        .contains("Marker A-1", "very likely", "word HANNAH", "died 1848")
        .contains("<mark class=\"sure\">HANNAH</mark>")
        .contains("marker A-1, front; no photograph; read by Ada Fenn")
        .contains("searched 2026-11-25.")
        .contains(
            "<dt>markers on the ground</dt><dd>4</dd>", "<dt>read, so searched</dt><dd>3</dd>");
  }

  @Test
  void ofWhatNobodyHasReadTheLikeliestStandsApartFromTheHits() {
    desk.face("C-60", "GIDEON HOLT");
    String page = found("gideon holt");
    for (int i = 0; i < 500 && !page.contains("could be meant"); i++) {
      page = found("gideon holt");
    }
    assertThat(page).contains("No marker answers.").doesNotContain("Marker C-60");
    assertThat(page.substring(page.indexOf("which nobody confirmed"))).contains(">marker C-60, ");
    assertThat(ada.get("/search.json?q=gideon+holt").body()).contains("\"couldAnswer\":[{");
    ReaderStore readers = QuickReaders.of(desk.archive());
    readers.admit("Ada Fenn", Role.ARCHIVIST, "ada has long words".toCharArray(), "Ada Fenn");
    readers.admit("Gil Moss", Role.GUEST, "gil has long words".toCharArray(), "Ada Fenn");
    Visitor gil = Visitor.named("Gil Moss", "gil has long words", desk.port());
    ada = Visitor.named("Ada Fenn", "ada has long words", desk.port());
    page = found("gideon holt");
    for (int i = 0; i < 500 && !page.contains("could be meant"); i++) {
      page = found("gideon holt");
    }
    assertThat(page).contains("C-60");
    assertThat(gil.get(asking("gideon holt")).body()).doesNotContain("could be meant");
    assertThat(gil.get("/search.json?q=gideon+holt").body()).doesNotContain("couldAnswer");
    stone("C-60", "AMOS LARK");
    assertThat(found("gideon holt")).doesNotContain("could be meant");
  }

  @Test
  void aWidenedWordAndGuessedLettersAreToldApartFromSureOnes() {
    assertThat(found("betsy wren died within 5 years of 1860"))
        .contains("ELIZABETH, used for betsy")
        .contains("<mark class=\"sure\">WR</mark><mark class=\"guessed\">[..]</mark>");
    assertThat(ada.get(asking("betsy") + "&without=nicknames").body())
        .contains("Not looked for: nicknames")
        .doesNotContain("used for betsy");
  }

  @Test
  void whatWasConfirmedOrTakenBackIsFoundOrGoneAtOnce() {
    assertThat(found("holt")).contains("No marker answers.");
    Reading read = stone("C-1", "ELI HOLT");
    assertThat(found("holt")).contains("Marker C-1");
    desk.archive().journal().undo(read.decision(), "Ada Fenn");
    assertThat(found("holt")).contains("No marker answers.");
  }

  @Test
  void hitsAreNarrowedByDecadeSurnameAndPlot() {
    assertThat(found("died")).contains("Marker A-1", "Marker B-2", "Marker B-3", "1840s");
    assertThat(ada.get(asking("died") + "&decade=1840").body())
        .contains("Marker A-1", "Not only 1840s")
        .doesNotContain("Marker B-2", "Marker B-3");
    assertThat(ada.get(asking("died") + "&plot=B&surname=Rudd").body())
        .contains("Marker B-3")
        .doesNotContain("Marker A-1", "Marker B-2");
    assertThat(ada.get(asking("died") + "&limit=2").body())
        .contains("1 to 2 of 3", "/search?limit=2&amp;page=2&amp;q=died");
  }

  @Test
  void hitsAreNarrowedByWhatPeopleSayTheStoneIs() {
    new DescriptionStore(desk.archive())
        .describe(
            new MarkerStore(desk.archive()).named("B-3").id(),
            new DescriptionWords(Map.of("kind", "ledger", "material", "slate"))
                .over(Description.NONE),
            Uuid7.next(),
            "Ada Fenn");
    assertThat(found("died")).contains("slate", "ledger");
    assertThat(ada.get(asking("died") + "&material=slate").body())
        .contains("Marker B-3", "Not only slate")
        .doesNotContain("Marker A-1");
  }

  @Test
  void aFilledFormBecomesAQueryWithAnAddressOfItsOwn() {
    Visitor.Answer answer =
        ada.get("/search?given=Hannah&surname=Wren&from=1840&died=1848&within=2&place=");
    assertThat(answer.status()).isEqualTo(302);
    String address = answer.header("Location");
    assertThat(address).endsWith(asking("name:\"Hannah Wren\" year:1840.. died:1846..1850"));
    assertThat(ada.get("/search?from=18x").body()).contains("“18x” isn't a year");
  }

  @Test
  void aQueryThatIsNotUnderstoodIsRefusedWithTheWayToSayIt() {
    assertThat(found("wren OR rudd")).contains("class=\"notice wrong\"", "understood: ");
    assertThat(ada.get(asking("wren") + "&limit=0").body()).contains("1 or more");
    assertThat(ada.get(asking("wren") + "&without=spells").body()).contains("sounds, slips or all");
    assertThat(found("<b>wren</b>")).doesNotContain("<b>");
    assertThat(ada.get("/search.json?q=wren+OR+rudd").status()).isEqualTo(400);
  }

  @Test
  void programsGetALineAHitAndNoPathOfThisMachine() {
    new QuestionStore(desk.archive()).raise("Where is wren from?", Optional.of("A-1"), "Ada Fenn");
    Visitor.Answer answer = ada.get("/search.json?q=wren&limit=1");
    List<String> lines = answer.body().lines().toList();
    assertThat(lines).hasSize(3);
    var hit = Json.read(lines.get(0), com.fasterxml.jackson.databind.JsonNode.class);
    assertThat(hit.path("schema").asInt()).isEqualTo(1);
    assertThat(hit.path("marker").asText()).isEqualTo("A-1");
    assertThat(lines.get(1)).contains("Where is wren from?");
    assertThat(lines.get(2)).contains("\"covers\"");
    assertThat(answer.body()).doesNotContain(folder.toString());
  }

  @Test
  void theFamilyOfAHitLeadsToItsKinAndLinkedMarkers() {
    stone("A-2", "H. W.");
    new LinkStore(desk.archive()).confirm("A-2", Link.Kind.FOOTSTONE_OF, "A-1", "", "Ada Fenn");
    String page = found("hannah wren");
    int at = page.indexOf("/family");
    String address = page.substring(page.lastIndexOf("/markers/", at), page.indexOf('"', at));
    assertThat(ada.get(address.replace("&amp;", "&")).body())
        .contains("The family of marker A-1", "Hannah Wren", "John Wren")
        .contains("/search?q=name%3A%22")
        .contains("marker A-2 is footstone of this marker")
        .contains("Back to the search");
  }

  @Test
  void aGuestBeginsWithTheSearchAndStillSeesTheStones() {
    ReaderStore readers = QuickReaders.of(desk.archive());
    readers.admit("Ada Fenn", Role.ARCHIVIST, "ada has long words".toCharArray(), "Ada Fenn");
    readers.admit("Gil Moss", Role.GUEST, "gil has long words".toCharArray(), "Ada Fenn");
    Visitor gil = Visitor.named("Gil Moss", "gil has long words", desk.port());
    assertThat(gil.get("/").body()).contains("Whom do you look for?");
    assertThat(gil.get("/ground").body()).contains("What needs a person", "A-1");
    assertThat(gil.get(asking("rudd")).body()).contains("Marker B-3");
    assertThat(gil.get("/search.json?q=rudd").status()).isEqualTo(200);
    Visitor reader = Visitor.named("Ada Fenn", "ada has long words", desk.port());
    assertThat(reader.get("/").body()).doesNotContain("Whom do you look for?");
    for (String page : List.of("/search?q=wren", "/search.json?q=wren")) {
      assertThat(desk.stranger().get(page).body()).doesNotContain("WREN");
    }
  }

  @Test
  void aMarkerThatWasMergedIsFoundOnceUnderTheNumberThatStays() throws Exception {
    stone("B-4", "AMOS RUDD | died 1863");
    rakelight.marker.MarkerStore markers = new rakelight.marker.MarkerStore(desk.archive());
    assertThat(found("rudd")).contains("Marker B-3", "Marker B-4");
    new Regrouping(desk.archive())
        .merge(
            markers.named("B-4"),
            markers.named("B-3"),
            false,
            new NamedReader("Ada Fenn", Role.ARCHIVIST));
    assertThat(found("rudd")).contains("Marker B-3").doesNotContain("Marker B-4");
  }
}
