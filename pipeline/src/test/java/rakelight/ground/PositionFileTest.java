package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import rakelight.archive.Table;

class PositionFileTest {
  @Test
  void aTableHoldsReceiversTapesAndRows() throws Table.RefusedException {
    PositionFile file =
        PositionFile.table(
            """
            Marker,latitude,longitude,error,tape,side,row,place
            4,54.1,-3.2,2.5,,,,
            5,,,,gate=12.4; datum=7.85,left,3,2
            """,
            "m.csv",
            Optional.empty());
    assertThat(file.entries().get(0).at()).containsExactly(54.1, -3.2, 2.5);
    assertThat(file.entries().get(1).tapes())
        .containsExactly(
            new PositionStore.TapeWords("gate", 12.4), new PositionStore.TapeWords("datum", 7.85));
    assertThat(file.entries().get(1).row()).contains(new RowPlace("3", 2));
    assertThat(file.entries().get(1).left()).contains(true);
  }

  @Test
  void whatCantBeTakenIsNamedByLineAndNothingIsTaken() {
    assertThatThrownBy(
            () ->
                PositionFile.table(
                    "marker,latitude,longitude\n4,54.1,-3.2\n5,north,1\n6,,\n",
                    "m.csv",
                    Optional.empty()))
        .isInstanceOfSatisfying(
            Table.RefusedException.class,
            e ->
                assertThat(e.problems())
                    .hasSize(3)
                    .anySatisfy(p -> assertThat(p).contains("line 2").contains("--error"))
                    .anySatisfy(p -> assertThat(p).contains("line 3").contains("'north'"))
                    .anySatisfy(p -> assertThat(p).contains("line 4").contains("marker 6")));
  }

  @Test
  void geoJsonHoldsMarkersAndPlotsLongitudeFirst() throws Table.RefusedException {
    PositionFile file =
        PositionFile.geoJson(
            """
            {"type":"FeatureCollection","features":[
             {"type":"Feature","properties":{"marker":"4","row":"3","place":2},
              "geometry":{"type":"Point","coordinates":[-3.2,54.1]}},
             {"type":"Feature","properties":{"plot":"north"},
              "geometry":{"type":"Polygon","coordinates":[[[0,0],[1,0],[1,1],[0,0]]]}}]}
            """,
            "m.geojson",
            Optional.of(0.3));
    assertThat(file.entries().get(0).at()).containsExactly(54.1, -3.2, 0.3);
    assertThat(file.entries().get(0).row()).contains(new RowPlace("3", 2));
    assertThat(file.plots()).extracting(Plot::name).isEqualTo(List.of("north"));
  }
}
