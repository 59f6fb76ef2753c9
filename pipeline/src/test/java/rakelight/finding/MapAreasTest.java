package rakelight.finding;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/** Maps of 40 x 30 cells of four pixels, with areas painted in. */
class MapAreasTest {
  private final float[] values = new float[LineMaps.MAPS * 40 * 30];

  private void paint(int map, int left, int top, int right, int bottom) {
    for (int y = top; y < bottom; y++) {
      for (int x = left; x < right; x++) {
        values[(map * 30 + y) * 40 + x] = 0.9f;
      }
    }
  }

  @Test
  void otherStonesAreOutlinedTheLargestFirstAndApartFromFaceAndEmblems() {
    paint(LineMaps.FACE, 10, 5, 25, 28);
    paint(LineMaps.EMBLEM, 15, 7, 20, 11);
    paint(LineMaps.OTHER, 2, 20, 6, 26);
    paint(LineMaps.OTHER, 30, 8, 38, 26);

    LineMaps maps = new LineMaps(40, 30, values);

    List<Polygon> stones = MapAreas.otherStones(maps);
    assertThat(stones).hasSize(2);
    assertThat(stones.get(0).contains(new Point(34 * 4, 17 * 4))).isTrue();
    assertThat(stones.get(1).contains(new Point(4 * 4, 23 * 4))).isTrue();
    assertThat(MapAreas.emblems(maps))
        .singleElement()
        .satisfies(e -> assertThat(e.contains(new Point(17 * 4, 9 * 4))).isTrue());
  }

  @Test
  void aSpeckIsNoStone() {
    paint(LineMaps.OTHER, 5, 5, 7, 7);

    assertThat(MapAreas.otherStones(new LineMaps(40, 30, values))).isEmpty();
  }
}
