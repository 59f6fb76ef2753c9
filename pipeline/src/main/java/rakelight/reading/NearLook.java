package rakelight.reading;

import java.util.ArrayList;
import java.util.List;
import rakelight.finding.FoundLine;
import rakelight.photo.Frame;
import rakelight.picture.GrayImage;

/**
 * Which parts of a picture are to be looked at by themselves, because its letters are so small
 * beside the whole that a finder loses them there: a small stone seen from a path.
 */
final class NearLook {
  /**
   * Where capitals are lower than this in the finder's picture, lines are missed: on stones made
   * small in their picture, some at 12 pixels, most at 7.
   */
  private static final double SMALL_PX = 16;

  /**
   * A part longer than this against the whole shows its letters hardly any larger, so that it gets
   * less room.
   */
  private static final double LARGEST_PART = 0.7;

  /** Room about lines that were read, in their own width or height: others may stand there. */
  private static final double ROOM = 0.5;

  /** And in heights of capitals, since few lines may have been read. */
  private static final double ROOM_CAPITALS = 12;

  /** Less room cuts the ends of lines off. */
  private static final double LEAST_ROOM_CAPITALS = 2;

  /** Each of the four parts of a picture in which nothing was read; they overlap. */
  private static final double QUARTER = 0.58;

  private NearLook() {}

  /**
   * The parts worth a look: the one about small lines, or four where nothing was read; none where
   * letters are large enough or the picture has no more to show.
   *
   * @param read what was read so far
   * @param lookPx the long side of the picture as the finder saw it
   */
  static List<Frame> parts(GrayImage upright, ReadPicture read, int lookPx) {
    int longSide = Math.max(upright.widthPx(), upright.heightPx());
    double scale = (double) lookPx / longSide;
    if (scale > LARGEST_PART) {
      return List.of();
    }
    List<FoundLine> lines = read.lines().stream().map(ReadLine::line).toList();
    if (lines.isEmpty()) {
      return scale > LARGEST_PART * QUARTER ? List.of() : quarters(upright);
    }
    List<Double> heights = lines.stream().map(FoundLine::heightPx).sorted().toList();
    double middle = heights.get(heights.size() / 2);
    if (middle * scale >= SMALL_PX) {
      return List.of();
    }
    double longest = LARGEST_PART * longSide; // Frames are whole pixels, so up to 2 more.
    Frame part = about(upright, lines, middle, longest);
    boolean smaller = Math.max(part.widthPx(), part.heightPx()) <= longest + 2;
    return smaller ? List.of(part) : List.of();
  }

  private static Frame about(
      GrayImage upright, List<FoundLine> lines, double capitalPx, double longestPx) {
    double left = lines.stream().mapToDouble(line -> line.ribbon().left()).min().orElseThrow();
    double right = lines.stream().mapToDouble(line -> line.ribbon().right()).max().orElseThrow();
    double top = lines.stream().mapToDouble(line -> line.ribbon().top()).min().orElseThrow();
    double bottom = lines.stream().mapToDouble(line -> line.ribbon().bottom()).max().orElseThrow();
    double across = room(right - left, capitalPx, longestPx);
    double down = room(bottom - top, capitalPx, longestPx);
    return within(upright, left - across, top - down, right + across, bottom + down);
  }

  /** How much is added on either side of lines that take up so much. */
  private static double room(double extentPx, double capitalPx, double longestPx) {
    double wanted = ROOM * extentPx + ROOM_CAPITALS * capitalPx;
    double there = (longestPx - extentPx) / 2;
    return Math.min(wanted, Math.max(LEAST_ROOM_CAPITALS * capitalPx, there));
  }

  private static List<Frame> quarters(GrayImage upright) {
    double width = QUARTER * upright.widthPx();
    double height = QUARTER * upright.heightPx();
    List<Frame> parts = new ArrayList<>();
    for (double top : new double[] {0, upright.heightPx() - height}) {
      for (double left : new double[] {0, upright.widthPx() - width}) {
        parts.add(within(upright, left, top, left + width, top + height));
      }
    }
    return parts;
  }

  private static Frame within(
      GrayImage upright, double left, double top, double right, double bottom) {
    int x = (int) Math.max(0, left);
    int y = (int) Math.max(0, top);
    int toX = (int) Math.min(upright.widthPx(), Math.ceil(right));
    int toY = (int) Math.min(upright.heightPx(), Math.ceil(bottom));
    return new Frame(x, y, toX - x, toY - y);
  }
}
