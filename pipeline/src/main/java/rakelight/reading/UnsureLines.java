package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import rakelight.finding.FoundLine;
import rakelight.finding.LaidLine;
import rakelight.picture.Homography;
import rakelight.picture.Polygon;
import rakelight.reading.Views.View;

/**
 * Where a line may be on a face: what was passed over on any of its photographs that lie over the
 * leading one, is covered by no line of the face, and is likely enough to be worth a glance. Of
 * places that cover each other the likeliest is kept.
 */
final class UnsureLines {
  private UnsureLines() {}

  /** A place on the leading photograph, turned so that lines are level. */
  private record Spotted(View view, ReadLine read, LineOdds.Level level, double p) {
    boolean touches(Spotted other) {
      return Overlaid.touch(level.ribbon(), other.level.ribbon());
    }
  }

  /**
   * The places in reading order, each as its own photograph shows it. The others aren't read there:
   * there is little to see, and it would take as long as the lines of the face.
   *
   * @param views the leading one first
   * @param lines those of the face
   */
  static List<MergedFace.Unsure> of(List<View> views, List<MergedFace.Line> lines, Odds odds) {
    List<View> over = views.stream().filter(view -> view.toLeading().isPresent()).toList();
    return places(over, lines).stream()
        .map(
            place ->
                new MergedFace.Unsure(
                    new MergedFace.Line(
                        place.view().original(),
                        place.read().line(),
                        odds.corrected(place.read().lattice(), 1)),
                    place.p()))
        .toList();
  }

  private static List<Spotted> places(List<View> over, List<MergedFace.Line> lines) {
    if (over.isEmpty()) {
      return List.of();
    }
    ReadPicture leading = over.get(0).picture();
    List<LineOdds.Level> known =
        lines.stream()
            .flatMap(
                line ->
                    over.stream()
                        .filter(view -> view.original().equals(line.original()))
                        .map(view -> level(leading, view, line.line())))
            .toList();
    List<Spotted> places = new ArrayList<>();
    for (View view : over) {
      for (ReadLine read : view.picture().passedOver()) {
        LineOdds.Level level = level(leading, view, read.line());
        double p = LineOdds.p(LineOdds.clues(level, read.lattice(), known));
        boolean covered =
            known.stream().anyMatch(line -> Overlaid.touch(level.ribbon(), line.ribbon()));
        if (p >= LineOdds.WORTH_A_GLANCE && !covered && !onOtherStone(leading, view, read)) {
          places.add(new Spotted(view, read, level, p));
        }
      }
    }
    places.sort(Comparator.comparingDouble(Spotted::p).reversed());
    List<Spotted> kept = new ArrayList<>();
    for (Spotted place : places) {
      if (kept.stream().noneMatch(place::touches)) {
        kept.add(place);
      }
    }
    kept.sort(
        Comparator.comparingDouble((Spotted place) -> place.level().middle())
            .thenComparingDouble(place -> place.level().ribbon().left()));
    return kept;
  }

  private static LineOdds.Level level(ReadPicture leading, View view, FoundLine line) {
    Homography toLeading = view.toLeading().orElseThrow();
    Polygon ribbon = line.ribbon().map(p -> leading.level(toLeading.map(p)));
    return new LineOdds.Level(ribbon, new LaidLine(line, toLeading).heightPx());
  }

  private static boolean onOtherStone(ReadPicture leading, View view, ReadLine read) {
    Optional<Homography> toLeading = view.toLeading();
    return leading.otherStones().stream()
        .anyMatch(
            stone -> stone.contains(toLeading.orElseThrow().map(read.line().ribbon().centre())));
  }
}
