package rakelight.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

class QuarterTurnTest {
  @Test
  void everyPixelComesFromWhereItsCentreLiesOnThePictureAsItWas() {
    Random random = new Random(11);
    for (int n = 0; n < 40; n++) {
      GrayImage picture = picture(random);
      QuarterTurn turn = QuarterTurn.of(picture, random.nextInt(-5, 9));

      GrayImage turned = turn.turned(picture);

      for (int y = 0; y < turned.heightPx(); y++) {
        for (int x = 0; x < turned.widthPx(); x++) {
          Point from = turn.back(new Point(x + 0.5, y + 0.5));
          assertThat(turned.at(x, y)).isEqualTo(picture.at((int) from.x(), (int) from.y()));
        }
      }
    }
  }

  @Test
  void aQuarterClockwiseBringsTheTopLeftCornerToTheTopRight() {
    GrayImage picture = new GrayImage(2, 1, new byte[] {7, 9});

    GrayImage turned = QuarterTurn.of(picture, 1).turned(picture);

    assertThat(turned.widthPx()).isEqualTo(1);
    assertThat(turned.at(0, 0)).isEqualTo(7);
    assertThat(turned.at(0, 1)).isEqualTo(9);
  }

  private static GrayImage picture(Random random) {
    int width = random.nextInt(1, 9);
    int height = random.nextInt(1, 9);
    byte[] pixels = new byte[width * height];
    random.nextBytes(pixels);
    return new GrayImage(width, height, pixels);
  }
}
