package rakelight.inscription;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import rakelight.reading.Alternative;
import rakelight.reading.LineLattice;
import rakelight.reading.Proposal;
import rakelight.reading.ProposedLine;
import rakelight.reading.Slot;

/**
 * A line as a machine proposes it, put before a person: its likeliest text in Leiden signs, a dot
 * below each letter the machine isn't sure of, and what else those letters may be.
 *
 * @param text in Leiden signs; empty if the machine saw no letter
 * @param doubts one line for each doubtful letter: its number, what it may be and how likely
 */
public record Suggestion(String text, List<String> doubts) {
  /** Letters below this probability are shown as doubtful; at 0.9 nine in ten are right. */
  static final double SURE = 0.9;

  private static final double WORTH_NAMING = 0.02;
  private static final int MOST_NAMED = 5;

  public Suggestion {
    doubts = List.copyOf(doubts);
  }

  /** The lines of a proposal, as they are put before a person. */
  public static List<Suggestion> of(Proposal proposal) {
    return proposal.lines().stream().map(line -> of(line.lattice())).toList();
  }

  static Suggestion of(LineLattice lattice) {
    List<Sign> signs = new ArrayList<>();
    List<String> doubts = new ArrayList<>();
    int id = 1;
    signs.add(new Break(new SignId(id++), false));
    boolean space = false;
    int ink = 0;
    for (Slot slot : lattice.slots()) {
      String best = java.text.Normalizer.normalize(slot.best(), java.text.Normalizer.Form.NFC);
      if (best.isBlank()) {
        space |= !best.isEmpty();
        continue;
      }
      for (int codePoint : best.codePoints().toArray()) {
        String text = Character.toString(codePoint);
        if (!Letter.isBase(codePoint)) {
          continue;
        }
        if (space && signs.size() > 1) {
          signs.add(new Space(new SignId(id++)));
        }
        space = false;
        boolean sure = slot.p() >= SURE;
        signs.add(Letter.of(new SignId(id++), text, sure ? Standing.CLEAR : Standing.UNCLEAR));
        ink++;
        if (!sure) {
          doubts.add(doubt(ink, slot));
        }
      }
    }
    return new Suggestion(ink == 0 ? "" : Leiden.print(new Inscription(signs, List.of())), doubts);
  }

  /**
   * The whole proposal as an inscription in which every letter that isn't sure stays open between
   * those it may be. Nobody has confirmed it.
   *
   * @return empty if the machine saw no letter
   */
  public static Optional<Inscription> lattice(Proposal proposal) {
    List<Sign> signs = new ArrayList<>();
    int id = 1;
    for (ProposedLine line : proposal.lines()) {
      List<Sign> ofLine = new ArrayList<>();
      boolean space = false;
      for (Slot slot : line.lattice().slots()) {
        String best = java.text.Normalizer.normalize(slot.best(), java.text.Normalizer.Form.NFC);
        space |= !best.isEmpty() && best.isBlank();
        for (Letter letter : letters(best, slot)) {
          if (space && !ofLine.isEmpty()) {
            ofLine.add(new Space(new SignId(id++)));
          }
          space = false;
          ofLine.add(letter.withId(new SignId(id++)));
        }
      }
      if (!ofLine.isEmpty()) {
        signs.add(new Break(new SignId(id++), false));
        signs.addAll(ofLine);
      }
    }
    return signs.isEmpty() ? Optional.empty() : Optional.of(new Inscription(signs, List.of()));
  }

  private static List<Letter> letters(String best, Slot slot) {
    List<String> bases =
        best.codePoints().filter(Letter::isBase).mapToObj(Character::toString).toList();
    SignId any = new SignId(1);
    if (slot.p() >= SURE || bases.size() != 1) {
      return bases.stream().map(text -> Letter.clear(any, text)).toList();
    }
    List<Candidate> candidates = candidates(bases.get(0), slot);
    return List.of(
        candidates.size() > 1
            ? Letter.open(any, candidates)
            : Letter.of(any, bases.get(0), Standing.UNCLEAR));
  }

  /** The single letters of a slot, the best first; their whole percents sum to 100. */
  private static List<Candidate> candidates(String best, Slot slot) {
    List<Alternative> others =
        slot.alternatives().stream()
            .filter(other -> other.p() >= WORTH_NAMING)
            .filter(other -> other.text().codePointCount(0, other.text().length()) == 1)
            .filter(other -> Letter.isBase(other.text().codePointAt(0)))
            .filter(other -> !other.text().equals(best) && !other.text().isBlank())
            .limit(MOST_NAMED - 1)
            .toList();
    double whole = slot.p() + others.stream().mapToDouble(Alternative::p).sum();
    List<Candidate> candidates = new ArrayList<>();
    int left = 100;
    for (Alternative other : others) {
      int percent = (int) (100 * other.p() / whole);
      if (percent >= 1) {
        candidates.add(new Candidate(other.text(), percent));
        left -= percent;
      }
    }
    if (!candidates.isEmpty()) {
      candidates.add(0, new Candidate(best, left));
    }
    return candidates;
  }

  private static String doubt(int number, Slot slot) {
    String named =
        slot.alternatives().stream()
            .filter(alternative -> alternative.p() >= WORTH_NAMING)
            .limit(MOST_NAMED)
            .map(Suggestion::named)
            .collect(Collectors.joining("  "));
    return number + ": " + named;
  }

  private static String named(Alternative alternative) {
    String text =
        alternative.text().isEmpty()
            ? "nothing"
            : alternative.text().isBlank() ? "space" : alternative.text();
    return String.format(Locale.ROOT, "%s %.0f%%", text, 100 * alternative.p());
  }
}
