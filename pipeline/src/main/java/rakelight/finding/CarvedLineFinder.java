package rakelight.finding;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import rakelight.picture.GrayImage;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.picture.QuarterTurn;
import rakelight.picture.ScaledPicture;

/**
 * Finds lines with our own network, trained on rendered stones ({@code pipeline/recogniser/finder},
 * with its model card): it marks the core of each line, its letter height and direction, the
 * inscribed face, other stones and emblems.
 *
 * <p>Lines run in reading direction whatever way the picture lies, and bend with arches. Lines of
 * stones beside the inscribed one are left out. Limits: capitals under about 6 pixels at a long
 * side of {@value #LONG_SIDE_PX} are lost, and letters with wide gaps may come as two lines.
 */
public final class CarvedLineFinder implements LineFinder {
  /**
   * Length of the long side as the network sees it; trained with 640 to 1024, other lengths not
   * tried.
   */
  public static final int LONG_SIDE_PX = 1280;

  /** A line with more of this on another stone than on the face belongs there. */
  private static final double OTHER_THRESHOLD = 0.5;

  private final String name;
  private final Network network;
  private final int longSidePx;

  /**
   * The finder as trained last: also for slabs seen from above, letters seen from near and words
   * round a disc.
   */
  public CarvedLineFinder() {
    this("carved-lines", "line-finder.onnx");
  }

  private CarvedLineFinder(String name, String weights) {
    this(name, Network.ofResource("rakelight/finding/" + weights), LONG_SIDE_PX);
  }

  private CarvedLineFinder(String name, Network network, int longSidePx) {
    this.name = name;
    this.network = network;
    this.longSidePx = longSidePx;
  }

  /** The finder as trained first, which follows raised letters round a disc further. */
  public static CarvedLineFinder first() {
    return new CarvedLineFinder("carved-lines-1", "line-finder-1.onnx");
  }

  /**
   * The same network seeing pictures in another size. Closing either closes both.
   *
   * @param sidePx of the long side; letters taller than about 170 of these pixels are lost
   */
  public CarvedLineFinder at(int sidePx) {
    return new CarvedLineFinder(name + " at " + sidePx, network, sidePx);
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public String digest() {
    return network.digest();
  }

  @Override
  public Found find(GrayImage upright) {
    ScaledPicture picture = ScaledPicture.of(upright, longSidePx);
    LineMaps maps = maps(picture);
    List<LineDecoder.Line> decoded = ofTheFace(LineDecoder.decode(maps));
    FaceAreas areas = new FaceAreas(maps, decoded);
    List<LineDecoder.Line> ofTheFace =
        rings(upright, full(decoded.stream().filter(areas::holds), picture));
    List<FoundLine> lines = inReadingOrder(ofTheFace);
    FacePlane plane = FacePlane.of(upright.widthPx(), upright.heightPx(), lines);
    List<Point> area = areas.face().stream().map(picture::full).toList();
    Polygon face = FaceOutline.of(upright.widthPx(), upright.heightPx(), plane, lines, area);
    List<Polygon> others = new ArrayList<>(areas.otherStones());
    others.addAll(MapAreas.otherStones(maps));
    return new Found(
        face,
        plane.proportion(face.points()),
        lines.stream().map(plane::banded).toList(),
        full(MapAreas.emblems(maps), picture),
        full(others, picture),
        weaker(maps, LineDecoder.Strength.FAINT, areas, picture, plane),
        weaker(maps, LineDecoder.Strength.FAINTER, areas, picture, plane));
  }

  private static List<FoundLine> weaker(
      LineMaps maps,
      LineDecoder.Strength strength,
      FaceAreas areas,
      ScaledPicture picture,
      FacePlane plane) {
    List<LineDecoder.Line> lines = ofTheFace(LineDecoder.decode(maps, strength));
    return inReadingOrder(full(lines.stream().filter(areas::holds), picture)).stream()
        .map(plane::banded)
        .toList();
  }

  private static List<FoundLine> inReadingOrder(List<LineDecoder.Line> lines) {
    List<FoundLine> ordered = new ArrayList<>();
    for (LineDecoder.Line line : LineDecoder.inReadingOrder(lines)) {
      ordered.add(new FoundLine(line.ribbon(), line.heightPx(), Math.min(1, line.score())));
    }
    return ordered;
  }

  /** Lines in full-size pixels. */
  private static List<LineDecoder.Line> full(
      Stream<LineDecoder.Line> lines, ScaledPicture picture) {
    double scale = Math.sqrt(picture.toFullX() * picture.toFullY());
    return lines.map(line -> line.moved(picture::full, scale)).toList();
  }

  /** Where a line bends, the picture is looked at from both sides too: two more runs. */
  private List<LineDecoder.Line> rings(GrayImage upright, List<LineDecoder.Line> lines) {
    if (lines.stream().noneMatch(Rings::bent)) {
      return lines;
    }
    List<LineDecoder.Line> pieces = new ArrayList<>();
    for (int quarters : new int[] {1, 3}) {
      QuarterTurn turn = QuarterTurn.of(upright, quarters);
      ScaledPicture picture = ScaledPicture.of(turn.turned(upright), longSidePx);
      full(LineDecoder.decode(maps(picture)).stream(), picture)
          .forEach(line -> pieces.add(line.moved(turn::back, 1)));
    }
    return Rings.continued(lines, pieces);
  }

  private static List<Polygon> full(List<Polygon> areas, ScaledPicture picture) {
    return areas.stream().map(area -> area.map(picture::full)).toList();
  }

  private LineMaps maps(ScaledPicture picture) {
    return network.run(
        picture.grey(),
        new long[] {1, 1, picture.heightPx(), picture.widthPx()},
        (values, shape) -> {
          float[] maps = new float[values.remaining()];
          values.get(maps);
          return new LineMaps((int) shape[3], (int) shape[2], maps);
        });
  }

  /** Without the lines of stones beside the face, unless there are no others. */
  static List<LineDecoder.Line> ofTheFace(List<LineDecoder.Line> lines) {
    List<LineDecoder.Line> kept =
        lines.stream()
            .filter(line -> line.other() < OTHER_THRESHOLD || line.other() < line.face())
            .toList();
    return kept.isEmpty() ? lines : kept;
  }

  @Override
  public void close() {
    network.close();
  }
}
