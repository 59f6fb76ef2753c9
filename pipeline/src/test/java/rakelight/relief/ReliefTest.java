package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Polygon;

class ReliefTest {
  private static final int WIDTH_PX = 600;
  private static final int HEIGHT_PX = 400;
  private static final double CAPITAL_PX = 32;

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void everyPictureIsNamedInOrderAndHasTheSizeOfTheFace() {
    // Neither side is a multiple of the reduction that the background is taken at.
    Relief relief = Relief.of(Drawn.picture(203, 117, (x, y) -> 90 + x / 2), 51, List.of());

    assertThat(relief.images()).extracting(ReliefImage::name).isEqualTo(Relief.NAMES);
    for (ReliefImage image : relief.images()) {
      assertThat(image.image().widthPx()).as(image.name()).isEqualTo(203);
      assertThat(image.image().heightPx()).as(image.name()).isEqualTo(117);
    }
  }

  @Test
  void theSmallestFaceHasAllPicturesToo() {
    assertThat(Relief.of(Drawn.picture(16, 16, (x, y) -> 128), 0, List.of()).images())
        .hasSize(Relief.NAMES.size());
  }

  @Test
  void contrastMakesAShadedPlaneEvenAndAStrokeOnItAsDarkOnEitherSide() {
    // From 80 on the left to 220 on the right.
    GrayImage contrast =
        picture(
            "contrast",
            Drawn.picture(
                WIDTH_PX,
                HEIGHT_PX,
                (x, y) ->
                    shaded(x, y)
                        * (Drawn.within(x, y, 147, 180, 153, 220)
                                || Drawn.within(x, y, 447, 180, 453, 220)
                            ? 0.6
                            : 1)));

    int plane = contrast.at(300, 200);
    assertThat(contrast.at(150, 200)).isLessThan(plane - 40);
    assertThat(contrast.at(450, 200)).isLessThan(plane - 40);
    assertThat(Math.abs(contrast.at(150, 200) - contrast.at(450, 200))).isLessThan(40);
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 50, 90, 140, 180, 225, 270, 320})
  void aCutStrokeIsDarkAcrossWhateverSideTheLightComesFrom(int aroundDegrees) {
    GrayImage stone =
        Drawn.lit(WIDTH_PX, HEIGHT_PX, Drawn.rings(1.5), LightDirection.raking(aroundDegrees, 20));
    GrayImage cut = picture("cut", stone);

    // On the photograph one flank is bright, so the stroke isn't darker than the stone.
    assertThat(acrossRings(stone, aroundDegrees)).isGreaterThan(between(stone) - 15);
    assertThat(acrossRings(cut, aroundDegrees)).isLessThan(between(cut) - 60);
    assertThat(acrossRings(cut, aroundDegrees + 180)).isLessThan(between(cut) - 60);
    assertThat(acrossRings(cut, aroundDegrees + 45)).isLessThan(between(cut) - 40);
  }

  @Test
  void aRaisedBrightStrokeIsDarkAcrossToo() {
    GrayImage lit = Drawn.lit(WIDTH_PX, HEIGHT_PX, Drawn.rings(-1), LightDirection.raking(300, 15));
    // Worn bright where it stands out, as bronze is.
    GrayImage bronze =
        Drawn.picture(
            WIDTH_PX,
            HEIGHT_PX,
            (x, y) -> lit.at((int) x, (int) y) * (Drawn.rings(-1).at(x, y) > 0 ? 1.15 : 0.95));
    Relief relief = Relief.of(bronze, CAPITAL_PX, List.of());
    GrayImage cut = relief.images().get(2).image();

    assertThat(relief.lettering().raised()).as(relief.lettering().toString()).isTrue();
    assertThat(relief.lettering().inWords()).isEqualTo("light from the upper left, letters raised");
    assertThat(acrossRings(cut, 300)).isLessThan(between(cut) - 60);
    assertThat(acrossRings(cut, 120)).isLessThan(between(cut) - 60);
  }

  @Test
  void frostedLettersOfPolishedStoneAreDrawnDarkByTheirColourAndTheShadingIsLeftAlone() {
    Drawn.Height letters = Drawn.rings(1);
    Relief relief =
        Relief.of(
            Drawn.picture(
                WIDTH_PX,
                HEIGHT_PX,
                (x, y) -> letters.at(x, y) < 0 ? 170 : 60 + 8 * Math.sin(x) * Math.sin(2.3 * y)),
            CAPITAL_PX,
            List.of());
    GrayImage cut = relief.images().get(2).image();

    assertThat(relief.lettering().coloured()).isTrue();
    assertThat(relief.lettering().darker()).isFalse();
    assertThat(relief.lettering().inWords())
        .isEqualTo(
            "letters of a colour of their own, brighter than the stone; shading was left alone");
    assertThat(acrossRings(cut, 0)).isLessThan(between(cut) - 60);
    assertThat(acrossRings(cut, 90)).isLessThan(between(cut) - 60);
  }

  @Test
  void underLightFromEverywhereLettersAreShownByTheirTone() {
    Drawn.Height letters = Drawn.rings(1);
    Relief relief =
        Relief.of(
            Drawn.picture(
                WIDTH_PX,
                HEIGHT_PX,
                (x, y) -> 150 + 12 * letters.at(x, y) + 10 * Math.sin(x) * Math.sin(2.3 * y)),
            CAPITAL_PX,
            List.of());
    GrayImage cut = relief.images().get(2).image();

    assertThat(relief.lettering().shaded()).isFalse();
    assertThat(relief.lettering().inWords())
        .isEqualTo("no light rakes over the face; letters are shown by their tone alone");
    assertThat(acrossRings(cut, 0)).isLessThan(between(cut) - 40);
  }

  @Test
  void aShadedPlaneWithoutLettersShowsNoStrokes() {
    GrayImage cut = picture("cut", Drawn.picture(WIDTH_PX, HEIGHT_PX, ReliefTest::shaded));

    for (int y = 60; y < HEIGHT_PX - 60; y++) {
      for (int x = 60; x < WIDTH_PX - 60; x++) {
        assertThat(cut.at(x, y)).as("at %d, %d", x, y).isGreaterThan(150);
      }
    }
  }

  @Test
  void aStainAsLargeAsALetterIsEvenedOutBesideTheStroke() {
    Drawn.Height letters = Drawn.rings(1);
    GrayImage stained =
        Drawn.picture(
            WIDTH_PX,
            HEIGHT_PX,
            (x, y) ->
                (150 + 40 * letters.at(x, y))
                    * (1 - 0.5 * Math.exp(-(Math.pow(x - 275, 2) + Math.pow(y - 200, 2)) / 800)));
    GrayImage cut = picture("cut", stained);

    // The stain is darkest between four rings, and there darker than the stroke of a clean one.
    assertThat(stained.at(275, 200)).isLessThan(stained.at(75 + (int) Drawn.RING_PX, 75));
    assertThat(cut.at(275, 200)).isGreaterThan(cut.at(75 + (int) Drawn.RING_PX, 75) + 60);
  }

  @Test
  void lightIsJudgedByTheLinesAndNotByWhatStandsAroundThem() {
    GrayImage letters =
        Drawn.lit(WIDTH_PX, HEIGHT_PX, Drawn.rings(1.5), LightDirection.raking(310, 20));
    GrayImage grass =
        Drawn.lit(WIDTH_PX, HEIGHT_PX, Drawn.rings(6), LightDirection.raking(130, 12));
    Polygon lines = Polygon.rectangle(100, 100, 500, 200);
    GrayImage both =
        Drawn.picture(
            WIDTH_PX, HEIGHT_PX, (x, y) -> (y < 250 ? letters : grass).at((int) x, (int) y));

    Lettering lettering = Relief.of(both, CAPITAL_PX, List.of(lines)).lettering();

    assertThat(lettering.inWords()).isEqualTo("light from the upper left, letters cut");
    assertThat(Relief.of(both, CAPITAL_PX, List.of()).lettering().inWords())
        .isNotEqualTo(lettering.inWords());
  }

  private static double shaded(double x, double y) {
    return 80 + 140 * x / WIDTH_PX;
  }

  private static GrayImage picture(String name, GrayImage face) {
    return Relief.of(face, CAPITAL_PX, List.of()).images().stream()
        .filter(image -> image.name().equals(name))
        .findFirst()
        .orElseThrow()
        .image();
  }

  /** Mean brightness across the strokes of the inner rings, where they face this way. */
  private static double acrossRings(GrayImage image, double aroundDegrees) {
    double x = Math.sin(Math.toRadians(aroundDegrees));
    double y = -Math.cos(Math.toRadians(aroundDegrees));
    double sum = 0;
    int count = 0;
    for (int row = 1; row < HEIGHT_PX / Drawn.RINGS_APART_PX - 1; row++) {
      for (int column = 1; column < WIDTH_PX / Drawn.RINGS_APART_PX - 1; column++) {
        for (double r = Drawn.RING_PX - 2; r <= Drawn.RING_PX + 2; r++) {
          sum +=
              image.at(
                  (int) Math.round((column + 0.5) * Drawn.RINGS_APART_PX + r * x),
                  (int) Math.round((row + 0.5) * Drawn.RINGS_APART_PX + r * y));
          count++;
        }
      }
    }
    return sum / count;
  }

  /** Mean brightness midway between four rings. */
  private static double between(GrayImage image) {
    double sum = 0;
    int count = 0;
    for (int y = 2 * Drawn.RINGS_APART_PX; y < HEIGHT_PX - 60; y += Drawn.RINGS_APART_PX) {
      for (int x = 2 * Drawn.RINGS_APART_PX; x < WIDTH_PX - 60; x += Drawn.RINGS_APART_PX) {
        sum += image.at(x, y);
        count++;
      }
    }
    return sum / count;
  }
}
