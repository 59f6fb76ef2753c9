package rakelight.inscription;

import java.time.LocalDate;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.Projection;
import rakelight.archive.ProposalId;

/** Writes the tables that {@link ReadingStore} reads. */
final class ReadingProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(ReadingDecisions.SIGNED, ReadingDecisions.DRAFTED, ReadingDecisions.IMPORTED);
  }

  @Override
  public Set<String> tables() {
    return Set.of("reading", "reading_draft");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM reading WHERE face_id = ?", subject.toString());
    handle.execute("DELETE FROM reading_draft WHERE face_id = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    if (decision.version() != 1) {
      throw new ArchiveException(
          decision.kind()
              + " of version "
              + decision.version()
              + " was written by a newer program. Use that version.");
    }
    if (decision.kind().equals(ReadingDecisions.SIGNED)) {
      signed(handle, decision);
    } else if (decision.kind().equals(ReadingDecisions.DRAFTED)) {
      drafted(handle, decision);
    }
    // A file that came in is kept by its decision alone.
  }

  private static void signed(Handle handle, Decision decision) {
    ReadingDecisions.Signed signed = decision.payload(ReadingDecisions.Signed.class);
    String face = decision.subject().toString();
    handle
        .createUpdate(
            "INSERT INTO reading (id, face_id, version, reader, at, basis, basis_date,"
                + " basis_light, basis_witness, proposal_id, text, sign_ids, decision_id,"
                + " counter) VALUES (:id, :face, (SELECT coalesce(max(version), 0) + 1 FROM"
                + " reading WHERE face_id = :face), :reader, :at, :basis, :date, :light,"
                + " :witness, :proposal, :text, :signIds, :decision, :counter)")
        .bind("id", signed.reading().toString())
        .bind("face", face)
        .bind("reader", decision.reader())
        .bind("at", decision.at().toString())
        .bind("basis", signed.basis().kind().label())
        .bind("date", signed.basis().date().map(LocalDate::toString))
        .bind("light", signed.basis().light())
        .bind("witness", signed.basis().witness())
        .bind("proposal", signed.proposal().map(ProposalId::toString))
        .bind("text", String.join("\n", signed.text()))
        .bind(
            "signIds",
            signed.signIds().stream().map(String::valueOf).collect(Collectors.joining(" ")))
        .bind("decision", decision.id().toString())
        .bind("counter", decision.counter())
        .execute();
    handle.execute(
        "DELETE FROM reading_draft WHERE face_id = ? AND reader = ?", face, decision.reader());
  }

  private static void drafted(Handle handle, Decision decision) {
    Draft draft = decision.payload(Draft.class);
    handle.execute(
        "INSERT OR REPLACE INTO reading_draft (face_id, reader, lines, proposal_id, decision_id)"
            + " VALUES (?, ?, ?, ?, ?)",
        decision.subject().toString(),
        decision.reader(),
        Json.text(draft.lines()),
        draft.proposal().map(ProposalId::toString),
        decision.id().toString());
  }
}
