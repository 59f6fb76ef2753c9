package rakelight.finding;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.picture.Polygon;

class FaceOutlineTest {
  @Test
  void aStoneWithOneLineHasAnOutlineAroundIt() {
    FoundLine line = new FoundLine(Polygon.rectangle(300, 400, 700, 440), 40, 1);
    List<FoundLine> lines = List.of(line);

    Polygon outline = FaceOutline.of(1000, 1200, FacePlane.of(1000, 1200, lines), lines, List.of());

    assertThat(outline.left()).isLessThan(300);
    assertThat(outline.right()).isGreaterThan(700);
    assertThat(outline.top()).isLessThan(400);
    assertThat(outline.bottom()).isGreaterThan(440);
  }
}
