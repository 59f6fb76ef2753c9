package rakelight.desk;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import rakelight.inscription.Draft;
import rakelight.inscription.DraftEditing;
import rakelight.inscription.Gap;
import rakelight.inscription.Inscription;
import rakelight.inscription.LeidenException;
import rakelight.inscription.Letter;
import rakelight.inscription.SignId;
import rakelight.inscription.Standing;
import rakelight.inscription.Suggestion;
import rakelight.person.FieldSigns;
import rakelight.person.PlainWords;
import rakelight.reading.Alternative;
import rakelight.reading.ProposedLine;
import rakelight.reading.Slot;

/**
 * One place of a draft with all that is known about it.
 *
 * @param line from 1
 * @param at from 1
 * @param field whether it may belong to a name or a date
 * @param on the proposed line that shows it
 * @param slot its slot there
 * @param heldBack whether the machine's letter isn't to be shown
 */
record Place(
    int line,
    int at,
    DraftEditing.Seen seen,
    boolean field,
    Optional<ProposedLine> on,
    Optional<Slot> slot,
    boolean heldBack) {
  /** A letter of a name or a date is worth more: it is what people search for. Set by hand. */
  private static final double FIELD_WORTH = 3;

  boolean decided() {
    return seen.place().decided();
  }

  /** Whether somebody has to look at it by itself. */
  boolean isDoubtful() {
    return !decided()
        && (!(seen.ink() instanceof Letter letter) || letter.standing() != Standing.CLEAR);
  }

  /** What an answer is worth: the doubt it takes away, in bits, more for a name or a date. */
  double gain() {
    if (decided()) {
      return 0;
    }
    double bits = heldBack ? 1 : slot.map(Place::entropyBits).orElse(1.0);
    return bits * (field ? FIELD_WORTH : 1);
  }

  /** The doubt in a slot: 0 where it holds one letter for sure (Shannon 1948). */
  static double entropyBits(Slot slot) {
    return slot.alternatives().stream()
        .mapToDouble(Alternative::p)
        .filter(p -> p > 0)
        .map(p -> -p * Math.log(p) / Math.log(2))
        .sum();
  }

  /** All places of a face, line by line. */
  static List<List<Place>> of(Work work) {
    try {
      Set<String> withheld = withheld(work);
      List<List<Boolean>> fields = fields(work);
      List<List<Place>> lines = new ArrayList<>();
      for (int i = 0; i < work.draft().lines().size(); i++) {
        List<DraftEditing.Seen> seen = DraftEditing.places(work.draft().lines().get(i));
        List<Place> places = new ArrayList<>();
        for (int j = 0; j < seen.size(); j++) {
          Draft.Place place = seen.get(j).place();
          Optional<ProposedLine> on =
              work.proposal()
                  .filter(proposal -> place.isShown())
                  .filter(proposal -> place.line() <= proposal.lines().size())
                  .map(proposal -> proposal.lines().get(place.line() - 1));
          places.add(
              new Place(
                  i + 1,
                  j + 1,
                  seen.get(j),
                  fields.get(i).get(j),
                  on,
                  on.map(line -> line.lattice().slots())
                      .filter(slots -> place.slot() < slots.size())
                      .map(slots -> slots.get(place.slot())),
                  withheld.contains(place.decidedIs(false).toString())));
        }
        lines.add(places);
      }
      return lines;
    } catch (LeidenException e) {
      throw new IllegalStateException("a draft that was kept can't be read", e);
    }
  }

  /** The places whose letters the suggestions hold back. */
  private static Set<String> withheld(Work work) throws LeidenException {
    Set<String> withheld = new HashSet<>();
    if (work.heldBack()) {
      for (Suggestion suggestion : work.shown()) {
        if (!suggestion.text().isEmpty()) {
          for (DraftEditing.Seen seen : DraftEditing.places(suggestion.line())) {
            if (seen.ink() instanceof Gap) {
              withheld.add(seen.place().toString());
            }
          }
        }
      }
    }
    return withheld;
  }

  private static List<List<Boolean>> fields(Work work) throws LeidenException {
    List<List<Boolean>> fields = new ArrayList<>();
    if (work.draft().lines().isEmpty()) {
      return fields;
    }
    if (work.heldBack()) {
      for (Draft.Line line : work.draft().lines()) {
        fields.add(notPlain(DraftEditing.places(line)));
      }
      return fields;
    }
    Inscription inscription = work.draft().inscription();
    Set<SignId> signs = FieldSigns.of(inscription);
    for (List<SignId> line : DraftEditing.signs(inscription)) {
      fields.add(line.stream().map(signs::contains).toList());
    }
    return fields;
  }

  private static List<Boolean> notPlain(List<DraftEditing.Seen> line) {
    List<Boolean> fields = new ArrayList<>();
    int begin = 0;
    for (int i = 1; i <= line.size(); i++) {
      if (i == line.size() || line.get(i).spaceBefore()) {
        StringBuilder word = new StringBuilder();
        boolean gap = false;
        for (DraftEditing.Seen seen : line.subList(begin, i)) {
          gap |= seen.ink() instanceof Gap;
          word.append(seen.ink() instanceof Letter letter ? letter.text() : "");
        }
        boolean field = gap || !PlainWords.contains(word.toString());
        for (; begin < i; begin++) {
          fields.add(field);
        }
      }
    }
    return fields;
  }
}
