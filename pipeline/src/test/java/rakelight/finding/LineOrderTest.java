package rakelight.finding;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.picture.Polygon;

class LineOrderTest {
  private static FoundLine line(double left, double middle, double right, double height) {
    return new FoundLine(
        Polygon.rectangle(left, middle - height / 2, right, middle + height / 2), height, 0.9);
  }

  @Test
  void twoPiecesWithAWordSpaceBetweenThemAreOneLine() {
    List<FoundLine> lines =
        LineOrder.joined(List.of(line(150, 20, 300, 20), line(10, 22, 130, 18)));

    assertThat(lines).hasSize(1);
    assertThat(lines.get(0).ribbon().left()).isEqualTo(10);
    assertThat(lines.get(0).ribbon().right()).isEqualTo(300);
    assertThat(lines.get(0).top()).hasSize(4);
  }

  @Test
  void theTwoColumnsOfADoubleStoneStayApart() {
    assertThat(LineOrder.joined(List.of(line(0, 20, 100, 20), line(180, 20, 280, 20)))).hasSize(2);
  }

  @Test
  void hugeCapitalsDoNotSwallowTheSmallLineBesideThem() {
    assertThat(LineOrder.joined(List.of(line(0, 20, 100, 40), line(110, 20, 200, 12)))).hasSize(2);
  }

  @Test
  void linesAreReadFromTheTopAndColumnsFromTheLeft() {
    FoundLine top = line(50, 10, 150, 20);
    FoundLine left = line(0, 61, 80, 20);
    FoundLine right = line(120, 59, 200, 20);
    FoundLine foot = line(50, 110, 150, 20);

    assertThat(LineOrder.inReadingOrder(List.of(foot, right, left, top)))
        .containsExactly(top, left, right, foot);
  }
}
