package rakelight.work;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
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
import rakelight.reading.Doubt;
import rakelight.reading.Proposal;
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
 * @param stretch which part of a proposed line shows it, where that is known
 * @param heldBack whether the machine's letter isn't to be shown
 * @param disputed whether a third reader settles here what two readings differ about
 * @param gain what an answer is worth (see {@link Doubt}); 0 once it is decided
 */
public record Place(
    int line,
    int at,
    DraftEditing.Seen seen,
    boolean field,
    Optional<ProposedLine> on,
    Optional<Slot> slot,
    Optional<Stretch> stretch,
    boolean heldBack,
    boolean disputed,
    double gain) {
  /** What an answer is worth where no machine's doubt is known or shown: an even choice. */
  private static final double EVEN = 1;

  /** Whether the reader has said what stands there. */
  public boolean decided() {
    return seen.place().decided();
  }

  /** Whether anybody sees that somebody has to look at it by itself. */
  public boolean isDoubtful() {
    return !decided()
        && (disputed
            || !(seen.ink() instanceof Letter letter)
            || letter.standing() != Standing.CLEAR);
  }

  /**
   * Whether it can't be taken along with its line: it is doubtful, or an answer to the machine's
   * doubt is worth something. Of a letter no machine saw its standing says enough.
   */
  public boolean isWorthAsking() {
    return isDoubtful() || (slot.isPresent() && gain > 0);
  }

  /** All places of a face, line by line. */
  public static List<List<Place>> of(Work work) {
    return of(
        work.draft(),
        work.proposal(),
        work.shown(),
        work.heldBack(),
        work.task() == Work.Task.SETTLE);
  }

  static List<List<Place>> of(
      Draft draft,
      Optional<Proposal> proposal,
      List<Suggestion> shown,
      boolean areHeldBack,
      boolean settling) {
    try {
      Set<String> withheld = areHeldBack ? withheld(shown) : Set.of();
      Map<Slot, Double> gains = gains(proposal);
      List<List<Boolean>> fields = fields(draft, areHeldBack);
      List<List<Place>> lines = new ArrayList<>();
      for (int i = 0; i < draft.lines().size(); i++) {
        List<DraftEditing.Seen> seen = DraftEditing.places(draft.lines().get(i));
        List<Place> places = new ArrayList<>();
        for (int j = 0; j < seen.size(); j++) {
          Draft.Place place = seen.get(j).place();
          Optional<ProposedLine> on =
              proposal
                  .filter(found -> place.isShown())
                  .filter(found -> place.line() <= found.lines().size())
                  .map(found -> found.lines().get(place.line() - 1));
          Optional<Slot> slot =
              on.map(line -> line.lattice().slots())
                  .filter(slots -> place.slot() < slots.size())
                  .map(slots -> slots.get(place.slot()));
          boolean heldBack = withheld.contains(place.decidedIs(false).toString());
          boolean disputed = settling && !place.decided();
          double gain =
              place.decided()
                  ? 0
                  : slot.filter(known -> !heldBack && !disputed)
                      .map(known -> gains.getOrDefault(known, 0.0))
                      .orElse(EVEN);
          places.add(
              new Place(
                  i + 1,
                  j + 1,
                  seen.get(j),
                  fields.get(i).get(j),
                  on,
                  slot,
                  Optional.empty(),
                  heldBack,
                  disputed,
                  gain));
        }
        lines.add(stretched(places));
      }
      return lines;
    } catch (LeidenException e) {
      throw new IllegalStateException("a draft that was kept can't be read", e);
    }
  }

  /** The proposed lines that show letters of a line, in the order of its letters. */
  public static List<ProposedLine> parts(List<Place> line) {
    return line.stream().flatMap(place -> place.on().stream()).distinct().toList();
  }

  private static List<Place> stretched(List<Place> places) {
    List<Optional<Stretch>> stretches = Stretch.of(places.stream().map(Place::sought).toList());
    List<Place> stretched = new ArrayList<>();
    for (int i = 0; i < places.size(); i++) {
      stretched.add(places.get(i).with(stretches.get(i)));
    }
    return stretched;
  }

  private Stretch.Sought sought() {
    return new Stretch.Sought(
        seen.ink() instanceof Letter letter ? letter.text() : "",
        seen.spaceBefore(),
        slot.map(read -> slotted(on.orElseThrow(), read)));
  }

  private static Stretch.Slotted slotted(ProposedLine line, Slot slot) {
    return new Stretch.Slotted(line, line.from(slot), line.to(slot));
  }

  private Place with(Optional<Stretch> known) {
    return new Place(line, at, seen, field, on, slot, known, heldBack, disputed, gain);
  }

  /** What an answer to each slot is worth, where it is worth asking at all. */
  private static Map<Slot, Double> gains(Optional<Proposal> proposal) {
    Map<Slot, Double> gains = new IdentityHashMap<>();
    proposal.ifPresent(
        found -> {
          for (Doubt doubt : Doubt.of(found)) {
            ProposedLine line = found.lines().get(doubt.line() - 1);
            gains.put(line.lattice().slots().get(doubt.slot()), doubt.gain());
          }
        });
    return gains;
  }

  /** The places whose letters the suggestions hold back. */
  private static Set<String> withheld(List<Suggestion> shown) throws LeidenException {
    Set<String> withheld = new HashSet<>();
    for (Suggestion suggestion : shown) {
      if (!suggestion.text().isEmpty()) {
        for (DraftEditing.Seen seen : DraftEditing.places(suggestion.line())) {
          if (seen.ink() instanceof Gap) {
            withheld.add(seen.place().toString());
          }
        }
      }
    }
    return withheld;
  }

  private static List<List<Boolean>> fields(Draft draft, boolean areHeldBack)
      throws LeidenException {
    List<List<Boolean>> fields = new ArrayList<>();
    if (draft.lines().isEmpty()) {
      return fields;
    }
    if (areHeldBack) {
      for (Draft.Line line : draft.lines()) {
        fields.add(notPlain(DraftEditing.places(line)));
      }
      return fields;
    }
    Inscription inscription = draft.inscription();
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
