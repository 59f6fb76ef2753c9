package rakelight.inscription;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import rakelight.archive.ArchiveException;
import rakelight.archive.DecisionId;
import rakelight.archive.FaceId;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;

/**
 * What a person says a face says: one version, signed, never changed.
 *
 * @param version from 1 for each face
 * @param proposal the proposal whose lines it counts, if it counts those of one
 * @param settles the two readings it settles, for a third reader's; else none
 * @param letters gives what it says, taken apart at the first asking
 * @param reader who signed
 * @param at when it was signed
 * @param decision the decision it follows from; statements rest on that
 */
public record Reading(
    ReadingId id,
    FaceId face,
    int version,
    Basis basis,
    Optional<ProposalId> proposal,
    List<ReadingId> settles,
    Supplier<Inscription> letters,
    String reader,
    Instant at,
    DecisionId decision) {
  public Reading {
    settles = List.copyOf(settles);
  }

  /**
   * What it says, letter by letter.
   *
   * @throws ArchiveException if the ledger holds what can't be read
   */
  public Inscription inscription() {
    return letters.get();
  }
}
