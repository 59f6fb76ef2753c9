package rakelight.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import rakelight.finding.FoundLine;
import rakelight.photo.Frame;
import rakelight.picture.GrayImage;

class NearLookTest {
  private static final int LOOK_PX = 1280;

  @Test
  void lettersLargeEnoughNeedNoNearLook() {
    // 40 of 3,000 pixels are 17 of 1,280.
    assertThat(parts(3000, 2000, ViewBuilder.light().line("HANNAH WREN", .9, 1500))).isEmpty();
  }

  @Test
  void whereLettersAreSmallThePartAboutThemIsLookedAtWithRoomForLinesNotSeen() {
    ViewBuilder small =
        ViewBuilder.light()
            .line("HANNAH WREN", .9, 1800, 2200, 1500)
            .line("DIED 1848", .9, 1800, 2200, 1600);

    List<Frame> parts = parts(4000, 3000, small);

    assertThat(parts).hasSize(1);
    Frame part = parts.get(0);
    for (FoundLine line : found(small)) {
      line.ribbon()
          .points()
          .forEach(p -> assertThat(part.contains(p.x() - 200, p.y() - 200)).isTrue());
      line.ribbon()
          .points()
          .forEach(p -> assertThat(part.contains(p.x() + 200, p.y() + 200)).isTrue());
    }
    assertThat(part.widthPx()).isLessThan(2000);
  }

  @Test
  void aStoneThatFillsHalfThePictureGetsAsMuchRoomAsLeavesItsLettersLarger() {
    ViewBuilder half =
        ViewBuilder.light()
            .line("HANNAH WREN", .9, 1000, 3000, 1000)
            .line("DIED 1848", .9, 1000, 3000, 2000);

    List<Frame> parts = parts(4000, 3000, half);

    assertThat(parts).hasSize(1);
    assertThat(parts.get(0).widthPx()).isBetween(2400, 2802);
  }

  @Test
  void smallLettersAllOverThePictureAreNoLargerInAnyPart() {
    ViewBuilder all =
        ViewBuilder.light()
            .line("HANNAH WREN", .9, 300, 3700, 200)
            .line("DIED 1848", .9, 300, 3700, 2800);

    assertThat(parts(4000, 3000, all)).isEmpty();
  }

  @Test
  void whereNothingWasReadEveryQuarterIsLookedAt() {
    List<Frame> parts = parts(4000, 3000, ViewBuilder.light());

    assertThat(parts).hasSize(4);
    for (int x = 0; x < 4000; x += 50) {
      for (int y = 0; y < 3000; y += 50) {
        int at = x;
        int down = y;
        assertThat(parts).anyMatch(part -> part.contains(at, down));
      }
    }
  }

  @Test
  void aPictureThatWasSeenAsLargeAsItIsHasNoMoreToShow() {
    assertThat(parts(1600, 1200, ViewBuilder.light())).isEmpty();
  }

  private static List<Frame> parts(int widthPx, int heightPx, ViewBuilder lines) {
    GrayImage picture = new GrayImage(widthPx, heightPx, new byte[widthPx * heightPx]);
    return NearLook.parts(picture, lines.view().picture(), LOOK_PX);
  }

  private static List<FoundLine> found(ViewBuilder lines) {
    return lines.view().picture().lines().stream().map(ReadLine::line).toList();
  }
}
