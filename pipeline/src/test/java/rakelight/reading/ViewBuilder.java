package rakelight.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import rakelight.archive.BadInputException;
import rakelight.archive.Sha256;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;
import rakelight.picture.QuarterTurn;

/** Builds what was read on one photograph of a face, line by line; every line is 40 px high. */
final class ViewBuilder {
  private static final double LINE_HEIGHT_PX = 40;

  private static final AtomicInteger COUNT = new AtomicInteger();
  private final Sha256 original = Sha256.of("light " + COUNT.incrementAndGet());
  private final List<ReadLine> lines = new ArrayList<>();
  private final List<ReadLine> passedOver = new ArrayList<>();
  private List<Polygon> otherStones = List.of();
  private Optional<Homography> toLeading = Optional.of(Homography.identity());

  /** A photograph under one light; unless told otherwise it lies over the leading one as it is. */
  static ViewBuilder light() {
    return new ViewBuilder();
  }

  /** A line whose letters all have the same probability. */
  ViewBuilder line(String text, double p, double left, double right, double middle) {
    Polygon ribbon =
        Polygon.rectangle(left, middle - LINE_HEIGHT_PX / 2, right, middle + LINE_HEIGHT_PX / 2);
    lines.add(new ReadLine(new FoundLine(ribbon, LINE_HEIGHT_PX, p), lattice(text, p)));
    return this;
  }

  /** A place that was passed over. */
  ViewBuilder passedOver(String text, double p, double middle) {
    Polygon ribbon =
        Polygon.rectangle(100, middle - LINE_HEIGHT_PX / 2, 700, middle + LINE_HEIGHT_PX / 2);
    passedOver.add(new ReadLine(new FoundLine(ribbon, LINE_HEIGHT_PX, .2), lattice(text, p)));
    return this;
  }

  /** A line of the usual place and length. */
  ViewBuilder line(String text, double p, double middle) {
    return line(text, p, 100, 700, middle);
  }

  /** All lines so far, on a picture turned so. */
  ViewBuilder turnedBack(QuarterTurn turn) {
    lines.replaceAll(line -> new ReadLine(line.line().map(turn::back), line.lattice()));
    return this;
  }

  ViewBuilder laidBy(Homography homography) {
    toLeading = Optional.of(homography);
    return this;
  }

  ViewBuilder otherStone(Polygon stone) {
    otherStones = List.of(stone);
    return this;
  }

  ViewBuilder notLaidOver() {
    toLeading = Optional.empty();
    return this;
  }

  Sha256 original() {
    return original;
  }

  Views.View view() {
    return new Views.View(
        original,
        new ReadPicture(
            Polygon.rectangle(0, 0, 800, 600),
            800.0 / 600,
            lines,
            List.of(),
            otherStones,
            passedOver),
        toLeading);
  }

  /** The lines of the face that these photographs show, the leading one first. */
  static List<MergedFace.Line> lines(ViewBuilder... lights) {
    return lines((original, places) -> List.of(), lights);
  }

  static List<MergedFace.Line> lines(Views.Again again, ViewBuilder... lights) {
    try {
      return Views.lines(
          List.of(lights).stream().map(ViewBuilder::view).toList(), again, Odds.PLAIN);
    } catch (BadInputException e) {
      throw new AssertionError("Nothing is decoded here", e);
    }
  }

  /** Where these photographs show that a line may be besides, the leading one first. */
  static List<MergedFace.Unsure> unsure(ViewBuilder... lights) {
    return UnsureLines.of(
        List.of(lights).stream().map(ViewBuilder::view).toList(), lines(lights), Odds.PLAIN);
  }

  /** What one recogniser sees of each of these places: the same everywhere. */
  static List<List<Weighing.View>> seen(List<LaidLine> places, String text, double p) {
    return places.stream().map(place -> List.of(new Weighing.View(lattice(text, p), 1))).toList();
  }

  /** Evenly spaced letters; each may be a {@code #} instead, spaces are sure. */
  static LineLattice lattice(String text, double p) {
    List<Slot> slots = new ArrayList<>();
    int n = text.length();
    for (int i = 0; i < n; i++) {
      String letter = text.substring(i, i + 1);
      Map<String, Double> weights =
          p == 1 || letter.equals(" ") ? Map.of(letter, 1.0) : Map.of(letter, p, "#", 1 - p);
      slots.add(Slot.ofWeights(weights, 0, (double) i / n, (double) (i + 1) / n));
    }
    return new LineLattice(slots);
  }
}
