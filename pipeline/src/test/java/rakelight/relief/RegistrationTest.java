package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativeScope;
import rakelight.picture.Point;

class RegistrationTest {
  private static final int WIDTH_PX = 400;
  private static final int HEIGHT_PX = 300;

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void picturesThatShowDifferentThingsGiveNothing() {
    for (int seed = 1; seed < 9; seed += 2) {
      GrayImage one = Drawn.picture(WIDTH_PX, HEIGHT_PX, blobs(seed, 60));
      GrayImage other = Drawn.picture(WIDTH_PX, HEIGHT_PX, blobs(seed + 1, 60));

      assertThat(Registration.of(one, other)).as("seed %d", seed).isEmpty();
    }
  }

  @Test
  void sparsePicturesThatShowDifferentThingsGiveNothing() {
    for (int seed = 1; seed < 19; seed += 2) {
      GrayImage one = Drawn.picture(WIDTH_PX, HEIGHT_PX, blobs(seed, 4));
      GrayImage other = Drawn.picture(WIDTH_PX, HEIGHT_PX, blobs(seed + 1, 4));

      assertThat(Registration.of(one, other)).as("seed %d", seed).isEmpty();
    }
  }

  @Test
  void anEmptyPictureGivesNothing() {
    GrayImage one = Drawn.picture(WIDTH_PX, HEIGHT_PX, blobs(1, 60));
    GrayImage grey = Drawn.picture(WIDTH_PX, HEIGHT_PX, (x, y) -> 128);

    assertThat(Registration.of(one, grey)).isEmpty();
    assertThat(Registration.of(grey, grey)).isEmpty();
  }

  @Test
  void aShotFromAnotherPlaceIsLaidOverByItsFeatures() {
    Drawn.Brightness scene = blobs(7, 60);
    GrayImage first = Drawn.picture(WIDTH_PX, HEIGHT_PX, scene);
    // A third of the picture away and turned by 12 degrees: too far to slide there.
    double c = Math.cos(Math.toRadians(12));
    double s = Math.sin(Math.toRadians(12));
    GrayImage other =
        Drawn.picture(
            WIDTH_PX,
            HEIGHT_PX,
            (x, y) -> scene.at(c * (x - 90) + s * (y + 20), -s * (x - 90) + c * (y + 20)));

    Homography found = Registration.of(first, other).orElseThrow();

    for (Point p : List.of(new Point(60, 60), new Point(200, 60), new Point(200, 220))) {
      Point expected = new Point(c * p.x() - s * p.y() + 90, s * p.x() + c * p.y() - 20);
      assertThat(found.map(p).distance(expected)).as("from %s", p).isLessThan(1.5);
    }
  }

  @Test
  void aKnownShiftAndScaleAreFoundWithinAPixel() {
    Drawn.Brightness scene = blobs(7, 60);
    GrayImage first = Drawn.picture(WIDTH_PX, HEIGHT_PX, scene);
    GrayImage other =
        Drawn.picture(WIDTH_PX, HEIGHT_PX, (x, y) -> scene.at((x - 3) / 1.01, (y + 2) / 1.01));

    assertMaps(Registration.of(first, other), p -> new Point(1.01 * p.x() + 3, 1.01 * p.y() - 2));
  }

  @Test
  void aPictureOfHalfTheSizeIsLaidOverTheWholeOneWithinAPixel() {
    Drawn.Brightness scene = blobs(7, 60);
    GrayImage first = Drawn.picture(WIDTH_PX, HEIGHT_PX, scene);
    GrayImage other =
        Drawn.picture(WIDTH_PX / 2, HEIGHT_PX / 2, (x, y) -> scene.at(2 * (x - 1.5), 2 * (y + 1)));

    assertMaps(Registration.of(first, other), p -> new Point(p.x() / 2 + 1.5, p.y() / 2 - 1));
  }

  @Test
  void picturesLargerThanTheCopiesTheyAreComparedOnAreLaidOverWithinTwoPixels() {
    Drawn.Brightness scene = blobs(7, 60);
    GrayImage first = Drawn.picture(3 * WIDTH_PX, 3 * HEIGHT_PX, (x, y) -> scene.at(x / 3, y / 3));
    GrayImage other =
        Drawn.picture(3 * WIDTH_PX, 3 * HEIGHT_PX, (x, y) -> scene.at((x - 9) / 3, (y + 6) / 3));

    Homography found = Registration.of(first, other).orElseThrow();

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

  /** Dark and light blobs strewn over a picture. */
  private static Drawn.Brightness blobs(long seed, int n) {
    Random random = new Random(seed);
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
