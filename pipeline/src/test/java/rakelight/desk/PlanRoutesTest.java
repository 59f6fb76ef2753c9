package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.ground.MarkerPosition;
import rakelight.ground.PositionStore;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.LeidenException;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;
import rakelight.work.QuickReaders;
import rakelight.work.ReaderStore;
import rakelight.work.Role;

/** The plan, families and links without a browser: who is told what, and what is refused. */
class PlanRoutesTest {
  @TempDir Path folder;
  private OpenDesk desk;
  private Marker stone;
  private Marker footstone;

  @BeforeEach
  void open() {
    desk = new OpenDesk(folder.resolve("archive"));
    read("15", "WILLIAM HARROW | died 3 May 1850 aged 70 years | ANN his wife | died 1855");
    read("21", "W. H.");
    stone = new MarkerStore(desk.archive()).named("15");
    footstone = new MarkerStore(desk.archive()).named("21");
    new PositionStore(desk.archive())
        .note(
            new MarkerPosition(
                stone.id(),
                54.1,
                -3.2,
                0.2,
                MarkerPosition.Basis.GPS,
                "",
                Optional.empty(),
                Optional.empty()),
            "Ada Fenn");
    ReaderStore readers = QuickReaders.of(desk.archive());
    readers.admit("Ada Fenn", Role.ARCHIVIST, "ada has long words".toCharArray(), "Ada Fenn");
    readers.admit("Gil Moss", Role.GUEST, "gil has long words".toCharArray(), "Ada Fenn");
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private void read(String marker, String text) {
    try {
      desk.readings()
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

  private Visitor ada() {
    return Visitor.named("Ada Fenn", "ada has long words", desk.port());
  }

  private Visitor gil() {
    return Visitor.named("Gil Moss", "gil has long words", desk.port());
  }

  private String place(Marker marker) {
    return "/api/markers/" + marker.id() + "/place";
  }

  @Test
  void aGuestIsToldWhereMarkersStandAndNothingThatAMachineTakesThemToBe() {
    JsonNode plan = gil().get("/api/plan").json();
    assertThat(plan.path("markers")).hasSize(1);
    assertThat(gil().get("/api/plan/families").status()).isEqualTo(403);
    assertThat(plan.path("unplaced")).isEmpty();
    assertThat(gil().get("/plan").body()).doesNotContain("Harrow").contains(">15</a>");
    assertThat(ada().get("/api/plan/families").json().path("families")).hasSize(1);
    assertThat(gil().get("/markers/" + stone.id() + "/family").body())
        .contains("Named on marker 15")
        .doesNotContain("The family Harrow");
    assertThat(gil().get("/links/" + footstone.id()).status()).isEqualTo(403);
  }

  @Test
  void whatIsDrawnIsSignedAndStandsUnlessBetterEvidenceDoes() {
    String rough = "{\"east\":3,\"north\":0.5,\"errorMetres\":2,\"row\":\"H\"}";
    Visitor ada = ada();
    String kept = ada.post(place(stone), rough).json().path("decision").asText();
    assertThat(ada.get("/plan?did=" + kept).body()).contains("Better evidence stands before it");
    assertThat(ada.post(place(footstone), rough).status()).isEqualTo(200);
    MarkerPosition drawn = new PositionStore(desk.archive()).evidence(footstone.id()).get(0);
    assertThat(drawn.basis()).isEqualTo(MarkerPosition.Basis.PLAN);
    assertThat(drawn.words()).isEqualTo("drawn on the plan, in line with row H");
    assertThat(drawn.reader()).contains("Ada Fenn");
    assertThat(ada.get("/api/plan").json().path("markers").get(1).get(2).asDouble()).isEqualTo(3);
  }

  @Test
  void whatIsNoPlaceIsRefused() {
    for (String wrong :
        List.of(
            "{}",
            "not JSON",
            "{\"east\":\"3\",\"north\":0,\"errorMetres\":1}",
            "{\"east\":1e9,\"north\":0,\"errorMetres\":1}",
            "{\"east\":3,\"north\":0,\"errorMetres\":0}")) {
      assertThat(ada().post(place(stone), wrong).status()).as(wrong).isEqualTo(400);
    }
    assertThat(ada().get("/links/" + stone.id()).status()).isEqualTo(404);
    assertThat(ada().get("/plan?did=no-decision").status()).isEqualTo(200);
  }

  @Test
  void somethingElseThanWasShownIsNotConfirmed() {
    Visitor.Answer answer =
        ada().form("/links/" + footstone.id(), Map.of("do", "confirm", "mention", "15:front:2"));
    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.body()).contains("Something else is proposed by now");
  }

  @Test
  void aMarkerCanBeOfNoFamilyWithItself() {
    Visitor.Answer answer =
        ada().form("/markers/" + stone.id() + "/family", Map.of("do", "join", "other", "15"));
    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.body()).contains("Marker 15 is one marker; give two.");
  }
}
