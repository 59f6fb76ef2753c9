package rakelight.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.archive.BadInputException;
import rakelight.archive.Sha256;
import rakelight.finding.LaidLine;
import rakelight.picture.Homography;
import rakelight.picture.Point;
import rakelight.picture.Polygon;

/**
 * Several photographs of one face, made into the lines of one proposal.
 *
 * <p>The photograph on which most letters were seen leads. The lines of each other one are laid
 * against its lines, in order, by what they say and by how far down the text they stand; of each
 * pair the surer view is kept, by the sum of the probabilities of its letters, and the other's
 * lattice is merged into it if both read alike.
 *
 * <p>Photographs that lie over each other are read twice. The line's surest view says where it
 * stands; the same ribbon is then cut out of every photograph and read there by every recogniser,
 * so that all strips show the same stretch of stone, and all that was read of a line is merged slot
 * by slot in one go: what one recogniser sees in one light is outvoted by nobody but all others
 * together. Each counts by its weight and by the letters it saw of this line against those of
 * whoever saw most. A line that only another photograph shows is put in at its place if it was read
 * surely.
 */
final class Views {
  /** Two lines are one if they are at least this alike, 0 to 1. */
  private static final double SMALLEST_LIKENESS = 0.45;

  /** Lines of photographs that don't lie over each other are merged if they read this alike. */
  private static final double SMALLEST_MERGED_LIKENESS = 0.6;

  /** A line that the leading photograph lacks needs letters as sure as this. */
  private static final double SMALLEST_SURENESS = 0.75;

  private static final int FEWEST_LETTERS = 3;

  private Views() {}

  /** One photograph, read. */
  record View(Sha256 original, ReadPicture picture, Optional<Homography> toLeading) {
    View laid(Optional<Homography> overLeading) {
      return new View(original, picture, overLeading);
    }
  }

  /** Reads lines once more, at places that another photograph gave. */
  @FunctionalInterface
  interface Again {
    /**
     * What each recogniser sees of each line, in the same order; none at all where there is nothing
     * to say.
     */
    List<List<Weighing.View>> read(Sha256 original, List<LaidLine> lines) throws BadInputException;
  }

  /** The views, that with most letters seen first. */
  static List<View> surestFirst(List<View> views) {
    return views.stream()
        .sorted(Comparator.comparingDouble((View view) -> -view.picture().lettersSeen()))
        .toList();
  }

  /**
   * The lines of the face in reading order.
   *
   * @param views the leading one first
   * @param again reads lines on any of their photographs
   */
  static List<MergedFace.Line> lines(List<View> views, Again again, Odds odds)
      throws BadInputException {
    List<View> over = views.stream().filter(view -> view.toLeading().isPresent()).toList();
    if (over.isEmpty()) {
      return List.of();
    }
    List<Placed> lines = placed(merged(Overlaid.surest(over), over, again, odds));
    for (View other : views) {
      if (other.toLeading().isEmpty()) {
        lines = joined(lines, placed(own(other)), odds);
      }
    }
    return lines.stream()
        .map(
            line ->
                new MergedFace.Line(
                    line.original(),
                    line.line().line(),
                    odds.corrected(line.line().lattice(), line.photographs())))
        .toList();
  }

  /** Every line with what the other photographs show of its ribbon merged in. */
  private static List<Seen> merged(List<Seen> lines, List<View> over, Again again, Odds odds)
      throws BadInputException {
    if (over.size() < 2) {
      return lines;
    }
    List<List<Weighing.View>> seenOf = new ArrayList<>();
    lines.forEach(line -> seenOf.add(new ArrayList<>()));
    int photographs = 0;
    Map<Sha256, Homography> toLeading = new HashMap<>();
    over.forEach(view -> toLeading.put(view.original(), view.toLeading().orElseThrow()));
    List<LaidLine> onLeading =
        lines.stream()
            .map(
                line ->
                    new LaidLine(
                        line.line().line(),
                        toLeading.getOrDefault(line.original(), Homography.identity())))
            .toList();
    for (View view : over) {
      Homography fromLeading = view.toLeading().orElseThrow().inverse();
      List<List<Weighing.View>> seen =
          again.read(
              view.original(), onLeading.stream().map(line -> line.then(fromLeading)).toList());
      photographs += seen.isEmpty() ? 0 : 1;
      for (int i = 0; i < seen.size(); i++) {
        seenOf.get(i).addAll(seen.get(i));
      }
    }
    if (photographs == 0) {
      return lines;
    }
    List<Seen> merged = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      Seen line = lines.get(i);
      merged.add(
          new Seen(
              line.original(),
              new ReadLine(line.line().line(), odds.weighing().merged(seenOf.get(i))),
              line.ribbon(),
              photographs));
    }
    return merged;
  }

  /**
   * A line and how far down and across the text it stands.
   *
   * @param down 0 at the first line, 1 at the last
   * @param across 0 at the left end of the text, 1 at the right
   * @param photographs how many were merged
   */
  private record Placed(
      Sha256 original, ReadLine line, double down, double across, int photographs) {}

  /**
   * A line of a photograph, with its ribbon where it lies on the picture that it's placed on,
   * turned so that the lines there are level, and how many photographs were merged.
   */
  record Seen(Sha256 original, ReadLine line, Polygon ribbon, int photographs) {}

  private static List<Seen> own(View view) {
    return view.picture().lines().stream()
        .map(
            line ->
                new Seen(view.original(), line, line.line().ribbon().map(view.picture()::level), 1))
        .toList();
  }

  /** Whether a line that the leading photograph lacks was read surely enough to be put in. */
  static boolean surelyRead(LineLattice lattice) {
    return lattice.sureness() >= SMALLEST_SURENESS && lattice.letters() >= FEWEST_LETTERS;
  }

  private static List<Placed> placed(List<Seen> lines) {
    double top = Double.MAX_VALUE;
    double bottom = -Double.MAX_VALUE;
    double left = Double.MAX_VALUE;
    double right = -Double.MAX_VALUE;
    for (Seen line : lines) {
      top = Math.min(top, line.ribbon().centre().y());
      bottom = Math.max(bottom, line.ribbon().centre().y());
      left = Math.min(left, line.ribbon().left());
      right = Math.max(right, line.ribbon().right());
    }
    List<Placed> placed = new ArrayList<>();
    for (Seen line : lines) {
      Point centre = line.ribbon().centre();
      placed.add(
          new Placed(
              line.original(),
              line.line(),
              bottom > top ? (centre.y() - top) / (bottom - top) : 0.5,
              right > left ? (centre.x() - left) / (right - left) : 0.5,
              line.photographs()));
    }
    return placed;
  }

  /** Pairs lines in order so that the likeness of all pairs together is greatest. */
  private static List<Placed> joined(List<Placed> lines, List<Placed> others, Odds odds) {
    int n = lines.size();
    int m = others.size();
    double[][] best = new double[n + 1][m + 1];
    for (int i = 1; i <= n; i++) {
      for (int j = 1; j <= m; j++) {
        double alike = gain(lines.get(i - 1), others.get(j - 1));
        best[i][j] = Math.max(Math.max(best[i - 1][j], best[i][j - 1]), best[i - 1][j - 1] + alike);
      }
    }
    List<Placed> reversed = new ArrayList<>();
    int i = n;
    int j = m;
    while (i > 0 || j > 0) {
      if (i > 0
          && j > 0
          && gain(lines.get(i - 1), others.get(j - 1)) > 0
          && best[i][j] == best[i - 1][j - 1] + gain(lines.get(i - 1), others.get(j - 1))) {
        i--;
        j--;
        reversed.add(together(lines.get(i), others.get(j), odds));
      } else if (i > 0 && best[i][j] == best[i - 1][j]) {
        reversed.add(lines.get(--i));
      } else {
        Placed other = others.get(--j);
        if (surelyRead(other.line().lattice())) {
          reversed.add(other);
        }
      }
    }
    java.util.Collections.reverse(reversed);
    return reversed;
  }

  private static double gain(Placed a, Placed b) {
    double alike = likeness(a, b);
    return alike >= SMALLEST_LIKENESS ? alike : 0;
  }

  /** The greater of how alike two lines read and how near they stand, 0 to 1. */
  private static double likeness(Placed a, Placed b) {
    double apart = Math.max(Math.abs(a.down() - b.down()), Math.abs(a.across() - b.across()) / 2);
    // A dozen lines stand about 0.09 apart.
    return Math.max(spelt(a, b), 0.8 - 10 * apart);
  }

  /** How alike two lines read, 0 to 1. */
  private static double spelt(Placed a, Placed b) {
    String x = letters(a);
    String y = letters(b);
    int longest = Math.max(x.length(), y.length());
    return longest == 0 ? 0 : 1 - (double) distance(x, y) / longest;
  }

  private static String letters(Placed line) {
    return line.line().lattice().best().replace(" ", "").toUpperCase(java.util.Locale.ROOT);
  }

  private static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(change, Math.min(row[j], row[j - 1]) + 1);
      }
    }
    return row[b.length()];
  }

  private static Placed together(Placed a, Placed b, Odds odds) {
    boolean other = b.line().lattice().lettersSeen() > a.line().lattice().lettersSeen();
    Placed surer = other ? b : a;
    Placed fainter = other ? a : b;
    boolean alike = spelt(a, b) >= SMALLEST_MERGED_LIKENESS;
    LineLattice lattice =
        alike
            ? odds.weighing()
                .merged(
                    List.of(
                        new Weighing.View(surer.line().lattice(), 1),
                        new Weighing.View(fainter.line().lattice(), 1)))
            : surer.line().lattice();
    return new Placed(
        surer.original(),
        new ReadLine(surer.line().line(), lattice),
        a.down(),
        a.across(),
        alike ? a.photographs() + b.photographs() : surer.photographs());
  }
}
