package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;

/** Strokes cut into a plane with a stain, drawn by Lambert's law. */
class RakingSetTest {
  private static final int WIDTH_PX = 400;
  private static final int HEIGHT_PX = 300;
  private static final double CAPITAL_PX = 40;

  /** Round hollows and ridges of strokes: left, top, right, bottom. */
  private static final double[][] STROKES = {
    {80, 60, 80, 110}, {120, 60, 160, 60}, {200, 60, 240, 110}, {60, 160, 120, 160},
    {160, 150, 160, 200}, {210, 200, 250, 150}, {300, 190, 350, 190}, {330, 230, 330, 270},
    {80, 230, 130, 270}, {190, 250, 240, 250}
  };

  private static final List<LightDirection> FOUR =
      List.of(
          LightDirection.raking(280, 25),
          LightDirection.raking(335, 20),
          LightDirection.raking(25, 25),
          LightDirection.raking(80, 22));

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void whatIsCutIsDarkAllOverAndAStainDoesNotShow() {
    RakingSet set = RakingSet.of(shots(FOUR, 1, true), CAPITAL_PX).orElseThrow();

    assertThat(set.source()).isEqualTo(RakingSet.LightSource.KNOWN);
    assertCutAndNoStain(set);
  }

  @Test
  void lightsThatNobodyKnowsAreFoundFromTheShading() {
    RakingSet set = RakingSet.of(shots(FOUR, 1, false), CAPITAL_PX).orElseThrow();

    assertThat(set.source()).isEqualTo(RakingSet.LightSource.ESTIMATED);
    for (int k = 0; k < FOUR.size(); k++) {
      double apart =
          set.lights().get(k).orElseThrow().aroundDegrees() - FOUR.get(k).aroundDegrees();
      assertThat(Math.abs((apart + 540) % 360 - 180)).as("light %d", k).isLessThan(25);
    }
    assertCutAndNoStain(set);
  }

  @Test
  void raisedLettersAreDarkToo() {
    RakingSet set = RakingSet.of(shots(FOUR, -1, true), CAPITAL_PX).orElseThrow();

    assertCutAndNoStain(set);
  }

  @Test
  void twoLightsShowWhatRunsAcrossTheirLine() {
    List<LightDirection> two = List.of(FOUR.get(0), FOUR.get(3));
    for (boolean known : new boolean[] {true, false}) {
      RakingSet set = RakingSet.of(shots(two, 1, known), CAPITAL_PX).orElseThrow();

      assertThat(set.source()).isEqualTo(RakingSet.LightSource.ONE_LINE);
      assertThat(set.depth().image().at(80, 85)).as("upright stroke").isLessThan(130);
      assertThat(set.depth().image().at(160, 175)).as("upright stroke").isLessThan(130);
    }
  }

  @Test
  void threeLightsInOneLineDoNotDivideByNothing() {
    List<LightDirection> line =
        List.of(
            LightDirection.raking(90, 20),
            LightDirection.raking(90, 50),
            LightDirection.raking(270, 20));

    RakingSet set = RakingSet.of(shots(line, 1, true), CAPITAL_PX).orElseThrow();

    assertThat(set.source()).isEqualTo(RakingSet.LightSource.ONE_LINE);
    assertThat(set.heights().heights()).doesNotContain(Float.NaN);
  }

  @Test
  void aShotOfSomethingElseIsLeftOutAndTheRestGoesOn() {
    List<RakingSet.Shot> shots = new ArrayList<>(shots(FOUR, 1, true));
    RakingSet without = RakingSet.of(shots, CAPITAL_PX).orElseThrow();
    GrayImage elsewhere =
        Drawn.picture(WIDTH_PX, HEIGHT_PX, (x, y) -> 128 + 60 * Math.sin(x / 9) * Math.cos(y / 7));
    shots.add(2, new RakingSet.Shot(elsewhere, Optional.of(FOUR.get(1))));

    RakingSet with = RakingSet.of(shots, CAPITAL_PX).orElseThrow();

    assertThat(with.lights().get(2)).isEmpty();
    assertThat(with.depth().image().pixels()).isEqualTo(without.depth().image().pixels());
  }

  @Test
  void shotsOfOtherSizesAreLaidOverTheFirst() {
    List<RakingSet.Shot> shots = new ArrayList<>(shots(FOUR, 1, true));
    GrayImage half =
        Drawn.picture(
            WIDTH_PX / 2,
            HEIGHT_PX / 2,
            (x, y) -> shaded(FOUR.get(2), 1, 2 * x + 0.5, 2 * y + 0.5));
    shots.set(2, new RakingSet.Shot(half, Optional.of(FOUR.get(2))));

    RakingSet set = RakingSet.of(shots, CAPITAL_PX).orElseThrow();

    assertThat(set.lights()).allMatch(Optional::isPresent);
    assertCutAndNoStain(set);
  }

  @Test
  void oneShotOrAnEmptyOneGivesNothing() {
    List<RakingSet.Shot> shots = shots(FOUR, 1, true);
    GrayImage grey = Drawn.picture(WIDTH_PX, HEIGHT_PX, (x, y) -> 128);

    assertThat(RakingSet.of(List.of(), CAPITAL_PX)).isEmpty();
    assertThat(RakingSet.of(shots.subList(0, 1), CAPITAL_PX)).isEmpty();
    assertThat(
            RakingSet.of(
                List.of(shots.get(0), new RakingSet.Shot(grey, Optional.empty())), CAPITAL_PX))
        .isEmpty();
  }

  @Test
  void theShapeIsAsDeepAsItWasCut() {
    RakingSet set = RakingSet.of(shots(FOUR, 1, true), CAPITAL_PX).orElseThrow();

    assertThat((double) set.heights().heights()[85 * WIDTH_PX + 80]).isCloseTo(-2, within(0.6));
  }

  private static void assertCutAndNoStain(RakingSet set) {
    GrayImage depth = set.depth().image();
    assertThat(depth.widthPx()).isEqualTo(WIDTH_PX);
    assertThat(depth.heightPx()).isEqualTo(HEIGHT_PX);
    for (double[] stroke : STROKES) {
      int x = (int) (stroke[0] + stroke[2]) / 2;
      int y = (int) (stroke[1] + stroke[3]) / 2;
      assertThat(depth.at(x, y)).as("stroke at %d, %d", x, y).isLessThan(180);
    }
    for (int x = 260; x <= 380; x += 4) {
      assertThat(depth.at(x, 110)).as("stain at %d", x).isGreaterThan(190);
    }
  }

  private static List<RakingSet.Shot> shots(List<LightDirection> lights, int cut, boolean known) {
    return lights.stream()
        .map(
            light ->
                new RakingSet.Shot(
                    Drawn.picture(WIDTH_PX, HEIGHT_PX, (x, y) -> shaded(light, cut, x, y)),
                    known ? Optional.of(light) : Optional.empty()))
        .toList();
  }

  /** Brightness as a file has it (sRGB's curve, nearly a power of 2.2). */
  private static double shaded(LightDirection light, int cut, double x, double y) {
    double p = -cut * (depth(x + 0.5, y) - depth(x - 0.5, y));
    double q = -cut * (depth(x, y - 0.5) - depth(x, y + 0.5));
    double shade =
        Math.max(0, (light.z() - p * light.x() - q * light.y()) / Math.sqrt(1 + p * p + q * q));
    double stain = 1 / (1 + Math.exp((Math.hypot(x - 320, y - 110) - 35) / 2));
    return 255 * Math.pow(0.25 * shade / light.z() * (1 - .5 * stain), 1 / 2.2);
  }

  /** Depth in pixels: grooves 2 deep and 3 wide at half their depth. */
  private static double depth(double x, double y) {
    double deepest = 0;
    for (double[] s : STROKES) {
      double along =
          ((x - s[0]) * (s[2] - s[0]) + (y - s[1]) * (s[3] - s[1]))
              / (Math.pow(s[2] - s[0], 2) + Math.pow(s[3] - s[1], 2));
      double t = Math.max(0, Math.min(1, along));
      double away = Math.hypot(x - s[0] - t * (s[2] - s[0]), y - s[1] - t * (s[3] - s[1]));
      deepest = Math.max(deepest, 2 * Math.exp(-away * away / 18));
    }
    return deepest;
  }
}
