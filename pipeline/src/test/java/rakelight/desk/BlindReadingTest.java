package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.Chance;
import rakelight.archive.Decision;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.inscription.Basis;
import rakelight.inscription.FaceReadings;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.search.GroundSearch;

/** Where a ground asks for two readers, neither sees the other before both have signed. */
class BlindReadingTest {
  @TempDir Path folder;
  private OpenDesk desk;
  private String face;
  private Visitor ada;
  private Visitor col;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    desk.readings().require(2, "Ada Fenn");
    face = desk.face("12");
    ada = desk.visitor("Ada Fenn");
    col = desk.visitor("Col Reeve");
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private void say(Visitor visitor, String name, String death) {
    visitor.decide(face, "{\"do\":\"accept\",\"line\":1}");
    visitor.decide(face, "{\"do\":\"text\",\"line\":2,\"text\":\"" + name + "\"}");
    visitor.decide(face, "{\"do\":\"text\",\"line\":3,\"text\":\"" + death + "\"}");
  }

  private JsonNode sign(Visitor visitor) {
    return visitor.change(face, "sign", "{\"basis\":{\"kind\":\"photographs\"}}");
  }

  private FaceReadings readings() {
    return desk.readings().ofFace(FaceId.of(face));
  }

  private String current() {
    return Leiden.print(readings().current().map(Reading::inscription).orElseThrow());
  }

  @Test
  void theMachineSaysNothingOfNamesAndDates() {
    String open = Json.text(ada.open(face));
    JsonNode lines = ada.open(face).path("lines");
    assertThat(lines.get(0).path("text").asText()).isEqualTo("IN MEMORY OF");
    assertThat(lines.get(1).path("text").asText()).isEqualTo("++++++ ++++");
    assertThat(lines.get(2).path("text").asText()).isEqualTo("died ++++");
    assertThat(open).doesNotContain("HANNAH").doesNotContain("\"text\":\"K\"");
    for (JsonNode letter : lines.get(1).path("letters")) {
      assertThat(letter.has("alternatives")).isFalse();
      assertThat(letter.path("from").isNumber()).isTrue();
    }
    // What nobody has read can't be accepted.
    String accept =
        "{\"version\":\""
            + ada.open(face).path("version").asText()
            + "\",\"do\":\"accept\",\"line\":2,\"from\":1,\"to\":6}";
    assertThat(ada.post("/api/faces/" + face + "/decide", accept).status()).isEqualTo(422);
  }

  @Test
  void noLineIsTakenWholeWhereTwoReadBlind() {
    say(ada, "HESTER WREN", "died 1834");
    ada.decide(face, "{\"do\":\"add-line\",\"line\":4,\"text\":\"ELI\"}");
    String seen =
        "{\"version\":\""
            + ada.open(face).path("version").asText()
            + "\",\"do\":\"seen-line\",\"line\":%d}";
    for (int line = 1; line <= 4; line++) {
      Visitor.Answer refused =
          ada.post("/api/faces/" + face + "/decide", String.format(Locale.ROOT, seen, line));
      assertThat(refused.status()).isEqualTo(422);
      assertThat(refused.json().path("message").asText()).startsWith("Two read this stone");
    }
  }

  @Test
  void theFirstReadingIsSeenNowhereUntilTheSecondIsSigned() throws Exception {
    say(ada, "HESTER WREN", "died 1834");
    JsonNode drafted = ada.open(face);
    sign(ada);
    assertThat(ada.open(face).path("mine").path("lines").get(1).asText()).isEqualTo("HESTER WREN");
    String marker = drafted.path("marker").path("id").asText();
    for (String path :
        List.of(
            "/",
            "/faces/" + face,
            "/markers/" + marker,
            "/api/faces/" + face,
            "/api/ground",
            "/api/next",
            "/persons",
            "/plan",
            "/families",
            "/links",
            "/api/plan",
            "/api/plan/families",
            "/statements",
            "/statements?state=proposed",
            "/dates?state=proposed",
            "/pairs",
            "/search.csv?q=hester",
            "/api/other-light")) {
      assertThat(Chance.leftOut(col.get(path).body()))
          .as(path)
          .doesNotContain("HESTER")
          .doesNotContain("1834");
    }
    assertThat(col.open(face).has("before")).isFalse();
    assertThat(desk.readings().current()).isEmpty();
    GroundSearch search = new GroundSearch(desk.archive());
    search.update(false);
    assertThat(search.search("hester", 10).answers()).isEmpty();
    for (Decision decision : desk.archive().journal().since(0)) {
      if (Json.text(decision.payload()).contains("HESTER")) {
        assertThat(desk.readings().isSealed(decision)).as(decision.kind()).isTrue();
      }
    }
    assertThat(col.get("/api/next").json().path("face").asText()).isEqualTo(face);
    assertThat(ada.get("/api/next").json().has("face")).isFalse();

    say(col, "HESTER WREN", "died 1834");
    sign(col);
    assertThat(current()).isEqualTo("IN MEMORY OF | HESTER WREN | died 1834");
    search.update(false);
    assertThat(search.search("hester", 10).answers()).hasSize(1);
    assertThat(desk.archive().journal().since(0).stream().anyMatch(desk.readings()::isSealed))
        .isFalse();
  }

  @Test
  void whereTwoDifferAThirdSeesBothAndSettles() {
    say(ada, "HESTER WREN", "died 1834");
    sign(ada);
    say(col, "HESTER WREN", "died 1884");
    sign(col);
    assertThat(readings().state()).isEqualTo(FaceReadings.State.TO_SETTLE);
    assertThat(readings().current()).isEmpty();
    assertThat(ada.open(face).path("task").asText()).isEqualTo("done");

    Visitor eve = desk.visitor("Eve Marsh");
    assertThat(eve.get("/api/next").json().path("task").asText()).isEqualTo("settle");
    JsonNode open = eve.open(face);
    assertThat(open.path("task").asText()).isEqualTo("settle");
    assertThat(open.path("undecided").asInt()).isEqualTo(1);
    JsonNode difference = open.path("settling").path("lines").get(2).path("pairs").get(6);
    assertThat(difference.path("differs").asText()).isEqualTo("letter");
    assertThat(difference.path("first").path("text").asText()).isEqualTo("3");
    assertThat(difference.path("second").path("text").asText()).isEqualTo("8");
    assertThat(difference.path("line").asInt()).isEqualTo(3);
    assertThat(difference.path("at").asInt()).isEqualTo(7);
    eve.decide(
        face, "{\"do\":\"letter\",\"line\":3,\"at\":7,\"standing\":\"clear\",\"text\":\"8\"}");
    sign(eve);
    assertThat(current()).endsWith("died 1884");
    assertThat(readings().versions()).hasSize(3);
    desk.archive().journal().rebuild();
    assertThat(current()).endsWith("died 1884");

    // One of the two thinks again: the settlement stands until they are settled anew.
    ada.post("/api/faces/" + face + "/reopen", "{}");
    ada.decide(
        face, "{\"do\":\"letter\",\"line\":2,\"at\":2,\"standing\":\"clear\",\"text\":\"A\"}");
    JsonNode again =
        ada.change(
            face,
            "sign",
            Json.text(
                Map.of(
                    "basis",
                    Map.of("kind", "photographs"),
                    "before",
                    ada.open(face).path("before").path("reading").asText())));
    assertThat(again.path("state").asText()).isEqualTo("to-settle");
    assertThat(current()).endsWith("HESTER WREN | died 1884");
  }

  @Test
  void twoReadingsWithANumberOverALinesEndAreSettledToo() throws Exception {
    for (String reader : List.of("Ada Fenn", "Col Reeve")) {
      String last = reader.equals("Ada Fenn") ? "V" : "X";
      desk.readings()
          .sign(
              FaceId.of(face),
              Leiden.parse("HESTER WREN\nAGED #number(XX\n|" + last + "=25)"),
              new Basis(Basis.Kind.STONE, Optional.empty(), Optional.empty(), Optional.empty()),
              Optional.empty(),
              reader);
    }
    Visitor eve = desk.visitor("Eve Marsh");
    JsonNode open = eve.open(face);
    assertThat(open.path("task").asText()).isEqualTo("settle");
    assertThat(open.path("undecided").asInt()).isEqualTo(1);
    eve.post("/api/faces/" + face + "/let-go", "{}");
    Visitor.Answer reopened = ada.post("/api/faces/" + face + "/reopen", "{}");
    assertThat(reopened.status()).isEqualTo(422);
    assertThat(reopened.json().path("message").asText())
        .startsWith("Lines 2 and 3 share one number");
  }

  @Test
  void wordsAndLettersOneOfThemMissedAreSettledToo() {
    say(ada, "HESTER WREN", "died 1834");
    sign(ada);
    say(col, "HESTERWREN", "died Jan 1834");
    sign(col);
    JsonNode open = desk.visitor("Eve Marsh").open(face);
    assertThat(open.path("lines").get(2).path("text").asText()).isEqualTo("died Jan 1834");
    assertThat(open.path("undecided").asInt()).isEqualTo(4);
  }

  @Test
  void aFaceWhoseTextIsKnownMeasuresItsReadersAndIsShownToNobody() throws Exception {
    desk.readings().require(1, "Ada Fenn");
    String known = desk.face("40");
    desk.readings()
        .know(
            FaceId.of(known), Leiden.parse("IN MEMORY OF | HANNAH WREN | died 1834"), "Eve Marsh");
    ada.acceptTheRest(known);
    ada.change(known, "sign", "{\"basis\":{\"kind\":\"photographs\"}}");
    assertThat(desk.readings().current(FaceId.of(known))).isEmpty();
    assertThat(col.open(known).has("before")).isFalse();
    assertThat(col.get("/api/next?by=marker").json().path("left").asInt()).isEqualTo(2);
    assertThat(desk.archive().journal().since(0))
        .filteredOn(decision -> decision.kind().equals("face.known"))
        .allMatch(desk.readings()::isSealed);
  }
}
