package rakelight.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;

class HomographyTest {
  @Property
  void thereAndBackLeavesAPointWhereItWas(
      @ForAll @DoubleRange(min = -1, max = 1) double skew,
      @ForAll @DoubleRange(min = -1, max = 1) double tilt,
      @ForAll @DoubleRange(max = 3000) double x,
      @ForAll @DoubleRange(max = 3000) double y) {
    Homography there = Homography.of(2, skew, 30, -skew, 1.5, -7, tilt * 1e-4, -tilt * 1e-4, 1);
    Point back = there.inverse().map(there.map(new Point(x, y)));

    assertThat(back.x()).isCloseTo(x, within(1e-5));
    assertThat(back.y()).isCloseTo(y, within(1e-5));
  }

  @Property
  void oneAfterTheOtherMapsLikeBoth(
      @ForAll @DoubleRange(max = 1000) double x, @ForAll @DoubleRange(max = 1000) double y) {
    Homography a = Homography.of(1, .1, 3, 0, 2, 4, 1e-4, 0, 1);
    Homography b = Homography.of(.5, 0, 9, .2, 1, 0, 0, 2e-4, 1);
    Point both = a.then(b).map(new Point(x, y));
    Point steps = b.map(a.map(new Point(x, y)));

    assertThat(both.distance(steps)).isLessThan(1e-6);
  }
}
