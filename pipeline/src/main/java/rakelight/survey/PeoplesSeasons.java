package rakelight.survey;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import rakelight.archive.Archive;
import rakelight.archive.FaceId;
import rakelight.inscription.Basis;
import rakelight.inscription.Comparison;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Sign;
import rakelight.names.Likeness;
import rakelight.photo.PhotoStore;
import rakelight.photo.Photograph;
import rakelight.reading.ProposalStore;

/**
 * What people could tell of a face's letters in one season and in another. A reading is of a season
 * if it was read at the stone in that year, or from photographs that are all of it: who has older
 * ones beside tells what those show.
 */
final class PeoplesSeasons {
  /** From this likeness on a line of a reading is the one that a machine reads so. A choice. */
  private static final double SAME_LINE = 0.75;

  /** A line in both. */
  private record Line(String text, SeasonsCompared.Told told) {}

  private final List<Line> lines;

  private PeoplesSeasons(List<Line> lines) {
    this.lines = lines;
  }

  /**
   * Of a face in two years. What one reader of two has signed stays sealed, and counts for nothing.
   */
  static PeoplesSeasons of(Archive archive, FaceId face, int first, int last) {
    ReadingStore readings = new ReadingStore(archive);
    List<Reading> signed =
        readings.ofFace(face).current().isPresent() ? readings.versions(face) : List.of();
    PhotoStore photos = new PhotoStore(archive);
    ProposalStore proposals = new ProposalStore(archive);
    List<Reading> before = new ArrayList<>();
    List<Reading> after = new ArrayList<>();
    for (Reading reading : signed) {
      Optional<Integer> year = year(reading, photos, proposals);
      if (year.filter(one -> one == first).isPresent()) {
        before.add(reading);
      } else if (year.filter(one -> one == last).isPresent()) {
        after.add(reading);
      }
    }
    return before.isEmpty() || after.isEmpty()
        ? new PeoplesSeasons(List.of())
        : new PeoplesSeasons(lines(before.get(before.size() - 1), after.get(after.size() - 1)));
  }

  /**
   * What they told of the line that a machine reads so; empty where no line of theirs is like it.
   */
  Optional<SeasonsCompared.Told> of(String text) {
    return lines.stream()
        .filter(line -> alike(line, text) >= SAME_LINE)
        .max(Comparator.comparingDouble(line -> alike(line, text)))
        .map(Line::told);
  }

  private static double alike(Line line, String text) {
    return Likeness.jaroWinkler(line.text(), text);
  }

  private static Optional<Integer> year(
      Reading reading, PhotoStore photos, ProposalStore proposals) {
    Basis basis = reading.basis();
    if (basis.kind() == Basis.Kind.STONE) {
      return basis.date().map(LocalDate::getYear);
    }
    Set<Optional<Integer>> years =
        reading.proposal().flatMap(proposals::kept).stream()
            .flatMap(proposal -> proposal.photographs().stream())
            .map(
                id ->
                    photos
                        .photograph(id)
                        .flatMap(Photograph::taken)
                        .map(at -> at.local().getYear()))
            .collect(Collectors.toSet());
    return basis.kind() == Basis.Kind.PHOTOGRAPHS && years.size() == 1
        ? years.iterator().next()
        : Optional.empty();
  }

  /** The lines of the first, and what became of each of their letters in the last. */
  private static List<Line> lines(Reading first, Reading last) {
    List<Comparison.Pair> pairs = Comparison.of(first.inscription(), last.inscription()).pairs();
    List<Line> lines = new ArrayList<>();
    int count = first.inscription().lines().size();
    for (int i = 1; i <= count; i++) {
      StringBuilder text = new StringBuilder();
      double before = 0;
      double after = 0;
      for (Comparison.Pair pair : pairs) {
        int line = i;
        if (pair.first().filter(said -> said.line() == line).isPresent()) {
          Comparison.Said said = pair.first().get();
          text.append(said.wordBegins() && text.length() > 0 ? " " : "");
          text.append(said.ink() instanceof Letter letter ? letter.text() : "");
          before += told(said.ink());
          after += pair.second().map(one -> told(one.ink())).orElse(0.0);
        }
      }
      lines.add(new Line(text.toString(), new SeasonsCompared.Told(before, after)));
    }
    return lines;
  }

  private static double told(Sign ink) {
    if (!(ink instanceof Letter letter)) {
      return 0;
    }
    return switch (letter.standing()) {
      case CLEAR -> 1;
      case UNCLEAR -> 0.5;
      case SUPPLIED, SEEN_EARLIER -> 0;
    };
  }
}
