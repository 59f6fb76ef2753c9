package rakelight.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import rakelight.archive.Sha256;
import rakelight.finding.FoundLine;
import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.reading.Views.Seen;
import rakelight.reading.Views.View;

/**
 * Second looks at a picture, pooled with the first: in another size, since letters seen from very
 * near are found only when they are made small, and where lines are faint. Lines that the first
 * look read well aren't read again; of what overlaps, the look is kept that has the largest {@link
 * LineLattice#surplus}.
 */
final class SecondLook {
  /** A line whose letters are as sure as this on average needs no second look. */
  private static final double SURE = 0.95;

  /** One found at the same place again needs none if its letters are as sure as this. */
  private static final double SURE_OF_ALIKE = 0.7;

  /** Lines that share this part of the longer one's length are found at the same place. */
  private static final double ALIKE = 0.93;

  /** Lines that cover this part of another's length leave nothing of it unread. */
  private static final double COVERED = 0.9;

  /** By so many letters another look has to be better than the first. */
  private static final double LEAST_GAIN = 0.5;

  private SecondLook() {}

  /**
   * The lines of another look that are worth reading: those that the first has not, or not whole,
   * or read unsurely. None on a stone beside the inscribed one.
   */
  static List<FoundLine> worthReading(ReadPicture first, List<FoundLine> other) {
    return other.stream()
        .filter(line -> !onOtherStone(first, line) && !readWell(first, line))
        .toList();
  }

  /** Whether none of the lines of a picture covers a place, which lies on no stone beside it. */
  static boolean isLeft(ReadPicture read, FoundLine place) {
    Polygon ribbon = place.ribbon().map(read::level);
    return !onOtherStone(read, place)
        && read.lines().stream()
            .map(known -> known.line().ribbon().map(read::level))
            .noneMatch(known -> Overlaid.touch(ribbon, known));
  }

  private static boolean onOtherStone(ReadPicture first, FoundLine line) {
    List<Point> middle = line.middle();
    Point half = middle.get(0).towards(middle.get(middle.size() - 1), 0.5);
    return first.otherStones().stream().anyMatch(stone -> stone.contains(half));
  }

  private static boolean readWell(ReadPicture first, FoundLine line) {
    Polygon ribbon = line.ribbon().map(first::level);
    double covered = 0;
    double least = 1;
    boolean alike = false;
    for (ReadLine known : first.lines()) {
      Polygon other = known.line().ribbon().map(first::level);
      if (Overlaid.overlap(ribbon, other)) {
        double shared =
            Math.min(ribbon.right(), other.right()) - Math.max(ribbon.left(), other.left());
        covered += shared;
        least = Math.min(least, known.lattice().sureness());
        alike |= shared >= ALIKE * Math.max(width(ribbon), width(other));
      }
    }
    return covered >= COVERED * width(ribbon) && least >= (alike ? SURE_OF_ALIKE : SURE);
  }

  private static double width(Polygon ribbon) {
    return ribbon.right() - ribbon.left();
  }

  /**
   * The first look with what others saw better, in reading order.
   *
   * @param others what was read of their lines, look by look
   */
  static ReadPicture pooled(ReadPicture first, List<List<ReadLine>> others) {
    Sha256 leading = named(0);
    List<View> looks = new ArrayList<>(List.of(look(leading, first)));
    others.forEach(lines -> looks.add(look(named(looks.size()), first.withLines(lines))));
    return first.withLines(
        Overlaid.best(looks, seen -> worth(seen, leading)).stream().map(Seen::line).toList());
  }

  private static double worth(Seen seen, Sha256 leading) {
    double surplus = seen.line().lattice().surplus();
    return seen.original().equals(leading) ? surplus : surplus - LEAST_GAIN;
  }

  /** All looks are at one picture: they are told apart as photographs are. */
  private static Sha256 named(int look) {
    return Sha256.of("look " + look);
  }

  private static View look(Sha256 name, ReadPicture picture) {
    return new View(name, picture, Optional.of(Homography.identity()));
  }
}
