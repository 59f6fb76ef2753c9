package rakelight.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rakelight.archive.MarkerId;
import rakelight.ground.MarkerPosition;
import rakelight.ground.Plot;
import rakelight.ground.PositionStore;
import rakelight.ground.RowPlace;
import rakelight.index.QueryException;
import rakelight.marker.Condition;
import rakelight.marker.ConditionStore;
import rakelight.marker.Description;
import rakelight.marker.DescriptionStore;
import rakelight.marker.MarkerStore;

/** What is asked of the markers themselves: where they stand, what they are, when made. */
class WhatMarkersAreTest {
  @TempDir Path folder;
  private ReadStones stones;
  private GroundSearch search;
  private PositionStore places;

  @BeforeEach
  void makeAnArchive() {
    stones = new ReadStones(folder.resolve("archive"));
    search = new GroundSearch(stones.archive());
    places = new PositionStore(stones.archive());
    stones.add("61", "HANNAH HARROW\nDIED 1863");
    stones.add("62", "W H");
    stones.add("63", "UNKNOWN");
    stones.add("64", "W H");
  }

  @AfterEach
  void close() {
    search.close();
    stones.close();
  }

  private MarkerId marker(String number) {
    return new MarkerStore(stones.archive()).named(number).id();
  }

  private List<String> markers(String query) throws QueryException {
    search.update(false);
    return search.search(query, 100).answers().stream()
        .filter(found -> found.hit().probability() > .01)
        .map(found -> found.hit().entry().marker())
        .toList();
  }

  private void stands(String marker, double north) {
    places.note(
        new MarkerPosition(
            marker(marker),
            54.1 + north / 111_000,
            -3.2,
            1,
            MarkerPosition.Basis.GPS,
            "",
            Optional.empty(),
            Optional.empty()),
        "Ada");
  }

  @Test
  void aRowIsFoundInPlainWords() throws Exception {
    places.note(marker("63"), new RowPlace("3", 7), "Ada");
    places.note(marker("61"), new RowPlace("7", 3), "Ada");
    assertThat(markers("unknown, row 3")).containsExactly("63");
    assertThat(markers("row 3")).containsExactly("63");
    assertThat(markers("row:7")).containsExactly("61");
  }

  @Test
  void whoStandsWithinADrawnPlotIsFoundByItsName() throws Exception {
    stands("62", 0);
    stands("64", 300);
    assertThat(markers("plot:lower")).isEmpty();
    places.note(
        new Plot(
            "Lower ground",
            List.of(
                List.of(-3.201, 54.0999),
                List.of(-3.199, 54.0999),
                List.of(-3.199, 54.1001),
                List.of(-3.201, 54.1001),
                List.of(-3.201, 54.0999))),
        "Ada");
    assertThat(markers("plot:lower")).containsExactly("62");
  }

  @Test
  void aFootstoneIsFoundByItsInitialsNearAMonumentThatIsOnlyNamed() throws Exception {
    stands("61", 0);
    stands("62", 3);
    stands("64", 300);
    assertThat(markers("footstone W.H. near the Harrow monument")).containsExactly("62");
    stones.add("65", "AMOS HARROW");
    assertThatThrownBy(() -> markers("footstone W.H. near the Harrow monument"))
        .isInstanceOf(QueryException.class)
        .hasMessageContaining("61")
        .hasMessageContaining("65");
  }

  @Test
  void whatIsUnsafeIsFoundBySayingSo() throws Exception {
    new ConditionStore(stones.archive())
        .note(marker("62"), LocalDate.of(2026, 5, 4), List.of(Condition.FALLEN), "", "Ada");
    assertThat(markers("unsafe:any")).containsExactly("62");
    assertThat(markers("unsafe:fallen")).containsExactly("62");
    assertThat(markers("unsafe:leaning")).isEmpty();
  }

  @Test
  void whenAMarkerWasMadeIsApartFromWhatItTellsOf() throws Exception {
    Description none = Description.NONE;
    Description slate =
        new Description(
            none.kind(),
            none.form(),
            Optional.of("slate"),
            none.lettering(),
            none.parts(),
            none.heightCm(),
            none.widthCm(),
            none.thicknessCm(),
            none.origin(),
            none.maker(),
            none.madeAt(),
            none.earlier(),
            none.enclosure(),
            none.remark());
    assertThat(markers("made:1860..1880")).isEmpty();
    new DescriptionStore(stones.archive()).describe(marker("61"), slate, UUID.randomUUID(), "Ada");
    assertThat(markers("made:1860..1880")).containsExactly("61");
    assertThat(markers("made:1700..1750")).isEmpty();
    assertThat(markers("year:1863")).containsExactly("61");
    assertThat(markers("material:any")).containsExactly("61");
  }
}
