package rakelight.inscription;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import rakelight.archive.ProposalId;

/**
 * Two readings of a face, letter over letter, and the draft of whoever settles between them. The
 * draft takes what both agree on; where they know a letter by different standings, the more
 * doubtful one. Of everything else the third reader chooses the one or the other, whatever it is,
 * or says himself what stands there.
 */
public final class Settling {
  /** About what two readings differ. */
  public enum Difference {
    NONE,
    /** What letter it is, or why there is none. */
    LETTER,
    /** The same letter, known otherwise: its standing, its marks, how wide a gap is. */
    STANDING,
    /** Whether a word begins there. */
    SPACE,
    /** Whether there is anything at all. */
    MISSING
  }

  /**
   * What one reading has at a place.
   *
   * @param ink a letter, or a gap of one letter or of an extent that isn't a sure number
   * @param note its reader's remark; may be empty
   */
  public record Side(Sign ink, boolean wordBegins, String note) {}

  /** A place of the draft, both from 1. */
  public record At(int line, int at) {}

  /**
   * What the two have at one place; at least one of them has something.
   *
   * @param number from 1; stays the same while the two readings do
   * @param at where it is in the draft; empty if the draft has nothing there
   */
  public record Pair(
      int number,
      Optional<At> at,
      Optional<Side> first,
      Optional<Side> second,
      Difference difference) {}

  private Settling() {}

  /** The two readings beside a draft, in reading order. */
  public static List<Pair> pairs(FaceReadings.Two two, Draft draft)
      throws LeidenException, DraftEditing.RefusedException {
    List<Both> both = both(two);
    List<At> at = new ArrayList<>();
    List<String> says = new ArrayList<>();
    for (int line = 1; line <= draft.lines().size(); line++) {
      List<DraftEditing.Seen> seen = DraftEditing.places(draft.lines().get(line - 1));
      for (int i = 0; i < seen.size(); i++) {
        at.add(new At(line, i + 1));
        says.add(Comparison.says(seen.get(i).ink()));
      }
    }
    List<Pair> pairs = new ArrayList<>();
    for (Pairing.Pair pair :
        Pairing.of(
            both.size(), at.size(), (i, j) -> both.get(i).says().contains(says.get(j)) ? 0 : 2)) {
      if (pair.earlier() >= 0) {
        Both one = both.get(pair.earlier());
        pairs.add(
            new Pair(
                pairs.size() + 1,
                pair.later() < 0 ? Optional.empty() : Optional.of(at.get(pair.later())),
                one.first(),
                one.second(),
                one.difference()));
      }
    }
    return pairs;
  }

  /**
   * Takes what one of the readings has at a place, whatever it is, and has it decided: a letter
   * with its standing and remark, a gap, nothing; with or without a space before it.
   *
   * @param number of the pair
   * @param first whether the first reading's is taken, else the second's
   * @throws DraftEditing.RefusedException if there is no such pair
   */
  public static Draft choose(FaceReadings.Two two, Draft draft, int number, boolean first)
      throws LeidenException, DraftEditing.RefusedException {
    List<Pair> pairs = pairs(two, draft);
    if (number < 1 || number > pairs.size()) {
      throw new DraftEditing.RefusedException("the two readings have " + pairs.size() + " places");
    }
    Pair pair = pairs.get(number - 1);
    Optional<Side> side = first ? pair.first() : pair.second();
    if (side.isEmpty()) {
      return pair.at().isEmpty()
          ? draft
          : DraftEditing.remove(draft, pair.at().get().line(), pair.at().get().at());
    }
    Side taken = side.get();
    if (pair.at().isEmpty()) {
      At at = after(pairs.subList(0, number - 1));
      return DraftEditing.insert(
          draft, at.line(), at.at(), taken.ink(), taken.wordBegins(), taken.note());
    }
    At at = pair.at().get();
    Draft put = DraftEditing.put(draft, at.line(), at.at(), at.at(), taken.ink(), taken.note());
    return DraftEditing.wordBegins(put, at.line(), at.at(), taken.wordBegins());
  }

  /** The place behind the last of these that the draft has. */
  private static At after(List<Pair> before) {
    return before.stream()
        .flatMap(pair -> pair.at().stream())
        .reduce((earlier, later) -> later)
        .map(last -> new At(last.line(), last.at() + 1))
        .orElse(new At(1, 1));
  }

  /**
   * Where whoever settles begins: what both say is decided, where they differ both are left open
   * and nothing is decided.
   *
   * @param shown what the proposal they may be laid over suggests, with its places
   */
  public static Draft begin(
      FaceReadings.Two two, List<Suggestion> shown, Optional<ProposalId> proposal)
      throws LeidenException, DraftEditing.RefusedException {
    Draft draft = DraftEditing.plain(two.first().inscription(), shown, proposal);
    int line = 1;
    int at = 0;
    int missed = 0;
    for (Both both : both(two)) {
      if (both.first().isPresent()) {
        missed = both.line() == line ? missed : 0;
        line = both.line();
        at = both.at() + missed;
        Side first = both.first().get();
        Side open = both.second().map(second -> open(first, second)).orElse(first);
        if (!open.ink().equals(first.ink())) {
          draft = putIfItFits(draft, line, at, open);
        }
      } else {
        Side second = both.second().orElseThrow();
        at++;
        missed++;
        draft =
            DraftEditing.insert(draft, line, at, second.ink(), second.wordBegins(), second.note());
      }
      if (both.mustBeSettled()) {
        draft = DraftEditing.reconsider(draft, line, at);
      }
    }
    return draft;
  }

  /** Of a number or an abbreviation, whose letters stand for something together, all stay. */
  private static Draft putIfItFits(Draft draft, int line, int at, Side open)
      throws LeidenException {
    try {
      return DraftEditing.put(draft, line, at, at, open.ink(), open.note());
    } catch (DraftEditing.RefusedException e) {
      return draft;
    }
  }

  /** What stands at a place until it is settled, or for good where both say the same. */
  private static Side open(Side first, Side second) {
    if (Comparison.says(first.ink()).equals(Comparison.says(second.ink()))) {
      return doubt(second.ink()) > doubt(first.ink()) ? second : first;
    }
    if (first.ink() instanceof Letter one && second.ink() instanceof Letter other) {
      return new Side(
          Letter.open(one.id(), Candidate.equally(List.of(one.text(), other.text()))),
          first.wordBegins(),
          "");
    }
    return second.ink() instanceof Letter ? second : first;
  }

  /** How little is known by a sign, beside another that says the same. */
  private static int doubt(Sign ink) {
    if (ink instanceof Letter letter) {
      return switch (letter.standing()) {
        case CLEAR -> 0;
        case UNCLEAR -> 1;
        case SEEN_EARLIER -> 2;
        case SUPPLIED -> 3;
      };
    }
    Extent extent = ((Gap) ink).extent();
    return extent instanceof Extent.Exact
        ? 0
        : extent instanceof Extent.About ? 1 : extent instanceof Extent.Range ? 2 : 3;
  }

  /**
   * What the two have at one place.
   *
   * @param line of the first reading, from 1; 0 where it has nothing
   * @param at likewise
   */
  private record Both(
      int line, int at, Optional<Side> first, Optional<Side> second, boolean mustBeSettled) {
    Set<String> says() {
      return Set.copyOf(
          java.util.stream.Stream.of(first, second)
              .flatMap(Optional::stream)
              .map(side -> Comparison.says(side.ink()))
              .toList());
    }

    Difference difference() {
      if (first.isEmpty() || second.isEmpty()) {
        return Difference.MISSING;
      }
      Sign one = first.get().ink();
      Sign other = second.get().ink();
      if (!Comparison.says(one).equals(Comparison.says(other))) {
        return Difference.LETTER;
      }
      if (first.get().wordBegins() != second.get().wordBegins()) {
        return Difference.SPACE;
      }
      return one.equals(other.withId(one.id())) ? Difference.NONE : Difference.STANDING;
    }
  }

  private static List<Both> both(FaceReadings.Two two)
      throws LeidenException, DraftEditing.RefusedException {
    List<List<DraftEditing.Seen>> first = seen(two.first());
    List<List<DraftEditing.Seen>> second = seen(two.second());
    List<Both> both = new ArrayList<>();
    for (Comparison.Pair pair : two.comparison().pairs()) {
      both.add(
          new Both(
              pair.first().map(Comparison.Said::line).orElse(0),
              pair.first().map(Comparison.Said::at).orElse(0),
              pair.first().map(said -> side(said, first)),
              pair.second().map(said -> side(said, second)),
              pair.differs()));
    }
    return both;
  }

  private static Side side(Comparison.Said said, List<List<DraftEditing.Seen>> seen) {
    DraftEditing.Seen place = seen.get(said.line() - 1).get(said.at() - 1);
    return new Side(place.ink(), said.wordBegins(), place.note());
  }

  private static List<List<DraftEditing.Seen>> seen(Reading reading) throws LeidenException {
    List<List<DraftEditing.Seen>> lines = new ArrayList<>();
    Draft plain = DraftEditing.plain(reading.inscription(), List.of(), Optional.empty());
    for (Draft.Line line : plain.lines()) {
      lines.add(DraftEditing.places(line));
    }
    return lines;
  }
}
