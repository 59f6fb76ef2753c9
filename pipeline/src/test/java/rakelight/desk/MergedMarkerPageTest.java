package rakelight.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.marker.Marker;
import rakelight.marker.MarkerStore;
import rakelight.work.NamedReader;
import rakelight.work.Regrouping;
import rakelight.work.Role;

/** A marker that turned out to be another one. */
class MergedMarkerPageTest {
  @TempDir Path folder;

  @Test
  void itsPageLeadsToTheMarkerThatStays() throws Exception {
    try (OpenDesk desk = new OpenDesk(folder.resolve("archive"))) {
      desk.face("21");
      desk.face("22");
      MarkerStore markers = new MarkerStore(desk.archive());
      Marker gone = markers.named("22");
      Marker stays = markers.named("21");
      new Regrouping(desk.archive())
          .merge(gone, stays, false, new NamedReader("Ada Fenn", Role.ARCHIVIST));
      markers.renumber(stays.id(), "20", "Ada Fenn");
      Visitor ada = desk.visitor("Ada Fenn");
      Visitor.Answer old = ada.get("/markers/" + gone.id());
      assertThat(old.status()).isEqualTo(302);
      assertThat(old.whole().headers().firstValue("Location").orElse(""))
          .endsWith("/markers/" + stays.id());
      assertThat(ada.get("/markers/" + stays.id()).body()).contains("Marker 20").contains("22");
      // What was decided about it before stands in the history of the one that stays.
      assertThat(ada.get("/markers/" + stays.id()).body())
          .contains("made the marker, marker 22 as it was")
          .contains("made it part of this one, marker 22 as it was")
          .contains("numbered it 20");
    }
  }
}
