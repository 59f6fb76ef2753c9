package rakelight.work;

import java.util.List;
import java.util.OptionalInt;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.Gap;
import rakelight.inscription.Letter;
import rakelight.inscription.Standing;
import rakelight.reading.Alternative;

/**
 * What of a line may be taken as it is shown. The machine proposes, people confirm: a doubtful
 * letter is never taken unseen with others, and no name or date with a nod. What a person writes
 * himself is his to say and isn't asked about here.
 */
public final class LineRules {
  /** What else a doubtful letter may be is named from this probability on, and only so many. */
  private static final double WORTH_NAMING = 0.01;

  private static final int MOST_NAMED = 2;

  private LineRules() {}

  /**
   * The letters of one word are as shown; or of several words, if what isn't decided yet is neither
   * doubtful nor of a name or date.
   *
   * @param from the first letter, from 1; the line's first if empty
   * @param to the last letter; the line's last if empty
   */
  public static Faces.Change accept(int line, OptionalInt from, OptionalInt to) {
    return work -> {
      List<Place> meant = places(work, line, from, to);
      boolean oneWord = isOneWord(meant);
      for (Place place : meant) {
        requireRead(place);
        if (!place.decided() && !oneWord && (place.isDoubtful() || place.field())) {
          throw new RefusedException(new Refused.DecideFirst(line, place.at()));
        }
      }
      return DraftEditing.accept(
          work.draft(), line, meant.get(0).at(), meant.get(meant.size() - 1).at());
    };
  }

  /**
   * The reader sees these letters as they are shown, and clearly. Doubtful ones only within one
   * word.
   */
  public static Faces.Change seen(int line, OptionalInt from, OptionalInt to) {
    return work -> {
      List<Place> meant = places(work, line, from, to);
      meant.forEach(LineRules::requireRead);
      requireOneWordForDoubts(meant);
      return DraftEditing.seen(
          work.draft(), line, meant.get(0).at(), meant.get(meant.size() - 1).at());
    };
  }

  /**
   * The reader says how these letters are known; the letters stay. Doubtful ones are clear only
   * within one word.
   */
  public static Faces.Change stand(int line, int from, int to, Standing standing) {
    return work -> {
      List<Place> meant = places(work, line, OptionalInt.of(from), OptionalInt.of(to));
      if (standing == Standing.CLEAR) {
        requireOneWordForDoubts(meant);
      }
      return DraftEditing.stand(work.draft(), line, from, to, standing);
    };
  }

  private static void requireOneWordForDoubts(List<Place> meant) {
    for (Place place : meant) {
      if (place.isDoubtful() && !isOneWord(meant)) {
        throw new RefusedException(new Refused.DecideFirst(place.line(), place.at()));
      }
    }
  }

  /**
   * Every letter of a line that somebody has looked at. Not where two read blind: a look along what
   * the machine says would make them agree with it, and so with each other.
   */
  public static Faces.Change seenLine(int line) {
    return work -> {
      if (work.blind()) {
        throw new RefusedException(new Refused.ReadBlind());
      }
      List<Refused.AtPlace> asking =
          places(work, line, OptionalInt.empty(), OptionalInt.empty()).stream()
              .filter(Place::isWorthAsking)
              .map(LineRules::whyNot)
              .toList();
      if (!asking.isEmpty()) {
        throw new RefusedException(new Refused.LookFirst(asking));
      }
      return DraftEditing.seenLine(work.draft(), line);
    };
  }

  /**
   * The line as somebody has it before him who sees nothing but this line: looked at letter by
   * letter, or, where two read blind, plain words alone.
   */
  public static Faces.Change take(int line) {
    return work ->
        work.blind()
            ? accept(line, OptionalInt.empty(), OptionalInt.empty()).of(work)
            : seenLine(line).of(work);
  }

  /** Why a letter can't be decided with its line. */
  private static Refused.AtPlace whyNot(Place place) {
    if (!(place.seen().ink() instanceof Letter letter)) {
      return new Refused.NotRead(place.line(), place.at());
    }
    List<String> others =
        place.slot().stream()
            .flatMap(slot -> slot.alternatives().stream())
            .filter(alternative -> alternative.p() >= WORTH_NAMING)
            .map(Alternative::text)
            .filter(other -> !other.equals(letter.text()))
            .limit(MOST_NAMED)
            .map(other -> other.isEmpty() ? "nothing" : other.isBlank() ? "a space" : other)
            .toList();
    return new Refused.Doubtful(place.line(), place.at(), letter.text(), others);
  }

  private static void requireRead(Place place) {
    if (!place.decided() && place.seen().ink() instanceof Gap) {
      throw new RefusedException(new Refused.NotRead(place.line(), place.at()));
    }
  }

  private static boolean isOneWord(List<Place> meant) {
    return meant.stream().skip(1).noneMatch(place -> place.seen().spaceBefore());
  }

  private static List<Place> places(Work work, int line, OptionalInt from, OptionalInt to)
      throws DraftEditing.RefusedException {
    List<List<Place>> lines = Place.of(work);
    if (line < 1 || line > lines.size()) {
      throw new DraftEditing.RefusedException("lines go from 1 to " + lines.size());
    }
    List<Place> places = lines.get(line - 1);
    int first = from.orElse(1);
    int last = to.orElse(places.size());
    if (first < 1 || last < first || last > places.size()) {
      throw new DraftEditing.RefusedException("the line has letters 1 to " + places.size());
    }
    return places.subList(first - 1, last);
  }
}
