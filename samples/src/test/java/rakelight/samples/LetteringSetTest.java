package rakelight.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LetteringSetTest {
  @Test
  void eachLetterIsSaidToStandWhereItsCapitalsAreAndByWhom(@TempDir Path folder) throws Exception {
    new LetteringSet(2, 1, 3, 320, List.of(Typeface.ROMAN), List.of(Weathering.FRESH), 1)
        .writeTo(folder);
    Set<String> cutters = new HashSet<>();
    int letters = 0;
    List<String> rows = Files.readAllLines(folder.resolve("letters.tsv"));
    for (String row : rows.subList(1, rows.size())) {
      String[] cells = row.split("\t");
      assertThat(folder.resolve(cells[0])).isRegularFile();
      cutters.add(cells[3]);
      double[] cell = numbers(cells[7]);
      double[] capital = numbers(cells[8]);
      double middle = (cell[0] + cell[2] + cell[4] + cell[6]) / 4;
      double high = capital[3] - capital[1];
      assertThat(high).as(row).isBetween(3.0, 60.0);
      assertThat(middle).as(row).isBetween(0.0, 320.0);
      assertThat((capital[0] + capital[2]) / 2).as(row).isBetween(middle - high, middle + high);
      letters++;
    }
    assertThat(cutters).containsExactlyInAnyOrder("roman-1", "roman-2");
    assertThat(letters).isGreaterThan(40);
  }

  private static double[] numbers(String corners) {
    return List.of(corners.split("[ ,]")).stream().mapToDouble(Double::parseDouble).toArray();
  }

  @Test
  void cuttersOfOnePatternHaveLettersOfTheirOwnAndAlwaysTheSame() {
    assertThat(LetterHand.PATTERN.glyph(Typeface.ROMAN, 'E')).isSameAs(Typeface.ROMAN.glyph('E'));
    Set<Rectangle2D> shapes = new HashSet<>();
    for (int cutter = 1; cutter <= 5; cutter++) {
      Rectangle2D box = box(LetterHand.invented(cutter, 1));
      assertThat(box(LetterHand.invented(cutter, 1))).isEqualTo(box);
      shapes.add(box);
    }
    assertThat(shapes).hasSize(5);
    Rectangle2D pattern = box(LetterHand.PATTERN);
    assertThat(away(pattern, box(LetterHand.invented(4, 0.5))))
        .isLessThan(away(pattern, box(LetterHand.invented(4, 1))));
  }

  private static Rectangle2D box(LetterHand cutter) {
    return cutter.glyph(Typeface.ROMAN, 'E').path().getBounds2D();
  }

  private static double away(Rectangle2D one, Rectangle2D other) {
    return Math.abs(one.getWidth() - other.getWidth());
  }
}
