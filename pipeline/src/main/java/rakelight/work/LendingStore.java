package rakelight.work;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import rakelight.archive.Archive;
import rakelight.archive.ArchiveException;
import rakelight.archive.Decision;
import rakelight.archive.DecisionId;
import rakelight.archive.Json;
import rakelight.archive.MarkerId;
import rakelight.archive.NewDecision;
import rakelight.archive.Projection;

/** Which markers were lent to whom, and what came back. */
public final class LendingStore {
  /** Subject: the lending. */
  static final String LENT = "markers.lent";

  /** Subject: the lending. What was decided in it was merged. */
  static final String RETURNED = "markers.returned";

  private final Archive archive;

  public LendingStore(Archive archive) {
    this.archive = archive;
  }

  /** The state table of this store. */
  public static Projection projection() {
    return new LendingsStore();
  }

  /** Version 1 of the payload. */
  record Lent(String borrower, List<MarkerId> markers) {}

  /**
   * Version 1 of the payload.
   *
   * @param decisions how many were new
   */
  record Returned(int decisions) {}

  /**
   * A lending.
   *
   * @param place of the decision; what has a later one was decided here while it was out
   * @param returned when it last came back
   */
  public record Lending(
      UUID id,
      DecisionId decision,
      String borrower,
      List<MarkerId> markers,
      String reader,
      Instant at,
      long place,
      Optional<Instant> returned) {
    public Lending {
      markers = List.copyOf(markers);
    }
  }

  /** Every lending, the first one first. */
  public List<Lending> lendings() {
    return archive
        .ledger()
        .read(
            handle ->
                handle
                    .createQuery("SELECT * FROM lending ORDER BY counter")
                    .map(
                        (row, context) ->
                            new Lending(
                                UUID.fromString(row.getString("id")),
                                DecisionId.of(row.getString("decision_id")),
                                row.getString("borrower"),
                                List.of(Json.read(row.getString("markers"), MarkerId[].class)),
                                row.getString("reader"),
                                Instant.parse(row.getString("at")),
                                row.getLong("counter"),
                                Optional.ofNullable(row.getString("returned_at"))
                                    .map(Instant::parse)))
                    .list());
  }

  /**
   * The lending of this id.
   *
   * @throws ArchiveException if it isn't one of this archive's, or was taken back
   */
  Lending lending(UUID id) {
    return lendings().stream()
        .filter(lending -> lending.id().equals(id))
        .findFirst()
        .orElseThrow(
            () ->
                new ArchiveException(
                    "That part wasn't lent from this archive, or the lending was undone. `lend`"
                        + " without --markers lists what is out."));
  }

  Lending lend(UUID id, String borrower, List<MarkerId> markers, String reader) {
    archive.journal().append(NewDecision.of(reader, LENT, 1, id, new Lent(borrower, markers)));
    return lending(id);
  }

  void comeBack(Lending lending, int decisions, String reader) {
    archive
        .journal()
        .append(
            NewDecision.of(reader, RETURNED, 1, lending.id(), new Returned(decisions))
                .restingOn(List.of(lending.decision())));
  }

  /** Writes the table of lendings. */
  private static final class LendingsStore implements Projection {
    @Override
    public Set<String> kinds() {
      return Set.of(LENT, RETURNED);
    }

    @Override
    public Set<String> tables() {
      return Set.of("lending");
    }

    @Override
    public void clear(Handle handle, UUID subject) {
      handle.execute("DELETE FROM lending WHERE id = ?", subject.toString());
    }

    @Override
    public void apply(Handle handle, Decision decision) {
      decision.requireVersion(1);
      if (decision.kind().equals(RETURNED)) {
        handle.execute(
            "UPDATE lending SET returned_at = ? WHERE id = ?",
            decision.at().toString(),
            decision.subject().toString());
        return;
      }
      Lent lent = decision.payload(Lent.class);
      handle.execute(
          "INSERT INTO lending (id, decision_id, borrower, markers, reader, at, counter) VALUES (?,"
              + " ?, ?, ?, ?, ?, ?)",
          decision.subject().toString(),
          decision.id().toString(),
          lent.borrower(),
          Json.text(lent.markers()),
          decision.reader(),
          decision.at().toString(),
          decision.counter());
    }
  }
}
