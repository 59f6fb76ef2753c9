package rakelight.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import rakelight.index.Entry;
import rakelight.index.Hit;
import rakelight.inscription.Break;
import rakelight.inscription.Extent;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.Letter;
import rakelight.inscription.Reading;
import rakelight.inscription.Sign;
import rakelight.inscription.SignId;
import rakelight.inscription.Space;

/** The lines of a face as it is read, with those letters marked that answered a search. */
public final class MatchedLines {
  private MatchedLines() {}

  /**
   * A stretch of a line.
   *
   * @param how how its letters answer; empty for those that don't
   */
  public record Run(String text, Optional<Hit.Standing> how) {}

  /**
   * A line.
   *
   * @param matched whether a word of it answered
   */
  public record Line(List<Run> runs, boolean matched) {
    public Line {
      runs = List.copyOf(runs);
    }
  }

  /**
   * The lines of one face of a hit; none where its reading was undone since it was found. A word is
   * marked letter by letter where the places that were searched are those that are cut; where it
   * was searched as meant, such as an abbreviation written out, it is marked as a whole.
   */
  public static List<Line> of(Hit hit, GroundSearch.AnsweringFace face) {
    return face.reading()
        .map(reading -> lines(reading.inscription(), marks(hit, face, reading.inscription())))
        .orElse(List.of());
  }

  /** The same sign by sign: how those signs of a face answer that do. */
  public static Map<SignId, Hit.Standing> letters(Hit hit, GroundSearch.AnsweringFace face) {
    Map<SignId, Hit.Standing> letters = new HashMap<>();
    face.reading()
        .map(Reading::inscription)
        .ifPresent(
            inscription ->
                marks(hit, face, inscription)
                    .forEach((at, how) -> letters.put(inscription.signs().get(at).id(), how)));
    return letters;
  }

  /** How signs answer, by their place in the reading. */
  private static Map<Integer, Hit.Standing> marks(
      Hit hit, GroundSearch.AnsweringFace face, Inscription inscription) {
    Words words = Words.of(inscription);
    Map<Integer, Hit.Standing> marks = new HashMap<>();
    for (Hit.Letters letters : hit.letters()) {
      int word = onFace(hit.entry(), face, letters.word());
      boolean asIndexed =
          word >= 0
              && word < words.words().size()
              && words
                  .words()
                  .get(word)
                  .shown()
                  .equals(hit.entry().words().get(letters.word()).shown());
      if (asIndexed) {
        mark(inscription, words.signs().get(word), letters.places(), marks);
      }
    }
    return marks;
  }

  /** The number of a word among those of its face; -1 for one that stands elsewhere. */
  private static int onFace(Entry entry, GroundSearch.AnsweringFace face, int word) {
    if (word < 0 || !entry.faceOf(word).id().equals(face.id().toString())) {
      return -1;
    }
    int before = 0;
    for (Entry.Face each : entry.faces()) {
      if (each.id().equals(face.id().toString())) {
        break;
      }
      before += each.words();
    }
    return word - before;
  }

  private static void mark(
      Inscription inscription,
      int[] signs,
      List<Hit.Standing> places,
      Map<Integer, Hit.Standing> marks) {
    List<Integer> cut = new ArrayList<>();
    for (int at = signs[0]; at <= signs[1]; at++) {
      for (int i = 0; i < placesOf(inscription.signs().get(at)); i++) {
        cut.add(at);
      }
    }
    boolean sure = places.stream().allMatch(Hit.Standing.SURE::equals);
    for (int i = 0; i < cut.size(); i++) {
      Hit.Standing how =
          cut.size() == places.size()
              ? places.get(i)
              : sure ? Hit.Standing.SURE : Hit.Standing.GUESSED;
      marks.merge(cut.get(i), how, (one, other) -> one.compareTo(other) > 0 ? one : other);
    }
  }

  private static int placesOf(Sign sign) {
    if (sign instanceof Letter letter) {
      return letter.text().codePoints().anyMatch(Character::isLetterOrDigit) ? 1 : 0;
    }
    if (sign instanceof Gap gap) {
      boolean counted = gap.unit() == Gap.Unit.LETTERS && gap.extent() instanceof Extent.Exact;
      return counted ? ((Extent.Exact) gap.extent()).count() : 1;
    }
    return 0;
  }

  private static List<Line> lines(Inscription inscription, Map<Integer, Hit.Standing> marks) {
    List<Line> lines = new ArrayList<>();
    List<Run> runs = new ArrayList<>();
    boolean matched = false;
    List<Sign> signs = inscription.signs();
    for (int at = 0; at < signs.size(); at++) {
      Sign sign = signs.get(at);
      Optional<Hit.Standing> how = Optional.ofNullable(marks.get(at));
      if (sign instanceof Break) {
        lines.add(new Line(runs, matched));
        runs = new ArrayList<>();
        matched = false;
      } else {
        add(runs, new Run(sign instanceof Space ? " " : Words.shown(sign), how));
        matched |= how.isPresent();
      }
    }
    lines.add(new Line(runs, matched));
    lines.removeIf(line -> line.runs().isEmpty());
    return lines;
  }

  private static void add(List<Run> runs, Run next) {
    int last = runs.size() - 1;
    if (last >= 0 && runs.get(last).how().equals(next.how())) {
      runs.set(last, new Run(runs.get(last).text() + next.text(), next.how()));
    } else if (!next.text().isEmpty()) {
      runs.add(next);
    }
  }
}
