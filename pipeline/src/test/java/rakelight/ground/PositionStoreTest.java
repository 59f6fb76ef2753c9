package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.Ground;
import rakelight.archive.MarkerId;
import rakelight.ground.PositionStore.ByTape;
import rakelight.ground.PositionStore.TapeWords;
import rakelight.marker.MarkerStore;
import rakelight.photo.PhotoStore;

class PositionStoreTest {
  @TempDir Path folder;
  private Archive archive;
  private PositionStore store;
  private MarkerId four;

  @BeforeEach
  void makeAnArchive() {
    archive =
        Archive.init(
            folder.resolve("archive"),
            new Ground("Thornbeck", 54.1, -3.2, ZoneId.of("Europe/London")),
            List.of(MarkerStore.projection(), PhotoStore.projection(), PositionStore.projection()));
    store = new PositionStore(archive);
    for (String number : List.of("4", "5", "6")) {
      new MarkerStore(archive).create(number, "Ada");
    }
    four = marker("4");
  }

  @AfterEach
  void theStateIsWhatAReplayGives() {
    var standing = store.all();
    archive.journal().rebuild();
    assertThat(store.all()).isEqualTo(standing);
    archive.close();
  }

  private MarkerId marker(String number) {
    return new MarkerStore(archive).named(number).id();
  }

  private DecisionId gps(MarkerId marker, double latitude, double error) {
    return store.note(
        new MarkerPosition(
            marker,
            latitude,
            -3.2,
            error,
            MarkerPosition.Basis.GPS,
            "",
            Optional.empty(),
            Optional.empty()),
        "Ada");
  }

  @Test
  void theBetterEvidenceIsTakenTheOtherIsKeptAndUndoBringsItBack() {
    gps(four, 54.1001, 3);
    store.note(new DatumPoint("gate", 54.1, -3.1998, 0.05), "Ada");
    ByTape tape =
        store.byTape(
            four,
            List.of(TapeWords.of("datum=11.5"), TapeWords.of("gate=17.2")),
            Optional.of(true),
            "");
    DecisionId taped = store.note(tape, "Ada");
    assertThat(store.evidence(four))
        .extracting(MarkerPosition::basis)
        .containsExactly(MarkerPosition.Basis.TAPE, MarkerPosition.Basis.GPS);
    archive.journal().undo(taped, "Ada");
    assertThat(best(four).basis()).isEqualTo(MarkerPosition.Basis.GPS);
  }

  @Test
  void twoTapesAloneAreRefusedWithBothPlacesNamed() {
    store.note(new DatumPoint("gate", 54.1, -3.1998, 0.05), "Ada");
    List<TapeWords> tapes = List.of(TapeWords.of("datum=11.5"), TapeWords.of("gate=17.2"));
    assertThatThrownBy(() -> store.byTape(four, tapes, Optional.empty(), ""))
        .isInstanceOf(ArchiveException.class)
        .hasMessageContaining("left of the line from datum to gate")
        .hasMessageContaining("right of the line from datum to gate");
    gps(four, 54.0999, 3);
    assertThat(store.byTape(four, tapes, Optional.empty(), "").position().latitudeDegrees())
        .as("what is known already decides")
        .isLessThan(54.1);
  }

  @Test
  void aTapeMayBeHeldToAnotherMarkerAndToNothingUnknown() {
    gps(marker("5"), 54.1002, 0.5);
    ByTape tape =
        store.byTape(
            four, List.of(TapeWords.of("datum=10"), TapeWords.of("5=13")), Optional.of(true), "");
    assertThat(tape.tapes()).hasSize(2);
    assertThat(tape.mirrored()).isPresent();
    assertThatThrownBy(
            () -> store.byTape(four, List.of(TapeWords.of("oak=3")), Optional.empty(), ""))
        .hasMessageContaining("oak");
  }

  private MarkerPosition best(MarkerId marker) {
    return store.evidence(marker).get(0);
  }

  @Test
  void aMarkerOfARowStandsBetweenItsNeighbours() {
    gps(four, 54.1, 0.1);
    gps(marker("6"), 54.1002, 0.1);
    store.note(four, new RowPlace("3", 1), "Ada");
    store.note(marker("5"), new RowPlace("3", 2), "Ada");
    store.note(marker("6"), new RowPlace("3", 3), "Ada");
    MarkerPosition between = best(marker("5"));
    assertThat(between.basis()).isEqualTo(MarkerPosition.Basis.ROW);
    assertThat(between.latitudeDegrees()).isCloseTo(54.1001, within(1e-9));
    assertThat(between.words()).isEqualTo("place 2 of row 3, by 2 others of it");
  }

  @Test
  void anotherNoteOfTheSameSortTakesThePlaceOfTheFirst() {
    gps(four, 54.1001, 1);
    gps(four, 54.1002, 2);
    assertThat(best(four).latitudeDegrees()).isEqualTo(54.1002);
  }

  @Test
  void aPlotHoldsWhatLiesInIt() {
    store.note(
        new Plot(
            "north",
            List.of(
                List.of(-3.2001, 54.1),
                List.of(-3.1999, 54.1),
                List.of(-3.1999, 54.1002),
                List.of(-3.2001, 54.1),
                List.of(-3.2001, 54.1))),
        "Ada");
    Plot plot = store.plots().get(0);
    assertThat(plot.holds(54.10005, -3.1999)).isTrue();
    assertThat(plot.holds(54.0999, -3.2)).isFalse();
    assertThatThrownBy(
            () ->
                new Plot("open", List.of(List.of(0.0, 0.0), List.of(1.0, 0.0), List.of(1.0, 1.0))))
        .hasMessageContaining("closed ring");
  }
}
