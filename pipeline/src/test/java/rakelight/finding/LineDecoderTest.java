package rakelight.finding;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/** Maps drawn by hand in, lines out. One cell is four pixels; core middles are 0.4 heights up. */
class LineDecoderTest {
  @Test
  void aLevelLineHasItsBaselineAndItsEnds() {
    // Core rows 10 and 11, columns 5 to 24, letters 20 pixels high: middle at y = 44.
    List<LineDecoder.Line> lines =
        LineDecoder.decode(new Drawing(40, 20).line(5, 24, 10, 11, 20).maps());

    assertThat(lines).hasSize(1);
    LineDecoder.Line line = lines.get(0);
    assertThat(line.middle()).hasSize(2);
    assertThat(line.first().x()).isCloseTo(20 - 0.12 * 20, within(1e-3));
    assertThat(line.last().x()).isCloseTo(100 + 0.12 * 20, within(1e-3));
    assertThat(line.atHeight(0).get(0).y()).isCloseTo(44 + 0.4 * 20, within(1e-3));
    assertThat(line.atHeight(1).get(0).y()).isCloseTo(44 - 0.6 * 20, within(1e-3));
  }

  @Test
  void linesBridgedByAFaintCellStayTwo() {
    Drawing drawing = new Drawing(40, 20).line(5, 24, 6, 7, 16).line(5, 24, 10, 11, 16);
    drawing.core(12, 8, 0.45).core(12, 9, 0.45);

    List<LineDecoder.Line> lines = LineDecoder.decode(drawing.maps());

    assertThat(lines).hasSize(2);
    assertThat(lines).allSatisfy(line -> assertThat(line.lengthPx()).isGreaterThan(80));
  }

  @Test
  void aLineThatRespondsFaintlyIsOnlyALineThatMayBeThere() {
    Drawing drawing = new Drawing(40, 20).line(5, 24, 10, 11, 16);
    for (int column = 5; column <= 24; column++) {
      drawing.core(column, 10, 0.45).core(column, 11, 0.45);
    }

    assertThat(LineDecoder.decode(drawing.maps())).isEmpty();
    assertThat(LineDecoder.decode(drawing.maps(), LineDecoder.Strength.FAINT))
        .singleElement()
        .satisfies(line -> assertThat(line.lengthPx()).isGreaterThan(80));
  }

  @Test
  void yearsAroundASpacedDashAreOneLine() {
    // Letters of 24 pixels; the gap of 28 pixels is a little over one height.
    Drawing drawing = new Drawing(60, 20).line(5, 19, 8, 9, 24).line(27, 41, 8, 9, 24);

    List<LineDecoder.Line> lines = LineDecoder.decode(drawing.maps());

    assertThat(lines).hasSize(1);
    assertThat(lines.get(0).last().x()).isGreaterThan(160);
  }

  @Test
  void columnsOfADoubleStoneStayTwoAndAreReadFromTheLeft() {
    Drawing drawing = new Drawing(80, 20).line(40, 60, 8, 9, 16).line(5, 25, 8, 9, 16);

    List<LineDecoder.Line> lines = LineDecoder.inReadingOrder(LineDecoder.decode(drawing.maps()));

    assertThat(lines).hasSize(2);
    assertThat(lines.get(0).first().x()).isLessThan(lines.get(1).first().x());
  }

  @Test
  void hugeCapitalsAndTinyItalicsUnderThemStayTwo() {
    Drawing drawing = new Drawing(60, 30).line(5, 50, 6, 11, 48).line(20, 35, 16, 16, 9);

    List<LineDecoder.Line> lines = LineDecoder.inReadingOrder(LineDecoder.decode(drawing.maps()));

    assertThat(lines).hasSize(2);
    assertThat(lines.get(0).heightPx()).isCloseTo(48, within(0.01));
    assertThat(lines.get(1).heightPx()).isCloseTo(9, within(0.01));
  }

  @Test
  void anArchIsFollowed() {
    double radius = 140;
    Drawing drawing = new Drawing(100, 60).arc(radius, 60, 1);

    List<LineDecoder.Line> lines = LineDecoder.decode(drawing.maps());

    assertThat(lines).hasSize(1);
    LineDecoder.Line line = lines.get(0);
    assertThat(line.middle().size()).isGreaterThan(8);
    for (Point p : line.middle()) {
      assertThat(p.distance(new Point(200, 200))).isCloseTo(radius, within(4.0));
    }
    assertThat(line.lengthPx()).isCloseTo(Math.toRadians(120) * radius, within(14.0));
  }

  @Test
  void wordsNearlyAllRoundADiscAreOneLineFromTheFirstLetterToTheLast() {
    // From half past six to half past five, clockwise, letters 20 pixels high.
    double radius = 120;
    Drawing drawing = new Drawing(100, 100).arc(radius, 165, 1);

    List<LineDecoder.Line> lines = LineDecoder.decode(drawing.maps());

    assertThat(lines).hasSize(1);
    LineDecoder.Line line = lines.get(0);
    assertThat(line.middle())
        .allSatisfy(
            p -> assertThat(p.distance(new Point(200, 200))).isCloseTo(radius, within(3.0)));
    assertThat(line.lengthPx()).isCloseTo(Math.toRadians(330) * radius, within(14.0));
    assertThat(line.first().x()).isLessThan(200);
    assertThat(line.last().x()).isGreaterThan(200);
    assertThat(line.first().y()).isGreaterThan(300);
  }

  @Test
  void wordsUnderADiscWithTheirHeadsInwardsRunTheOtherWay() {
    double radius = 120;
    Drawing drawing = new Drawing(100, 100).arc(radius, 80, -1);

    List<LineDecoder.Line> lines = LineDecoder.decode(drawing.maps());

    assertThat(lines).hasSize(1);
    assertThat(lines.get(0).first().x()).isLessThan(lines.get(0).last().x());
    assertThat(lines.get(0).lengthPx()).isCloseTo(Math.toRadians(160) * radius, within(14.0));
  }

  @Test
  void onAPictureLyingOnItsSideLinesRunInReadingDirection() {
    Drawing drawing = new Drawing(40, 60);
    for (int y = 10; y < 50; y++) {
      drawing.cell(42, y * 4 + 2, 0, 1, 20).cell(46, y * 4 + 2, 0, 1, 20);
      drawing.cell(102, y * 4 + 2, 0, 1, 20).cell(106, y * 4 + 2, 0, 1, 20);
    }

    List<LineDecoder.Line> lines = LineDecoder.inReadingOrder(LineDecoder.decode(drawing.maps()));

    assertThat(lines).hasSize(2);
    assertThat(lines.get(0).last().y()).isGreaterThan(lines.get(0).first().y());
    // Turned a quarter clockwise, the first line stands farthest to the right.
    assertThat(lines.get(0).first().x()).isGreaterThan(lines.get(1).first().x());
  }

  @Test
  void specklesAndFaintPatchesAreNoLines() {
    Drawing drawing = new Drawing(40, 20).core(3, 3, 0.9).core(20, 10, 0.55).core(21, 10, 0.5);

    assertThat(LineDecoder.decode(drawing.maps())).isEmpty();
  }

  @Test
  void linesOfTheStoneBesideAreLeftOut() {
    Drawing drawing = new Drawing(80, 20).line(5, 25, 8, 9, 16).line(50, 70, 8, 9, 16);
    drawing.area(LineMaps.FACE, 0, 35).area(LineMaps.OTHER, 45, 79);

    List<LineDecoder.Line> lines = CarvedLineFinder.ofTheFace(LineDecoder.decode(drawing.maps()));

    assertThat(lines).hasSize(1);
    assertThat(lines.get(0).last().x()).isLessThan(140);
  }

  @Test
  void theFaceIsOutlinedByItsCorners() {
    Drawing drawing = new Drawing(80, 40).area(LineMaps.FACE, 10, 49);

    List<Point> corners = new FaceAreas(drawing.maps(), List.of()).face();

    assertThat(corners)
        .containsExactlyInAnyOrder(
            new Point(42, 2), new Point(198, 2), new Point(198, 158), new Point(42, 158));
  }

  @Test
  void ofTwoInscribedStonesBesideEachOtherTheLargerIsRead() {
    // Grass that looks a little like stone lies between them.
    Drawing drawing = new Drawing(100, 40).line(8, 40, 8, 9, 16).line(70, 90, 8, 9, 16);
    drawing.area(LineMaps.FACE, 5, 50).area(LineMaps.FACE, 65, 94);
    for (int column = 51; column < 65; column++) {
      drawing.set(LineMaps.FACE, column, 30, 0.6);
    }
    List<LineDecoder.Line> lines = LineDecoder.decode(drawing.maps());

    FaceAreas areas = new FaceAreas(drawing.maps(), lines);

    assertThat(lines).hasSize(2);
    assertThat(lines.stream().filter(areas::holds)).hasSize(1);
    assertThat(lines.stream().filter(areas::holds).findFirst().orElseThrow().last().x())
        .isLessThan(200);
    assertThat(areas.otherStones()).hasSize(1);
  }

  @Test
  void ofTwoInscribedStonesAboutAsLargeTheMoreCentralIsRead() {
    Drawing drawing = new Drawing(100, 40).line(5, 30, 8, 9, 16).line(45, 65, 8, 9, 16);
    drawing.area(LineMaps.FACE, 2, 34).area(LineMaps.FACE, 42, 70);
    List<LineDecoder.Line> lines = LineDecoder.decode(drawing.maps());

    FaceAreas areas = new FaceAreas(drawing.maps(), lines);

    assertThat(lines.stream().filter(areas::holds).findFirst().orElseThrow().first().x())
        .isGreaterThan(150);
  }

  @Test
  void dieAndBaseAreOneMarker() {
    Drawing drawing = new Drawing(60, 60).line(10, 50, 8, 9, 16).line(20, 40, 50, 51, 16);
    for (int row = 0; row < 60; row++) {
      for (int column = 6; column < 54; column++) {
        drawing.set(LineMaps.FACE, column, row, row < 30 || row > 44 ? 1 : 0);
      }
    }
    List<LineDecoder.Line> lines = LineDecoder.decode(drawing.maps());

    FaceAreas areas = new FaceAreas(drawing.maps(), lines);

    assertThat(lines).hasSize(2).allMatch(areas::holds);
    assertThat(areas.otherStones()).isEmpty();
  }

  @Test
  void anEmblemIsOutlinedAndASpeckIsNot() {
    Drawing drawing = new Drawing(80, 40).area(LineMaps.EMBLEM, 10, 19);
    drawing.set(LineMaps.EMBLEM, 60, 5, 1);

    List<Polygon> emblems = MapAreas.emblems(drawing.maps());

    assertThat(emblems).hasSize(1);
    assertThat(emblems.get(0).left()).isEqualTo(42);
    assertThat(emblems.get(0).right()).isEqualTo(78);
  }

  /** Draws maps; directions are to the right unless said. */
  private static final class Drawing {
    private final int columns;
    private final int rows;
    private final float[] values;

    Drawing(int columns, int rows) {
      this.columns = columns;
      this.rows = rows;
      values = new float[LineMaps.MAPS * columns * rows];
    }

    private void set(int map, int column, int row, double value) {
      values[(map * rows + row) * columns + column] = (float) value;
    }

    Drawing line(int first, int last, int top, int bottom, double height) {
      for (int row = top; row <= bottom; row++) {
        for (int column = first; column <= last; column++) {
          cell(column * 4 + 2, row * 4 + 2, 1, 0, height);
        }
      }
      return this;
    }

    Drawing cell(double x, double y, double cosine, double sine, double height) {
      int column = (int) (x / 4);
      int row = (int) (y / 4);
      set(LineMaps.CORE, column, row, 0.95);
      set(LineMaps.LOG_HEIGHT, column, row, Math.log(height));
      set(LineMaps.COSINE, column, row, cosine);
      set(LineMaps.SINE, column, row, sine);
      return this;
    }

    /**
     * Letters 20 pixels high round (200, 200), as far as said to both sides of the top, or with -1
     * of the bottom, where their heads are inwards.
     */
    Drawing arc(double radius, double degrees, int up) {
      for (double a = -degrees; a <= degrees; a += 0.2) {
        double sin = Math.sin(Math.toRadians(a));
        double cos = Math.cos(Math.toRadians(a));
        for (double r = radius - 5; r <= radius + 5; r += 1) {
          cell(200 + r * sin, 200 - up * r * cos, cos, up * sin, 20);
        }
      }
      return this;
    }

    Drawing core(int column, int row, double value) {
      set(LineMaps.CORE, column, row, value);
      set(LineMaps.LOG_HEIGHT, column, row, Math.log(16));
      set(LineMaps.COSINE, column, row, 1);
      return this;
    }

    Drawing area(int map, int firstColumn, int lastColumn) {
      for (int row = 0; row < rows; row++) {
        for (int column = firstColumn; column <= lastColumn; column++) {
          set(map, column, row, 1);
        }
      }
      return this;
    }

    LineMaps maps() {
      return new LineMaps(columns, rows, values);
    }
  }
}
