package rakelight.inscription;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Decision;
import rakelight.archive.Json;
import rakelight.archive.Projection;
import rakelight.archive.ProposalId;
import rakelight.archive.ReadingId;

/** Writes the tables that {@link ReadingStore} reads. */
final class ReadingProjection implements Projection {
  @Override
  public Set<String> kinds() {
    return Set.of(
        ReadingDecisions.SIGNED,
        ReadingDecisions.DRAFTED,
        ReadingDecisions.IMPORTED,
        ReadingDecisions.REQUIRED,
        ReadingDecisions.KNOWN,
        ReadingDecisions.KNOWN_LETTERS,
        ReadingDecisions.WITHDRAWN);
  }

  @Override
  public Set<String> tables() {
    return Set.of("reading", "reading_draft", "readings_required", "known_face");
  }

  @Override
  public Map<String, String> settings() {
    return Map.of(
        ReadingDecisions.REQUIRED,
        "how many readers each face asks for",
        ReadingDecisions.KNOWN,
        "what the face is known to say",
        ReadingDecisions.KNOWN_LETTERS,
        "what the face is known to say");
  }

  @Override
  public void clear(Handle handle, UUID subject) {
    handle.execute("DELETE FROM reading WHERE face_id = ?", subject.toString());
    handle.execute("DELETE FROM reading_draft WHERE face_id = ?", subject.toString());
    handle.execute("DELETE FROM readings_required WHERE archive_id = ?", subject.toString());
    handle.execute("DELETE FROM known_face WHERE face_id = ?", subject.toString());
  }

  @Override
  public void apply(Handle handle, Decision decision) {
    decision.requireVersion(newest(decision.kind()));
    switch (decision.kind()) {
      case ReadingDecisions.SIGNED -> signed(handle, decision);
      case ReadingDecisions.DRAFTED -> drafted(handle, decision);
      case ReadingDecisions.WITHDRAWN -> clear(handle, decision.subject());
      case ReadingDecisions.REQUIRED ->
          handle.execute(
              "INSERT OR REPLACE INTO readings_required (archive_id, readers) VALUES (?, ?)",
              decision.subject().toString(),
              decision.payload(ReadingDecisions.Required.class).readers());
      case ReadingDecisions.KNOWN, ReadingDecisions.KNOWN_LETTERS ->
          handle.execute(
              "INSERT OR REPLACE INTO known_face (face_id, text, part, decision_id)"
                  + " VALUES (?, ?, ?, ?)",
              decision.subject().toString(),
              String.join("\n", decision.payload(ReadingDecisions.Known.class).text()),
              decision.kind().equals(ReadingDecisions.KNOWN_LETTERS) ? 1 : 0,
              decision.id().toString());
      default -> {
        // A file that came in is kept by its decision alone.
      }
    }
  }

  private static int newest(String kind) {
    return switch (kind) {
      case ReadingDecisions.DRAFTED -> 3;
      case ReadingDecisions.SIGNED -> 2;
      default -> 1;
    };
  }

  private static void signed(Handle handle, Decision decision) {
    ReadingDecisions.Signed signed = decision.payload(ReadingDecisions.Signed.class);
    String face = decision.subject().toString();
    handle
        .createUpdate(
            "INSERT INTO reading (id, face_id, version, reader, at, basis, basis_date,"
                + " basis_light, basis_witness, proposal_id, settles, text, sign_ids, decision_id,"
                + " counter) VALUES (:id, :face, (SELECT coalesce(max(version), 0) + 1 FROM"
                + " reading WHERE face_id = :face), :reader, :at, :basis, :date, :light,"
                + " :witness, :proposal, :settles, :text, :signIds, :decision, :counter)")
        .bind("id", signed.reading().toString())
        .bind("face", face)
        .bind("reader", decision.reader())
        .bind("at", decision.at().toString())
        .bind("basis", signed.basis().kind().label())
        .bind("date", signed.basis().date().map(LocalDate::toString))
        .bind("light", signed.basis().light())
        .bind("witness", signed.basis().witness())
        .bind("proposal", signed.proposal().map(ProposalId::toString))
        .bind(
            "settles",
            signed
                .settles()
                .map(ids -> ids.stream().map(ReadingId::toString).collect(Collectors.joining(" "))))
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
    String face = decision.subject().toString();
    List<Draft.Line> lines = new ArrayList<>();
    Optional<ProposalId> proposal;
    if (decision.version() == 1) {
      Draft draft = decision.payload(Draft.class);
      lines.addAll(draft.lines());
      proposal = draft.proposal();
    } else {
      ReadingDecisions.Drafted change = decision.payload(ReadingDecisions.Drafted.class);
      boolean first = decision.version() > 2 && decision.restsOn().size() == 1;
      if (!first) {
        Optional<String> before = before(handle, decision);
        if (before.isEmpty() && decision.version() > 2) {
          return; // Another laptop's draft took the place of the one it goes on from.
        }
        before.ifPresent(all -> lines.addAll(List.of(Json.read(all, Draft.Line[].class))));
      }
      lines.subList(change.from(), change.from() + change.removed()).clear();
      lines.addAll(change.from(), change.lines());
      proposal = change.proposal();
    }
    handle.execute(
        "INSERT OR REPLACE INTO reading_draft (face_id, reader, lines, proposal_id, decision_id)"
            + " VALUES (?, ?, ?, ?, ?)",
        face,
        decision.reader(),
        Json.text(lines),
        proposal.map(ProposalId::toString).orElse(null),
        decision.id().toString());
  }

  /** The draft that a change goes on from: what it rests on; in version 2 whatever was there. */
  private static Optional<String> before(Handle handle, Decision decision) {
    return handle
        .createQuery(
            "SELECT lines FROM reading_draft WHERE face_id = :face AND reader = :reader"
                + " AND (:old OR decision_id IN (<before>))")
        .bind("face", decision.subject().toString())
        .bind("reader", decision.reader())
        .bind("old", decision.version() == 2)
        .bindList("before", decision.restsOn().stream().map(Object::toString).toList())
        .mapTo(String.class)
        .findOne();
  }
}
