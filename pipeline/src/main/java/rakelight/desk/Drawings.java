package rakelight.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.inscription.Reading;
import rakelight.inscription.SignId;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.picture.Point;
import rakelight.picture.Polygon;
import rakelight.work.CutLetters;
import rakelight.work.Faces;
import rakelight.work.Stretch;

/** Draws letters of a reading on the photographs that show them. */
final class Drawings {
  /** Round a line so much of its height is shown. A choice. */
  private static final double MARGIN = 0.35;

  private final PhotoStore photographs;
  private final CutLetters letters;

  Drawings(Archive archive, Faces faces) {
    this.photographs = new PhotoStore(archive);
    this.letters = new CutLetters(archive, faces);
  }

  /**
   * The lines on which something is marked, each as far as it is marked.
   *
   * @param marks how signs of the reading are marked
   * @param may which photographs may be shown
   * @param longestPx of the pictures
   */
  List<Drawing> of(
      Reading standing, Map<SignId, String> marks, Predicate<Photograph> may, int longestPx) {
    if (marks.isEmpty()) {
      return List.of();
    }
    List<Drawing> drawings = new ArrayList<>();
    int number = 0;
    for (List<CutLetters.At> line : letters.lines(standing)) {
      number++;
      Optional<Photograph> photograph =
          line.stream()
              .filter(at -> marks.containsKey(at.sign()))
              .flatMap(at -> at.stretch().stream())
              .findFirst()
              .flatMap(stretch -> photographs.photograph(stretch.on().photograph()))
              .filter(one -> one.face().filter(standing.face()::equals).isPresent())
              .filter(may);
      if (photograph.isPresent()) {
        drawings.add(drawing(number, line, marks, photograph.get(), longestPx));
      }
    }
    return drawings;
  }

  /** Letters side by side that are marked alike. */
  private record Run(String how, Stretch first, Stretch last) {
    boolean goesOn(String other, Stretch next) {
      return how.equals(other) && last.on() == next.on();
    }

    Polygon outline() {
      double from = Math.min(first.from(), last.from());
      double to = Math.max(first.to(), last.to());
      return first.on().ribbonOf(from, to);
    }
  }

  private static Drawing drawing(
      int number,
      List<CutLetters.At> line,
      Map<SignId, String> marks,
      Photograph photograph,
      int longestPx) {
    List<Run> runs = new ArrayList<>();
    List<Point> all = new ArrayList<>();
    boolean goesOn = false;
    for (CutLetters.At at : line) {
      Optional<Stretch> here =
          at.stretch().filter(one -> one.on().photograph().equals(photograph.id()));
      here.ifPresent(one -> all.addAll(one.box().points()));
      String how = marks.getOrDefault(at.sign(), "");
      if (here.isEmpty() || how.isEmpty()) {
        goesOn = false;
      } else {
        int last = runs.size() - 1;
        if (goesOn && runs.get(last).goesOn(how, here.get())) {
          runs.set(last, new Run(how, runs.get(last).first(), here.get()));
        } else {
          runs.add(new Run(how, here.get(), here.get()));
        }
        goesOn = true;
      }
    }
    List<Drawing.Shape> shapes =
        runs.stream().map(run -> new Drawing.Shape(run.how(), points(run.outline()))).toList();
    runs.forEach(run -> all.addAll(run.outline().points()));
    return new Drawing(
        "/images/photographs/" + photograph.id() + "?longest=" + longestPx,
        photograph.uprightWidthPx(),
        photograph.uprightHeightPx(),
        view(all, photograph),
        "Line " + number + " on the photograph" + told(runs),
        shapes);
  }

  private static String told(List<Run> runs) {
    String told = runs.stream().map(Run::how).distinct().sorted().collect(Collectors.joining(", "));
    return ", letters marked: " + told;
  }

  private static String view(List<Point> points, Photograph photograph) {
    double left = points.stream().mapToDouble(Point::x).min().orElse(0);
    double right = points.stream().mapToDouble(Point::x).max().orElse(1);
    double top = points.stream().mapToDouble(Point::y).min().orElse(0);
    double foot = points.stream().mapToDouble(Point::y).max().orElse(1);
    double margin = MARGIN * (foot - top);
    left = Math.max(0, left - margin);
    top = Math.max(0, top - margin);
    return String.format(
        Locale.ROOT,
        "%.0f %.0f %.0f %.0f",
        left,
        top,
        Math.min(photograph.uprightWidthPx(), right + margin) - left,
        Math.min(photograph.uprightHeightPx(), foot + margin) - top);
  }

  private static String points(Polygon outline) {
    return outline.points().stream()
        .map(point -> String.format(Locale.ROOT, "%.1f,%.1f", point.x(), point.y()))
        .collect(Collectors.joining(" "));
  }
}
