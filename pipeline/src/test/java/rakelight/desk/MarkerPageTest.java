package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.FaceId;
import rakelight.archive.MarkerId;
import rakelight.inscription.Basis;
import rakelight.inscription.Leiden;
import rakelight.inscription.Reading;
import rakelight.marker.MarkerStore;

class MarkerPageTest {
  @TempDir Path folder;

  /** Readings of other markers are such that looking at one of them would fail. */
  @Test
  void thePageOfOneMarkerLooksAtNoOtherMarkersReadings() throws Exception {
    try (OpenDesk open = new OpenDesk(folder.resolve("archive"))) {
      Basis basis =
          new Basis(Basis.Kind.PHOTOGRAPHS, Optional.empty(), Optional.empty(), Optional.empty());
      for (int i = 1; i <= 5; i++) {
        open.readings()
            .sign(
                FaceId.of(open.face("" + i)),
                Leiden.parse("IN MEMORY OF\nJOHN WREN\ndied 184" + i),
                basis,
                Optional.empty(),
                "Ada Fenn");
      }
      MarkerId marker = new MarkerStore(open.archive()).byNumber("3").orElseThrow().id();
      open.archive()
          .ledger()
          .write(
              handle ->
                  handle.execute(
                      "UPDATE reading SET text = '[' WHERE face_id NOT IN (SELECT id FROM face"
                          + " WHERE marker_id = ?)",
                      marker.toString()));
      Visitor.Answer page = open.visitor("Ada Fenn").get("/markers/" + marker);
      assertThat(page.status()).isEqualTo(200);
      assertThat(page.body()).contains("John Wren").contains("died 1843");
    }
  }

  @Test
  void whatIsWorkedOutIsMarkedAsSuch() throws Exception {
    try (OpenDesk open = new OpenDesk(folder.resolve("archive"))) {
      open.readings()
          .sign(
              FaceId.of(open.face("1")),
              Leiden.parse("JOHN WREN\ndied 3 May 1851\naged 60 years"),
              new Basis(
                  Basis.Kind.PHOTOGRAPHS, Optional.empty(), Optional.empty(), Optional.empty()),
              Optional.empty(),
              "Ada Fenn");
      MarkerId marker = new MarkerStore(open.archive()).byNumber("1").orElseThrow().id();
      assertThat(open.visitor("Ada Fenn").get("/markers/" + marker).body())
          .contains(
              "birth: between 1790-05-04 and 1791-05-03 (worked out, not carved: reckoned from"
                  + " death and age)")
          .contains("born between 1790-05-04 and 1791-05-03 (worked out, not carved)");
    }
  }

  @Test
  void whatWasSaidOfAReadingThatStandsNoMoreIsRefusedAndWhatNoLongerFitsIsShown() throws Exception {
    try (OpenDesk open = new OpenDesk(folder.resolve("archive"))) {
      FaceId face = FaceId.of(open.face("1"));
      Reading first = sign(open, face, "JOHN WREN\ndied 3 May 1851\nzebra quorn");
      MarkerId marker = new MarkerStore(open.archive()).byNumber("1").orElseThrow().id();
      Visitor ada = open.visitor("Ada Fenn");
      String words = "/markers/" + marker + "/words";
      Map<String, String> name =
          Map.of(
              "face", face.toString(),
              "reading", first.id().toString(),
              "first", "6",
              "last", "7",
              "what", "name",
              "surname", "1");
      ada.form(words, name);
      String page = "/markers/" + marker;
      assertThat(ada.get(page).body())
          .contains("name: Zebra Quorn")
          .contains("Ada Fenn said: “zebra quorn” is the name Zebra Quorn.")
          .contains("said how words are taken");
      sign(open, face, "JOHN WREN\ndied 3 May 1851\nzebra quern");
      assertThat(ada.get(page).body())
          .doesNotContain("name: Zebra")
          .contains("These letters are read otherwise now, so it is no longer used.");
      Visitor.Answer late = ada.form(words, name);
      assertThat(late.status()).isEqualTo(409);
      assertThat(late.body()).contains("Look at it, then sign again");
      for (Map<String, String> wrong :
          List.of(
              Map.of("face", "none"),
              Map.of("face", face.toString(), "reading", "none"),
              Map.of("face", face.toString(), "reading", first.id().toString(), "first", "x"))) {
        assertThat(ada.form(words, wrong).status()).isEqualTo(400);
        assertThat(ada.form("/markers/" + marker + "/told", wrong).status()).isEqualTo(400);
      }
    }
  }

  private static Reading sign(OpenDesk open, FaceId face, String text) throws Exception {
    return open.readings()
        .sign(face, Leiden.parse(text), Basis.FROM_PHOTOGRAPHS, Optional.empty(), "Ada Fenn");
  }
}
