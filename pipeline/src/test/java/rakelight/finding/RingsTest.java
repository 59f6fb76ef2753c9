package rakelight.finding;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.picture.Point;

/** Words round a disc of 300 pixels' radius about (500, 500), letters 50 pixels high. */
class RingsTest {
  @Test
  void whatClimbsOneSideAndFallsOnTheOtherIsPutBeforeAndAfterTheTop() {
    List<LineDecoder.Line> lines =
        Rings.continued(List.of(arc(-50, 50)), List.of(arc(40, 140), arc(-140, -60)));

    assertThat(lines).hasSize(1);
    LineDecoder.Line ring = lines.get(0);
    assertThat(ring.first().distance(at(-140))).isLessThan(1);
    assertThat(ring.last().distance(at(140))).isLessThan(1);
    assertThat(ring.lengthPx()).isCloseTo(Math.toRadians(280) * 300, within(30.0));
    assertThat(ring.middle())
        .allSatisfy(p -> assertThat(p.distance(new Point(500, 500))).isCloseTo(300, within(8.0)));
  }

  @Test
  void whatIsSeenTwiceIsReadOnce() {
    List<LineDecoder.Line> lines =
        Rings.continued(List.of(arc(-50, 50), arc(60, 75)), List.of(arc(-60, 130)));

    assertThat(lines).hasSize(1);
    assertThat(lines.get(0).lengthPx()).isCloseTo(Math.toRadians(190) * 300, within(20.0));
  }

  @Test
  void linesUnderTheArchAndOnTheirSideBesideItArentPartOfIt() {
    LineDecoder.Line under = straight(new Point(300, 500), new Point(700, 500));
    LineDecoder.Line edge = straight(new Point(100, 900), new Point(100, 400));

    List<LineDecoder.Line> lines = Rings.continued(List.of(arc(-50, 50), under), List.of(edge));

    assertThat(lines).hasSize(2);
    assertThat(lines.get(0).lengthPx()).isCloseTo(Math.toRadians(100) * 300, within(10.0));
    assertThat(lines.get(1)).isSameAs(under);
  }

  @Test
  void aSingleLetterInTheMiddleIsALineOfItsOwn() {
    LineDecoder.Line letter = straight(new Point(485, 500), new Point(515, 500));

    assertThat(Rings.continued(List.of(arc(-140, 140), letter), List.of())).contains(letter);
  }

  @Test
  void lettersOfAnotherSizeAreAnotherLine() {
    List<LineDecoder.Line> lines =
        Rings.continued(List.of(arc(-50, 50)), List.of(arc(60, 140).moved(p -> p, 0.4)));

    assertThat(lines).hasSize(1);
    assertThat(lines.get(0).lengthPx()).isCloseTo(Math.toRadians(100) * 300, within(10.0));
  }

  @Test
  void straightLinesAreNotLookedAtAgain() {
    assertThat(Rings.bent(straight(new Point(0, 0), new Point(400, 30)))).isFalse();
    assertThat(Rings.bent(arc(-10, 10))).isFalse();
    assertThat(Rings.bent(arc(-30, 30))).isTrue();
  }

  private static Point at(double degrees) {
    double a = Math.toRadians(degrees);
    return new Point(500 + 300 * Math.sin(a), 500 - 300 * Math.cos(a));
  }

  /** Clockwise, degrees from the top. */
  private static LineDecoder.Line arc(int from, int to) {
    List<Point> middle = new ArrayList<>();
    for (int a = from; a <= to; a += 5) {
      middle.add(at(a));
    }
    return line(middle);
  }

  private static LineDecoder.Line straight(Point from, Point to) {
    return line(List.of(from, to));
  }

  private static LineDecoder.Line line(List<Point> middle) {
    double[] heights = new double[middle.size()];
    Arrays.fill(heights, 50);
    return new LineDecoder.Line(middle, heights, 0.9, 1, 0);
  }
}
