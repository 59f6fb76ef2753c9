package rakelight.work;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.Withdrawals;
import rakelight.inscription.ReadingStore;
import rakelight.photo.PhotoStore;

/** Who may take which decision back. */
public final class Undoing {
  private final Archive archive;

  public Undoing(Archive archive) {
    this.archive = archive;
  }

  /** Whether a decision is this reader's to take back: his own, or anybody's for an archivist. */
  public static boolean isTheirs(Decision decision, NamedReader by) {
    return by.role().mayDecide()
        && (by.role() == Role.ARCHIVIST || decision.reader().equals(by.name()));
  }

  /**
   * Takes a decision back, or an earlier undo. The letters of a draft are taken back by its reader
   * alone, who else would find it changed under his hands. What was withdrawn in one act comes back
   * as one, and is withdrawn again only by {@link Withdrawing}.
   *
   * @throws RefusedException if it isn't this reader's to take back
   * @throws ArchiveException if there is no such decision, or others rest on it
   */
  public void undo(DecisionId id, NamedReader by) {
    by.requireDeciding();
    Optional<Decision> decision = archive.journal().find(id);
    if (decision.isPresent()) {
      Decision letters = undone(decision.get());
      if (ReadingStore.isOfDraft(letters) && !letters.reader().equals(by.name())) {
        throw new RefusedException(new Refused.AnothersDraft(letters.reader()));
      }
      if (!isTheirs(decision.get(), by)) {
        throw new RefusedException(new Refused.NotYours(decision.get().reader()));
      }
      if (Withdrawals.isWithdrawal(letters)) {
        bringBack(decision.get(), by);
        return;
      }
      List<Decision> act = act(decision.get());
      if (act.stream().anyMatch(Regrouping::isPartOf)) {
        putBack(act, by);
        return;
      }
    }
    archive.journal().undo(id, by.name());
  }

  /** Takes back an act whose decisions don't make sense without each other. */
  private void putBack(List<Decision> act, NamedReader by) {
    archive
        .ledger()
        .write(
            handle -> {
              act.forEach(one -> archive.journal().undo(one.id(), by.name()));
              new PhotoStore(archive).requireNamesApart();
              return 0;
            });
  }

  /** Whether decisions of one act are taken back by {@link #undo} of any of them. */
  private static boolean isOneAct(List<Decision> act) {
    return act.stream().anyMatch(one -> Withdrawals.isWithdrawal(one) || Regrouping.isPartOf(one));
  }

  /**
   * Takes back a decision and all that was made in one act with it.
   *
   * @return what was taken back, newest first
   * @throws RefusedException if it isn't this reader's to take back
   * @throws ArchiveException if others rest on it
   */
  public List<Decision> undoAct(Decision decision, NamedReader by) {
    List<Decision> act = act(decision);
    if (act.isEmpty()) {
      throw new ArchiveException("Decision " + decision.id() + " has been undone already.");
    }
    if (isOneAct(act)) {
      undo(act.get(0).id(), by);
    } else {
      archive
          .ledger()
          .write(
              handle -> {
                act.forEach(one -> undo(one.id(), by));
                return 0;
              });
    }
    return act;
  }

  private void bringBack(Decision withdrawal, NamedReader by) {
    if (!Withdrawals.isWithdrawal(withdrawal)) {
      throw new ArchiveException("Withdraw it again with `withdraw`, giving the reason.");
    }
    List<Decision> act = act(withdrawal);
    if (act.stream().noneMatch(one -> one.id().equals(withdrawal.id()))) {
      throw new ArchiveException("Decision " + withdrawal.id() + " has been undone already.");
    }
    archive
        .ledger()
        .write(
            handle -> {
              act.forEach(one -> archive.journal().undo(one.id(), by.name()));
              return 0;
            });
    archive.withdrawals().putAway();
  }

  /** A decision with the others that stand and were made in one act with it, newest first. */
  public List<Decision> act(Decision decision) {
    JsonNode batch = decision.payload().path("batch");
    if (!batch.isTextual()) {
      return List.of(decision);
    }
    List<Decision> act = new ArrayList<>(archive.journal().act(UUID.fromString(batch.asText())));
    Collections.reverse(act);
    return act;
  }

  /** The decision that an undo is about in the end. */
  private Decision undone(Decision decision) {
    return decision
        .undoes()
        .flatMap(id -> archive.journal().find(id))
        .map(this::undone)
        .orElse(decision);
  }
}
