package rakelight.reading;

import static java.util.stream.Collectors.joining;

import java.util.ArrayList;
import java.util.List;
import rakelight.finding.FoundLine;
import rakelight.finding.LineStrip;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * A read line and where its signs stand, on a picture turned so that its lines are level.
 *
 * @param line as read
 * @param signs what is likeliest to stand in it, from left to right; spaces and nothings left out
 * @param left where its letters begin, in pixels from the left
 * @param right where they end
 * @param y its middle, in pixels down
 * @param pitch how far the middles of its letters are apart, the middle distance, in capitals
 */
record PlacedLine(
    ReadLine line, List<PlacedSign> signs, double left, double right, double y, double pitch) {
  /** Half a letter's width with what stands clear of it, in capitals. */
  private static final double HALF_LETTER = 0.33;

  /**
   * How far the middles of letters are apart in usual lettering seen from in front, in capitals.
   */
  private static final double USUAL_PITCH = 1;

  /**
   * A line strays no further from its chord, in capitals; others are arches. Straight lines of
   * letters 14 pixels high were found that strayed by .25 and more.
   */
  private static final double STRAIGHT = 0.6;

  /** Pieces of one row: capitals differ by no more than this factor, ... */
  private static final double LARGEST_RATIO = 1.35;

  /** ... the second begins this near to the first one's baseline, in capitals, ... */
  private static final double LARGEST_STEP = 0.5;

  /** ... and a little less near for each capital between them, ... */
  private static final double LARGEST_LEAN = 0.03;

  /** ... they run in one direction, by the cosine, ... */
  private static final double LEAST_COSINE = Math.cos(Math.toRadians(10));

  /** ... overlap by no more than this, in capitals, ... */
  private static final double LARGEST_OVERLAP = 0.5;

  /** ... and are no further apart than this. */
  private static final double LARGEST_GAP = 14;

  /** Lines of one row are no further up or down than this, in capitals. */
  private static final double SAME_ROW = 0.9;

  /** Less sure signs may be grain. Grain that was read had .2 to .65, worn letters .5 to .9. */
  private static final double SURE = 0.7;

  /** Ornaments read as letters had .59 to .83, letters that stood alone .99 and more. */
  private static final double SURELY = 0.9;

  /** A sign may be a dash from this probability on. */
  private static final double DASH = 0.5;

  /**
   * One sign.
   *
   * @param column its middle, as a part of the line's strip
   * @param x its middle, in pixels from the left
   */
  record PlacedSign(Slot slot, double column, double x) {
    boolean dash() {
      return slot.p("—") + slot.p("–") + slot.p("-") >= DASH;
    }

    boolean sure() {
      return slot.p() >= SURE;
    }

    /** Whether it is a letter beyond doubt, which what is cut between columns never is. */
    boolean surelyLetter() {
      return letter() && slot.p() >= SURELY;
    }

    /** Whether it is likeliest a figure. */
    boolean figure() {
      return Character.isDigit(slot.best().codePointAt(0));
    }

    /** Whether it is more likely a letter or figure than anything else. */
    boolean letter() {
      return Character.isLetterOrDigit(slot.best().codePointAt(0));
    }
  }

  PlacedLine {
    signs = List.copyOf(signs);
  }

  static PlacedLine of(ReadPicture picture, ReadLine line) {
    List<PlacedSign> signs = new ArrayList<>();
    List<Double> steps = new ArrayList<>();
    double height = line.line().heightPx();
    for (Slot slot : line.lattice().slots()) {
      if (!slot.best().isBlank()) {
        Point at = LineStrip.boxOf(line.line(), slot.centre(), slot.centre()).centre();
        PlacedSign sign = new PlacedSign(slot, slot.centre(), picture.level(at).x());
        if (!signs.isEmpty()) {
          steps.add((sign.x() - signs.get(signs.size() - 1).x()) / height);
        }
        signs.add(sign);
      }
    }
    Polygon level = line.line().ribbon().map(picture::level);
    steps.sort(null);
    double pitch = steps.isEmpty() ? 1 : steps.get(steps.size() / 2);
    double half = HALF_LETTER * capitalPx(height, pitch);
    return new PlacedLine(
        line,
        signs,
        signs.isEmpty() ? level.left() : signs.get(0).x() - half,
        signs.isEmpty() ? level.right() : signs.get(signs.size() - 1).x() + half,
        level.centre().y(),
        pitch);
  }

  double heightPx() {
    return line.line().heightPx();
  }

  /** A capital's height, more where letters stand far apart, as on a slab seen from above. */
  double capitalPx() {
    return capitalPx(heightPx(), pitch);
  }

  private static double capitalPx(double heightPx, double pitch) {
    return heightPx * Math.max(1, pitch / USUAL_PITCH);
  }

  /** Its signs, without spaces. */
  String text() {
    return signs.stream().map(sign -> sign.slot().best().substring(0, 1)).collect(joining());
  }

  /** The white between two of its signs, in capitals. */
  double white(int before, int after) {
    return (signs.get(after).x() - signs.get(before).x()) / capitalPx() - 2 * HALF_LETTER;
  }

  /** Whether a space is read between two of its signs. */
  boolean spaced(int before, int after) {
    double from = signs.get(before).column();
    double to = signs.get(after).column();
    return line.lattice().slots().stream()
        .anyMatch(slot -> slot.best().equals(" ") && slot.centre() > from && slot.centre() < to);
  }

  /** Whether a sign is a capital with a point after it. */
  boolean initial(int sign) {
    return sign + 1 < signs.size()
        && Character.isUpperCase(signs.get(sign).slot().best().codePointAt(0))
        && signs.get(sign + 1).slot().best().equals(".")
        && !spaced(sign, sign + 1);
  }

  /** Where the letter ends, in pixels from the left. */
  double endOf(int sign) {
    return signs.get(sign).x() + HALF_LETTER * capitalPx();
  }

  /** Where the letter begins. */
  double beginOf(int sign) {
    return signs.get(sign).x() - HALF_LETTER * capitalPx();
  }

  /** Whether it runs straight. */
  boolean straight() {
    List<Point> middle = line.line().middle();
    Point first = middle.get(0);
    Point last = middle.get(middle.size() - 1);
    double length = Math.max(1e-6, first.distance(last));
    return middle.stream()
        .allMatch(
            p ->
                Math.abs(
                        (p.x() - first.x()) * (last.y() - first.y())
                            - (p.y() - first.y()) * (last.x() - first.x()))
                    <= STRAIGHT * heightPx() * length);
  }

  /**
   * How far before the next one this line ends, in capitals; the largest number if they aren't
   * pieces of one row.
   */
  double before(PlacedLine next) {
    FoundLine a = line.line();
    FoundLine b = next.line.line();
    double tall = Math.max(a.heightPx(), b.heightPx());
    List<Point> middle = a.middle();
    Point end = middle.get(middle.size() - 1);
    Point begin = b.middle().get(0);
    Point d = direction(a);
    Point e = direction(b);
    double dx = begin.x() - end.x();
    double dy = begin.y() - end.y();
    double ahead = (dx * d.x() + dy * d.y()) / tall;
    // Each is followed half way to where the other begins.
    double aside = (-dx * (d.y() + e.y()) + dy * (d.x() + e.x())) / 2 / tall;
    boolean one =
        tall <= LARGEST_RATIO * Math.min(a.heightPx(), b.heightPx())
            && d.x() * e.x() + d.y() * e.y() >= LEAST_COSINE
            && Math.abs(aside) <= LARGEST_STEP + LARGEST_LEAN * Math.max(0, ahead)
            && ahead > -LARGEST_OVERLAP
            && ahead <= LARGEST_GAP;
    return one ? ahead : Double.MAX_VALUE;
  }

  /** Whether the next one, further to the right, stands in the same row, whatever is between. */
  boolean beside(PlacedLine next) {
    double tall = Math.max(heightPx(), next.heightPx());
    return next.left() > right - LARGEST_OVERLAP * tall
        && Math.abs(next.y() - y) < SAME_ROW * Math.min(heightPx(), next.heightPx());
  }

  /** From its first point to its last, a unit vector. */
  private static Point direction(FoundLine line) {
    List<Point> middle = line.middle();
    Point from = middle.get(0);
    Point to = middle.get(middle.size() - 1);
    double length = Math.max(1e-6, from.distance(to));
    return new Point((to.x() - from.x()) / length, (to.y() - from.y()) / length);
  }
}
