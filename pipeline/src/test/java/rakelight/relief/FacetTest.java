package rakelight.relief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * The equations of R. J. Woodham, Optical Engineering 19(1):139-144, 1980, doi:10.1117/12.7972479:
 * I = albedo L n, g = inverse(L) I, albedo = |g|, n = g / albedo. The numbers were computed from
 * them apart from this code.
 */
class FacetTest {
  private static final List<LightDirection> AROUND =
      List.of(
          new LightDirection(.5, 0, .866025),
          new LightDirection(-.25, .433013, .866025),
          new LightDirection(-.25, -.433013, .866025));

  @Test
  void aFacetIsFoundBackFromWhatItThrowsBack() {
    Facet facet = Facet.of(AROUND, .565647, .503170, .452461);

    assertThat(facet.albedo()).isCloseTo(.6, within(1e-4));
    assertThat(facet.p()).isCloseTo(-.2, within(1e-4));
    assertThat(facet.q()).isCloseTo(-.1, within(1e-4));
  }

  @Test
  void albedoAndNormalComeApart() {
    Facet facet = Facet.of(AROUND, .5, .4, .3);

    assertThat(facet.albedo()).isCloseTo(.516398, within(1e-5));
    assertThat(facet.x()).isCloseTo(.387298, within(1e-5));
    assertThat(facet.y()).isCloseTo(.223607, within(1e-5));
    assertThat(facet.z()).isCloseTo(.894427, within(1e-5));
  }

  @Test
  void lightsAtRightAnglesNeedNoSymmetry() {
    Facet facet =
        Facet.of(
            List.of(
                new LightDirection(0, 0, 1),
                new LightDirection(1, 0, 1),
                new LightDirection(0, 1, 1)),
            .8,
            .9,
            .7);

    assertThat(facet.albedo()).isCloseTo(.948479, within(1e-5));
    assertThat(facet.x()).isCloseTo(.498474, within(1e-5));
    assertThat(facet.y()).isCloseTo(.200267, within(1e-5));
    assertThat(facet.z()).isCloseTo(.843455, within(1e-5));
  }

  @Test
  void lightsInOnePlaneOrFewerThanThreeAreRefused() {
    LightDirection left = new LightDirection(-1, 0, 1);
    LightDirection front = new LightDirection(0, 0, 1);
    LightDirection right = new LightDirection(1, 0, 1);

    assertThatThrownBy(() -> Facet.of(List.of(left, front, right), .5, .6, .5))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Facet.of(List.of(left, right), .5, .6))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Facet.of(List.of(left, front, right), .5, .6))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
