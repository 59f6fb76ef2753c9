package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Polygon;

class OverlayTest {

  @Test
  void linesAndLettersAreDrawnOnThePhotographDoubtfulOnesInAnotherColour() throws IOException {
    byte[] pixels = new byte[800 * 400];
    Arrays.fill(pixels, (byte) 128);
    BufferedImage drawn =
        ImageIO.read(
            new ByteArrayInputStream(
                Overlay.jpeg(
                    new GrayImage(800, 400, pixels),
                    Polygon.rectangle(20, 20, 780, 380),
                    List.of(
                        new Overlay.Line(
                            7,
                            Polygon.rectangle(100, 100, 700, 200),
                            List.of(
                                new Overlay.Letter(Polygon.rectangle(120, 120, 220, 180), true),
                                new Overlay.Letter(
                                    Polygon.rectangle(320, 120, 420, 180), false)))))));
    assertThat(drawn.getWidth()).isEqualTo(800);
    assertThat(redness(drawn, 600, 350)).isBetween(-12, 12);
    assertThat(redness(drawn, 600, 200)).as("foot of the line").isGreaterThan(40);
    assertThat(redness(drawn, 320, 150)).as("doubtful letter").isGreaterThan(40);
    assertThat(redness(drawn, 120, 150)).as("sure letter").isLessThan(-15);
    assertThat(NativeScope.live()).isZero();
  }

  private static int redness(BufferedImage picture, int x, int y) {
    int rgb = picture.getRGB(x, y);
    return (rgb >> 16 & 0xff) - (rgb & 0xff);
  }
}
