package rakelight.marker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.Ground;
import rakelight.archive.MarkerId;
import rakelight.archive.UndoRefusedException;

class MarkerStoreTest {
  @TempDir Path folder;
  private Archive archive;
  private MarkerStore store;

  @BeforeEach
  void makeAnArchive() {
    Ground ground = new Ground("Fennick Lane", 54.5, -3.25, ZoneId.of("Europe/London"));
    archive = Archive.init(folder.resolve("a"), ground, List.of(MarkerStore.projection()));
    store = new MarkerStore(archive);
  }

  @AfterEach
  void theStateIsWhatAReplayGives() {
    List<Marker> markers = store.markers();
    archive.journal().rebuild();
    assertThat(store.markers()).isEqualTo(markers);
    archive.close();
  }

  @Test
  void aRenumberedMarkerIsStillFoundByItsEarlierNumbers() {
    Marker marker = store.create("17", "Ada");
    store.renumber(marker.id(), "A-4", "Ada");
    store.renumber(marker.id(), "A-5", "Ada");

    assertThat(store.byNumber("17")).contains(new Marker(marker.id(), "A-5", List.of("17", "A-4")));
    assertThat(store.named("A-5").id()).isEqualTo(marker.id());
    assertThat(store.numberOf(marker.id())).isEqualTo("A-5");
  }

  @Test
  void theMarkerThatHasANumberNowGoesBeforeOneThatHadItEarlier() {
    Marker first = store.create("17", "Ada");
    store.renumber(first.id(), "A-4", "Ada");
    Marker second = store.create("17", "Ada");

    assertThat(store.named("17").id()).isEqualTo(second.id());
  }

  @Test
  void aNumberThatTwoMarkersHadEarlierNamesNeither() {
    for (String later : List.of("A", "B")) {
      store.renumber(store.create("17", "Ada").id(), later, "Ada");
    }
    assertThat(store.byNumber("17")).isEmpty();
    assertThatThrownBy(() -> store.named("17")).hasMessageContaining("There is no marker 17 here");
  }

  @Test
  void twoMarkersDontHaveOneNumber() {
    Marker marker = store.create("17", "Ada");
    store.create("18", "Ada");

    assertThatThrownBy(() -> store.create(" 18 ", "Ada"))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("There is a marker 18 already");
    assertThatThrownBy(() -> store.renumber(marker.id(), "18", "Ada"))
        .hasMessageContaining("There is a marker 18 already");
    assertThatThrownBy(() -> store.create("  ", "Ada")).hasMessageContaining("needs a number");
  }

  @Test
  void aMarkerIsMadeOnlyWhereNoneHasTheNumberOrHadIt() {
    Marker marker = store.foundOrCreated("17", "Ada");
    store.renumber(marker.id(), "A-4", "Ada");

    assertThat(store.foundOrCreated(" 17 ", "Ada").id()).isEqualTo(marker.id());
    assertThat(store.markers()).hasSize(1);
  }

  @Test
  void markersComeInTheOrderOfTheirFigures() {
    for (String number : List.of("12a", "9", "B-2", "12", "B-10")) {
      store.create(number, "Ada");
    }
    assertThat(store.markers())
        .extracting(Marker::number)
        .containsExactly("9", "12", "12a", "B-2", "B-10");
  }

  @Test
  void aRenumberingIsUndoneAndAMarkerIsntWhileItsRenumberingStands() {
    Marker marker = store.create("17", "Ada");
    store.renumber(marker.id(), "A-4", "Ada");
    Decision renumbered = archive.journal().since(2).get(0);

    assertThatThrownBy(() -> archive.journal().undo(store.madeBy(marker.id()), "Ada"))
        .isInstanceOf(UndoRefusedException.class);
    archive.journal().undo(renumbered.id(), "Ada");
    assertThat(store.markers()).containsExactly(marker);

    archive.journal().undo(store.madeBy(marker.id()), "Ada");
    assertThat(store.markers()).isEmpty();
  }

  @Test
  void nothingIsDecidedAboutAMarkerThatIsntHere() {
    MarkerId nowhere = MarkerId.next();
    assertThatThrownBy(() -> store.renumber(nowhere, "17", "Ada"))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("There is no marker " + nowhere);
    assertThat(store.numberOf(nowhere)).isEqualTo(nowhere.toString());
  }
}
