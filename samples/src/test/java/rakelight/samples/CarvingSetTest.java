package rakelight.samples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CarvingSetTest {
  @TempDir Path folder;

  @Test
  void theSameSeedCutsTheSameCarvings() throws IOException {
    CarvingSet set = new CarvingSet(2, 5, 200, List.of(Weathering.HEAVY), 1, "own");
    set.writeTo(folder.resolve("a"));
    set.writeTo(folder.resolve("b"));
    assertEquals(
        Files.readString(folder.resolve("a/carvings.tsv")),
        Files.readString(folder.resolve("b/carvings.tsv")));
    assertEquals(
        -1, Files.mismatch(folder.resolve("a/C001.jpg"), folder.resolve("b/C001.jpg")), "pictures");
  }

  @Test
  void theOutlineLiesOnThePicture() throws IOException {
    new CarvingSet(3, 9, 200, List.of(Weathering.FRESH), 1, "signs").writeTo(folder);
    for (String row : Files.readAllLines(folder.resolve("carvings.tsv")).subList(1, 4)) {
      for (String corner : row.split("\t")[7].split(" ")) {
        for (String number : corner.split(",")) {
          double at = Double.parseDouble(number);
          assertTrue(at >= -20 && at <= 220, row);
        }
      }
    }
  }

  @Test
  void noTwoMotifsAreDrawnAlike() {
    Set<String> drawn =
        Stream.of(Motif.values())
            .map(motif -> motif.drawing().bodies())
            .map(
                bodies ->
                    bodies.stream()
                        .map(body -> body.getBounds2D().toString())
                        .collect(Collectors.joining()))
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(40, drawn.size());
    assertEquals(40, PictureSign.values().length);
  }

  @Test
  void wearTakesReliefAndEachHandCutsItsOwnWay() {
    float deepest = 0;
    for (CarverHand hand : CarverHand.THREE) {
      Carving carving = new Carving(Motif.ANCHOR.drawing(), "anchor", hand, 80, 3);
      float[] fresh = carving.relief(120, 120, 2, Material.MARBLE, Weathering.FRESH).v;
      float[] worn = carving.relief(120, 120, 2, Material.MARBLE, Weathering.HEAVY).v;
      assertTrue(range(worn) < 0.6 * range(fresh), hand.name());
      assertNotEquals(deepest, range(fresh), hand.name());
      deepest = range(fresh);
    }
  }

  private static float range(float[] heights) {
    float[] sorted = heights.clone();
    Arrays.sort(sorted);
    return sorted[sorted.length - 1] - sorted[0];
  }

  @Test
  void furtherYearsTakeMoreOfALineTheLongerTheyLast() {
    SampleFace face = StoneMaker.random(77, Material.MARBLE, Weathering.LIGHT, Typeface.ROMAN);
    double before = 0;
    for (double since : new double[] {0.1, 0.4, 0.8}) {
      double[] taken = Renderer.later(face, since, StoneMaker.view(face, 300, 7), 7).taken();
      double mean = Arrays.stream(taken).average().orElse(0);
      assertTrue(mean > before, since + ": " + mean);
      before = mean;
    }
  }
}
