package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import rakelight.finding.GrayImage;
import rakelight.finding.Homography;
import rakelight.finding.NativeScope;
import rakelight.finding.Point;

class RakingSetTest {
  private static final int WIDTH_PX = 400;
  private static final int HEIGHT_PX = 300;
  private static final double CAPITAL_PX = 40;

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void twoLightsTogetherShowWhatIsCutAndNotTheStain() {
    GrayImage fromTheLeft = stone(1);
    GrayImage fromTheRight = stone(-1);
    // Under one light the rim of the stain is as strong an edge as that of the bump.
    assertThat(fromTheLeft.at(300, 100)).isLessThan(fromTheLeft.at(300, 40) - 40);

    GrayImage raked =
        RakingSet.raked(List.of(fromTheLeft, fromTheRight), CAPITAL_PX).orElseThrow().image();

    assertThat(raked.widthPx()).isEqualTo(WIDTH_PX);
    assertThat(raked.heightPx()).isEqualTo(HEIGHT_PX);
    // The slopes of the bumps, left and right of their middles.
    for (int side : new int[] {-1, 1}) {
      assertThat(raked.at(100 + 14 * side, 100)).as("slope, side %d", side).isLessThan(90);
      assertThat(raked.at(100 + 14 * side, 210)).as("slope, side %d", side).isLessThan(90);
    }
    // All of the stain, its rim included.
    for (int x = 240; x <= 360; x += 4) {
      assertThat(raked.at(x, 100)).as("stain at %d", x).isGreaterThan(200);
    }
  }

  @Test
  void aThirdPictureThatShowsSomethingElseIsLeftOut() {
    Drawn.Brightness scene = blobs(1);
    GrayImage left = Drawn.picture(WIDTH_PX, HEIGHT_PX, scene);
    GrayImage right = Drawn.picture(WIDTH_PX, HEIGHT_PX, (x, y) -> 256 - scene.at(x, y));
    GrayImage elsewhere = Drawn.picture(WIDTH_PX, HEIGHT_PX, blobs(2));

    GrayImage two = RakingSet.raked(List.of(left, right), CAPITAL_PX).orElseThrow().image();
    GrayImage three =
        RakingSet.raked(List.of(left, elsewhere, right), CAPITAL_PX).orElseThrow().image();

    assertThat(three.pixels()).isEqualTo(two.pixels());
  }

  @Test
  void picturesThatShowDifferentThingsGiveNothing() {
    GrayImage one = Drawn.picture(WIDTH_PX, HEIGHT_PX, blobs(1));
    GrayImage other = Drawn.picture(WIDTH_PX, HEIGHT_PX, blobs(2));

    assertThat(RakingSet.register(one, other)).isEmpty();
    assertThat(RakingSet.raked(List.of(one, other), CAPITAL_PX)).isEmpty();
  }

  @Test
  void anEmptyPictureOrASingleOneGivesNothing() {
    GrayImage one = Drawn.picture(WIDTH_PX, HEIGHT_PX, blobs(1));
    GrayImage grey = Drawn.picture(WIDTH_PX, HEIGHT_PX, (x, y) -> 128);

    assertThat(RakingSet.raked(List.of(), CAPITAL_PX)).isEmpty();
    assertThat(RakingSet.raked(List.of(one), CAPITAL_PX)).isEmpty();
    assertThat(RakingSet.raked(List.of(one, grey), CAPITAL_PX)).isEmpty();
  }

  @Test
  void aKnownShiftAndScaleAreFoundWithinAPixel() {
    Drawn.Brightness scene = blobs(7);
    GrayImage first = Drawn.picture(WIDTH_PX, HEIGHT_PX, scene);
    GrayImage other =
        Drawn.picture(WIDTH_PX, HEIGHT_PX, (x, y) -> scene.at((x - 3) / 1.01, (y + 2) / 1.01));

    assertMaps(
        RakingSet.register(first, other), p -> new Point(1.01 * p.x() + 3, 1.01 * p.y() - 2));
  }

  @Test
  void aPictureOfHalfTheSizeIsLaidOverTheWholeOneWithinAPixel() {
    Drawn.Brightness scene = blobs(7);
    GrayImage first = Drawn.picture(WIDTH_PX, HEIGHT_PX, scene);
    GrayImage other =
        Drawn.picture(WIDTH_PX / 2, HEIGHT_PX / 2, (x, y) -> scene.at(2 * (x - 1.5), 2 * (y + 1)));

    assertMaps(RakingSet.register(first, other), p -> new Point(p.x() / 2 + 1.5, p.y() / 2 - 1));
  }

  @Test
  void picturesLargerThanTheCopiesTheyAreComparedOnAreLaidOverWithinTwoPixels() {
    Drawn.Brightness scene = blobs(7);
    GrayImage first = Drawn.picture(3 * WIDTH_PX, 3 * HEIGHT_PX, (x, y) -> scene.at(x / 3, y / 3));
    GrayImage other =
        Drawn.picture(3 * WIDTH_PX, 3 * HEIGHT_PX, (x, y) -> scene.at((x - 9) / 3, (y + 6) / 3));

    Homography found = RakingSet.register(first, other).orElseThrow();

    for (Point p : places(3)) {
      assertThat(found.map(p).distance(new Point(p.x() + 9, p.y() - 6))).isLessThan(2);
    }
  }

  private static void assertMaps(
      Optional<Homography> found, java.util.function.UnaryOperator<Point> expected) {
    for (Point p : places(1)) {
      assertThat(found.orElseThrow().map(p).distance(expected.apply(p)))
          .as("from %s", p)
          .isLessThan(1);
    }
  }

  private static List<Point> places(double scale) {
    return List.of(
        new Point(40 * scale, 40 * scale),
        new Point(360 * scale, 40 * scale),
        new Point(200 * scale, 150 * scale),
        new Point(40 * scale, 260 * scale),
        new Point(360 * scale, 260 * scale));
  }

  /**
   * A plane with two bumps on the left, under light from the left (1) or the right (-1), and with a
   * stain on the right that looks the same under both.
   */
  private static GrayImage stone(int light) {
    return Drawn.picture(
        WIDTH_PX,
        HEIGHT_PX,
        (x, y) -> {
          double slope = slopeOfBump(x - 100, y - 100) + slopeOfBump(x - 100, y - 210);
          double stain = 1 / (1 + Math.exp((Math.hypot(x - 300, y - 100) - 40) / 2));
          return 150 * (1 + light * .4 * slope) * (1 - .4 * stain);
        });
  }

  /** The slope towards the right of a round bump, 1 where it is steepest. */
  private static double slopeOfBump(double x, double y) {
    double sigma = 14;
    return -x / sigma * Math.exp(.5 - (x * x + y * y) / (2 * sigma * sigma));
  }

  /** Dark and light blobs strewn over a picture. */
  private static Drawn.Brightness blobs(long seed) {
    Random random = new Random(seed);
    int n = 60;
    double[][] blobs = new double[n][];
    for (int i = 0; i < n; i++) {
      blobs[i] =
          new double[] {
            random.nextDouble() * WIDTH_PX,
            random.nextDouble() * HEIGHT_PX,
            6 + 8 * random.nextDouble(),
            random.nextBoolean() ? 70 : -70
          };
    }
    return (x, y) -> {
      double sum = 128;
      for (double[] blob : blobs) {
        double dx = (x - blob[0]) / blob[2];
        double dy = (y - blob[1]) / blob[2];
        double squared = dx * dx + dy * dy;
        if (squared < 25) {
          sum += blob[3] * Math.exp(-squared / 2);
        }
      }
      return sum;
    };
  }
}
