package rakelight.finding;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import rakelight.picture.GrayImage;
import rakelight.picture.Homography;
import rakelight.picture.NativeScope;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/** A chessboard photographed from several sides; one row of it is a line, a field a letter. */
class LineStripTest {
  private static final int HEIGHT_PX = 80;
  private static final double CAPITALS = 1.2;
  private static final int FIELDS = 12;

  /** Of the board, in its own units. */
  private static final double FIELD = 30;

  private static final double WIDTH = FIELDS * FIELD;
  private static final double HEIGHT = 5 * FIELD;

  /** Photographs of 900 x 600: from in front, from the left, from the right and below. */
  private static final Homography FRONT = seen(150, 150, 750, 150, 750, 400, 150, 400);

  private static final Homography LEFT = seen(120, 90, 780, 220, 780, 380, 120, 500);
  private static final Homography RIGHT = seen(100, 260, 800, 120, 860, 520, 60, 380);

  @AfterAll
  static void noNativeHandleIsLeft() {
    assertThat(NativeScope.live()).isZero();
  }

  private static Homography seen(double... c) {
    return Homography.ofRectangle(
        WIDTH,
        HEIGHT,
        List.of(
            new Point(c[0], c[1]),
            new Point(c[2], c[3]),
            new Point(c[4], c[5]),
            new Point(c[6], c[7])));
  }

  /** What lies at a place of the stone: dark or not. */
  private interface Stone {
    boolean dark(double x, double y);
  }

  private static boolean chessboard(double x, double y) {
    return (((int) Math.floor(x / FIELD)) + ((int) Math.floor(y / FIELD))) % 2 == 0;
  }

  /** Mean of sixteen rays for each pixel. */
  private static GrayImage photograph(Stone stone, Homography toPicture) {
    Homography toStone = toPicture.inverse();
    byte[] pixels = new byte[900 * 600];
    for (int y = 0; y < 600; y++) {
      for (int x = 0; x < 900; x++) {
        int light = 0;
        for (int i = 0; i < 16; i++) {
          Point p = toStone.map(new Point(x + (i % 4 + 0.5) / 4, y + (i / 4 + 0.5) / 4));
          light += stone.dark(p.x(), p.y()) ? 20 : 235;
        }
        pixels[y * 900 + x] = (byte) (light / 16);
      }
    }
    return new GrayImage(900, 600, pixels);
  }

  /** A line between two curves of the stone, as a finder would give it on a photograph. */
  private static FoundLine line(List<Point> top, List<Point> foot, Homography toPicture) {
    List<Point> ribbon = new ArrayList<>(top);
    for (int i = foot.size() - 1; i >= 0; i--) {
      ribbon.add(foot.get(i));
    }
    Polygon seen = new Polygon(ribbon).map(toPicture::map);
    double length = new FoundLine(seen, 1, 1).lengthPx();
    return new FoundLine(seen, seen.area() / length, 1);
  }

  /** Its second row but for the first and last field. */
  private static FoundLine row(Homography toPicture) {
    return line(
        List.of(new Point(FIELD, FIELD), new Point(WIDTH - FIELD, FIELD)),
        List.of(new Point(FIELD, 2 * FIELD), new Point(WIDTH - FIELD, 2 * FIELD)),
        toPicture);
  }

  /** Where light and dark change along the middle of a strip, as parts of its width. */
  private static List<Double> edges(GrayImage strip) {
    List<Double> edges = new ArrayList<>();
    int y = strip.heightPx() / 2;
    for (int x = 1; x < strip.widthPx(); x++) {
      double before = strip.at(x - 1, y) - 127.5;
      double here = strip.at(x, y) - 127.5;
      if (before * here < 0) {
        edges.add((x - 0.5 + before / (before - here)) / strip.widthPx());
      }
    }
    return edges;
  }

  /** The largest distance of the same edge in two strips, in widths of the letter there. */
  private static double apart(List<Double> own, List<Double> other) {
    assertThat(other).hasSameSizeAs(own);
    double largest = 0;
    for (int i = 0; i < own.size(); i++) {
      double letter =
          i + 1 < own.size() ? own.get(i + 1) - own.get(i) : own.get(i) - own.get(i - 1);
      largest = Math.max(largest, Math.abs(own.get(i) - other.get(i)) / letter);
    }
    return largest;
  }

  private static GrayImage strip(Stone stone, FoundLine line, Homography own, Homography other) {
    return LineStrip.cut(
        photograph(stone, other),
        new LaidLine(line, own.inverse().then(other)),
        LineStrip.widthPx(line, HEIGHT_PX, CAPITALS),
        HEIGHT_PX,
        CAPITALS);
  }

  @Test
  void grainThatAFinderTakesForAHairThinLineIsCutLikeAnyOther() {
    // Two pixels high and 1,900 long; and one that its face's slope draws out far over the picture.
    GrayImage picture = new GrayImage(2000, 100, new byte[200_000]);
    FoundLine hair = new FoundLine(Polygon.rectangle(50, 49, 1950, 51), 2, .4);
    Homography far = Homography.of(60, 0, 0, 0, 60, 0, 0, 0, 1);

    List<GrayImage> strips =
        LineStrip.cut(picture, List.of(LaidLine.own(hair), new LaidLine(hair, far)), 48, 1.5);

    assertThat(strips).hasSize(2).allSatisfy(strip -> assertThat(strip.heightPx()).isEqualTo(48));
  }

  @Test
  void theSameFieldOfAChessboardStandsInTheSameColumnFromWhateverSideItWasTaken() {
    for (Homography own : List.of(FRONT, LEFT, RIGHT)) {
      FoundLine line = row(own);
      List<Double> columns = edges(strip(LineStripTest::chessboard, line, own, own));
      assertThat(columns).hasSizeBetween(9, 12);
      for (Homography other : List.of(FRONT, LEFT, RIGHT)) {
        assertThat(apart(columns, edges(strip(LineStripTest::chessboard, line, own, other))))
            .isLessThan(0.05);
      }
    }
  }

  @Test
  void theLettersOfAnArchStandInTheSameColumnFromWhateverSideItWasTaken() {
    // Wedges of ten degrees round a point below the board, and a band of them that is a line.
    Point centre = new Point(WIDTH / 2, 260);
    Stone wedges =
        (x, y) ->
            Math.floorMod(
                    (int)
                        Math.floor(Math.toDegrees(Math.atan2(x - centre.x(), centre.y() - y)) / 10),
                    2)
                == 0;
    List<Point> top = new ArrayList<>();
    List<Point> foot = new ArrayList<>();
    for (double degrees = -40; degrees <= 40; degrees += 5) {
      double x = Math.sin(Math.toRadians(degrees));
      double y = -Math.cos(Math.toRadians(degrees));
      top.add(new Point(centre.x() + 215 * x, centre.y() + 215 * y));
      foot.add(new Point(centre.x() + 185 * x, centre.y() + 185 * y));
    }
    for (Homography own : List.of(FRONT, LEFT)) {
      FoundLine line = line(top, foot, own);
      List<Double> columns = edges(strip(wedges, line, own, own));
      assertThat(columns).hasSizeBetween(7, 10);
      for (Homography other : List.of(FRONT, LEFT, RIGHT)) {
        assertThat(apart(columns, edges(strip(wedges, line, own, other)))).isLessThan(0.1);
      }
    }
  }

  @Test
  void aLettersBoxLiesWhereItsColumnsWereCut() {
    FoundLine line = row(LEFT);
    List<Double> columns = edges(strip(LineStripTest::chessboard, line, LEFT, LEFT));
    for (Homography other : List.of(FRONT, RIGHT)) {
      Homography move = LEFT.inverse().then(other);
      for (int i = 0; i < columns.size() - 1; i++) {
        Polygon box =
            LineStrip.boxOf(line, columns.get(i), columns.get(i + 1))
                .map(move::map)
                .map(other.inverse()::map);
        double field = Math.rint(box.left() / FIELD);
        assertThat(box.left()).isCloseTo(field * FIELD, within(FIELD / 10));
        assertThat(box.right()).isCloseTo((field + 1) * FIELD, within(FIELD / 10));
      }
    }
  }

  @Test
  void fineGrainNearTheCameraIsMeanGreyNotNoise() {
    // Stripes finer than a strip's column where the stone is near: none may be left by chance.
    Stone stripes = (x, y) -> ((int) Math.floor(x)) % 2 == 0;
    Homography far = seen(300, 250, 420, 255, 420, 290, 300, 300);
    Homography near = seen(-900, -200, 800, 200, 800, 400, -900, 900);
    FoundLine line = row(far);

    GrayImage strip = strip(stripes, line, far, near);

    int y = strip.heightPx() / 2;
    for (int x = strip.widthPx() / 4; x < strip.widthPx() * 3 / 4; x++) {
      int mean = 0;
      for (int i = -4; i <= 4; i++) {
        mean += strip.at(x + i, y) / 9;
      }
      assertThat(mean).isBetween(90, 165);
    }
  }
}
