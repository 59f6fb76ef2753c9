package rakelight.ground;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import rakelight.archive.MarkerId;
import rakelight.marker.Marker;

class WalkTest {
  private static final GroundPlane PLANE = new GroundPlane(54, -3);
  private final Map<MarkerId, MarkerPosition> best = new LinkedHashMap<>();
  private final List<Marker> markers = new ArrayList<>();

  private void stands(String number, double east, double north) {
    Marker marker = new Marker(MarkerId.next(), number, List.of());
    markers.add(marker);
    Spot spot = new Spot(east, north);
    best.put(
        marker.id(),
        new MarkerPosition(
            marker.id(),
            PLANE.latitude(spot),
            PLANE.longitude(spot),
            0.5,
            MarkerPosition.Basis.TAPE,
            "by tape",
            Optional.empty(),
            Optional.empty()));
  }

  @Test
  void aWalkGoesAlongTheRowAndThoseNobodyCanPlaceComeLast() {
    stands("1", 0, 0);
    stands("2", 30, 0);
    stands("3", 10, 0);
    stands("4", 20, 0);
    markers.add(1, new Marker(MarkerId.next(), "12", List.of()));
    markers.add(1, new Marker(MarkerId.next(), "9", List.of()));
    Walk walk = Walk.of(markers, best, PLANE, false);
    assertThat(walk.stops())
        .extracting(stop -> stop.marker().number())
        .containsExactly("1", "3", "4", "2", "9", "12");
    assertThat(walk.metres()).isCloseTo(30, within(0.01));
    assertThat(walk.unplaced()).isEqualTo(2);
    assertThat(Walk.of(markers, best, PLANE, true).metres()).isCloseTo(60, within(0.01));
    assertThat(walk.minutes(5)).isCloseTo(30 + 30 / 40.0, within(0.01));
  }
}
