package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;

class HeightMapTest {
  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  @Test
  void aFileKeepsHeightsToAThousandthOfAPixel() throws PictureException {
    float[] heights = new float[40 * 30];
    Random random = new Random(5);
    for (int i = 0; i < heights.length; i++) {
      heights[i] = random.nextFloat() * 60 - 30;
    }

    HeightMap back = HeightMap.ofPng(new HeightMap(40, 30, heights).png());

    assertThat(back.widthPx()).isEqualTo(40);
    assertThat(back.heightPx()).isEqualTo(30);
    for (int i = 0; i < heights.length; i++) {
      assertThat(back.heights()[i]).isCloseTo(heights[i], within(0.00051f));
    }
  }

  @Test
  void whatIsFartherThanAFileCanSayIsWrittenAsFarAsItCan() throws PictureException {
    HeightMap back = HeightMap.ofPng(new HeightMap(1, 2, new float[] {-1000, 1000}).png());

    assertThat(back.heights()[0]).isCloseTo(-32.768f, within(0.001f));
    assertThat(back.heights()[1]).isCloseTo(32.767f, within(0.001f));
  }

  @Test
  void aFileThatIsNoMapIsRefused() {
    byte[] grey = Picture.png(Drawn.picture(8, 8, (x, y) -> 128));

    assertThatThrownBy(() -> HeightMap.ofPng(grey)).isInstanceOf(PictureException.class);
    assertThatThrownBy(() -> HeightMap.ofPng("no".getBytes(StandardCharsets.UTF_8)))
        .isInstanceOf(PictureException.class);
    assertThatThrownBy(() -> HeightMap.ofPng(new byte[0])).isInstanceOf(PictureException.class);
  }

  @Test
  void aFlankTurnedToTheLightIsLightAndTheOtherDark() {
    // A groove from top to bottom; its left flank falls to the right.
    float[] heights = new float[60 * 20];
    for (int i = 0; i < heights.length; i++) {
      double x = i % 60 - 30;
      heights[i] = (float) (-3 * Math.exp(-x * x / 32));
    }
    HeightMap map = new HeightMap(60, 20, heights);

    GrayImage fromTheLeft = map.lit(LightDirection.raking(270, 20));
    GrayImage fromTheRight = map.lit(LightDirection.raking(90, 20));
    GrayImage fromAbove = map.lit(LightDirection.raking(0, 20));

    assertThat(fromTheLeft.at(25, 10)).isLessThan(60);
    assertThat(fromTheLeft.at(35, 10)).isGreaterThan(190);
    assertThat(fromTheRight.at(25, 10)).isGreaterThan(190);
    assertThat(fromTheRight.at(35, 10)).isLessThan(60);
    // Along the groove hardly anything shows.
    assertThat(fromAbove.at(25, 10)).isBetween(90, 129);
    assertThat(fromTheLeft.at(3, 10)).isEqualTo(128);
  }

  @Test
  void theLocalPlaneIsThatOfTheStoneNotOfItsLetters() {
    float[] heights = new float[200 * 200];
    for (int y = 0; y < 200; y++) {
      for (int x = 0; x < 200; x++) {
        // A leaning plane, strokes in a fifth of it.
        heights[y * 200 + x] = 0.01f * x - 0.005f * y - (x % 20 < 4 ? 3 : 0);
      }
    }

    HeightMap over = new HeightMap(200, 200, heights).overPlane(40);

    assertThat((double) over.heights()[100 * 200 + 110]).isCloseTo(0, within(0.5));
    assertThat((double) over.heights()[100 * 200 + 102]).isCloseTo(-3, within(0.5));
  }
}
