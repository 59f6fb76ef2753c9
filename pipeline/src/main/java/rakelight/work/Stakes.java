package rakelight.work;

import java.util.List;
import java.util.Optional;
import rakelight.inscription.Draft;
import rakelight.inscription.Suggestion;
import rakelight.reading.Doubt;
import rakelight.reading.Proposal;

/**
 * How much the newest proposal of a face leaves open to somebody who begins with it: what the order
 * of the queue comes from. Worked out once for each proposal, which never changes.
 *
 * @param proposed whether there is one
 * @param readable whether it has a line worth a look
 * @param open the letters that ask for a look
 * @param heldBack the same where names and dates aren't shown, since two read blind
 * @param bits the doubt over all letters
 * @param gain what answers would be worth (see {@link Doubt})
 */
public record Stakes(
    boolean proposed, boolean readable, Doubts open, Doubts heldBack, double bits, double gain) {
  static final Stakes NONE = new Stakes(false, false, Doubts.NONE, Doubts.NONE, 0, 0);

  static Stakes of(Proposal proposal) {
    return new Stakes(
        true,
        proposal.readable(),
        doubts(proposal, false),
        doubts(proposal, true),
        proposal.lines().stream()
            .flatMap(line -> line.lattice().slots().stream())
            .mapToDouble(Doubt::bits)
            .sum(),
        Doubt.of(proposal).stream().mapToDouble(Doubt::gain).sum());
  }

  private static Doubts doubts(Proposal proposal, boolean heldBack) {
    List<Suggestion> shown = Sight.shown(proposal, heldBack);
    Draft begun = Draft.begin(shown, Optional.of(proposal.id()));
    return Doubts.of(Place.of(begun, Optional.of(proposal), shown, heldBack, false));
  }
}
