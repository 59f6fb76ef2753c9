package rakelight.finding;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import rakelight.picture.GrayImage;
import rakelight.picture.NativeScope;
import rakelight.picture.Picture;
import rakelight.picture.PictureException;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.samples.Samples;

/** The committed weights on carried photographs, whose lines are known. */
class CarvedLineFinderTest {
  private static CarvedLineFinder finder;
  private static int handlesBefore;

  @BeforeAll
  static void load() {
    handlesBefore = NativeScope.live();
    finder = new CarvedLineFinder();
  }

  @AfterAll
  static void leavesNoHandleBehind() {
    finder.close();
    assertThat(NativeScope.live()).isEqualTo(handlesBefore);
  }

  @Test
  void everyLineOfALegibleStoneIsFound() throws PictureException {
    Found found = find("M37-E.jpg");

    assertThat(trueLines("M37-E.jpg"))
        .allSatisfy(
            box ->
                assertThat(found.lines()).anyMatch(line -> box.contains(line.ribbon().centre())));
  }

  @Test
  void linesComeFromTopToBottom() throws PictureException {
    List<FoundLine> lines = find("M37-E.jpg").lines();

    assertThat(lines).hasSizeGreaterThan(3);
    assertThat(lines)
        .isSortedAccordingTo(Comparator.comparingDouble(line -> line.ribbon().centre().y()));
  }

  @Test
  void theFaceHoldsItsLines() throws PictureException {
    Found found = find("M37-E.jpg");

    assertThat(found.lines())
        .allSatisfy(line -> assertThat(found.face().contains(line.ribbon().centre())).isTrue());
  }

  @Test
  void aPictureWithoutLettersHasNoLines() {
    byte[] pixels = new byte[640 * 480];
    java.util.Arrays.fill(pixels, (byte) 120);

    assertThat(finder.find(new GrayImage(640, 480, pixels)).lines()).isEmpty();
  }

  private static Found find(String name) throws PictureException {
    return finder.find(Picture.upright(Samples.bytes(name), 1));
  }

  /** Outlines of the lines of a carried photograph, from boxes.tsv: file, line, x,y x,y ... */
  private static List<Polygon> trueLines(String name) {
    List<Polygon> boxes = new ArrayList<>();
    for (String row : new String(Samples.bytes("boxes.tsv"), StandardCharsets.UTF_8).split("\n")) {
      String[] fields = row.split("\t");
      if (fields[0].equals(name)) {
        List<Point> points = new ArrayList<>();
        for (String point : fields[2].trim().split(" ")) {
          String[] xy = point.split(",");
          points.add(new Point(Double.parseDouble(xy[0]), Double.parseDouble(xy[1])));
        }
        boxes.add(new Polygon(points));
      }
    }
    return boxes;
  }
}
