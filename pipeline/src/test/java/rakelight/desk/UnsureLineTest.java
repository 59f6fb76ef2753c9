package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.Chance;
import rakelight.archive.FaceId;
import rakelight.inscription.Leiden;

/** Where a line may be: a reader takes it as one, puts it away, or passes over it. */
class UnsureLineTest {
  @TempDir Path folder;
  private OpenDesk desk;
  private String face;
  private Visitor ada;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    face = desk.face("12", "HANNAH WREN", "?34 DI(E60F30)D 1848", "?12 ", "AGED 63");
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

  private void sign() {
    ada.acceptTheRest(face);
    ada.change(face, "sign", "{\"basis\":{\"kind\":\"photographs\"}}");
  }

  private String signed() {
    return Leiden.print(desk.readings().current(FaceId.of(face)).orElseThrow().inscription());
  }

  @Test
  void aPlaceSaysHowLikelyItIsWhereItIsAndWhatMayBeReadThere() {
    JsonNode open = ada.open(face);

    assertThat(texts(open)).containsExactly("HANNAH WREN", "AGED 63");
    JsonNode place = open.path("unsure").get(0);
    assertThat(place.path("place").asInt()).isEqualTo(1);
    assertThat(place.path("before").asInt()).isEqualTo(2);
    assertThat(place.path("p").asDouble()).isEqualTo(.34);
    assertThat(place.path("odds").asText()).isEqualTo("one in three");
    assertThat(place.path("text").asText()).isEqualTo("DIẸD 1848");
    assertThat(place.path("onPhotograph")).hasSize(4);
    assertThat(place.path("strips").get(0).path("url").asText()).contains("/strips/3/");
    assertThat(place.path("letters").get(2).path("alternatives").get(1).path("text").asText())
        .isEqualTo("F");
    assertThat(open.path("unsure").get(1).path("text").asText()).isEmpty();
    // Neither asked about nor in the way.
    assertThat(open.path("undecided").asInt()).isEqualTo(16);
    assertThat(open.path("doubts")).isEmpty();
  }

  @Test
  void takenItIsALineWhoseLettersAreConfirmedLikeAnyOther() {
    JsonNode taken = ada.decide(face, "{\"do\":\"take-line\",\"place\":1}");

    assertThat(texts(taken)).containsExactly("HANNAH WREN", "DIẸD 1848", "AGED 63");
    JsonNode line = taken.path("lines").get(1);
    assertThat(line.path("drawnBy").asText()).isEqualTo("Ada Fenn");
    assertThat(line.path("settled").asBoolean()).isFalse();
    assertThat(line.path("letters").get(2).path("place").asText()).isEqualTo("read");
    assertThat(taken.path("doubts").get(0).path("line").asInt()).isEqualTo(2);
    assertThat(taken.path("unsure")).hasSize(1);
    assertThat(taken.path("unsure").get(0).path("strips").get(0).path("url").asText())
        .contains("/strips/4/");

    JsonNode undone = ada.change(face, "undo", "{}");
    assertThat(texts(undone)).containsExactly("HANNAH WREN", "AGED 63");
    assertThat(undone.path("unsure")).hasSize(2);
    assertThat(texts(ada.change(face, "redo", "{}"))).hasSize(3);
    ada.decide(
        face, "{\"do\":\"letter\",\"line\":2,\"at\":3,\"standing\":\"clear\",\"text\":\"E\"}");
    sign();
    assertThat(signed()).isEqualTo("HANNAH WREN | DIED 1848 | AGED 63");
  }

  @Test
  void whereNothingCouldBeReadALineIsTakenToBeTyped() {
    JsonNode taken = ada.decide(face, "{\"do\":\"take-line\",\"place\":2}");

    assertThat(texts(taken)).containsExactly("HANNAH WREN", "(+++)", "AGED 63");
    assertThat(taken.path("unsure").get(0).path("before").asInt()).isEqualTo(2);
  }

  @Test
  void passedOverItLeavesTheReadingAsItIs() {
    sign();

    assertThat(signed()).isEqualTo("HANNAH WREN | AGED 63");
    assertThat(ada.open(face).path("unsure")).isEmpty();
    assertThat(ada.post("/api/faces/" + face + "/reopen", "{}").json().path("unsure")).hasSize(2);
  }

  @Test
  void putAwayItIsNotShownAgainAndNothingElseChanges() {
    JsonNode before = ada.open(face);
    JsonNode away = ada.decide(face, "{\"do\":\"no-line\",\"place\":1}");

    assertThat(texts(away)).isEqualTo(texts(before));
    assertThat(away.path("undecided")).isEqualTo(before.path("undecided"));
    assertThat(away.path("unsure")).hasSize(1);
    assertThat(away.path("unsure").get(0).path("p").asDouble()).isEqualTo(.12);
    assertThat(ada.change(face, "undo", "{}").path("unsure")).hasSize(2);
    ada.change(face, "redo", "{}");
    sign();
    assertThat(ada.post("/api/faces/" + face + "/reopen", "{}").json().path("unsure")).hasSize(1);
  }

  @Test
  void aPlaceThatIsNotThereIsRefused() {
    String version = ada.open(face).path("version").asText();
    for (String place : List.of("0", "3")) {
      Visitor.Answer answer =
          ada.post(
              "/api/faces/" + face + "/decide",
              "{\"version\":\"" + version + "\",\"do\":\"take-line\",\"place\":" + place + "}");
      assertThat(answer.status()).isEqualTo(422);
      assertThat(answer.body()).contains("may be a line");
    }
  }

  @Test
  void whoReadsBlindIsToldOfThePlaceAndNotOfNamesAndDates() {
    desk.readings().require(2, "Ada Fenn");
    JsonNode place = ada.open(face).path("unsure").get(0);

    assertThat(place.path("text").asText()).doesNotContain("1848", "8");
    assertThat(place.path("p").asDouble()).isEqualTo(.34);
    assertThat(place.toString()).doesNotContain("\"alternatives\":[{\"text\":\"1\"");
    String taken = ada.decide(face, "{\"do\":\"take-line\",\"place\":1}").toString();
    assertThat(Chance.leftOut(taken)).doesNotContain("1848");
  }
}
