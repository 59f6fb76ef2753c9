package rakelight.work;

import java.util.List;
import rakelight.archive.Archive;
import rakelight.archive.Decision;
import rakelight.archive.Withdrawals;
import rakelight.inscription.ReadingStore;
import rakelight.inscription.Suggestion;
import rakelight.person.PlainWords;
import rakelight.reading.Proposal;

/**
 * What may be seen while two read a face, each without sight of the other: neither what the first
 * has signed nor what a machine takes names and dates to be. The same for every page and command.
 */
public final class Sight {
  private final ReadingStore readings;
  private final Withdrawals withdrawals;

  public Sight(Archive archive) {
    readings = new ReadingStore(archive);
    withdrawals = archive.withdrawals();
  }

  /** Whether the machine's names and dates of a face, or of a photograph on none, stay hidden. */
  public boolean isHeldBack(Proposal proposal) {
    return proposal
        .face()
        .map(face -> readings.ofFace(face).heldBack())
        .orElseGet(() -> readings.required() > 1);
  }

  /** The lines of a proposal, as they may be put before a person. */
  static List<Suggestion> shown(Proposal proposal, boolean heldBack) {
    return heldBack ? Suggestion.heldBack(proposal, PlainWords::contains) : Suggestion.of(proposal);
  }

  /** The lines of a proposal, as they may be shown to anybody. */
  public List<Suggestion> shown(Proposal proposal) {
    return shown(proposal, isHeldBack(proposal));
  }

  /** What may be read where a line may be on a face, as it may be shown to anybody. */
  public List<Suggestion> unsure(Proposal proposal) {
    int lines = proposal.lines().size();
    List<Suggestion> all = shown(proposal.asIfThere(), isHeldBack(proposal));
    return all.subList(lines, all.size());
  }

  /** Whether anybody at all may see what a decision says. */
  public boolean isOpen(Decision decision) {
    return !readings.isSealed(decision) && !withdrawals.hides(decision);
  }

  /** Whether a reader may see what a decision says: what is sealed is its own reader's only. */
  public boolean isOpenTo(Decision decision, NamedReader reader) {
    return isOpen(decision)
        || (decision.reader().equals(reader.name()) && !withdrawals.hides(decision));
  }
}
