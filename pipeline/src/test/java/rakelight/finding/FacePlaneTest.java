package rakelight.finding;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * Lines on a plane whose place before the camera is known, projected by the pinhole of Hartley and
 * Zisserman, Multiple View Geometry, 2nd edition, chapter 6 (from memory), written anew here.
 */
class FacePlaneTest {
  private static final int WIDTH_PX = 1600;
  private static final int HEIGHT_PX = 2100;

  /** The lens that is assumed: 32 mm before a 24 x 36 mm frame. */
  private static final double FOCAL_PX = 32 / 43.27 * Math.hypot(WIDTH_PX, HEIGHT_PX);

  /** From a stone in front of the camera, millimetres about its middle, y down, to the picture. */
  private record Camera(double asideDegrees, double aboveDegrees, double rollDegrees) {
    Point seen(double x, double y) {
      double a = Math.toRadians(asideDegrees);
      double b = Math.toRadians(aboveDegrees);
      double r = Math.toRadians(rollDegrees);
      // The stone turned about its own upright, then the camera tipped, then turned about its axis.
      double x1 = x * Math.cos(a);
      double z1 = x * Math.sin(a);
      double y2 = y * Math.cos(b) - z1 * Math.sin(b);
      double z2 = y * Math.sin(b) + z1 * Math.cos(b) + 1500;
      double u = FOCAL_PX * x1 / z2;
      double v = FOCAL_PX * y2 / z2;
      return new Point(
          WIDTH_PX / 2.0 + u * Math.cos(r) - v * Math.sin(r),
          HEIGHT_PX / 2.0 + u * Math.sin(r) + v * Math.cos(r));
    }

    /** A line as the finder gives it: its ends square to it and as tall as letters are there. */
    FoundLine line(double left, double right, double middle, double capitalMm) {
      List<Point> top = new ArrayList<>();
      List<Point> foot = new ArrayList<>();
      Point from = seen(left, middle);
      Point to = seen(right, middle);
      double length = from.distance(to);
      double nx = -(to.y() - from.y()) / length;
      double ny = (to.x() - from.x()) / length;
      double heights = 0;
      for (double x : new double[] {left, right}) {
        Point at = seen(x, middle);
        Point above = seen(x, middle - capitalMm / 2);
        Point below = seen(x, middle + capitalMm / 2);
        double tall = (below.x() - above.x()) * nx + (below.y() - above.y()) * ny;
        heights += tall / 2;
        top.add(new Point(at.x() - nx * tall / 2, at.y() - ny * tall / 2));
        foot.add(0, new Point(at.x() + nx * tall / 2, at.y() + ny * tall / 2));
      }
      top.addAll(foot);
      return new FoundLine(new Polygon(top), heights, 0.9);
    }

    List<FoundLine> lines() {
      return List.of(
          line(-150, 150, -200, 30),
          line(-200, 200, -110, 45),
          line(-180, 180, -20, 30),
          line(-120, 120, 60, 25),
          line(-200, 200, 140, 25),
          line(-100, 100, 210, 25));
    }

    FacePlane plane() {
      return FacePlane.of(WIDTH_PX, HEIGHT_PX, lines());
    }
  }

  @Property(tries = 100)
  void linesOfASquaredFaceAreLevelAndItsStemsNearlyUpright(
      @ForAll @DoubleRange(min = -45, max = 45) double aside,
      @ForAll @DoubleRange(min = -25, max = 30) double above,
      @ForAll @DoubleRange(min = -1.5, max = 1.5) double roll) {
    Camera camera = new Camera(aside, above, roll);
    Homography toPlane = camera.plane().toPicture(camera.seen(0, 0)).inverse();

    for (double y : new double[] {-200, 0, 200}) {
      Point from = toPlane.map(camera.seen(-200, y));
      Point to = toPlane.map(camera.seen(200, y));
      assertThat(Math.toDegrees(Math.atan2(to.y() - from.y(), to.x() - from.x())))
          .as("slope of the line at %s mm", y)
          .isCloseTo(0, within(1.0));
    }
    for (double x : new double[] {-200, 0, 200}) {
      Point from = toPlane.map(camera.seen(x, -200));
      Point to = toPlane.map(camera.seen(x, 200));
      assertThat(Math.toDegrees(Math.atan2(to.x() - from.x(), to.y() - from.y())))
          .as("slant of the stem at %s mm", x)
          .isCloseTo(0, within(7.0));
    }
  }

  @Test
  void aStoneSeenFromTheSideComesOutInItsProportions() {
    Camera camera = new Camera(38, 22, 0);
    List<Point> corners =
        List.of(
            camera.seen(-250, -300),
            camera.seen(250, -300),
            camera.seen(250, 300),
            camera.seen(-250, 300));

    assertThat(camera.plane().proportion(corners)).isCloseTo(500.0 / 600, within(0.08));
  }

  @Test
  void aLeaningStoneSeenFromInFrontIsTurnedUprightAndNotTakenForOneSeenFromTheSide() {
    Camera camera = new Camera(0, 0, 12);
    Homography toPlane = camera.plane().toPicture(camera.seen(0, 0)).inverse();

    Point foot = toPlane.map(camera.seen(0, 200));
    assertThat(Math.toDegrees(Math.atan2(foot.x(), foot.y()))).isCloseTo(0, within(1.0));
  }

  @Test
  void twoLinesTellHowTheFaceIsTurnedAndNoMore() {
    Camera camera = new Camera(30, 20, 0);
    List<FoundLine> two = camera.lines().subList(0, 2);
    Homography toPlane = FacePlane.of(WIDTH_PX, HEIGHT_PX, two).toPicture(new Point(800, 1050));

    assertThat(toPlane.rows().subList(6, 8)).allSatisfy(v -> assertThat(v).isZero());
  }

  @Test
  void aLineThatStraysDoesNotPullTheOthers() {
    Camera camera = new Camera(35, 10, 0);
    List<FoundLine> lines = new ArrayList<>(camera.lines());
    lines.add(
        new FoundLine(
            new Polygon(
                List.of(
                    new Point(600, 1700),
                    new Point(1000, 1900),
                    new Point(985, 1930),
                    new Point(585, 1730))),
            34,
            0.6));
    Homography toPlane =
        FacePlane.of(WIDTH_PX, HEIGHT_PX, lines).toPicture(camera.seen(0, 0)).inverse();

    for (double y : new double[] {-200, 200}) {
      Point from = toPlane.map(camera.seen(-200, y));
      Point to = toPlane.map(camera.seen(200, y));
      assertThat(Math.toDegrees(Math.atan2(to.y() - from.y(), to.x() - from.x())))
          .isCloseTo(0, within(1.0));
    }
  }

  @Test
  void theEndsOfABandedLineStandAsStemsDo() {
    Camera camera = new Camera(38, -20, 0);
    FoundLine line = camera.plane().banded(camera.line(-200, 200, -110, 45));

    Point top = line.top().get(0);
    Point foot = line.foot().get(0);
    double slant = Math.atan2(foot.x() - top.x(), foot.y() - top.y());
    Point above = camera.seen(-200, -132.5);
    Point below = camera.seen(-200, -87.5);
    double stem = Math.atan2(below.x() - above.x(), below.y() - above.y());
    assertThat(Math.toDegrees(slant - stem)).isCloseTo(0, within(3.0));
    assertThat(top.distance(foot)).isCloseTo(above.distance(below), within(2.0));
  }
}
