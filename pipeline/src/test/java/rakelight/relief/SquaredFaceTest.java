package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

class SquaredFaceTest {
  private static final Polygon LEANING =
      new Polygon(
          List.of(
              new Point(120, 60), new Point(520, 110), new Point(490, 430), new Point(90, 400)));

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void aLeaningFaceBecomesARectangleOfItsMeanSides() {
    GrayImage photograph =
        Drawn.picture(640, 480, (x, y) -> LEANING.contains(new Point(x, y)) ? 200 : 40);

    GrayImage face = SquaredFace.of(photograph, LEANING, Optional.empty()).image();

    // Sides: 403.1 and 401.1 wide; 341.3 and 321.4 high.
    assertThat(face.widthPx()).isEqualTo(402);
    assertThat(face.heightPx()).isEqualTo(331);
    for (int y = 3; y < face.heightPx() - 3; y++) {
      for (int x = 3; x < face.widthPx() - 3; x++) {
        assertThat(face.at(x, y)).as("stone at %d, %d", x, y).isEqualTo(200);
      }
    }
  }

  @Test
  void aFaceOfKnownProportionKeepsItsSizeAndTakesThem() {
    SquaredFace.Shape shape = SquaredFace.Shape.of(LEANING, Optional.of(0.8));

    assertThat((double) shape.widthPx() / shape.heightPx()).isCloseTo(0.8, within(0.005));
    assertThat(shape.widthPx() * (double) shape.heightPx()).isCloseTo(402 * 331, within(500.0));
  }

  @Test
  void itsCornersLieOnThoseOfTheOutline() {
    SquaredFace face =
        SquaredFace.of(Drawn.picture(640, 480, (x, y) -> 128), LEANING, Optional.empty());

    double w = face.image().widthPx();
    double h = face.image().heightPx();
    List<Point> corners =
        List.of(new Point(0, 0), new Point(w, 0), new Point(w, h), new Point(0, h));
    for (int i = 0; i < 4; i++) {
      assertThat(face.toPhotograph().map(corners.get(i)).distance(LEANING.points().get(i)))
          .isLessThan(1);
    }
  }

  @Test
  void aMarkOnTheFaceIsFoundBackOnThePhotographWithinAPixel() {
    GrayImage photograph =
        Drawn.picture(640, 480, (x, y) -> 200 - 190 * Math.exp(-Math.hypot(x - 420, y - 180) / 4));

    assertThat(mark(SquaredFace.of(photograph, LEANING, Optional.empty()))).isLessThan(1);
  }

  @Test
  void aFaceLargerThanNeededIsReducedAndItsMarkStillFoundBackWithinAPixel() {
    Polygon outline = Polygon.rectangle(100, 50, 3300, 1250);
    GrayImage photograph =
        Drawn.picture(
            3400, 1300, (x, y) -> 200 - 190 * Math.exp(-Math.hypot(x - 420, y - 180) / 8));

    SquaredFace face = SquaredFace.of(photograph, outline, Optional.empty());

    assertThat(face.image().widthPx()).isEqualTo(SquaredFace.LONGEST_SIDE_PX);
    assertThat(face.image().heightPx()).isEqualTo(750);
    assertThat(mark(face)).isLessThan(1);
  }

  @Test
  void aFaceSmallerThanNeededIsNotEnlarged() {
    SquaredFace face =
        SquaredFace.of(
            Drawn.picture(200, 100, (x, y) -> 128),
            Polygon.rectangle(20, 10, 180, 90),
            Optional.empty());

    assertThat(face.image().widthPx()).isEqualTo(160);
    assertThat(face.image().heightPx()).isEqualTo(80);
  }

  @Test
  void anOutlineThatIsNoQuadrilateralIsRefused() {
    Polygon triangle = new Polygon(LEANING.points().subList(0, 3));

    assertThatThrownBy(
            () ->
                SquaredFace.of(Drawn.picture(640, 480, (x, y) -> 128), triangle, Optional.empty()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("four corners, not 3");
  }

  /** How far from 420, 180 the dark mark of a squared face is found back, in pixels. */
  private static double mark(SquaredFace face) {
    double weight = 0;
    double x = 0;
    double y = 0;
    for (int row = 0; row < face.image().heightPx(); row++) {
      for (int column = 0; column < face.image().widthPx(); column++) {
        double dark = Math.max(0, 170 - face.image().at(column, row));
        weight += dark;
        x += dark * column;
        y += dark * row;
      }
    }
    assertThat(weight).isGreaterThan(0);
    Point back = face.toPhotograph().map(new Point(x / weight, y / weight));
    assertThat(back.x()).isCloseTo(420, within(5.0));
    return back.distance(new Point(420, 180));
  }
}
