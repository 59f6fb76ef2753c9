package rakelight.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.Shape;
import java.awt.geom.Point2D;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PartedStoneTest {
  @TempDir Path folder;

  private static SampleFace parted(long seed) {
    return PartedStone.of(
        StoneMaker.random(seed, Material.MARBLE, Weathering.LIGHT, Typeface.SERIF), seed);
  }

  @Test
  void cellsOfOneRowOfARollStandOnOneBaselineApartFromEachOther() {
    for (long seed : new long[] {2, 3, 6, 7}) {
      List<Layout.Line> lines = new Layout(parted(seed)).lines;
      int beside = 0;
      for (int i = 1; i < lines.size(); i++) {
        Layout.Line cell = lines.get(i);
        if (cell.line().has("beside")) {
          beside++;
          Layout.Line before = lines.get(i - 1);
          assertThat(foot(cell)).as("seed %d", seed).isCloseTo(foot(before), within(0.01));
          assertThat(cell.capMm()).isCloseTo(before.capMm(), within(before.capMm() * 0.05));
          assertThat(left(cell)).isGreaterThan(right(before) + cell.capMm());
        }
      }
      assertThat(beside).isGreaterThan(2);
    }
  }

  @Test
  void whatIsCutBetweenColumnsTouchesNoLetterAndSomeRollsHaveNothing() {
    int without = 0;
    for (long seed = 2; seed < 60; seed += 4) {
      Layout layout = new Layout(parted(seed));
      without += layout.dividers.isEmpty() ? 1 : 0;
      for (Shape divider : layout.dividers) {
        for (Layout.Line line : layout.lines) {
          assertThat(
                  line.signs().stream()
                      .noneMatch(sign -> divider.intersects(sign.path().getBounds2D())))
              .as("seed %d", seed)
              .isTrue();
        }
      }
    }
    assertThat(without).isBetween(1, 14);
  }

  @Test
  void theTruthWritesALongDashAsOneAndAWideGapAsASpace() throws Exception {
    assertThat(PartedStone.written("1865 ⸻⸻ 1889")).isEqualTo("1865 — 1889");
    new StoneSet(2, 4, 300, List.of(Weathering.FRESH), "parted", 1).writeTo(folder);

    List<String> truth = Files.readAllLines(folder.resolve("truth.tsv"));
    assertThat(truth).anyMatch(line -> line.contains("—")).noneMatch(line -> line.contains("  "));
    assertThat(truth).noneMatch(line -> line.matches(".*[⸺⸻].*"));
    assertThat(truth).anyMatch(line -> line.matches(".*\tR5\tE\t2\t1[0-9]{3} 1[0-9]{3}\t.*"));
  }

  private static double foot(Layout.Line line) {
    return line.signs().get(0).capital().get(1).getY();
  }

  private static double left(Layout.Line line) {
    return line.polygon().stream().mapToDouble(Point2D::getX).min().orElseThrow();
  }

  private static double right(Layout.Line line) {
    return line.polygon().stream().mapToDouble(Point2D::getX).max().orElseThrow();
  }
}
