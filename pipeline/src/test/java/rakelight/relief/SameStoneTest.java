package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.samples.Material;
import rakelight.samples.RenderedPhotograph;
import rakelight.samples.Renderer;
import rakelight.samples.SampleFace;
import rakelight.samples.StoneMaker;
import rakelight.samples.Typeface;
import rakelight.samples.View;
import rakelight.samples.Weathering;

/** Two stones, each photographed twice, in another light and from elsewhere. */
class SameStoneTest {
  private static Features firstInSpring;
  private static Features firstInAutumn;
  private static Features secondInSpring;
  private static GrayImage picture;

  @BeforeAll
  static void photograph() throws Exception {
    SampleFace first = StoneMaker.random(71, Material.SLATE, Weathering.LIGHT, Typeface.SERIF);
    SampleFace second = StoneMaker.random(72, Material.MARBLE, Weathering.LIGHT, Typeface.ROMAN);
    picture = seen(first, 1);
    firstInSpring = FindFeatures.of(picture);
    firstInAutumn = FindFeatures.of(seen(first, 2));
    secondInSpring = FindFeatures.of(seen(second, 1));
  }

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  private static GrayImage seen(SampleFace face, long visit) throws Exception {
    View view = StoneMaker.view(face, 360, visit);
    RenderedPhotograph photograph = Renderer.render(face, view, visit);
    return Picture.upright(photograph.jpeg(), 1);
  }

  @Test
  void oneStoneInAnotherSeasonAgreesInManyPlaces() {
    assertThat(SameStone.agreeing(firstInSpring, firstInAutumn)).isGreaterThan(28);
  }

  @Test
  void twoStonesBeforeOneHedgeAgreeInFewPlaces() {
    assertThat(SameStone.agreeing(firstInSpring, secondInSpring)).isLessThan(14);
  }

  @Test
  void whatIsKeptOfAPhotographIsWhatWasFound() {
    Features again = Features.read(firstInSpring.bytes());

    assertThat(again.count()).isEqualTo(firstInSpring.count()).isGreaterThan(100);
    assertThat(again.place(7)).isEqualTo(firstInSpring.place(7));
    assertThat(again.difference(7, firstInSpring, 7)).isZero();
  }

  @Test
  void aPictureOnWhichNothingStandsOutLooksLikeNone() {
    Features nothing = FindFeatures.of(new GrayImage(300, 400, new byte[300 * 400]));

    assertThat(nothing.count()).isZero();
    assertThat(SameStone.agreeing(nothing, firstInSpring)).isZero();
    assertThat(SameStone.agreeing(firstInSpring, nothing)).isZero();
  }

  @Test
  void aPictureOnItsHeadIsNotTakenForTheSameStone() {
    byte[] turned = picture.pixels().clone();
    for (int i = 0, j = turned.length - 1; i < j; i++, j--) {
      byte kept = turned[i];
      turned[i] = turned[j];
      turned[j] = kept;
    }
    Features onItsHead =
        FindFeatures.of(new GrayImage(picture.widthPx(), picture.heightPx(), turned));

    assertThat(SameStone.agreeing(firstInSpring, onItsHead)).isZero();
  }
}
