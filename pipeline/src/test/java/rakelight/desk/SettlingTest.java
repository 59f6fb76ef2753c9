package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;

/** A third reader has both readings before him, letter over letter, and takes either's sign. */
class SettlingTest {
  @TempDir Path folder;
  private OpenDesk desk;
  private String face;
  private Visitor eve;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    desk.readings().require(2, "Ada Fenn");
    face = desk.face("12", "HESTER WREN");
    eve = desk.visitor("Eve Marsh");
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private void signed(String first, String second) throws Exception {
    for (String reader : List.of("Ada Fenn", "Col Reeve")) {
      desk.readings()
          .sign(
              FaceId.of(face),
              Leiden.parse(reader.equals("Ada Fenn") ? first : second),
              Basis.FROM_PHOTOGRAPHS,
              Optional.empty(),
              List.of(),
              reader);
    }
  }

  /** What differs, as the interface says it, in reading order. */
  private List<JsonNode> differing() {
    List<JsonNode> differing = new ArrayList<>();
    for (JsonNode line : eve.open(face).path("settling").path("lines")) {
      for (JsonNode pair : line.path("pairs")) {
        if (!pair.path("differs").asText().isEmpty()) {
          differing.add(pair);
        }
      }
    }
    return differing;
  }

  private JsonNode differs() {
    assertThat(differing()).hasSize(1);
    return differing().get(0);
  }

  private JsonNode choose(JsonNode pair, String of) {
    ObjectNode ask = Json.mapper().createObjectNode().put("do", "choose").put("of", of);
    return eve.decide(
        face,
        Json.text(ask.put("line", pair.path("line").asInt()).put("at", pair.path("at").asInt())));
  }

  /** The same by the pair's number, which holds also where the draft has nothing of it. */
  private JsonNode choosePair(JsonNode pair, String of) {
    ObjectNode ask = Json.mapper().createObjectNode().put("do", "choose").put("of", of);
    return eve.decide(face, Json.text(ask.put("line", 1).put("pair", pair.path("pair").asInt())));
  }

  private String settled() {
    eve.change(face, "sign", "{\"basis\":{\"kind\":\"photographs\"}}");
    return Leiden.print(
        desk.readings().current(FaceId.of(face)).map(Reading::inscription).orElseThrow());
  }

  @Test
  void bothReadingsStandLetterOverLetter() throws Exception {
    signed("HESTER WREN\ndied 1834", "HESTER WREN\ndied 1884");
    JsonNode lines = eve.open(face).path("settling").path("lines");
    assertThat(lines).hasSize(2);
    assertThat(lines.get(0).path("pairs")).hasSize(10);
    JsonNode w = lines.get(0).path("pairs").get(6);
    assertThat(w.path("first")).isEqualTo(w.path("second"));
    assertThat(w.path("first").path("spaceBefore").asBoolean()).isTrue();
    assertThat(lines.get(0).path("pairs").get(0).path("first").path("spaceBefore").asBoolean())
        .isFalse();
    JsonNode pair = differs();
    assertThat(Json.text(pair))
        .isEqualTo(
            "{\"pair\":17,\"line\":2,\"at\":7,"
                + "\"first\":{\"text\":\"3\",\"standing\":\"clear\",\"raised\":false,"
                + "\"spaceBefore\":false},"
                + "\"second\":{\"text\":\"8\",\"standing\":\"clear\",\"raised\":false,"
                + "\"spaceBefore\":false},\"differs\":\"letter\"}");
    assertThat(choose(pair, "second").path("undecided").asInt()).isZero();
    assertThat(settled()).endsWith("died 1884");
  }

  @Test
  void lostIllegibleAndBlankAreChosenAsTheyStand() throws Exception {
    signed("HESTER W[.]E+ 18(vac. 1)4", "HESTER WREN 1834");
    assertThat(eve.open(face).path("doubts")).hasSize(3);
    List<JsonNode> differing = differing();
    assertThat(differing)
        .extracting(pair -> pair.path("first").path("standing").asText())
        .containsExactly("lost", "illegible", "blank");
    assertThat(differing).allMatch(pair -> !pair.path("first").has("text"));
    for (JsonNode pair : differing) {
      choose(pair, "first");
    }
    assertThat(settled()).isEqualTo("HESTER W[.]E+ 18(vac. 1)4");
  }

  @Test
  void aGapOfUnknownWidthIsChosenToo() throws Exception {
    signed("HESTER [- - -]", "HESTER W");
    choose(differs(), "first");
    assertThat(settled()).isEqualTo("HESTER [- - -]");
  }

  @Test
  void nothingIsChosenWhereOneReadingHasALetterTooMuch() throws Exception {
    signed("HESTERS WREN", "HESTER WREN");
    JsonNode pair = differs();
    assertThat(pair.path("differs").asText()).isEqualTo("missing");
    assertThat(pair.has("second")).isFalse();
    choose(pair, "second");
    // The choice can be thought over, although the draft has nothing there now.
    JsonNode gone = differs();
    assertThat(gone.has("at")).isFalse();
    assertThat(gone.path("pair")).isEqualTo(pair.path("pair"));
    choosePair(gone, "first");
    assertThat(eve.open(face).path("lines").get(0).path("text").asText()).isEqualTo("HESTERS WREN");
    choosePair(gone, "second");
    assertThat(settled()).isEqualTo("HESTER WREN");
  }

  @Test
  void aLetterThatOnlyTheSecondHasIsChosen() throws Exception {
    signed("HESTER WREN", "HESTER WRENN");
    JsonNode pair = differs();
    assertThat(pair.path("differs").asText()).isEqualTo("missing");
    assertThat(eve.open(face).path("doubts")).hasSize(1);
    choose(pair, "second");
    assertThat(settled()).isEqualTo("HESTER WRENN");
  }

  @Test
  void aWordSpaceIsADifferenceThatIsSeenAndChosen() throws Exception {
    signed("HESTER WREN", "HESTERWREN");
    JsonNode pair = differs();
    assertThat(pair.path("differs").asText()).isEqualTo("space");
    assertThat(pair.path("first").path("spaceBefore").asBoolean()).isTrue();
    assertThat(pair.path("second").path("spaceBefore").asBoolean()).isFalse();
    JsonNode open = eve.open(face);
    assertThat(open.path("undecided").asInt()).isEqualTo(1);
    assertThat(open.path("doubts")).hasSize(1);
    choose(pair, "second");
    assertThat(settled()).isEqualTo("HESTERWREN");
  }

  @Test
  void aWordThatGoesOnOverALinesEndIsChosenToo() throws Exception {
    signed("HESTER\nWREN", "HESTER\n|WREN");
    JsonNode pair = differs();
    assertThat(pair.path("differs").asText()).isEqualTo("space");
    assertThat(pair.path("line").asInt()).isEqualTo(2);
    choose(pair, "second");
    assertThat(settled()).isEqualTo("HESTER|WREN");
  }

  @Test
  void aRaisedLetterIsTakenAsARaisedOne() throws Exception {
    signed("HESTER WREN", "HESTER W^KEN");
    JsonNode pair = differs();
    assertThat(pair.path("second").path("raised").asBoolean()).isTrue();
    choose(pair, "second");
    assertThat(settled()).isEqualTo("HESTER W^KEN");
  }

  @Test
  void whereBothSayTheSameTheMoreDoubtfulOfThemIsInTheDraft() throws Exception {
    signed("HESTER WREN 1834", "HESTER WR\u0323EN 1884");
    List<JsonNode> differing = differing();
    assertThat(differing)
        .extracting(pair -> pair.path("differs").asText())
        .containsExactly("standing", "letter");
    JsonNode open = eve.open(face);
    assertThat(open.path("undecided").asInt()).isEqualTo(1);
    assertThat(open.path("lines").get(0).path("letters").get(7).path("standing").asText())
        .isEqualTo("unclear");
    choose(differing.get(0), "first");
    choose(differing.get(1), "first");
    assertThat(settled()).isEqualTo("HESTER WREN 1834");
  }

  @Test
  void aDifferenceWithinAnAbbreviationOpensToo() throws Exception {
    signed("HESTER 18(blank 1 letter)4", "HESTER 1834");
    assertThat(eve.open(face).path("task").asText()).isEqualTo("settle");
    assertThat(eve.open(face).path("undecided").asInt()).isPositive();
  }

  @Test
  void whoeverSettlesMaySayWhatNeitherSaid() throws Exception {
    signed("HESTER W[.]EN", "HESTER WREN");
    eve.decide(
        face, "{\"do\":\"letter\",\"line\":1,\"at\":8,\"standing\":\"clear\",\"text\":\"K\"}");
    JsonNode pair = differs();
    assertThat(pair.path("at").asInt()).isEqualTo(8);
    assertThat(settled()).isEqualTo("HESTER WKEN");
  }

  @Test
  void onlyWhoeverSettlesChooses() throws Exception {
    signed("HESTER WREN", "HESTER WKEN");
    Visitor ada = desk.visitor("Ada Fenn");
    ada.post("/api/faces/" + face + "/reopen", "{}");
    String version = ada.open(face).path("version").asText();
    Visitor.Answer answer =
        ada.post(
            "/api/faces/" + face + "/decide",
            "{\"version\":\""
                + version
                + "\",\"do\":\"choose\",\"line\":1,\"at\":8,\"of\":\"second\"}");
    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.json().path("message").asText()).startsWith("There are no two readings");
  }

  @Test
  void aChoiceThatIsntThereIsRefused() throws Exception {
    signed("HESTER WREN", "HESTER WKEN");
    String version = eve.open(face).path("version").asText();
    for (String more :
        List.of(
            "\"line\":1,\"at\":99,\"of\":\"first\"",
            "\"line\":1,\"pair\":99,\"of\":\"first\"",
            "\"line\":1,\"at\":8,\"of\":\"third\"",
            "\"line\":1,\"at\":8")) {
      assertThat(
              eve.post(
                      "/api/faces/" + face + "/decide",
                      "{\"version\":\"" + version + "\",\"do\":\"choose\"," + more + "}")
                  .status())
          .as(more)
          .isIn(400, 422);
    }
  }
}
