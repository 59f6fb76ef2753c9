package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.InetAddress;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.ArchiveException;
import rakelight.archive.FaceId;
import rakelight.archive.Json;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.work.QuickReaders;
import rakelight.work.Role;

class DeskReadingTest {
  private static final String SIGN =
      "{\"version\":\"%s\",\"basis\":{\"kind\":\"stone\",\"date\":\"2026-04-30\",\"light\":\"low"
          + " sun\"}%s}";

  @TempDir Path folder;
  private OpenDesk desk;
  private String face;
  private Visitor ada;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    face = desk.face("12");
    ada = desk.visitor("Ada Fenn");
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private static List<String> texts(JsonNode open) {
    List<String> texts = new ArrayList<>();
    open.path("lines").forEach(line -> texts.add(line.path("text").asText()));
    return texts;
  }

  private Visitor.Answer sign(Visitor visitor, String more) {
    String version = visitor.open(face).path("version").asText();
    return visitor.post("/api/faces/" + face + "/sign", String.format(SIGN, version, more));
  }

  private String signed() {
    return Leiden.print(
        desk.readings().current(FaceId.of(face)).map(Reading::inscription).orElseThrow());
  }

  @Test
  void theMostWorthwhileLetterOfANameOrDateComesFirst() {
    JsonNode open = ada.open(face);
    assertThat(texts(open))
        .containsExactly(
            "IN MEMORY OF", "HANNAH WṚEN", "died 18\u03233\u03234".replace("8\u0323", "8"));
    JsonNode first = open.path("doubts").get(0);
    assertThat(first.path("field").asBoolean()).isTrue();
    assertThat(first.path("line").asInt()).isEqualTo(3);
    assertThat(first.path("at").asInt()).isEqualTo(7);
    JsonNode letter = open.path("lines").get(1).path("letters").get(7);
    assertThat(letter.path("alternatives").get(1).path("text").asText()).isEqualTo("K");
    assertThat(letter.path("onPhotograph").get(0).get(0).asDouble()).isGreaterThan(100);
    assertThat(open.path("signable").asBoolean()).isFalse();
  }

  @Test
  void anEvenDoubtInANameIsAskedBeforeAnEvenDoubtInAVerse() {
    String verse = desk.face("13", "GONE BUT NOT F(O50C50)RGOTTEN", "HANNAH W(R60K40)EN");
    JsonNode doubts = ada.open(verse).path("doubts");
    assertThat(doubts.get(0).path("line").asInt()).isEqualTo(2);
    assertThat(doubts.get(0).path("at").asInt()).isEqualTo(8);
    // By a look of its own at a sure letter of the name nothing is gained, so it isn't asked about.
    assertThat(doubts).hasSize(2);
  }

  @Test
  void queuesGoByAllDoubtByWhatAnswersAreWorthByMarkerAndByPlot() {
    String verse = desk.face("B-2", "GONE BUT N(O50C50)T F(O50C50)RG(O50C50)TTEN");
    String name = desk.face("A-1", "HANNAH W(R60K40)EN");
    String sure = desk.face("B-10", "HANNAH WREN");
    assertThat(next("hardest").path("face").asText()).isEqualTo(verse);
    assertThat(next("hardest").path("why").asText())
        .isEqualTo("3 doubtful letters, 2 of them perhaps in names or dates");
    assertThat(next("marker").path("marker").asText()).isEqualTo("12");
    ada.post("/api/faces/" + face + "/skip", "{}");
    assertThat(next("names").path("face").asText()).isEqualTo(name);
    assertThat(next("names").path("why").asText())
        .isEqualTo("1 doubtful letter, perhaps in a name or a date");
    ada.acceptTheRest(name);
    String sign = "{\"basis\":{\"kind\":\"photographs\"}}";
    ada.change(name, "sign", sign);
    assertThat(next("plot").path("marker").asText()).isEqualTo("B-2");
    ada.post("/api/faces/" + verse + "/skip", "{}");
    assertThat(next("names").path("face").asText()).isEqualTo(sure);
    assertThat(next("names").path("why").asText()).isEqualTo("no doubtful letter");
  }

  private JsonNode next(String by) {
    return ada.get("/api/next?by=" + by).json();
  }

  @Test
  void aFaceOfWhichAMachineReadsNothingComesAfterTheHardestAndIsNamedForOtherLight() {
    String worn = desk.face("14", "(N26M25H25K24)(I26L25T25F24)(C26G25O25Q24)(E26F25L25B24)");
    assertThat(next("marker").path("left").asInt()).isEqualTo(2);
    assertThat(next("hardest").path("face").asText()).isEqualTo(face);
    String visits = ada.get("/queue").body();
    visits = visits.substring(visits.indexOf("Needs a visit in other light"));
    assertThat(visits).contains("a machine could read nothing").contains("/faces/" + worn);
    assertThat(visits).doesNotContain("/faces/" + face);
  }

  @Test
  void picturesOfAPhotographThatIsInTheArchiveNoMoreAreNotFound() {
    JsonNode open = ada.open(face);
    String strip =
        open.path("lines").get(0).path("parts").get(0).path("strips").get(0).path("url").asText();

    assertThat(ada.get(strip).status()).isEqualTo(404);
    assertThat(ada.get(strip.replaceFirst("/strips/.*", "/reliefs/cut")).status()).isEqualTo(404);
  }

  @Test
  void everyLetterSaysWhichPartOfWhichStripShowsIt() {
    ada.decide(
        face, "{\"do\":\"insert\",\"line\":2,\"at\":4,\"standing\":\"clear\",\"text\":\"N\"}");
    ada.decide(face, "{\"do\":\"join-lines\",\"line\":2}");
    ada.decide(face, "{\"do\":\"add-line\",\"line\":3,\"text\":\"AGED 9\"}");
    JsonNode joined = ada.open(face).path("lines").get(1);
    JsonNode parts = joined.path("parts");
    assertThat(parts).hasSize(2);
    assertThat(parts.get(0).path("strips").get(0).path("url").asText()).contains("/strips/2/");
    assertThat(parts.get(1).path("strips").get(0).path("url").asText()).contains("/strips/3/");
    assertThat(parts.get(1).path("to").asDouble()).isEqualTo(1);
    assertThat(joined.path("letters").get(2).path("place").asText()).isEqualTo("read");
    JsonNode put = joined.path("letters").get(3);
    assertThat(put.path("place").asText()).isEqualTo("reckoned");
    assertThat(put.path("part").asInt()).isEqualTo(1);
    assertThat(put.path("from").asDouble()).isBetween(0.1, put.path("to").asDouble());
    assertThat(put.path("onPhotograph")).hasSize(4);
    assertThat(joined.path("letters").get(11).path("part").asInt()).isEqualTo(2);
    JsonNode added = ada.open(face).path("lines").get(2);
    assertThat(added.has("parts")).isFalse();
    assertThat(added.path("letters").get(0).path("place").asText()).isEqualTo("unknown");

    ada.decide(face, "{\"do\":\"split-line\",\"line\":1,\"at\":3}");
    JsonNode open = ada.open(face);
    JsonNode first = open.path("lines").get(0).path("parts").get(0);
    JsonNode second = open.path("lines").get(1).path("parts").get(0);
    assertThat(first.path("to").asDouble()).isLessThanOrEqualTo(second.path("from").asDouble());
    assertThat(first.path("onPhotograph").get(1).get(0).asDouble())
        .isLessThanOrEqualTo(second.path("onPhotograph").get(0).get(0).asDouble());
  }

  @Test
  void aSuperiorIsKeptAsOneAndCanBeLowered() {
    ada.decide(
        face,
        "{\"do\":\"letter\",\"line\":2,\"at\":8,\"standing\":\"clear\",\"text\":\"r\",\"raised\":true}");
    ada.decide(
        face,
        "{\"do\":\"insert\",\"line\":2,\"at\":7,\"standing\":\"unclear\",\"raised\":true,"
            + "\"candidates\":[{\"text\":\"s\"},{\"text\":\"t\"}]}");
    JsonNode line = ada.open(face).path("lines").get(1);
    assertThat(line.path("text").asText()).isEqualTo("HANNAH^(s or t) W^rEN");
    assertThat(line.path("letters").get(8).path("raised").asBoolean()).isTrue();
    assertThat(line.path("letters").get(5).has("raised")).isFalse();

    ada.decide(face, "{\"do\":\"letter\",\"line\":2,\"at\":9,\"standing\":\"unclear\"}");
    assertThat(texts(ada.open(face)).get(1)).isEqualTo("HANNAH^(s or t) W^ṛEN");
    ada.decide(
        face, "{\"do\":\"letter\",\"line\":2,\"at\":9,\"standing\":\"clear\",\"raised\":false}");
    assertThat(texts(ada.open(face)).get(1)).isEqualTo("HANNAH^(s or t) WrEN");
    ada.decide(face, "{\"do\":\"text\",\"line\":2,\"text\":\"y^e M^r WREN\"}");
    assertThat(
            ada.open(face).path("lines").get(1).path("letters").get(1).path("raised").asBoolean())
        .isTrue();
    ada.acceptTheRest(face);
    assertThat(sign(ada, "").status()).isEqualTo(200);
    assertThat(signed()).contains("y^e M^r WREN");
  }

  @Test
  void aLineThatCantBeDrawnIsRefusedAndChangesNothing() {
    String drawn = "{\"version\":\"%s\",\"do\":\"draw-line\",\"line\":4,%s}";
    String version = ada.open(face).path("version").asText();
    for (String spoilt :
        List.of(
            "\"middle\":[[1,2]],\"heightPx\":20",
            "\"middle\":[[1,2],[90,2]]",
            "\"middle\":[[1,2],[90,\"2\"]],\"heightPx\":20",
            "\"middle\":[[1,2],[90,2]],\"heightPx\":0",
            "\"ribbon\":[[1,2],[90,2],[90,20]]",
            "\"ribbon\":[[1,2],[90,2],[90,2],[1,2]]")) {
      assertThat(
              ada.post("/api/faces/" + face + "/decide", String.format(drawn, version, spoilt))
                  .status())
          .as(spoilt)
          .isEqualTo(400);
    }
    Visitor.Answer gone =
        ada.post(
            "/api/faces/" + face + "/decide",
            String.format(drawn, version, "\"ribbon\":[[1,2],[90,2],[90,40],[1,40]]"));
    assertThat(gone.status()).isEqualTo(422);
    assertThat(gone.body()).contains("isn't in the archive any more");
    assertThat(ada.open(face).path("version").asText()).isEqualTo(version);
    assertThat(ada.open(face).path("lines").get(0).path("heightPx").asDouble()).isEqualTo(40);
  }

  @Test
  void everyStandingCanBeDecidedAndTheReadingIsSigned() {
    ada.decide(
        face, "{\"do\":\"letter\",\"line\":2,\"at\":8,\"standing\":\"clear\",\"text\":\"R\"}");
    ada.decide(
        face,
        "{\"do\":\"letter\",\"line\":3,\"at\":7,\"standing\":\"unclear\",\"candidates\":[{\"text\":\"8\"},{\"text\":\"3\"}]}");
    ada.decide(
        face,
        "{\"do\":\"letter\",\"line\":3,\"at\":8,\"standing\":\"lost\",\"letters\":\"unknown\"}");
    ada.decide(face, "{\"do\":\"letter\",\"line\":2,\"at\":1,\"standing\":\"illegible\"}");
    ada.decide(
        face,
        "{\"do\":\"letter\",\"line\":2,\"at\":2,\"standing\":\"supplied\",\"text\":\"A\",\"note\":\"from"
            + " the register\"}");
    ada.decide(
        face,
        "{\"do\":\"letter\",\"line\":2,\"at\":3,\"standing\":\"seen-earlier\",\"note\":\"list of"
            + " 1931\"}");
    ada.decide(
        face, "{\"do\":\"letter\",\"line\":2,\"at\":4,\"standing\":\"clear\",\"erased\":true}");
    JsonNode open =
        ada.decide(
            face,
            "{\"do\":\"insert\",\"line\":3,\"at\":9,\"spaceBefore\":true,\"standing\":\"blank\",\"letters\":4}");
    assertThat(open.path("lines").get(2).path("letters")).hasSize(12);
    assertThat(sign(ada, "").json().path("error").asText()).isEqualTo("refused");
    ada.acceptTheRest(face);
    assertThat(ada.open(face).path("signable").asBoolean()).isTrue();
    JsonNode done = sign(ada, "").json();
    assertThat(done.path("task").asText()).isEqualTo("done");
    assertThat(done.path("state").asText()).isEqualTo("settled");
    assertThat(signed())
        .startsWith("IN MEMORY OF | +")
        .contains("WREN")
        .endsWith("died 18(8 or 3)[- - -] (vac. 4)")
        .contains("from the register")
        .contains("list of 1931");
    Reading reading = desk.readings().current(FaceId.of(face)).orElseThrow();
    assertThat(reading.reader()).isEqualTo("Ada Fenn");
    assertThat(reading.basis().light()).contains("low sun");
    assertThat(reading.proposal()).isPresent();
  }

  @Test
  void linesAndWordsAreSplitJoinedAddedAndTakenOut() {
    ada.decide(face, "{\"do\":\"split-word\",\"line\":2,\"at\":4}");
    ada.decide(face, "{\"do\":\"join-words\",\"line\":2,\"at\":7}");
    assertThat(texts(ada.open(face)).get(1)).isEqualTo("HAN NAHWṚEN");
    ada.decide(face, "{\"do\":\"split-line\",\"line\":2,\"at\":7}");
    assertThat(texts(ada.open(face)).subList(1, 3)).containsExactly("HAN NAH", "|WṚEN");
    ada.decide(face, "{\"do\":\"join-lines\",\"line\":2}");
    ada.decide(face, "{\"do\":\"add-line\",\"line\":1,\"text\":\"HERE RESTS\"}");
    ada.decide(face, "{\"do\":\"add-line\",\"line\":5,\"standing\":\"lost\"}");
    ada.decide(face, "{\"do\":\"remove-line\",\"line\":2}");
    ada.decide(face, "{\"do\":\"remove\",\"line\":2,\"at\":1}");
    ada.decide(face, "{\"do\":\"text\",\"line\":3,\"text\":\"died 1884\"}");
    JsonNode open = ada.decide(face, "{\"do\":\"line\",\"line\":1,\"standing\":\"illegible\"}");
    assertThat(texts(open)).containsExactly("(1 line)", "AN NAHWṚEN", "died 1884", "[- - - - - -]");
    // What stays keeps its place on the stone.
    assertThat(open.path("lines").get(2).path("letters").get(7).path("from").isNumber()).isTrue();
  }

  @Test
  void aTypedWordIsOneChangeAndOneUndoTakesItBack() {
    String fresh = texts(ada.open(face)).get(1);
    JsonNode open =
        ada.decide(
            face,
            "{\"do\":\"type\",\"line\":2,\"at\":8,\"signs\":[{\"text\":\"R\"},{\"text\":\"A\"},"
                + "{\"text\":\"N\"},{\"text\":\"r\",\"raised\":true}]}");
    assertThat(texts(open).get(1)).isEqualTo("HANNAH WRAN^r");
    JsonNode letters = open.path("lines").get(1).path("letters");
    assertThat(letters).hasSize(11);
    for (int at = 8; at <= 11; at++) {
      assertThat(letters.get(at - 1).path("decided").asBoolean()).as("letter " + at).isTrue();
    }
    // A letter typed over another stands where that one stood.
    assertThat(letters.get(8).path("from").isNumber()).isTrue();
    ada.change(face, "undo", "{}");
    assertThat(texts(ada.open(face)).get(1)).isEqualTo(fresh);
  }

  @Test
  void undoAndRedoGoBackAndForthWithoutEnd() {
    String fresh = texts(ada.open(face)).toString();
    ada.decide(
        face, "{\"do\":\"letter\",\"line\":2,\"at\":8,\"standing\":\"clear\",\"text\":\"R\"}");
    ada.decide(face, "{\"do\":\"remove-line\",\"line\":1}");
    ada.decide(face, "{\"do\":\"letter\",\"line\":2,\"at\":7,\"standing\":\"lost\"}");
    String last = texts(ada.open(face)).toString();
    for (int round = 0; round < 2; round++) {
      for (int i = 0; i < 3; i++) {
        ada.change(face, "undo", "{}");
      }
      assertThat(texts(ada.open(face))).hasToString(fresh);
      assertThat(ada.open(face).path("canUndo").asBoolean()).isFalse();
      for (int i = 0; i < 3; i++) {
        assertThat(ada.open(face).path("canRedo").asBoolean()).isTrue();
        ada.change(face, "redo", "{}");
      }
      assertThat(texts(ada.open(face))).hasToString(last);
      assertThat(ada.open(face).path("canRedo").asBoolean()).isFalse();
    }
    ada.change(face, "undo", "{}");
    ada.decide(face, "{\"do\":\"letter\",\"line\":2,\"at\":7,\"standing\":\"illegible\"}");
    assertThat(ada.open(face).path("canRedo").asBoolean()).isFalse();
    String before = texts(ada.open(face)).toString();
    desk.archive().journal().rebuild();
    assertThat(texts(ada.open(face))).hasToString(before);
  }

  @Test
  void noNameOrDateAndNoDoubtfulLetterIsWavedThroughWithItsLine() {
    String version = ada.open(face).path("version").asText();
    String accept = "{\"version\":\"" + version + "\",\"do\":\"accept\",\"line\":%d}";
    String decide = "/api/faces/" + face + "/decide";
    assertThat(ada.post(decide, String.format(accept, 2)).status()).isEqualTo(422);
    assertThat(ada.post(decide, String.format(accept, 1)).status()).isEqualTo(200);
    JsonNode word = ada.decide(face, "{\"do\":\"accept\",\"line\":2,\"from\":1,\"to\":6}");
    assertThat(word.path("lines").get(1).path("letters").get(5).path("decided").asBoolean())
        .isTrue();
  }

  @Test
  void aLineSomebodyHasLookedAtIsTakenWithItsNamesOnceItsDoubtsAreDecided() {
    String name = desk.face("13", "HANNAH W(R60K30)EN", "AND ELI");
    String decide = "/api/faces/" + name + "/decide";
    String version = ada.open(name).path("version").asText();
    Visitor.Answer doubtful =
        ada.post(decide, "{\"version\":\"" + version + "\",\"do\":\"seen-line\",\"line\":1}");
    assertThat(doubtful.status()).isEqualTo(422);
    assertThat(doubtful.json().path("at").asInt()).isEqualTo(8);
    assertThat(doubtful.json().path("message").asText())
        .startsWith("Letter 8, R, is doubtful: it may be K or nothing.");
    ada.decide(
        name, "{\"do\":\"letter\",\"line\":1,\"at\":8,\"standing\":\"clear\",\"text\":\"R\"}");
    JsonNode seen = ada.decide(name, "{\"do\":\"seen-line\",\"line\":1}");
    JsonNode letters = seen.path("lines").get(0).path("letters");
    assertThat(seen.path("lines").get(0).path("settled").asBoolean()).isTrue();
    assertThat(letters.get(0).path("field").asBoolean()).isTrue();
    assertThat(letters.get(0).path("withLine").asBoolean()).isTrue();
    assertThat(letters.get(7).has("withLine")).isFalse();
    // The mark outlives a rebuild, and the marker's page tells of it.
    desk.archive().journal().rebuild();
    assertThat(Json.text(ada.open(name).path("lines").get(0).path("letters")))
        .isEqualTo(Json.text(letters));
    String marker = seen.path("marker").path("id").asText();
    assertThat(ada.get("/markers/" + marker).body())
        .contains("decided letters, front: with the whole line, not letter by letter, in line 1");
    ada.change(name, "undo", "{}");
    assertThat(ada.get("/markers/" + marker).body()).doesNotContain("with the whole line");
  }

  @Test
  void aLetterShownAsSureIsDoubtfulInItsLineWhileAnswersAreWorthAsking() {
    String name = desk.face("13", "HANNAH W(R95K05)EN");
    JsonNode letter = ada.open(name).path("lines").get(0).path("letters").get(7);
    assertThat(letter.path("standing").asText()).isEqualTo("clear");
    assertThat(letter.path("gain").asDouble()).isPositive();
    String version = ada.open(name).path("version").asText();
    Visitor.Answer doubtful =
        ada.post(
            "/api/faces/" + name + "/decide",
            "{\"version\":\"" + version + "\",\"do\":\"seen-line\",\"line\":1}");
    assertThat(doubtful.status()).isEqualTo(422);
    assertThat(doubtful.json().path("at").asInt()).isEqualTo(8);
  }

  @Test
  void twoWindowsOfOneReaderLoseNothing() {
    String version = ada.open(face).path("version").asText();
    ada.decide(face, "{\"do\":\"remove-line\",\"line\":1}");
    Visitor.Answer late =
        ada.post(
            "/api/faces/" + face + "/decide",
            "{\"version\":\"" + version + "\",\"do\":\"remove-line\",\"line\":1}");
    assertThat(late.status()).isEqualTo(409);
    assertThat(late.json().path("error").asText()).isEqualTo("changed");
    assertThat(late.json().path("face").path("lines")).hasSize(2);
    assertThat(late.json().path("message").asText()).contains("another window");
  }

  @Test
  void aFaceIsHeldForTenMinutesAndThenComesFree() {
    ada.open(face);
    Visitor col = desk.visitor("Col Reeve");
    JsonNode seen = col.open(face);
    assertThat(seen.path("takenBy").path("reader").asText()).isEqualTo("Ada Fenn");
    String decide =
        "{\"version\":\"" + seen.path("version").asText() + "\",\"do\":\"remove-line\",\"line\":1}";
    Visitor.Answer refused = col.post("/api/faces/" + face + "/decide", decide);
    assertThat(refused.status()).isEqualTo(409);
    assertThat(refused.json().path("error").asText()).isEqualTo("taken");
    desk.later(Duration.ofMinutes(9));
    ada.post("/api/faces/" + face + "/hold", "{}");
    desk.later(Duration.ofMinutes(9));
    assertThat(col.post("/api/faces/" + face + "/decide", decide).status()).isEqualTo(409);
    desk.later(Duration.ofMinutes(2));
    assertThat(col.post("/api/faces/" + face + "/decide", decide).status()).isEqualTo(200);
    // Ada's work is her own; she loses none of it.
    assertThat(ada.open(face).path("lines")).hasSize(3);
  }

  @Test
  void nobodySignsOverAReadingHeHasNotSeen() {
    ada.acceptTheRest(face);
    desk.later(Duration.ofMinutes(11));
    Visitor col = desk.visitor("Col Reeve");
    col.acceptTheRest(face);
    assertThat(sign(col, "").status()).isEqualTo(200);
    Visitor.Answer late = sign(ada, "");
    assertThat(late.status()).isEqualTo(409);
    assertThat(late.json().path("error").asText()).isEqualTo("superseded");
    String before = late.json().path("face").path("before").path("reading").asText();
    assertThat(sign(ada, ",\"before\":\"" + before + "\"").status()).isEqualTo(200);
    assertThat(desk.readings().versions(FaceId.of(face))).hasSize(2);
  }

  @Test
  void aSignedReadingIsReopenedAndTheOneBeforeIsKept() {
    ada.acceptTheRest(face);
    sign(ada, "");
    JsonNode open = ada.post("/api/faces/" + face + "/reopen", "{}").json();
    assertThat(open.path("task").asText()).isEqualTo("read");
    assertThat(open.path("signable").asBoolean()).isTrue();
    ada.decide(
        face, "{\"do\":\"letter\",\"line\":3,\"at\":7,\"standing\":\"clear\",\"text\":\"8\"}");
    String before = ada.open(face).path("before").path("reading").asText();
    sign(ada, ",\"before\":\"" + before + "\"");
    assertThat(signed()).endsWith("died 1884");
    assertThat(desk.readings().versions(FaceId.of(face))).hasSize(2);
  }

  @Test
  void theQueueSkipsLeavesAndBringsBack() {
    String clear = desk.face("13", "IN MEMORY OF", "ELI");
    assertThat(ada.get("/api/next?by=hardest").json().path("face").asText()).isEqualTo(face);
    assertThat(ada.get("/api/next?by=marker").json().path("left").asInt()).isEqualTo(2);
    ada.post("/api/faces/" + face + "/skip", "{}");
    assertThat(ada.get("/api/next?by=names").json().path("face").asText()).isEqualTo(clear);
    ada.post(
        "/api/faces/" + clear + "/leave",
        "{\"for\":\"other-light\",\"note\":\"moss over the last line\"}");
    assertThat(ada.get("/api/next").json().has("face")).isFalse();
    JsonNode visits = ada.get("/api/other-light").json().path("faces");
    assertThat(visits.get(0).path("note").asText()).isEqualTo("moss over the last line");
    ada.post("/api/faces/" + clear + "/come-back", "{}");
    assertThat(ada.get("/api/next").json().path("face").asText()).isEqualTo(clear);
    ada.post("/api/faces/" + face + "/come-back", "{}");
    ada.post("/api/faces/" + face + "/leave", "{\"for\":\"another-reader\"}");
    assertThat(ada.get("/api/next").json().path("face").asText()).isEqualTo(clear);
    assertThat(desk.visitor("Col Reeve").get("/api/next").json().path("face").asText())
        .isEqualTo(face);
    JsonNode progress = ada.get("/api/ground").json().path("progress");
    assertThat(progress.path("faces").asInt()).isEqualTo(2);
  }

  @Test
  void beyondThisMachineReadersMustBeNamedFirst() throws Exception {
    InetAddress everywhere = InetAddress.getByName("0.0.0.0");
    assertThatThrownBy(() -> Desk.start(desk.archive(), everywhere, 0, Clock.systemUTC()))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("add NAME");
    QuickReaders.of(desk.archive())
        .admit("Ada Fenn", Role.ARCHIVIST, "ten long words here".toCharArray(), "Ada Fenn");
    try (Desk open = Desk.start(desk.archive(), everywhere, 0, Clock.systemUTC())) {
      assertThat(open.port()).isPositive();
    }
  }
}
