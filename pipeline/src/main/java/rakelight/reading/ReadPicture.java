package rakelight.reading;

import java.util.List;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import rakelight.photo.Frame;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * What was found and read on one picture.
 *
 * @param face the outline of the inscribed face, four corners in upright full-size pixels
 * @param proportion width by height of the face as seen from in front
 * @param lines in reading order; none where nothing was found
 * @param emblems outlines of carvings that aren't letters, the largest first
 * @param otherStones outlines of stones beside the inscribed one, the largest first
 * @param passedOver where a line may be that is none of these, with what was read there: see {@link
 *     LineOdds}; none in readings kept before they were
 */
public record ReadPicture(
    Polygon face,
    double proportion,
    List<ReadLine> lines,
    List<Polygon> emblems,
    List<Polygon> otherStones,
    List<ReadLine> passedOver) {
  /** Mean probability of letters that are read well: two of 57 upright stones have less. */
  private static final double READ_WELL = 0.78;

  /** From this on nobody asks whether they stand on their heads: such had up to 0.80. */
  private static final double SURELY_UPRIGHT = 0.9;

  public ReadPicture {
    lines = List.copyOf(lines);
    emblems = List.copyOf(emblems);
    otherStones = List.copyOf(otherStones);
    passedOver = passedOver == null ? List.of() : List.copyOf(passedOver); // Unknown before.
  }

  /** A picture on which nothing was passed over. */
  ReadPicture(
      Polygon face,
      double proportion,
      List<ReadLine> lines,
      List<Polygon> emblems,
      List<Polygon> otherStones) {
    this(face, proportion, lines, emblems, otherStones, List.of());
  }

  /** The same picture with other lines. */
  ReadPicture withLines(List<ReadLine> others) {
    return new ReadPicture(face, proportion, others, emblems, otherStones, passedOver);
  }

  /** The same picture with its lines in {@link ReadingOrder}. */
  ReadPicture inReadingOrder() {
    return withLines(
        ReadingOrder.of(
            lines, line -> line.line().ribbon().map(this::level), line -> line.lattice().best()));
  }

  /** The same picture with other places where a line may be. */
  ReadPicture withPassedOver(List<ReadLine> others) {
    return new ReadPicture(face, proportion, lines, emblems, otherStones, others);
  }

  /** The same picture without what was seen of other stones. */
  ReadPicture alone() {
    return new ReadPicture(face, proportion, lines, emblems, List.of(), passedOver);
  }

  /** The same picture without the lines that stand in frames. */
  ReadPicture without(List<Frame> frames) {
    return withLines(outside(frames, lines)).withPassedOver(outside(frames, passedOver));
  }

  private static List<ReadLine> outside(List<Frame> frames, List<ReadLine> lines) {
    return lines.stream()
        .filter(
            line -> {
              Point middle = line.line().ribbon().centre();
              return frames.stream().noneMatch(f -> f.contains(middle.x(), middle.y()));
            })
        .toList();
  }

  /** The sum of the probabilities of all letters seen: of several views the surest has most. */
  public double lettersSeen() {
    return lines.stream().mapToDouble(line -> line.lattice().lettersSeen()).sum();
  }

  /** The same with every point moved; heights of letters stay. */
  ReadPicture map(UnaryOperator<Point> move) {
    return new ReadPicture(
        face.map(move),
        proportion,
        moved(lines, move),
        emblems.stream().map(area -> area.map(move)).toList(),
        otherStones.stream().map(area -> area.map(move)).toList(),
        moved(passedOver, move));
  }

  private static List<ReadLine> moved(List<ReadLine> lines, UnaryOperator<Point> move) {
    return lines.stream().map(line -> new ReadLine(line.line().map(move), line.lattice())).toList();
  }

  /**
   * Quarters clockwise by which the picture should be turned and read again: those that make its
   * lines level, either way up; every way if it has no lines. None for a picture whose lines run to
   * the right and are read surely or stand upright.
   *
   * @param onTheirHeads whether letters of such lines stand on their heads; asked only where it
   *     matters
   */
  List<Integer> turnsToTry(Predicate<List<ReadLine>> onTheirHeads) {
    if (lines.isEmpty()) {
      return List.of(1, 3, 2);
    }
    Point right = direction();
    int quarters = (int) Math.rint(Math.atan2(right.y(), right.x()) / (Math.PI / 2));
    if (quarters == 0) {
      return sureness() < SURELY_UPRIGHT && onTheirHeads.test(lines) ? List.of(2) : List.of();
    }
    return List.of(-quarters, 2 - quarters);
  }

  /**
   * Whether this is the better reading of a picture than one that lies another way. Where nothing
   * was read so far, grain isn't to become letters just because there are more ways to look at it.
   */
  boolean betterThan(ReadPicture other) {
    return lettersSeen() > other.lettersSeen() && (!other.lines.isEmpty() || readWell());
  }

  /** Whether its letters are sure on average; nothing at all is. */
  boolean readWell() {
    return lines.isEmpty() || sureness() >= READ_WELL;
  }

  /** The mean probability of its letters, of which there are some in every line. */
  private double sureness() {
    return lettersSeen() / lines.stream().mapToInt(line -> line.lattice().letters()).sum();
  }

  /**
   * Where the point lies when the picture is turned about its corner so that its lines are level.
   */
  Point level(Point p) {
    Point right = direction();
    return new Point(p.x() * right.x() + p.y() * right.y(), -p.x() * right.y() + p.y() * right.x());
  }

  /** The direction in which its lines are read, a unit vector; to the right if there are none. */
  private Point direction() {
    double x = 0;
    double y = 0;
    for (ReadLine line : lines) {
      List<Point> middle = line.line().middle();
      x += middle.get(middle.size() - 1).x() - middle.get(0).x();
      y += middle.get(middle.size() - 1).y() - middle.get(0).y();
    }
    double length = Math.hypot(x, y);
    return length > 1e-6 ? new Point(x / length, y / length) : new Point(1, 0);
  }
}
