package rakelight.inscription;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
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
 * @param line as a draft begins with it, nothing decided; its text is empty if the machine saw no
 *     letter
 * @param doubts one line for each doubtful letter: its number, what it may be and how likely
 */
public record Suggestion(Draft.Line line, List<String> doubts) {
  private static final double WORTH_NAMING = 0.02;
  private static final int MOST_NAMED = 5;

  public Suggestion {
    doubts = List.copyOf(doubts);
  }

  /** In Leiden signs. */
  public String text() {
    return line.text();
  }

  /** The lines of a proposal, as they are put before a person. */
  public static List<Suggestion> of(Proposal proposal) {
    return of(proposal, word -> true);
  }

  /**
   * The lines of a proposal with words held back: their letters stand as illegible, so that two
   * readers can't both follow the same machine.
   *
   * @param plain whether a word is neither a name nor a date; it is shown if the machine is sure of
   *     it
   */
  public static List<Suggestion> heldBack(Proposal proposal, Predicate<String> plain) {
    return of(
        proposal,
        word ->
            word.stream().allMatch(Likeliest::sure)
                && plain.test(word.stream().map(Likeliest::text).collect(Collectors.joining())));
  }

  private static List<Suggestion> of(Proposal proposal, Predicate<List<Likeliest>> shown) {
    return proposal.lines().stream().map(line -> of(line.number(), line.lattice(), shown)).toList();
  }

  /** A letter of the likeliest text. */
  private record Likeliest(String text, Slot slot, Draft.Place place) {
    boolean sure() {
      return slot.p() >= LineLattice.SURE;
    }
  }

  private static Suggestion of(int number, LineLattice lattice, Predicate<List<Likeliest>> shown) {
    List<Sign> signs = new ArrayList<>();
    List<String> doubts = new ArrayList<>();
    List<Draft.Place> places = new ArrayList<>();
    int id = 1;
    signs.add(new Break(new SignId(id++), false));
    for (List<Likeliest> word : words(number, lattice)) {
      if (signs.size() > 1) {
        signs.add(new Space(new SignId(id++)));
      }
      word.forEach(letter -> places.add(letter.place()));
      if (!shown.test(word)) {
        signs.add(Gap.of(new SignId(id++), Gap.Reason.ILLEGIBLE, new Extent.Exact(word.size())));
        continue;
      }
      int first = places.size() - word.size();
      for (int i = 0; i < word.size(); i++) {
        Likeliest letter = word.get(i);
        Letter sign =
            Letter.of(
                new SignId(id++), letter.text(), letter.sure() ? Standing.CLEAR : Standing.UNCLEAR);
        signs.add(formed(sign, letter.slot()));
        if (!letter.sure()) {
          doubts.add(doubt(first + i + 1, letter.slot()));
        }
      }
    }
    String text = places.isEmpty() ? "" : Leiden.print(new Inscription(signs, List.of()));
    return new Suggestion(new Draft.Line(text, places), doubts);
  }

  /** One line as number 1. */
  static Suggestion of(LineLattice lattice) {
    return of(1, lattice, word -> true);
  }

  private static List<List<Likeliest>> words(int number, LineLattice lattice) {
    List<List<Likeliest>> words = new ArrayList<>();
    boolean space = true;
    for (int i = 0; i < lattice.slots().size(); i++) {
      Slot slot = lattice.slots().get(i);
      String best = Normalizer.normalize(slot.best(), Normalizer.Form.NFC);
      if (best.isBlank()) {
        space |= !best.isEmpty();
        continue;
      }
      for (int codePoint : best.codePoints().toArray()) {
        if (!Letter.isBase(codePoint)) {
          continue;
        }
        if (space) {
          words.add(new ArrayList<>());
        }
        space = false;
        words
            .get(words.size() - 1)
            .add(
                new Likeliest(
                    Character.toString(codePoint),
                    slot,
                    new Draft.Place(number, i, Draft.Decided.NOT)));
      }
    }
    return words;
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
        String best = Normalizer.normalize(slot.best(), Normalizer.Form.NFC);
        space |= !best.isEmpty() && best.isBlank();
        for (Letter letter : letters(best, slot)) {
          if (space && !ofLine.isEmpty()) {
            ofLine.add(new Space(new SignId(id++)));
          }
          space = false;
          ofLine.add(formed(letter, slot).withId(new SignId(id++)));
        }
      }
      if (!ofLine.isEmpty()) {
        signs.add(new Break(new SignId(id++), false));
        signs.addAll(ofLine);
      }
    }
    return signs.isEmpty() ? Optional.empty() : Optional.of(new Inscription(signs, List.of()));
  }

  private static Letter formed(Letter letter, Slot slot) {
    return slot.cutHigh() ? letter.withForm(LetterForm.SUPERIOR) : letter;
  }

  private static List<Letter> letters(String best, Slot slot) {
    List<String> bases =
        best.codePoints().filter(Letter::isBase).mapToObj(Character::toString).toList();
    SignId any = new SignId(1);
    if (slot.p() >= LineLattice.SURE || bases.size() != 1) {
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
