package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import rakelight.finding.GrayImage;
import rakelight.finding.NativeScope;

class ReliefTest {
  private static final int WIDTH_PX = 600;
  private static final int HEIGHT_PX = 400;
  private static final double CAPITAL_PX = 40;

  /** An upright stroke as of an I, 6 px wide and 40 px high. */
  private static final Drawn.Brightness STROKE =
      (x, y) -> Drawn.within(x, y, 297, 180, 303, 220) ? 1 : 0;

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void everyPictureIsNamedInOrderAndHasTheSizeOfTheFace() {
    // Neither side is a multiple of the reduction that the background is taken at.
    List<ReliefImage> images = Relief.of(Drawn.picture(203, 117, (x, y) -> 90 + x / 2), CAPITAL_PX);

    assertThat(images).extracting(ReliefImage::name).isEqualTo(Relief.NAMES);
    for (ReliefImage image : images) {
      assertThat(image.image().widthPx()).as(image.name()).isEqualTo(203);
      assertThat(image.image().heightPx()).as(image.name()).isEqualTo(117);
    }
  }

  @Test
  void theSmallestFaceHasAllPicturesToo() {
    assertThat(Relief.of(Drawn.picture(16, 16, (x, y) -> 128), 0)).hasSize(Relief.NAMES.size());
  }

  @Test
  void flatMakesAShadedPlaneEven() {
    // From 80 on the left to 220 on the right.
    GrayImage flat = relief("flat", Drawn.picture(WIDTH_PX, HEIGHT_PX, ReliefTest::shaded));

    for (int y = 0; y < HEIGHT_PX; y++) {
      for (int x = 150; x < WIDTH_PX - 150; x++) {
        assertThat(flat.at(x, y)).as("at %d, %d", x, y).isBetween(125, 131);
      }
    }
    // At the margin the background is known from one side only.
    for (int x = 0; x < WIDTH_PX; x++) {
      assertThat(flat.at(x, HEIGHT_PX / 2)).as("at %d", x).isBetween(85, 160);
    }
  }

  @Test
  void cutDarkShowsADarkStrokeAndNothingOfTheShadedPlane() {
    GrayImage face =
        Drawn.picture(WIDTH_PX, HEIGHT_PX, (x, y) -> shaded(x, y) * (1 - .4 * STROKE.at(x, y)));

    assertShowsTheStrokeAlone(relief("cut-dark", face));
    assertThat(relief("cut-light", face).at(300, 200)).isGreaterThan(200);
  }

  @Test
  void cutLightShowsALightStrokeAndNothingOfTheShadedPlane() {
    GrayImage face =
        Drawn.picture(WIDTH_PX, HEIGHT_PX, (x, y) -> shaded(x, y) * (1 + .4 * STROKE.at(x, y)));

    assertShowsTheStrokeAlone(relief("cut-light", face));
    assertThat(relief("cut-dark", face).at(300, 200)).isGreaterThan(200);
  }

  @Test
  void aShadedPlaneWithoutLettersShowsNoStrokes() {
    GrayImage plane = Drawn.picture(WIDTH_PX, HEIGHT_PX, ReliefTest::shaded);

    for (String name : List.of("cut-dark", "cut-light")) {
      assertThat(darkest(relief(name, plane))).as(name).isGreaterThan(200);
    }
  }

  private static double shaded(double x, double y) {
    return 80 + 140 * x / WIDTH_PX;
  }

  private static GrayImage relief(String name, GrayImage face) {
    return Relief.of(face, CAPITAL_PX).stream()
        .filter(image -> image.name().equals(name))
        .findFirst()
        .orElseThrow()
        .image();
  }

  private static void assertShowsTheStrokeAlone(GrayImage cut) {
    for (int y = 185; y < 215; y += 5) {
      assertThat(cut.at(300, y)).as("stroke at %d", y).isLessThan(60);
    }
    GrayImage beside =
        Drawn.picture(
            WIDTH_PX,
            HEIGHT_PX,
            (x, y) -> Drawn.within(x, y, 280, 160, 320, 240) ? 255 : cut.at((int) x, (int) y));
    assertThat(darkest(beside)).as("beside the stroke").isGreaterThan(200);
  }

  private static int darkest(GrayImage image) {
    int darkest = 255;
    for (int y = 0; y < image.heightPx(); y++) {
      for (int x = 0; x < image.widthPx(); x++) {
        darkest = Math.min(darkest, image.at(x, y));
      }
    }
    return darkest;
  }
}
